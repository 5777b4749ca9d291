"""A right-hander with two putters, as little as a fitting can be."""

from __future__ import annotations

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


@pytest.fixture
def fitting() -> Fitting:
    return Fitting(
        fitting_id="F-1",
        date="2026-05-31",
        golfer=Golfer(alias="A", handed="right", eye_dominant="left"),
        greens=(Green(name="home", speed_ft=9, share=1),),
        fitting_green=FittingGreen(speed_ft=10, slope_pct=1, slope_towards_deg=30),
        own_build="own",
        builds=(
            Build(build_id="own", length_mm=864, lie_deg=70, loft_deg=3),
            Build(build_id="B", length_mm=838, lie_deg=71, loft_deg=2),
        ),
        instruments=(
            Instrument(name="laser", quantity="reading_mm", repeatability_sd=1, bias=2),
            Instrument(name="gate", quantity="ball_speed_mps", repeatability_sd=0.01, bias=0.02),
        ),
        aims=(AimReading(seq=1, build_id="own", board_distance_mm=3000, reading_mm=20),),
        putts=(
            Putt(seq=1, build_id="own", distance_m=3, start_deg=0.5, strike_toe_mm=4),
            Putt(seq=2, build_id="B", distance_m=3, holed=True),
        ),
    )
