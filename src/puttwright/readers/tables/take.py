"""Rows of text cells to readings, by a map: what fits is taken, what does not is told with why."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, cast

from puttwright.evidence import Column
from puttwright.evidence.ranges import outside, unfit
from puttwright.evidence.sheet import Sheet
from puttwright.evidence.tables import row_troubles
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.header import once
from puttwright.readers.tables.numbers import How, is_empty, numbers
from puttwright.readers.tables.opened import Chunk
from puttwright.readers.tables.sides import SIDES, signs_of
from puttwright.readers.tables.table_map import RECORDS, TableMap, Target, known_columns
from puttwright.readers.tables.words import words

if TYPE_CHECKING:
    import polars as pl

Troubles = dict[int, list[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What the rows are read against: the golfer's hand, and the builds, label by id."""

    handed: str
    builds: Mapping[str, str]

    def build_names(self) -> dict[str, str]:
        """Every way to write a build, in lower case, to its id."""
        labels = {label.lower(): build_id for build_id, label in self.builds.items() if label}
        return labels | {build_id.lower(): build_id for build_id in self.builds}


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """Readings in our columns, whether each row fits, and by place in the chunk why it does not."""

    frame: pl.DataFrame
    fits: pl.Series
    why: Mapping[int, str]


class Taker:
    """Takes the rows of one file by its map."""

    def __init__(self, table_map: TableMap, shop: Shop) -> None:
        self.map = table_map
        self.shop = shop
        self.known = known_columns(table_map.table)
        self.places = {each.into: n for n, each in enumerate(table_map.columns) if each.into}
        self._refuse_lacking()

    def _refuse_lacking(self) -> None:
        filled = set(self.places) | set(self.map.fixed)
        for name, column in self.known.items():
            if column.required and name not in filled:
                raise Unreadable(
                    f"has no column for {name} ({column.meaning}); give it in the map under [fixed]"
                    f"{_OPTIONS.get(name, '')}"
                )

    def columns(self) -> tuple[str, ...]:
        """Our columns that the rows fill, in our order."""
        filled = set(self.places) | set(self.map.fixed)
        return tuple(name for name in self.known if name in filled)

    def extras(self) -> dict[int, str]:
        """The columns that are kept as they stand: a name that is none of ours, by place."""
        ours = {column.name for column in known_columns(self.map.table).values()}
        reserved = ours | {"seq", "block", "void"}
        told: set[str] = set()
        return {
            place: once(
                f"{each.header} (file)" if each.header.lower() in reserved else each.header, told
            )
            for place, each in enumerate(self.map.columns) if not each.into
        }  # fmt: skip

    def plain_numbers(self) -> tuple[int, ...]:
        """The places of columns that are numbers, written with a point if with any mark."""
        if self.map.decimal_comma:
            return ()
        return tuple(
            place for name, place in self.places.items() if self.known[name].kind == "number"
        )

    def take(self, chunk: Chunk) -> Taken:
        """Convert and judge the rows of a chunk."""
        import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

        troubles: Troubles = {}
        columns = []
        for name in self.columns():
            values, wrong = self._column(name, chunk.frame)
            said = self.map.columns[self.places[name]].header if name in self.places else name
            for place, why in wrong:
                troubles.setdefault(place, []).append(f"{said}: {why}")
            columns.append(values.alias(name))
        frame = pl.DataFrame(columns)
        self._judge_together(frame, troubles)
        for place in self._nothing_measured(frame):
            troubles.setdefault(place, ["says nothing that was measured"])
        kept = [chunk.frame[str(place)].alias(name) for place, name in self.extras().items()]
        for cells in kept:
            for place in _too_long(cells):
                why = f"{cells.name}: holds more than {LONGEST_CELL} bytes"
                troubles.setdefault(place, []).append(why)
        fits = pl.Series([True]).new_from_index(0, len(frame))
        fits = fits.scatter(sorted(troubles), False) if troubles else fits
        told = {place: "; ".join(each) for place, each in troubles.items()}
        return Taken(frame=frame.with_columns(kept), fits=fits, why=told)

    def _column(self, name: str, frame: pl.DataFrame) -> tuple[pl.Series, list[tuple[int, str]]]:
        import polars as pl  # noqa: PLC0415 - as above

        column = self.known[name]
        if name in self.places:
            target = self.map.columns[self.places[name]]
            values, wrong = self._typed(frame[str(self.places[name])], column, target)
        else:
            target = Target(header=name, into=name, unit=column.unit)
            one = pl.Series([self.map.fixed[name]], dtype=pl.String)
            fixed, wrong = self._typed(one, column, target)
            values = fixed.new_from_index(0, len(frame))
            wrong = [(place, why) for _, why in wrong for place in range(len(frame))]
        if column.required:
            told = {place for place, _ in wrong}
            gaps = values.is_null().arg_true()
            wrong = [*wrong, *((place, "is empty") for place in gaps if place not in told)]
        return values, wrong

    def _typed(
        self, cells: pl.Series, column: Column, target: Target
    ) -> tuple[pl.Series, list[tuple[int, str]]]:
        if column.kind in ("number", "count"):
            values, wrong = numbers(cells, self._how(column, target))
            return values, [*wrong, *_out_of_range(values, column)]
        if column.kind == "yes_no":
            values, wrong = _translated(cells, _yes_no(), "is neither yes nor no")
            return values.fill_null(value=False) if target.empty == "no" else values, wrong
        if column.name == "build_id":
            names = self.shop.build_names()
            return _translated(cells, names, "is not a build of this fitting, by id or label")
        return _texts(cells, column)

    def _how(self, column: Column, target: Target) -> How:
        sides = signs_of(column.name, handed=self.shop.handed)
        sign = sides.get(target.positive, 1) if column.name in SIDES else 1
        return How(
            unit=target.unit or column.unit, column_unit=column.unit, sign=sign, sides=sides,
            comma=self.map.decimal_comma,
        )  # fmt: skip

    def _nothing_measured(self, frame: pl.DataFrame) -> list[int]:
        """Rows that only say which putter and how far."""
        measured = [name for name in self.columns() if name not in _NOT_MEASURED]
        if not measured or not frame[measured[0]].null_count():
            return []
        empty = frame[measured[0]].is_null()
        for name in measured[1:]:
            empty &= frame[name].is_null()
        return empty.arg_true().to_list()

    def _judge_together(self, frame: pl.DataFrame, troubles: Troubles) -> None:
        """What the values of a row say of each other; pulled out of the frame only if needed."""
        needs = set(_TOGETHER.get(self.map.table, ())) & set(frame.columns)
        if not needs:
            return
        columns = {
            name: frame[name].to_list() for name in {*needs, "distance_m"} & {*frame.columns}
        }
        sheet = Sheet(
            table=self.map.table, record=RECORDS[self.map.table], columns=columns,
            rows=range(len(frame)),
        )  # fmt: skip
        for column, wrong in row_troubles(self.map.table, sheet):
            for place, why in wrong:
                troubles.setdefault(place, []).append(f"{column}: {why}")


