"""What each column of a new kind of file seems to mean, and what a person should confirm."""

from __future__ import annotations

import re
import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.evidence import Column
from puttwright.readers.tables.factors import factor, units_for
from puttwright.readers.tables.header import Layout
from puttwright.readers.tables.numbers import How, is_empty, number_of
from puttwright.readers.tables.opened import Row
from puttwright.readers.tables.sides import AGREED, SIDES, signs_of
from puttwright.readers.tables.table_map import RECORDS, TableMap, Target, known_columns
from puttwright.readers.tables.words import Header, nearest, side_of, words

SURE: Final = 0.999
NEAR: Final = 0.55
_SAMPLE: Final = 60
_OWN: Final = 1.5
"""A header that is our own column's name means that column before any words do."""
_NEEDED: Final = {"aims": "reading_mm"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A column as far as it was looked at: header, unit of a units row, first cells, any empty."""

    name: str
    header: Header
    unit: str | None
    cells: tuple[tuple[int, str], ...]
    gaps: bool


def seen_columns(layout: Layout, head: Sequence[Row]) -> tuple[Seen, ...]:
    """The columns with the first cells below the header that say anything, by row."""
    below = [(number, cells) for number, cells in head if number > layout.below]
    body = [(number, cells) for number, cells in below if any(map(str.strip, cells))][:_SAMPLE]
    return tuple(
        Seen(
            name=name, header=Header(name), unit=layout.units[place],
            cells=tuple(
                (number, cells[place].strip()) for number, cells in body
                if place < len(cells) and not is_empty(cells[place])
            ),
            gaps=any(place >= len(cells) or is_empty(cells[place]) for _, cells in body),
        )
        for place, name in enumerate(layout.names)
    )  # fmt: skip


def propose(
    seen: Sequence[Seen], *, builds: Mapping[str, str], table: str | None = None
) -> TableMap:
    """The likeliest map of a file.

    Parameters
    ----------
    seen
        Its columns.
    builds
        The fitting's builds, label by id.
    table
        What it is known to hold: putts, aims or setups.

    Returns
    -------
    TableMap
        With a question for everything that a file of this kind leaves open: a column
        known by some of its words only, a unit or a side that stands nowhere.
    """
    meant = {table: _meant(seen, table) for table in RECORDS}
    table = table or max(RECORDS, key=lambda each: _weight(meant[each], each))
    comma = _decimal_comma(seen)
    columns = tuple(
        _target(each, *meant[table][place], comma=comma, table=table)
        if place in meant[table]
        else Target(header=each.name)
        for place, each in enumerate(seen)
    )
    into = {column.into for column in columns}
    ask = () if len(into - {""}) > 1 else ("few columns were recognised: is this the right table?",)
    fixed = {"build_id": next(iter(builds))} if "build_id" not in into and len(builds) == 1 else {}
    return TableMap(table=table, columns=columns, decimal_comma=comma, fixed=fixed, ask=ask)


def _weight(meant: Mapping[int, tuple[str, float]], table: str) -> float:
    names = {name for name, _ in meant.values()}
    lacks = _NEEDED.get(table, "")
    return 0.0 if lacks and lacks not in names else sum(near for _, near in meant.values())


def _meant(seen: Sequence[Seen], table: str) -> dict[int, tuple[str, float]]:
    """The column that each place means and how near it is; each column and place once."""
    known = known_columns(table)
    near = []
    for place, each in enumerate(seen):
        for name, column in known.items():
            likeness = _likeness(each, name, table)
            if likeness >= NEAR and _unit_fits(each, column):
                near.append((-likeness, place, name))
    found: dict[int, tuple[str, float]] = {}
    for away, place, name in sorted(near):
        if place not in found and name not in {other for other, _ in found.values()}:
            found[place] = (name, -away)
    return found


def _likeness(each: Seen, name: str, table: str) -> float:
    if each.name.strip().lower() == name:
        return _OWN
    return nearest(each.header.words, table=table, column=name)


def _unit_fits(each: Seen, column: Column) -> bool:
    unit = each.header.unit or each.unit
    return unit is None or not column.unit or factor(unit, column.unit) is not None


def _decimal_comma(seen: Sequence[Seen]) -> bool:
    """More numbers with a comma than with a dot."""
    cells = [cell for each in seen for _, cell in each.cells]
    commas, dots = (sum(bool(kind.fullmatch(cell)) for cell in cells) for kind in _MARKS)
    return commas > dots


_MARKS: Final = (re.compile(r"\D{0,3}\d+,\d+\D*"), re.compile(r"\D{0,3}\d+\.\d+\D*"))


def _target(each: Seen, name: str, near: float, *, comma: bool, table: str) -> Target:
    column = known_columns(table)[name]
    if near >= _OWN:
        ours = SIDES.get(name, ("",))[0]
        return Target(header=each.name, into=name, unit=column.unit, positive=ours)
    ask = []
    if near < SURE:
        ask.append(f'is "{each.name}" {_article(column.meaning)}? If not, write into = "".')
    unit, unsure = _unit(each, column, comma=comma)
    positive, asked = _positive(each, name, unit=unit, comma=comma)
    empty, doubted = _empty(each, column)
    return Target(
        header=each.name, into=name, unit=unit, positive=positive, empty=empty,
        ask=(*ask, *unsure, *asked, *doubted),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOpen:
    """What a column leaves open: its unit, its sides; and the reading to ask about them with."""

    unit: bool
    sides: bool
    row: int = 0
    cell: str = ""
    negative: bool = False


def left_open(each: Seen, into: str, *, table: str, unit: str = "", comma: bool) -> LeftOpen:
    """What a person has to say of a column that goes into ``into``, with an example from it."""
    if not into or each.name.strip().lower() == into:
        return LeftOpen(unit=False, sides=False)
    column = known_columns(table)[into]
    likely, unsure = _unit(each, column, comma=comma)
    _, asked = _positive(each, into, unit=unit or likely, comma=comma)
    row, cell, value = _example(each, How(unit=likely, column_unit=likely, comma=comma))
    return LeftOpen(
        unit=bool(unsure), sides=bool(asked), row=row, cell=cell, negative=bool(value and value < 0)
    )


def _example(each: Seen, read: How) -> tuple[int, str, float | None]:
    """The reading to ask with: the first that is negative, else the first that is not nought."""
    values = [(row, cell, number_of(cell, read)[0]) for row, cell in each.cells]
    plain = [(row, cell, value) for row, cell, value in values if value]
    first = plain[0] if plain else (values[0] if values else (0, "", None))
    return next((p for p in plain if p[2] and p[2] < 0), first)


def likely_target(each: Seen, into: str, *, table: str, comma: bool) -> Target:
    """The column with its likeliest unit and side, once it is known where it goes."""
    return _target(each, into, 1.0, comma=comma, table=table) if into else Target(header=each.name)


def _article(meaning: str) -> str:
    return f"the column for: {meaning}"


def _unit(each: Seen, column: Column, *, comma: bool) -> tuple[str, tuple[str, ...]]:
    """The unit by header, units row or cells; else one that makes the readings possible, asked."""
    if not column.unit:
        return "", ()
    said = each.header.unit or each.unit
    if said:
        return said, ()
    readings = [
        value
        for _, cell in each.cells
        if (value := number_of(cell, How(comma=comma))[0]) is not None
    ]
    if each.cells and not readings:
        return column.unit, ()  # every cell brings its own unit
    could_be = [unit for unit in units_for(column.unit) if _possible(readings, unit, column)]
    likely = column.unit if column.unit in could_be or not could_be else could_be[0]
    if len(units_for(column.unit)) == 1 or could_be == [column.unit] or _obvious(column, readings):
        return likely, ()
    example = f" (row {each.cells[0][0]} says {each.cells[0][1][:20]})" if each.cells else ""
    others = ", ".join(units_for(column.unit))
    question = f'"{each.name}" says no unit{example}: is it {likely}? It may be {others}.'
    return likely, (question,)


def _obvious(column: Column, readings: Sequence[float]) -> bool:
    """Angles are in degrees, spin in turns a minute, shares in per cent once they pass 1."""
    if column.unit == "%":
        return bool(readings) and max(readings) > 1.0
    return column.unit in ("deg", "rpm", "deg/s")


def _possible(readings: Sequence[float], unit: str, column: Column) -> bool:
    times = factor(unit, column.unit) or 1.0
    if not readings:
        return True
    middle = statistics.median(readings) * times
    return (column.low is None or column.low <= middle) and (
        column.high is None or middle <= column.high
    )


def _positive(each: Seen, name: str, *, unit: str, comma: bool) -> tuple[str, tuple[str, ...]]:
    """The side that is positive in the file; asked with an example unless the file says it."""
    if name not in SIDES:
        return "", ()
    sides = signs_of(name, handed="right")
    if each.header.positive in sides:
        return str(each.header.positive), ()
    ours, other = SIDES[name]
    row, cell, value = _example(each, How(unit=unit, column_unit=unit, comma=comma))
    if name in AGREED or (each.cells and not value) or _sides_in_cells(each):
        return ours, ()
    if not value:
        return ours, (f'"{each.name}": is {ours} positive? If not, write positive = "{other}".',)
    side, opposite = (other, ours) if value < 0 else (ours, other)
    example = f'"{each.name}" says {cell[:20]} in row {row}: was that {side}?'
    return ours, (f'{example} If it was {opposite}, write positive = "{other}".',)


def _empty(each: Seen, column: Column) -> tuple[str, tuple[str, ...]]:
    """A tick where it went in and nothing where it missed: then nothing says something."""
    yes = set(words()["yes_no"]["yes"])
    ticks = {cell.lower() for _, cell in each.cells}
    if column.kind != "yes_no" or not each.gaps or not ticks or not ticks <= yes:
        return "", ()
    question = f'"{each.name}" is empty in some rows: if that is not a no, leave out empty = "no".'
    return "no", (question,)


def _sides_in_cells(each: Seen) -> bool:
    return any(side_of(token) for _, cell in each.cells for token in cell.split()[1:])
