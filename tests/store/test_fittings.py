from __future__ import annotations

import dataclasses
from datetime import datetime

import pytest

from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import Build, Fitting
from puttwright.store import Store, fittings, revisions


def _start(store: Store, fitting: Fitting, *, entry_key: str = "k", now: datetime) -> str:
    with store.writing() as connection:
        return fittings.start(connection, fitting, entry_key=entry_key, now=now, who="fitter")


def _load(store: Store, fitting_id: str = "F1") -> Fitting:
    with store.reading() as connection:
        return fittings.load(connection, fitting_id)


def test_a_fitting_comes_back_as_it_went_in(store: Store, fitting: Fitting, now: datetime) -> None:
    _start(store, fitting, now=now)

    assert _load(store) == fitting


def test_a_fitting_sent_twice_is_kept_once(store: Store, fitting: Fitting, now: datetime) -> None:
    first = _start(store, fitting, now=now)
    again = dataclasses.replace(fitting, fitting_id="another")

    assert _start(store, again, now=now) == first
    with store.reading() as connection:
        assert len(fittings.search(connection)) == 1


def test_an_id_is_given_once(store: Store, fitting: Fitting, now: datetime) -> None:
    _start(store, fitting, now=now)

    with pytest.raises(NotAllowed, match="already a fitting F1"):
        _start(store, fitting, entry_key="other", now=now)


def test_a_fitting_that_is_not_there_is_told(store: Store) -> None:
    with pytest.raises(NotFound, match="no fitting called 'F9'"):
        _load(store, "F9")


def test_nothing_stays_when_the_transaction_fails(
    store: Store, fitting: Fitting, now: datetime
) -> None:
    with pytest.raises(RuntimeError), store.writing() as connection:
        fittings.start(connection, fitting, entry_key="k", now=now, who="fitter")
        raise RuntimeError

    with store.reading() as connection:
        assert fittings.search(connection) == []


@pytest.mark.parametrize("words", ["", "RÓIS", "2026-05", "róisín f1"])
def test_every_word_finds_it_case_aside(
    store: Store, fitting: Fitting, now: datetime, words: str
) -> None:
    _start(store, fitting, now=now)

    with store.reading() as connection:
        (line,) = fittings.search(connection, words)

    assert (line.fitting_id, line.alias, line.handed) == ("F1", "Róisín", "left")
    assert (line.builds, line.putts, line.aims) == (2, 2, 1)  # the void putt does not count


@pytest.mark.parametrize("words", ["Rob", "%", "_", "róisín rob"])
def test_other_words_do_not(store: Store, fitting: Fitting, now: datetime, words: str) -> None:
    _start(store, fitting, now=now)

    with store.reading() as connection:
        assert fittings.search(connection, words) == []


def test_the_newest_come_first_and_not_more_than_asked(
    store: Store, fitting: Fitting, now: datetime
) -> None:
    for number in range(4):
        numbered = dataclasses.replace(fitting, fitting_id=f"F{number}")
        _start(store, numbered, entry_key=str(number), now=now.replace(hour=number))

    with store.reading() as connection:
        found = [line.fitting_id for line in fittings.search(connection, limit=3)]

    assert found == ["F3", "F2", "F1"]


NEW = Build(build_id="C", length_mm=889, lie_deg=72, loft_deg=4)


def test_a_build_is_added_at_the_end(store: Store, fitting: Fitting, now: datetime) -> None:
    _start(store, fitting, now=now)
    with store.writing() as connection:
        before = revisions.row_of_fitting(connection, "F1")["revision"]
        fittings.add_build(connection, NEW, fitting_id="F1")
        fittings.add_build(connection, NEW, fitting_id="F1")  # a double tap
        grown = revisions.row_of_fitting(connection, "F1")["revision"] - before

    assert _load(store).builds == (*fitting.builds, NEW)
    assert grown == 1


def test_a_build_id_is_given_once(store: Store, fitting: Fitting, now: datetime) -> None:
    _start(store, fitting, now=now)
    other = dataclasses.replace(NEW, build_id="B")

    with pytest.raises(NotAllowed, match="already a build B"), store.writing() as connection:
        fittings.add_build(connection, other, fitting_id="F1")
