"""A store on disk and a fitting to keep in it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

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
from puttwright.store import Store, open_store

NOW = datetime(2026, 5, 1, 9, 30, tzinfo=UTC)


@pytest.fixture
def now() -> datetime:
    return NOW


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    opened = open_store(tmp_path / "records.sqlite")
    yield opened
    opened.close()


@pytest.fixture
def fitting() -> Fitting:
    """One of everything, a left-hander, with columns of somebody else's kept along."""
    return Fitting(
        fitting_id="F1",
        date="2026-05-01",
        golfer=Golfer(alias="Róisín", handed="left", stature_mm=1710, extra={"club": "none"}),
        greens=(
            Green(name="home", speed_ft=9.5, share=0.7, extra={"cut": "daily"}),
            Green(name="away", speed_ft=11, share=0.3, grass_mm=3.2),
        ),
        fitting_green=FittingGreen(speed_ft=10, slope_pct=1, slope_towards_deg=-90),
        own_build="own",
        builds=(
            Build(build_id="own", length_mm=864, lie_deg=70, loft_deg=3, label="Old faithful"),
            Build(build_id="B", length_mm=838, lie_deg=71.5, loft_deg=2, extra={"paint": "white"}),
        ),
        first_putts=(FirstPutt(distance_m=5, per_round=9),),
        instruments=(Instrument(name="laser", quantity="reading_mm", repeatability_sd=1.5),),
        setups=(SetupReading(seq=1, build_id="own", eye_inside_mm=20),),
        aims=(
            AimReading(
                seq=2, build_id="own", board_distance_mm=2000, reading_mm=-14.5, mirror=True
            ),
        ),
        putts=(
            Putt(seq=3, build_id="own", distance_m=3, holed=True),
            Putt(
                seq=4, build_id="B", distance_m=3, holed=False, stop_past_m=0.4, stop_right_m=-0.2
            ),
            Putt(seq=5, build_id="B", distance_m=3, holed=False, void=True, note="phone rang"),
        ),
        rack=(Part(part_id="H1", kind="head", stock=2, extra={"bay": "3"}),),
        extra={"weather": "windy"},
    )
