"""What an instrument reads too much is taken off before anything is believed."""

from __future__ import annotations

import math

import pytest

from puttwright.evidence import (
    AimReading,
    Build,
    Fitting,
    FittingGreen,
    Golfer,
    Green,
    Instrument,
    Putt,
)
from puttwright.evidence.signs import mirrored
from puttwright.fitting.readings import gather

BIASED = Fitting(
    fitting_id="F",
    date="2026-05-01",
    golfer=Golfer(alias="A", handed="right"),
    greens=(Green(name="home", speed_ft=10, share=1),),
    fitting_green=FittingGreen(speed_ft=10),
    own_build="own",
    builds=(Build(build_id="own", length_mm=864, lie_deg=70, loft_deg=3),),
    instruments=(
        Instrument(name="laser", quantity="reading_mm", repeatability_sd=1.0, bias=30.0),
        Instrument(name="sensor", quantity="start_deg", repeatability_sd=0.2, bias=-0.5),
        Instrument(name="sensor", quantity="launch_deg", repeatability_sd=0.2),
    ),
    aims=(
        AimReading(
            seq=1, build_id="own", board_distance_mm=3000, reading_mm=30.0, instrument="laser"
        ),
        AimReading(seq=2, build_id="own", board_distance_mm=3000, reading_mm=30.0),
    ),
    putts=(
        Putt(
            seq=3, build_id="own", distance_m=3.0, start_deg=1.0, launch_deg=2.0,
            instrument="sensor",
        ),
        Putt(seq=4, build_id="own", distance_m=3.0, start_deg=1.0, instrument="another"),
    ),
)  # fmt: skip


@pytest.mark.parametrize("side", [1, -1], ids=["right-hander", "left-hander"])
def test_only_the_studied_instrument_is_corrected(side):
    rows = gather(BIASED if side > 0 else mirrored(BIASED)).rows

    unbiased, plain = (row.value for row in rows["aim"])
    assert unbiased == pytest.approx(0.0)
    assert plain == pytest.approx(side * math.degrees(math.atan(0.01)))
    assert [row.value for row in rows["start"]] == pytest.approx([1.5 * side, 1.0 * side])
    assert [row.value for row in rows["launch"]] == [2.0]