LONGEST_CELL: Final = 10_000
"""More, in a column that is kept as it stands, is no word of a device."""
_NOT_MEASURED: Final = frozenset(
    {"build_id", "distance_m", "board_distance_mm", "mirror", "instrument", "note", "posture_note"}
)
_TOGETHER: Final = {"putts": ("stop_past_m", "stop_right_m")}
_OPTIONS: Final = {
    "build_id": ", or with --build",
    "distance_m": ", or with --distance-m",
}


def _out_of_range(values: pl.Series, column: Column) -> list[tuple[int, str]]:
    low = -math.inf if column.low is None else column.low
    high = math.inf if column.high is None else column.high
    ends = cast("Sequence[float | None]", (values.min(), values.max()))  # none of them is nan
    if all(end is None or low <= end <= high for end in ends):
        return []
    places = ((values < low) | (values > high)).fill_null(value=False).arg_true()
    judged = zip(places, values.gather(places), strict=True)
    return [(place, why) for place, value in judged if (why := outside(value, column))]


def _too_long(cells: pl.Series) -> list[int]:
    sizes = cells.str.len_bytes()
    longest = cast("int | None", sizes.max())
    return (sizes > LONGEST_CELL).arg_true().to_list() if (longest or 0) > LONGEST_CELL else []


def _yes_no() -> Mapping[str, bool]:
    said = words()["yes_no"]
    return dict.fromkeys(said["no"], False) | dict.fromkeys(said["yes"], True)


def _translated(
    cells: pl.Series, meant: Mapping[str, object], why: str
) -> tuple[pl.Series, list[tuple[int, str]]]:
    import polars as pl  # noqa: PLC0415 - as above

    kind = pl.Boolean if isinstance(next(iter(meant.values()), ""), bool) else pl.String
    plain = {cell: cell.strip() for cell in cells.unique() if cell is not None}
    known = {cell: meant[text.lower()] for cell, text in plain.items() if text.lower() in meant}
    if kind == pl.Boolean and len(known) == len(plain) and not cells.null_count():
        return cells.is_in([cell for cell, value in known.items() if value]), []
    values = cells.replace_strict(
        list(known), list(known.values()), default=None, return_dtype=kind
    )  # fmt: skip
    strange = {cell for cell, text in plain.items() if cell not in known and not is_empty(text)}
    if not strange:
        return values, []
    places = cells.is_in(list(strange)).arg_true()
    return values, [(place, f"{plain[cells[place]][:40]!r} {why}") for place in places]


def _texts(cells: pl.Series, column: Column) -> tuple[pl.Series, list[tuple[int, str]]]:
    plain = cells.fill_null("").str.strip_chars()
    wrong = {text: why for text in plain.unique() if text and (why := unfit(text, column))}
    values = plain.replace("", None)
    if not wrong:
        return values, []
    places = plain.is_in(list(wrong)).arg_true()
    return values, [(place, wrong[plain[place]]) for place in places]
