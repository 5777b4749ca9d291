from __future__ import annotations

import dataclasses
from collections.abc import Callable
from datetime import datetime, timedelta

import pytest

from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import AimReading, Fitting, Putt, SetupReading
from puttwright.store import Store, fittings, readings, revisions
from puttwright.store.readings import AIMS, PUTTS, SETUPS, Kept, Reading

PUTT = Putt(seq=0, build_id="B", distance_m=2, holed=True)
Record = Callable[..., Kept]
Void = Callable[..., Kept]


@pytest.fixture
def kept(store: Store, fitting: Fitting, now: datetime) -> Store:
    with store.writing() as connection:
        fittings.start(connection, fitting, entry_key="k", now=now, who="fitter")
    return store


@pytest.fixture
def record(kept: Store, now: datetime) -> Record:
    def _record(reading: Reading = PUTT, *, entry_key: str = "e1") -> Kept:
        with kept.writing() as connection:
            key = revisions.key_to_write(connection, "F1")
            return readings.record(
                connection, reading, key=key, entry_key=entry_key, now=now, who="fitter"
            )

    return _record


@pytest.fixture
def void(kept: Store, now: datetime) -> Void:
    def _void(kind: str, seq: int, *, why: str = "a gust", replaced_by: int | None = None) -> Kept:
        later = now + timedelta(minutes=2)
        with kept.writing() as connection:
            key = revisions.key_to_write(connection, "F1")
            return readings.void(
                connection,
                key=key,
                kind=kind,
                seq=seq,
                why=why,
                now=later,
                who="fitter",
                replaced_by=replaced_by,
            )

    return _void


def _load(store: Store) -> Fitting:
    with store.reading() as connection:
        return fittings.load(connection, "F1")


def _history(store: Store) -> list[Kept]:
    with store.reading() as connection:
        return readings.history(connection, key=revisions.key_of(connection, "F1"))


@pytest.mark.parametrize(
    ("reading", "kind"),
    [
        (PUTT, PUTTS),
        (AimReading(seq=0, build_id="own", board_distance_mm=2000, reading_mm=7), AIMS),
        (SetupReading(seq=0, build_id="B", sole_tilt_deg=-1.5, extra={"shoes": "new"}), SETUPS),
    ],
)
def test_a_reading_goes_to_the_end(
    kept: Store, record: Record, reading: Reading, kind: str
) -> None:
    written = record(reading)

    assert written.kind == kind
    assert written.seq == 6  # after the package's 5, across all tables
    assert getattr(_load(kept), kind)[-1] == dataclasses.replace(reading, seq=6)


def test_an_entry_sent_twice_is_kept_once(kept: Store, record: Record) -> None:
    first = record(entry_key="same")

    assert record(entry_key="same") == first
    assert len(_load(kept).putts) == 4


def test_an_entry_says_who_and_when(kept: Store, record: Record, now: datetime) -> None:
    record()

    newest = _history(kept)[-1]

    assert (newest.who, newest.when, newest.entry_key, newest.void) == ("fitter", now, "e1", None)


def test_a_build_that_is_not_there_is_told(record: Record) -> None:
    with pytest.raises(NotFound, match="no build called 'Z'; this fitting has own, B"):
        record(dataclasses.replace(PUTT, build_id="Z"))


def test_each_entry_counts_as_one_revision(kept: Store, record: Record, void: Void) -> None:
    def revision() -> int:
        with kept.reading() as connection:
            return int(revisions.row_of_fitting(connection, "F1")["revision"])

    start = revision()
    record()
    after_record = revision()
    record()  # the same entry again
    after_repeat = revision()
    void(PUTTS, 6)

    assert (after_record - start, after_repeat - start, revision() - start) == (1, 1, 2)


def test_a_putt_taken_back_stays_and_says_why(kept: Store, record: Record, void: Void) -> None:
    written = record()
    void(PUTTS, written.seq)

    newest = _history(kept)[-1]

    assert newest.reading == written.reading
    assert newest.void is not None
    assert (newest.void.why, newest.void.who) == ("a gust", "fitter")
    assert newest.void.when > newest.when
    assert _load(kept).putts[-1] == dataclasses.replace(written.reading, void=True)


def test_an_aim_taken_back_is_not_seen_by_the_decision(kept: Store, void: Void) -> None:
    void(AIMS, 2)

    assert _load(kept).aims == ()
    assert [each.kind for each in _history(kept) if each.void] == [AIMS, PUTTS]


def test_the_void_putt_of_a_package_says_where_it_comes_from(kept: Store) -> None:
    (void_,) = [each.void for each in _history(kept) if each.void]

    assert void_.why == readings.IN_PACKAGE


def test_a_reading_is_taken_back_once(void: Void) -> None:
    first = void(PUTTS, 3)

    assert void(PUTTS, 3) == first
    with pytest.raises(NotAllowed, match="taken back before: a gust"):
        void(PUTTS, 3, why="a dog")


@pytest.mark.parametrize(("kind", "seq"), [(PUTTS, 99), (PUTTS, 2), ("weather", 1)])
def test_only_a_reading_that_is_there_is_taken_back(void: Void, kind: str, seq: int) -> None:
    with pytest.raises(NotFound):
        void(kind, seq)


def test_a_replaced_reading_is_seen_no_more_but_stays(
    kept: Store, record: Record, void: Void
) -> None:
    better = record(dataclasses.replace(PUTT, holed=False))
    void(PUTTS, 3, replaced_by=better.seq)

    assert 3 not in [putt.seq for putt in _load(kept).putts]
    (replaced,) = [each for each in _history(kept) if each.seq == 3]
    assert replaced.void is not None
    assert replaced.void.replaced_by == better.seq


def test_a_history_that_is_known_is_brought_up_to_date_by_what_came(
    kept: Store, record: Record, void: Void, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[int] = []
    make = readings._kept
    monkeypatch.setattr(readings, "_kept", lambda row: made.append(row["seq"]) or make(row))

    def brought(known: list[Kept]) -> tuple[list[Kept], list[int]]:
        made.clear()
        with kept.reading() as connection:
            key = revisions.key_of(connection, "F1")
            found = readings.history(connection, key=key, known=known)
        looked_up = sorted(made)
        assert found == _history(kept)
        return found, looked_up

    known = _history(kept)
    assert brought(known) == (known, [])
    record()
    known, looked_up = brought(known)
    assert looked_up == [6]
    void(AIMS, 2)
    record(dataclasses.replace(PUTT, holed=False), entry_key="e2")
    void(PUTTS, 6, replaced_by=7)
    known, looked_up = brought(known)
    assert looked_up == [2, 6, 7]
    assert brought(known)[1] == []


def test_numbers_are_never_given_again(record: Record, void: Void) -> None:
    void(PUTTS, record().seq)

    assert record(entry_key="e2").seq == 7
