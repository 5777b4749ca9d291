"""What was written down is put right, and never over something that changed meanwhile."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest

from puttwright.deeds.change_fitting import (
    ChangedMeanwhile,
    change_build,
    change_details,
    details_of,
    state_mark,
)
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.errors import NotFound, PackageFaults
from puttwright.evidence import Build, FittingGreen, Golfer, Green, Putt
from puttwright.store import Store, fittings, open_store

NOON = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    opened = open_store(tmp_path_factory.mktemp("records") / "records.sqlite")
    yield opened
    opened.close()


@pytest.fixture
def fitting_id(store: Store, request: pytest.FixtureRequest) -> str:
    new = NewFitting(
        golfer=Golfer(alias="Robin", handed="left", extra={"shoe": "42"}),
        greens=(Green(name="home", speed_ft=9.5, share=1.0),),
        fitting_green=FittingGreen(speed_ft=10),
        builds=(Build(build_id="A", label="Old one", length_mm=864, lie_deg=70, loft_deg=3),),
    )
    return start_fitting(store, lambda: NOON, new=new, entry_key=request.node.name, who="fitter")


def _details(store: Store, **wanted: Any) -> None:
    change_details(store, lambda: NOON, who="fitter", **wanted)


def _build(store: Store, **wanted: Any) -> None:
    change_build(store, lambda: NOON, who="fitter", **wanted)


def _now(store: Store, fitting_id: str) -> OpenFitting:
    return open_fitting(store, fitting_id)


def test_details_are_put_right_and_found_by_their_new_name(store: Store, fitting_id: str) -> None:
    before = _now(store, fitting_id)
    details = details_of(before.fitting)
    wanted = replace(
        details,
        golfer=replace(details.golfer, alias="Wilhelmina", wrist_height_mm=850.0),
        greens=(
            Green(name="home", speed_ft=9.0, share=0.5),
            Green(name="away", speed_ft=11.0, share=0.5),
        ),
    )
    _details(store, fitting_id=fitting_id, details=wanted, seen=state_mark(details))

    after = _now(store, fitting_id)
    assert details_of(after.fitting) == wanted
    assert after.fitting.golfer.extra == {"shoe": "42"}
    assert after.revision > before.revision
    with store.reading() as look:
        assert [line.fitting_id for line in fittings.search(look, "wilhelmina")] == [fitting_id]


def test_a_stale_form_writes_nothing(store: Store, fitting_id: str) -> None:
    details = details_of(_now(store, fitting_id).fitting)
    first = replace(details, fitting_green=FittingGreen(speed_ft=11))
    late = replace(details, fitting_green=FittingGreen(speed_ft=8))
    seen = state_mark(details)
    _details(store, fitting_id=fitting_id, details=first, seen=seen)
    with pytest.raises(ChangedMeanwhile):
        _details(store, fitting_id=fitting_id, details=late, seen=seen)
    _details(store, fitting_id=fitting_id, details=first, seen=seen)  # a double tap

    assert _now(store, fitting_id).fitting.fitting_green.speed_ft == 11


def test_readings_that_came_in_make_no_form_stale(store: Store, fitting_id: str) -> None:
    build = _now(store, fitting_id).fitting.builds[0]
    putt = Putt(seq=0, build_id="A", distance_m=3, holed=True)
    record_reading(
        store, lambda: NOON, fitting_id=fitting_id, reading=putt, entry_key="p1", who="fitter"
    )
    wanted = replace(build, loft_deg=2.5, head_mass_g=355.0)
    _build(store, fitting_id=fitting_id, build=wanted, seen=state_mark(build))

    fitting = _now(store, fitting_id).fitting
    assert fitting.builds == (wanted,)
    assert len(fitting.putts) == 1


def test_a_build_changed_elsewhere_is_not_written_over(store: Store, fitting_id: str) -> None:
    build = _now(store, fitting_id).fitting.builds[0]
    seen = state_mark(build)
    gauged = replace(build, loft_deg=2.0)
    _build(store, fitting_id=fitting_id, build=gauged, seen=seen)
    with pytest.raises(ChangedMeanwhile):
        _build(store, fitting_id=fitting_id, build=replace(build, lie_deg=72), seen=seen)

    assert _now(store, fitting_id).fitting.builds == (gauged,)


def test_what_cannot_be_is_told_and_not_written(store: Store, fitting_id: str) -> None:
    fitting = _now(store, fitting_id).fitting
    build, details = fitting.builds[0], details_of(fitting)
    with pytest.raises(PackageFaults):
        _build(
            store, fitting_id=fitting_id, build=replace(build, lie_deg=20), seen=state_mark(build)
        )
    lopsided = replace(details, greens=(Green(name="home", speed_ft=9, share=0.4),))
    with pytest.raises(PackageFaults):
        _details(store, fitting_id=fitting_id, details=lopsided, seen=state_mark(details))
    with pytest.raises(NotFound):
        _build(store, fitting_id="nowhere", build=build, seen=state_mark(build))

    assert _now(store, fitting_id).fitting == fitting
