"""What a fitter does with one fitting, deed after deed."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from puttwright.deeds.add_build import add_build
from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.export_package import export_package
from puttwright.deeds.find_fittings import find_fittings
from puttwright.deeds.hand_out import decision_file
from puttwright.deeds.import_package import import_package
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.deeds.void_reading import void_reading
from puttwright.errors import NotAllowed, NotFound, PackageFaults
from puttwright.evidence import AimReading, Build, Green, Putt
from puttwright.readers.package import read_package

PUTT = Putt(seq=0, build_id="B", distance_m=3, holed=False, stop_past_m=0.4)


def _record(shop: Shop, fitting_id: str, reading: Putt | AimReading = PUTT, key: str = "e") -> int:
    return record_reading(
        shop.store,
        shop.clock,
        fitting_id=fitting_id,
        reading=reading,
        entry_key=key,
        who="fitter",
    ).seq


def _open(shop: Shop, fitting_id: str) -> OpenFitting:
    return open_fitting(shop.store, fitting_id)


def _decide(shop: Shop, fitting_id: str, *, issue: bool = False) -> None:
    decide_fitting(shop.store, shop.clock, fitting_id=fitting_id, decide=shop.decide, issue=issue)


def test_a_fitting_starts_today_under_an_id_without_the_name(shop: Shop, fitting_id: str) -> None:
    fitting = _open(shop, fitting_id).fitting

    assert fitting.date == "2026-05-01"
    assert fitting_id.startswith("2026-05-01-")
    assert "robin" not in fitting_id.lower()
    assert fitting.own_build == "A"


def test_started_twice_is_started_once(shop: Shop, new: NewFitting, fitting_id: str) -> None:
    again = start_fitting(shop.store, shop.clock, new=new, entry_key="start", who="fitter")

    assert again == fitting_id
    assert len(find_fittings(shop.store)) == 1


def test_a_fitting_that_cannot_be_is_refused_with_every_fault(shop: Shop, new: NewFitting) -> None:
    wrong = dataclasses.replace(
        new,
        greens=(Green(name="home", speed_ft=30, share=0.5),),
        builds=(Build(build_id="A", length_mm=100, lie_deg=70, loft_deg=45),),
    )

    with pytest.raises(PackageFaults) as told:
        start_fitting(shop.store, shop.clock, new=wrong, entry_key="x", who="fitter")

    columns = [fault.column for fault in told.value.faults]
    assert columns == ["greens, entry 1, speed_ft", "greens", "length_mm", "loft_deg"]
    assert find_fittings(shop.store) == []


def test_a_reading_is_there_when_it_is_acknowledged(shop: Shop, fitting_id: str) -> None:
    seq = _record(shop, fitting_id)

    opened = _open(shop, fitting_id)
    assert opened.fitting.putts == (dataclasses.replace(PUTT, seq=seq),)
    assert opened.last is not None
    assert opened.last.seq == seq


def test_a_reading_that_cannot_be_is_told_by_column(shop: Shop, fitting_id: str) -> None:
    wrong = dataclasses.replace(PUTT, ball_speed_mps=40, stop_past_m=-7)

    with pytest.raises(PackageFaults) as told:
        _record(shop, fitting_id, wrong)

    assert [fault.column for fault in told.value.faults] == ["ball_speed_mps", "stop_past_m"]
    assert _open(shop, fitting_id).fitting.putts == ()


def test_what_is_taken_back_is_no_longer_last(shop: Shop, fitting_id: str) -> None:
    first = _record(shop, fitting_id)
    second = _record(shop, fitting_id, key="e2")
    void_reading(
        shop.store,
        shop.clock,
        fitting_id=fitting_id,
        kind="putts",
        seq=second,
        why="a slip",
        who="me",
    )

    opened = _open(shop, fitting_id)

    assert opened.last is not None
    assert opened.last.seq == first
    assert [putt.void for putt in opened.fitting.putts] == [False, True]


def test_a_build_is_added_and_can_be_putted_with(shop: Shop, fitting_id: str) -> None:
    build = Build(build_id="C", length_mm=889, lie_deg=72, loft_deg=3)
    add_build(shop.store, shop.clock, fitting_id=fitting_id, build=build, who="me")
    _record(shop, fitting_id, dataclasses.replace(PUTT, build_id="C"))

    assert _open(shop, fitting_id).fitting.builds[-1] == build


def test_a_build_that_cannot_be_is_refused(shop: Shop, fitting_id: str) -> None:
    build = Build(build_id="keep", length_mm=889, lie_deg=72, loft_deg=30)

    with pytest.raises(PackageFaults, match="loft_deg"):
        add_build(shop.store, shop.clock, fitting_id=fitting_id, build=build, who="me")


def test_a_decision_is_kept_until_readings_come_in(shop: Shop, fitting_id: str) -> None:
    before = _open(shop, fitting_id)
    _record(shop, fitting_id)
    _decide(shop, fitting_id)
    fresh = _open(shop, fitting_id)
    _record(shop, fitting_id, key="e2")
    stale = _open(shop, fitting_id)

    assert (before.decision, before.decided) == (None, False)
    assert fresh.decided
    assert fresh.decision is not None
    assert fresh.decision.reasons[0].text == "1 putts"
    assert not stale.decided
    assert stale.decision == fresh.decision


def test_readings_that_came_in_while_deciding_are_noticed(shop: Shop, fitting_id: str) -> None:
    _record(shop, fitting_id)

    def slow(fitting: object) -> object:
        _record(shop, fitting_id, key="meanwhile")
        return shop.decide(fitting)  # type: ignore[arg-type]

    decide_fitting(shop.store, shop.clock, fitting_id=fitting_id, decide=slow)  # type: ignore[arg-type]

    opened = _open(shop, fitting_id)
    assert opened.decision is not None
    assert not opened.decided


def test_a_decision_handed_out_is_its_file(shop: Shop, fitting_id: str) -> None:
    data = decision_file(shop, fitting_id)

    assert b'"choice": "undecided"' in data
    assert decision_file(shop, fitting_id) == data


def test_a_package_goes_out_and_comes_in_elsewhere(
    shop: Shop, fitting_id: str, tmp_path: Path
) -> None:
    _record(shop, fitting_id)
    aim = AimReading(seq=0, build_id="A", board_distance_mm=2000, reading_mm=9)
    _record(shop, fitting_id, aim, key="e2")
    package = tmp_path / "package.zip"
    package.write_bytes(export_package(shop.store, fitting_id))

    assert read_package(package) == _open(shop, fitting_id).fitting


def test_the_same_package_twice_is_one_fitting(shop: Shop, fitting_id: str, tmp_path: Path) -> None:
    package = tmp_path / "package.zip"
    package.write_bytes(export_package(shop.store, fitting_id))
    elsewhere = open_shop(tmp_path / "elsewhere", clock=shop.clock)

    came_in = [
        import_package(elsewhere.store, elsewhere.clock, package=package, who="fitter")
        for _ in range(2)
    ]

    assert came_in == [fitting_id, fitting_id]
    assert len(find_fittings(elsewhere.store)) == 1
    elsewhere.close()


def test_another_fitting_under_the_same_id_is_refused(
    shop: Shop, fitting_id: str, tmp_path: Path
) -> None:
    package = tmp_path / "package.zip"
    package.write_bytes(export_package(shop.store, fitting_id))
    as_it_stands = import_package(shop.store, shop.clock, package=package, who="fitter")
    _record(shop, fitting_id)

    assert as_it_stands == fitting_id
    with pytest.raises(NotAllowed, match="already a fitting"):
        import_package(shop.store, shop.clock, package=package, who="fitter")


def test_a_package_that_is_not_there_is_told(shop: Shop, tmp_path: Path) -> None:
    with pytest.raises(PackageFaults, match="is not there"):
        import_package(shop.store, shop.clock, package=tmp_path / "none.zip", who="fitter")


def test_a_fitting_that_is_not_there_is_told(shop: Shop) -> None:
    with pytest.raises(NotFound):
        _open(shop, "nobody")
    with pytest.raises(NotFound):
        _record(shop, "nobody")
    with pytest.raises(NotFound):
        export_package(shop.store, "nobody")
