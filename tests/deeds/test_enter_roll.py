"""A filmed putt in a fitting: its figures, and how well the film tells the speed."""

from __future__ import annotations

from pathlib import Path

import pytest

from puttwright.deeds.enter_roll import INSTRUMENT, SameClip, enter_roll
from puttwright.deeds.measure_roll import Figure, RollReading
from puttwright.errors import CannotRead
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
from puttwright.fitting.readings import gather
from puttwright.readers.package import read_package, write_package
from puttwright.readers.tables.seen_before import READ_LOG

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


def clip(speed: Figure, *, sha256: str = "00" * 32, launch: Figure = NOTHING) -> RollReading:
    return RollReading(
        video="putt.mov", sha256=sha256, fps=240.0, pictures=200, ball_px=46.0,
        ball_speed_mps=speed, launch_deg=launch, spin_rpm=NOTHING,
        skid_m=Figure(value=0.3, low=0.29, high=0.31),
        skid_s=NOTHING, roll_share_pct=NOTHING, total_m=NOTHING, meets_m=None, fits=True, notes=(),
        seen_m=(), seen_speed_mps=(), seen_surface_mps=(), fitted_m=(), fitted_speed_mps=(),
        fitted_surface_mps=(),
    )  # fmt: skip


def told(package: Path) -> dict[str, float]:
    """How well the film tells each figure, as the fitting now has it."""
    films = read_package(package).instruments
    assert {each.name for each in films} == {INSTRUMENT}
    return {each.quantity: each.repeatability_sd for each in films}


def enter(package: Path, *, half_mps: float) -> float:
    """Enter a putt whose speed is known to within that; the film's spread as it now stands."""
    speed = Figure(value=2.0, low=2.0 - half_mps, high=2.0 + half_mps)
    reading = clip(speed, sha256=f"{round(1e4 * half_mps):064x}"[::-1])
    enter_roll(reading, package=package, build_id=None, distance_m=3.0)
    return told(package)["ball_speed_mps"]


def test_the_widest_clip_says_how_well_the_film_tells_speed(package: Path) -> None:
    assert enter(package, half_mps=0.0329) == pytest.approx(0.02)
    assert enter(package, half_mps=0.0987) == pytest.approx(0.06)
    assert enter(package, half_mps=0.01) == pytest.approx(0.06)

    putts = read_package(package).putts
    assert [putt.seq for putt in putts] == [1, 2, 3]
    assert {(putt.ball_speed_mps, putt.skid_m, putt.instrument) for putt in putts} == {
        (2.0, 0.3, INSTRUMENT)
    }


def test_every_figure_brings_its_uncertainty_and_what_is_not_told_none(package: Path) -> None:
    launch = Figure(value=2.0, low=1.0, high=3.0)
    enter_roll(clip(NOTHING, launch=launch), package=package, build_id="own", distance_m=3.0)

    assert told(package) == {
        "launch_deg": pytest.approx(2.0 / 3.29, rel=1e-2),
        "skid_m": pytest.approx(0.02 / 3.29, rel=1e-2),
    }  # fmt: skip
    assert read_package(package).putts[0].ball_speed_mps is None


def test_the_belief_weighs_a_figure_by_what_the_film_told(package: Path) -> None:
    launch = Figure(value=2.0, low=1.0, high=3.0)
    enter_roll(clip(NOTHING, launch=launch), package=package, build_id="own", distance_m=3.0)

    rows = gather(read_package(package)).rows
    assert rows["launch"][0].instrument_sd == pytest.approx(2.0 / 3.29, rel=1e-2)
    # Skid counts as a share of the putt.
    assert rows["skid"][0].value == pytest.approx(0.1)
    assert rows["skid"][0].instrument_sd == pytest.approx(0.02 / 3.29 / 3.0, rel=1e-2)


def test_one_clip_is_one_putt(package: Path) -> None:
    enter_roll(clip(NOTHING, sha256="ab" * 32), package=package, build_id="own", distance_m=3.0)
    before = {path.name: path.read_bytes() for path in package.iterdir()}
    with pytest.raises(SameClip, match="putt.mov is in this fitting already"):
        enter_roll(clip(NOTHING, sha256="ab" * 32), package=package, build_id="own", distance_m=4.0)
    assert {path.name: path.read_bytes() for path in package.iterdir()} == before

    enter_roll(clip(NOTHING, sha256="ba" * 32), package=package, build_id="own", distance_m=4.0)
    assert [putt.distance_m for putt in read_package(package).putts] == [3.0, 4.0]


def test_a_log_changed_by_hand_is_said_and_nothing_is_entered(package: Path) -> None:
    (package / READ_LOG).write_text("[]", encoding="utf-8")
    with pytest.raises(CannotRead, match="earlier readings"):
        enter_roll(clip(NOTHING), package=package, build_id="own", distance_m=3.0)
    assert read_package(package).putts == ()
