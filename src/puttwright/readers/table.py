"""The text of a CSV table to a sheet: known columns read, unknown ones kept, every fault told."""

from __future__ import annotations

import csv
import dataclasses
import difflib
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from puttwright.errors import Fault
from puttwright.evidence.columns import Column, columns_of
from puttwright.evidence.ranges import told
from puttwright.evidence.sheet import Sheet
from puttwright.readers.cells import OF_KIND, Wrong

MOST_COLUMNS: Final = 1000
_OTHER_SEPARATORS: Final = {";": "semicolons", "\t": "tabs"}


@dataclass(frozen=True, slots=True)
class Table:
    """A table as read: the sheet of known columns, and the unknown columns as text."""

    sheet: Sheet
    extra: Mapping[str, Sequence[str]]
    faults: list[Fault]

    def records(self) -> tuple[Any, ...]:
        """The rows as records; to be asked only of a table without faults."""
        defaults = _defaults(self.sheet.record)
        filled = {
            name: [defaults[name] if value is None else value for value in values]
            if defaults.get(name) is not None
            else values
            for name, values in self.sheet.columns.items()
        }
        if self.extra:
            filled["extra"] = _extras(self.extra)
        names = tuple(filled)
        rows = zip(*filled.values(), strict=True)
        return tuple(self.sheet.record(**dict(zip(names, row, strict=True))) for row in rows)


def _defaults(record: type) -> dict[str, Any]:
    return {
        item.name: None if item.default is dataclasses.MISSING else item.default
        for item in dataclasses.fields(record)
    }


def _extras(extra: Mapping[str, Sequence[str]]) -> list[dict[str, str]]:
    names = tuple(extra)
    return [
        {name: cell for name, cell in zip(names, row, strict=True) if cell}
        for row in zip(*extra.values(), strict=True)
    ]


def read_table(text: str, *, table: str, record: type) -> Table:
    r"""Read one CSV table.

    Parameters
    ----------
    text
        The file's text, header line first.
    table
        The file's name, for the faults.
    record
        The record type whose columns the table has.

    Returns
    -------
    Table
        With every fault of the header and of the cells; ranges and what the
        tables say of each other are judged in ``evidence``.

    Examples
    --------
    >>> from puttwright.evidence import Putt
    >>> read = read_table("seq,build_id,distance_m\n1,A,3\n2,A,far\n", table="p", record=Putt)
    >>> print(read.faults[0])
    p, row 3, distance_m: 'far' is not a number; leave the cell empty if it was not measured
    """
    rows, lines, faults = _split(text, table)
    if faults:
        return Table(Sheet(table=table, record=record), {}, faults)
    (_, *rows), (header, *body) = rows, lines
    names, faults = _header(header, table=table, record=record)
    if names:
        faults += _width_faults(body, width=len(header), table=table, rows=rows)
    cells = _columns(body, width=len(header))
    return _typed(names, cells, rows=rows, table=table, record=record, faults=faults)


def _split(text: str, table: str) -> tuple[list[int], list[list[str]], list[Fault]]:
    """The lines that say anything and their spreadsheet rows; the first is the header."""
    lines: list[list[str]] = []
    try:
        lines.extend(csv.reader(io.StringIO(text, newline=""), strict=True))
    except csv.Error as trouble:
        return [], [], [Fault(table, len(lines) + 1, "", _csv_trouble(trouble))]
    rows = [row for row, line in enumerate(lines, 1) if line and _says_anything(line)]
    if not rows:
        text = "has no header line; write one, or delete the file"
        return [], [], [Fault(table, 0, "", text)]
    return rows, lines if len(rows) == len(lines) else [lines[row - 1] for row in rows], []


def _says_anything(line: Sequence[str]) -> bool:
    return bool(line[0].strip() or "".join(line).strip())


def _csv_trouble(trouble: csv.Error) -> str:
    if "limit" in str(trouble):
        return "a cell is longer than any reading; is a quotation mark left open?"
    return "a quotation mark is left open or stands in the middle of a cell"


def _header(
    header: Sequence[str], *, table: str, record: type
) -> tuple[dict[int, str], list[Fault]]:
    """The name of each column by its position, and what is wrong with the header."""
    known = [column.name for column in columns_of(record)]
    stripped = [cell.strip() for cell in header]
    separator = _separator(stripped, known)
    if separator:
        text = f"its columns are separated by {separator}; save it again with commas"
        return {}, [Fault(table, 1, "", text)]
    names: dict[int, str] = {}
    faults = []
    if len(header) > MOST_COLUMNS:
        faults.append(Fault(table, 1, "", f"has more than {MOST_COLUMNS} columns"))
    for position, cell in enumerate(stripped[:MOST_COLUMNS]):
        name = cell.lower() if cell not in known and cell.lower() in known else cell
        if name and name in names.values():
            faults.append(Fault(table, 1, name, "stands twice in the header; keep one"))
        elif name:
            names[position] = name
    return names, faults + _missing(names.values(), table=table, record=record)


def _separator(header: Sequence[str], known: Sequence[str]) -> str | None:
    if len(header) > 2 or any(cell.lower() in known for cell in header):
        return None
    found = [word for mark, word in _OTHER_SEPARATORS.items() if mark in header[0]]
    return found[0] if found else None


def _missing(names: Any, *, table: str, record: type) -> list[Fault]:
    present = list(names)
    faults = []
    for column in columns_of(record):
        if column.required and column.name not in present:
            close = difflib.get_close_matches(column.name, present, n=1, cutoff=0.75)
            hint = f"; is {close[0][:40]!r} meant to be it?" if close else ""
            faults.append(Fault(table, 1, column.name, f"this column is missing{hint}"))
    return faults


def _width_faults(
    body: Sequence[list[str]], *, width: int, table: str, rows: Sequence[int]
) -> list[Fault]:
    hint = "is there a decimal comma, or a comma in a text without quotation marks?"
    wrong = [
        (index, f"has {len(line)} cells, the header has {width}; {hint}")
        for index, line in enumerate(body)
        if len(line) > width and any(line[width:])
    ]
    return told(wrong, table=table, column="", rows=rows)


def _columns(lines: Sequence[list[str]], *, width: int) -> list[Sequence[str]]:
    if not lines:
        return [()] * width
    if set(map(len, lines)) != {width}:
        lines = [(line + [""] * width)[:width] for line in lines]
    return list(zip(*lines, strict=True))


def _typed(
    names: Mapping[int, str],
    cells: Sequence[Sequence[str]],
    *,
    rows: Sequence[int],
    table: str,
    record: type,
    faults: list[Fault],
) -> Table:
    declared = {column.name: column for column in columns_of(record)}
    columns: dict[str, Sequence[Any]] = {}
    extra: dict[str, Sequence[str]] = {}
    for position, name in names.items():
        if name not in declared:
            extra[name] = cells[position]
            continue
        column = declared[name]
        columns[name], wrong = OF_KIND[column.kind](cells[position], column)
        wrong += _gaps(columns[name], wrong, column)
        faults += told(sorted(wrong), table=table, column=name, rows=rows)
    sheet = Sheet(table=table, record=record, columns=columns, rows=rows)
    return Table(sheet, extra, faults)


def _gaps(values: Sequence[Any], wrong: Wrong, column: Column) -> Wrong:
    """The empty cells of a column that every row needs."""
    if not column.required or None not in values:
        return []
    told_already = {index for index, _ in wrong}
    return [
        (index, "is empty; every row needs it")
        for index, value in enumerate(values)
        if value is None and index not in told_already
    ]
