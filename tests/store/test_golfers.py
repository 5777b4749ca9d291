"""Who is who among the fittings, and lists that stay quick with ten thousand of them."""

from __future__ import annotations

import dataclasses
from datetime import datetime, timedelta

import pytest
from sqlalchemy import event

from puttwright.errors import NotFound
from puttwright.evidence import Fitting
from puttwright.store import Store, fittings, golfers


@pytest.fixture
def start(store: Store, fitting: Fitting, now: datetime):
    """Start a fitting of somebody, a minute after the one before."""
    minutes = iter(range(1000))

    def _start(name: str, *, alias: str = "Wren", golfer: str | None = None, **extra) -> str:
        number = next(minutes)
        one = dataclasses.replace(
            fitting,
            fitting_id=name,
            golfer=dataclasses.replace(fitting.golfer, alias=alias),
            extra=extra,
        )
        with store.writing() as connection:
            return fittings.start(
                connection,
                one,
                entry_key=name,
                now=now + timedelta(minutes=number),
                who="fitter",
                golfer=golfer,
            )

    return _start


def test_a_golfer_seen_before_has_one_line_and_one_of_the_same_name_another(store, start) -> None:
    start("F1")
    start("F2", golfer="F1")
    start("F3")

    with store.reading() as look:
        lines = golfers.search(look, "wren")
        assert [(line.golfer, line.fittings) for line in lines] == [("F3", 1), ("F1", 2)]
        assert golfers.count(look, "wren") == 2
        assert golfers.fittings_of(look, "F1") == ["F2", "F1"]
        assert golfers.called_alike(look, "F1", aliases=["Wren"]) == ["F3"]


def test_a_golfer_found_by_one_fitting_is_shown_with_all_of_them(store, start) -> None:
    start("F1", alias="Robin")
    start("F2", alias="Robin B", golfer="F1")

    with store.reading() as look:
        (line,) = golfers.search(look, "F1")

    assert line.fittings == 2


def test_two_become_one_and_one_becomes_two(store, start) -> None:
    start("F1")
    start("F2")
    with store.writing() as write:
        golfers.join(write, "F1", other="F2")
        assert golfers.fittings_of(write, "F1") == ["F2", "F1"]
        assert golfers.part(write, "F1", fitting_id="F2") == "F2"
        assert golfers.fittings_of(write, "F1") == ["F1"]


def test_parting_from_the_fitting_one_is_named_after_leaves_the_rest_together(store, start) -> None:
    start("F1")
    start("F2", golfer="F1")
    start("F3", golfer="F1")
    with store.writing() as write:
        golfers.part(write, "F1", fitting_id="F1")
        assert golfers.fittings_of(write, "F1") == ["F1"]
        assert golfers.fittings_of(write, "F2") == ["F3", "F2"]


@pytest.mark.parametrize("other", ["F9", ""])
def test_nobody_is_joined_with_nobody(store, start, other: str) -> None:
    start("F1")
    with pytest.raises(NotFound, match="golfer"), store.writing() as write:
        golfers.join(write, "F1", other=other)


def test_a_practice_is_nobodys_history(store, start) -> None:
    start("F1", practice=True)

    with store.reading() as look:
        assert golfers.search(look) == []
        assert fittings.search(look) == []
        assert fittings.count(look) == 0
        assert [each.fitting_id for each in fittings.search(look, practice=True)] == ["F1"]


def test_the_list_goes_on_where_it_stopped(store, start) -> None:
    for number in range(5):
        start(f"F{number}")

    with store.reading() as look:
        rest = [line.fitting_id for line in fittings.search(look, limit=2, skip=2)]
        assert rest == ["F2", "F1"]
        assert fittings.count(look, "wren") == 5


@pytest.mark.parametrize(
    ("search", "index"),
    [
        (fittings.search, "ix_fitting_found"),
        (fittings.count, "ix_fitting_found"),
        (golfers.search, "ix_fitting_golfer"),
        (golfers.count, "ix_fitting_golfer"),
    ],
)
def test_a_search_reads_an_index_and_not_the_wide_rows(store, start, search, index: str) -> None:
    start("F1")
    asked = []

    def keep(_connection, _cursor, statement, parameters, *_rest) -> None:
        asked.append((statement, parameters))

    with store.reading() as look:
        event.listen(look, "before_cursor_execute", keep)
        search(look, "wren 2026")
        event.remove(look, "before_cursor_execute", keep)
        (statement, parameters) = asked[0]
        plan = look.exec_driver_sql(f"EXPLAIN QUERY PLAN {statement}", parameters).all()

    steps = [str(row[-1]) for row in plan]
    assert any(f"COVERING INDEX {index}" in step for step in steps), steps
    assert not any(step.startswith("SCAN fitting") and "INDEX" not in step for step in steps)
