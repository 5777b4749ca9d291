"""What the fitter says of a new kind of table: a map of its columns, or what is left to say."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from puttwright.deeds.take_table import LookedAt
from puttwright.readers.tables.factors import units_for
from puttwright.readers.tables.propose import (
    LeftOpen,
    Seen,
    left_open,
    likely_target,
    propose,
    seen_columns,
)
from puttwright.readers.tables.sides import SIDES, other_side, signs_of
from puttwright.readers.tables.table_map import RECORDS, TableMap, Target, known_columns
from puttwright.web.forms.asking import Typed
from puttwright.web.texts import catalogue

KEPT: Final = ""
"""The value of "goes into" for a column that is kept as it stands."""
_LONGEST: Final = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnAsked:
    """One column as the form shows it: what it is taken for, and what it leaves open.

    ``sides``: the side that is positive by what is chosen, and the words of that choice.
    """

    number: int
    header: str
    cells: tuple[str, ...]
    target: Target
    meaning: str
    units: tuple[str, ...]
    open: LeftOpen
    sides: tuple[tuple[str, str], ...]
    message: str = ""

    @property
    def asked(self) -> bool:
        """Whether a person has to say something of it."""
        return self.open.unit or self.open.sides or bool(self.target.empty)


@dataclass(frozen=True, slots=True, kw_only=True)
class MapTyped:
    """The map as far as it was said, and what is wrong with it."""

    map: TableMap
    columns: tuple[ColumnAsked, ...]
    messages: Mapping[str, str] = field(default_factory=dict)


def map_typed(typed: Typed, looked: LookedAt, *, builds: Mapping[str, str]) -> MapTyped:
    """Read the form; what was not typed is as it is likeliest.

    Parameters
    ----------
    typed
        ``table``, ``instrument``, and ``into-N``, ``unit-N``, ``positive-N``, ``empty-N`` by
        column; ``said`` once the form was shown, so that a side not chosen is a side left open.
    looked
        The table.
    builds
        The fitting's, label by id.
    """
    seen = seen_columns(looked.layout, looked.opened.head)
    table = typed.get("table", "")
    proposed = looked.map
    if table in RECORDS and table != proposed.table:
        proposed = propose(seen, builds=builds, table=table)
    shown = "said" in typed and table == looked.map.table
    columns = tuple(
        _column(number, typed if shown else {}, each, proposed) for number, each in enumerate(seen)
    )
    messages = _twice(columns) | {
        f"column-{each.number}": each.message for each in columns if each.message
    }
    fixed = {name: value for name, value in proposed.fixed.items() if name != "instrument"}
    instrument = typed.get("instrument", proposed.fixed.get("instrument", "")).strip()[:_LONGEST]
    if instrument and "instrument" in known_columns(proposed.table):
        fixed["instrument"] = instrument
    found = TableMap(
        table=proposed.table, columns=tuple(each.target for each in columns), fixed=fixed,
        decimal_comma=proposed.decimal_comma,
    )  # fmt: skip
    return MapTyped(map=found, columns=columns, messages=messages if shown else {})


def _column(number: int, typed: Typed, seen: Seen, proposed: TableMap) -> ColumnAsked:
    table, comma = proposed.table, proposed.decimal_comma
    known = known_columns(table)
    target = replace(proposed.columns[number], ask=())
    into = typed.get(f"into-{number}", target.into)
    if into != target.into and (into in known or into == KEPT):
        target = replace(likely_target(seen, into, table=table, comma=comma), ask=())
    units = units_for(known[target.into].unit) if target.into and known[target.into].unit else ()
    unit = typed.get(f"unit-{number}", "")
    if unit in units:
        target = replace(target, unit=unit)
    if typed and target.empty:
        target = replace(target, empty=typed.get(f"empty-{number}", ""))
    left = left_open(seen, target.into, table=table, unit=target.unit, comma=comma)
    sides = _sides(target.into, left) if left.sides else ()
    chosen = typed.get(f"positive-{number}", "")
    message = ""
    if left.sides:
        known_side = chosen in {value for value, _ in sides}
        target = replace(target, positive=chosen if known_side else "")
        message = "" if known_side or not typed else catalogue()("tables.say_side")
    return ColumnAsked(
        number=number, header=seen.name, cells=tuple(cell for _, cell in seen.cells[:3]),
        target=target, meaning=known[target.into].meaning if target.into else "", units=units,
        open=left, sides=sides, message=message,
    )  # fmt: skip


def _sides(into: str, left: LeftOpen) -> tuple[tuple[str, str], ...]:
    """Every side that the example may have been to, and which side is positive then."""
    ways = signs_of(into, handed="right")
    first = SIDES[into]
    order = [*(first[::-1] if left.negative else first), *(w for w in ways if w not in first)]
    return tuple((other_side(into, way) if left.negative else way, way) for way in order)


def _twice(columns: Sequence[ColumnAsked]) -> dict[str, str]:
    filled = [each.target.into for each in columns]
    return {
        f"column-{each.number}": catalogue()("tables.twice", column=each.meaning)
        for each in columns
        if each.target.into and filled.count(each.target.into) > 1
    }
