"""The pages of devices' tables: what was read, what waits, and a new kind of table to confirm."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.take_table import LookedAt
from puttwright.evidence import Fitting
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.opened import Row, chunk_of
from puttwright.readers.tables.table_map import TableMap, known_columns
from puttwright.readers.tables.take import Shop, Taker
from puttwright.store.files_read import KeptAside, KeptFile
from puttwright.web.contexts.counts import counted
from puttwright.web.contexts.hand import UNTYPED, Hand, Length
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.forms.table_forms import ColumnAsked, MapTyped
from puttwright.web.sentences import beside_field, said_here
from puttwright.web.texts import catalogue

PREVIEWED: Final = 6
_ASIDES: Final = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class FileLine:
    """A file that was read, in a line, with the key that takes it back."""

    name: str
    words: str
    entry_key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AsideLine:
    """A row kept aside: where it stands, why, and its cells."""

    place: str
    why: str
    cells: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingLine:
    """A file that waits: why, and where it is looked at."""

    name: str
    why: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TablesPage:
    """What was read into this fitting, what waits, and the forms."""

    heading: Heading
    hand: Hand
    builds: tuple[tuple[str, str], ...]
    files: tuple[FileLine, ...]
    asides: tuple[AsideLine, ...]
    waiting: tuple[WaitingLine, ...]
    folder: str
    notice: str = ""
    message: str = ""
    folder_message: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """The first rows as they would be taken: heads, cells, and why a row does not fit."""

    head: tuple[str, ...]
    rows: tuple[tuple[tuple[str, ...], str], ...]
    trouble: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ConfirmPage:
    """A new kind of table: the questions first, all columns after them, then what comes of it."""

    heading: Heading
    hand: Hand
    builds: tuple[tuple[str, str], ...]
    address: str
    name: str
    table: str
    columns: tuple[ColumnAsked, ...]
    targets: tuple[tuple[str, str], ...]
    instrument: str
    asks_build: bool
    asks_distance: str
    preview: Preview | None
    message: str = ""
    length: Length = UNTYPED

    @property
    def questions(self) -> tuple[ColumnAsked, ...]:
        """The columns that leave something open."""
        return tuple(each for each in self.columns if each.asked)


def tables_page(
    opened: OpenFitting, hand: Hand, *, files: Sequence[KeptFile], asides: Sequence[KeptAside],
    waiting: Iterable[WaitingLine] = (), folder: str = "", notice: str = "", message: str = "",
    folder_message: str = "",
) -> TablesPage:  # fmt: skip
    """The page of one fitting."""
    return TablesPage(
        heading=heading(opened.fitting), hand=hand, builds=builds_of(opened.fitting),
        files=tuple(_line(each, asides) for each in files),
        asides=tuple(map(_aside, asides[:_ASIDES])),
        waiting=tuple(waiting), folder=folder, notice=notice, message=message,
        folder_message=folder_message,
    )  # fmt: skip


def builds_of(fitting: Fitting) -> tuple[tuple[str, str], ...]:
    """Each build's id and name."""
    return tuple((build.build_id, build.name) for build in fitting.builds)


def _line(file: KeptFile, asides: Sequence[KeptAside]) -> FileLine:
    text = catalogue()
    aside = sum(each.file == file.file and each.header == file.header for each in asides)
    parts = [counted(**{file.kind: file.added})]
    parts += [text("tables.aside_count", count=aside)] if aside else []
    parts.append(f"{file.when.astimezone():%H:%M}")
    return FileLine(name=file.file, words=" · ".join(parts), entry_key=file.entry_key)


def _aside(row: KeptAside) -> AsideLine:
    try:
        said = json.loads(row.cells)
    except ValueError:
        said = {}
    cells = " · ".join(f"{name} {cell}" for name, cell in said.items() if name and cell)
    place = catalogue()("tables.row", file=row.file, row=row.row)
    return AsideLine(place=place, why=said_here(row.why), cells=cells[:300])


def confirm_page(
    opened: OpenFitting, hand: Hand, *, looked: LookedAt, said: MapTyped, address: str,
    taken: TableMap, message: str = "", length: Length | None = None,
) -> ConfirmPage:  # fmt: skip
    """The page that asks what a table means.

    Parameters
    ----------
    opened, hand
        The fitting, and what is in hand.
    looked, said
        The table, and its map as far as it was said.
    address
        Where the answers go.
    taken
        The map with what holds for every row of this file.
    message
        What is wrong with the whole.
    length
        The distance or the board's as it was typed.
    """
    fitting = opened.fitting
    length = length or UNTYPED
    known = known_columns(said.map.table)
    into = {each.into for each in said.map.columns}
    distance = {"putts": "distance_m", "aims": "board_distance_mm"}.get(said.map.table, "")
    clear = not (said.messages or length.message) and not any(
        each.open.sides and not each.target.positive for each in said.columns
    )
    return ConfirmPage(
        heading=heading(fitting), hand=hand, builds=builds_of(fitting), address=address,
        name=looked.name, table=said.map.table, columns=said.columns,
        targets=tuple((name, column.meaning) for name, column in known.items()),
        instrument=said.map.fixed.get("instrument", ""),
        asks_build="build_id" not in into and len(fitting.builds) > 1,
        asks_distance=distance if distance and distance not in into else "",
        preview=_preview(looked, taken, fitting) if clear else None, message=message, length=length,
    )  # fmt: skip


def _preview(looked: LookedAt, table_map: TableMap, fitting: Fitting) -> Preview:
    shop = Shop(
        handed=fitting.golfer.handed,
        builds={build.build_id: build.label or "" for build in fitting.builds},
    )
    try:
        taker = Taker(table_map, shop)
    except Unreadable as trouble:
        return Preview(head=(), rows=(), trouble=beside_field(str(trouble)))
    rows = _first_rows(looked)
    taken = taker.take(chunk_of(rows, width=len(looked.layout.names)))
    known = known_columns(table_map.table)
    head = tuple(_head(known[name].meaning, known[name].unit) for name in taker.columns())
    cells = taken.frame.select(taker.columns()).rows()
    said = tuple(
        (tuple(_cell(cell) for cell in row), said_here(taken.why.get(place, "")))
        for place, row in enumerate(cells)
    )
    return Preview(head=head, rows=said)


def _first_rows(looked: LookedAt) -> list[Row]:
    width = len(looked.layout.names)
    below = [
        (number, cells)
        for number, cells in looked.opened.head
        if number > looked.layout.below and any(c.strip() for c in cells) and not any(cells[width:])
    ]
    return below[:PREVIEWED]


def _head(meaning: str, unit: str | None) -> str:
    return f"{meaning} [{unit}]" if unit else meaning


def _cell(value: object) -> str:
    text = catalogue()
    if value is None:
        return "–"
    if isinstance(value, bool):
        return text("tables.yes" if value else "tables.no")
    return f"{value:.4g}".replace("-", "\N{MINUS SIGN}") if isinstance(value, float) else str(value)
