"""What is kept in mind of a fitting is never older than what the records hold."""

from __future__ import annotations

import dataclasses

import pytest

from puttwright.deeds import recent_evidence
from puttwright.deeds.add_build import add_build
from puttwright.deeds.bootstrap import open_shop
from puttwright.deeds.erase_fittings import erase_fittings
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.start_fitting import start_fitting
from puttwright.deeds.void_reading import void_reading
from puttwright.errors import NotFound
from puttwright.evidence import Build, Putt
from puttwright.store import readings

PUTT = Putt(seq=0, build_id="A", distance_m=3.0, stop_past_m=0.4)


@pytest.fixture
def fitting_id(shop, new) -> str:
    return start_fitting(shop.store, shop.clock, new=new, entry_key="s", who="fitter")


def _putts(shop, fitting_id: str) -> list[tuple[str, bool]]:
    return [
        (each.build_id, each.void) for each in open_fitting(shop.store, fitting_id).fitting.putts
    ]


def test_what_nothing_was_added_to_is_looked_up_once(shop, fitting_id, monkeypatch) -> None:
    looked = []
    history = readings.history
    monkeypatch.setattr(readings, "history", lambda *a, **k: looked.append(1) or history(*a, **k))
    first = open_fitting(shop.store, fitting_id)
    assert open_fitting(shop.store, fitting_id).fitting is first.fitting
    assert looked == [1]


def test_every_way_of_adding_is_seen_at_once(shop, fitting_id) -> None:
    assert _putts(shop, fitting_id) == []
    record_reading(
        shop.store, shop.clock, fitting_id=fitting_id, reading=PUTT, entry_key="1", who="f"
    )
    assert _putts(shop, fitting_id) == [("A", False)]
    void_reading(
        shop.store, shop.clock, fitting_id=fitting_id, kind="putts", seq=1, why="slip", who="f"
    )
    assert _putts(shop, fitting_id) == [("A", True)]
    third = Build(build_id="C", length_mm=850, lie_deg=70, loft_deg=3)
    add_build(shop.store, shop.clock, fitting_id=fitting_id, build=third, who="f")
    assert open_fitting(shop.store, fitting_id).fitting.builds[-1] == third


def test_another_program_that_adds_is_seen_too(shop, fitting_id) -> None:
    assert _putts(shop, fitting_id) == []
    other = open_shop(shop.folder, clock=shop.clock, decide=shop.decide)
    putt = dataclasses.replace(PUTT, build_id="B")
    record_reading(
        other.store, other.clock, fitting_id=fitting_id, reading=putt, entry_key="1", who="f"
    )
    other.close()
    assert _putts(shop, fitting_id) == [("B", False)]


def test_who_is_erased_is_not_kept_in_mind(shop, fitting_id) -> None:
    open_fitting(shop.store, fitting_id)
    erase_fittings(
        shop.store, [fitting_id], folder=shop.folder, backup_folder=shop.folder / "backups",
        copies=True, clock=shop.clock, who="f",
    )  # fmt: skip
    assert not recent_evidence._kept.get(shop.store)
    with pytest.raises(NotFound):
        open_fitting(shop.store, fitting_id)


def test_the_fittings_looked_at_last_are_kept_and_no_more(shop, new, monkeypatch) -> None:
    monkeypatch.setattr(recent_evidence, "MOST", 2)
    ids = [
        start_fitting(shop.store, shop.clock, new=new, entry_key=f"s{n}", who="f") for n in range(3)
    ]
    for each in ids:
        open_fitting(shop.store, each)
    assert list(recent_evidence._kept[shop.store]) == ids[1:]
