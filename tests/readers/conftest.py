"""A small fitting of a left-hander, every table in it, written by hand."""

from __future__ import annotations

import pytest

from puttwright.evidence import (
    AimReading,
    Build,
    FirstPutt,
    Fitting,
    FittingGreen,
    Golfer,
    Green,
    Instrument,
    Part,
    Putt,
    SetupReading,
)


@pytest.fixture
def fitting() -> Fitting:
    return Fitting(
        fitting_id="F-7",
        date="2026-05-31",
        golfer=Golfer(alias="Ada Löf", handed="left", stature_mm=1710, extra={"shoe": 38}),
        greens=(
            Green(name="Home", speed_ft=9, share=0.75, grass_mm=3.5),
            Green(name="Away", speed_ft=11, share=0.25, extra={"sand": [1, 2]}),
        ),
        fitting_green=FittingGreen(speed_ft=10, slope_pct=0.5, slope_towards_deg=-90),
        own_build="own",
        builds=(
            Build(build_id="own", label='The "old", one', length_mm=864, lie_deg=70, loft_deg=3.5),
            Build(
                build_id="B",
                length_mm=838.2,
                lie_deg=71,
                loft_deg=2,
                head_shape="half_mallet",
                extra={"finish": "black"},
            ),
        ),
        first_putts=(FirstPutt(distance_m=2, per_round=4), FirstPutt(distance_m=8, per_round=14)),
        instruments=(Instrument(name="laser", quantity="reading_mm", repeatability_sd=1.5),),
        setups=(SetupReading(seq=1, build_id="own", eye_inside_mm=-12, posture_note="a\nb"),),
        aims=(
            AimReading(seq=2, build_id="own", board_distance_mm=3000, reading_mm=-41.5),
            AimReading(seq=3, build_id="B", board_distance_mm=3000, reading_mm=7, mirror=True),
        ),
        putts=(
            Putt(seq=4, block=1, build_id="own", distance_m=3, holed=True, start_deg=-0.5),
            Putt(seq=5, block=1, build_id="B", distance_m=3, holed=False, stop_past_m=0.4),
            Putt(seq=6, build_id="B", distance_m=3, void=True, note="phone rang"),
        ),
        rack=(Part(part_id="h1", kind="head", stock=2, fits="n1 n2", loft_min_deg=1),),
        extra={"shop": {"town": "Anywhere", "since": 1999}},
    )
