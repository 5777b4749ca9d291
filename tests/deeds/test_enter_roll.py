"""A filmed putt in a fitting: its figures, and how well the film tells the speed."""

from __future__ import annotations

from pathlib import Path

import pytest

from puttwright.deeds.enter_roll import INSTRUMENT, enter_roll
from puttwright.deeds.measure_roll import Figure, RollReading
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
from puttwright.readers.package import read_package, write_package

NOTHING = Figure(value=None, low=-9.0, high=9.0)


@pytest.fixture
def package(tmp_path: Path) -> Path:
    fitting = Fitting(
        fitting_id="F", date="2026-05-01", golfer=Golfer(alias="A", handed="left"),
        greens=(Green(name="home", speed_ft=10, share=1),), own_build="own",
        fitting_green=FittingGreen(speed_ft=10),
        builds=(Build(build_id="own", length_mm=864, lie_deg=70, loft_deg=3),),
    )  # fmt: skip
    write_package(fitting, tmp_path / "fitting")
    return tmp_path / "fitting"


def clip(speed: Figure) -> RollReading:
    return RollReading(
        video="putt.mov", fps=240.0, pictures=200, ball_px=46.0, ball_speed_mps=speed,
        launch_deg=NOTHING, spin_rpm=NOTHING, skid_m=Figure(value=0.3, low=0.29, high=0.31),
        skid_s=NOTHING, roll_share_pct=NOTHING, total_m=NOTHING, meets_m=None, fits=True, notes=(),
        seen_m=(), seen_speed_mps=(), seen_surface_mps=(), fitted_m=(), fitted_speed_mps=(),
        fitted_surface_mps=(),
    )  # fmt: skip


def enter(package: Path, *, half_mps: float) -> float:
    """Enter a putt whose speed is known to within that; the film's spread as it now stands."""
    speed = Figure(value=2.0, low=2.0 - half_mps, high=2.0 + half_mps)
    enter_roll(clip(speed), package=package, build_id=None, distance_m=3.0)
    (film,) = read_package(package).instruments
    assert (film.name, film.quantity) == (INSTRUMENT, "ball_speed_mps")
    return film.repeatability_sd


def test_the_widest_clip_says_how_well_the_film_tells_speed(package: Path) -> None:
    assert enter(package, half_mps=0.0329) == pytest.approx(0.02)
    assert enter(package, half_mps=0.0987) == pytest.approx(0.06)
    assert enter(package, half_mps=0.01) == pytest.approx(0.06)

    putts = read_package(package).putts
    assert [putt.seq for putt in putts] == [1, 2, 3]
    assert {(putt.ball_speed_mps, putt.skid_m, putt.instrument) for putt in putts} == {
        (2.0, 0.3, INSTRUMENT)
    }


def test_a_clip_without_a_speed_says_nothing_of_it(package: Path) -> None:
    enter_roll(clip(NOTHING), package=package, build_id="own", distance_m=3.0)

    fitting = read_package(package)
    assert fitting.instruments == ()
    assert fitting.putts[0].ball_speed_mps is None
