"""A table seen column by column, the shape in which readings are checked.

Checking by columns keeps a hundred thousand putts under a second, and lets the
reader check a table in which some cells could not be read: such a cell is
``None`` here, as one that was not measured.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from puttwright.evidence.columns import Column, columns_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One table: its file name, its columns by name, and the spreadsheet row of each record."""

    table: str
    record: type
    columns: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    rows: Sequence[int] = ()

    def column(self, name: str) -> Sequence[Any]:
        """The values of a column, all ``None`` where the table does not have it."""
        return self.columns.get(name) or (None,) * len(self.rows)

    def declared(self) -> list[tuple[Column, Sequence[Any]]]:
        """The columns the record type declares and this table has, with their values."""
        return [
            (column, self.columns[column.name])
            for column in columns_of(self.record)
            if column.name in self.columns
        ]


def sheet_of(records: Sequence[Any], *, table: str, record: type) -> Sheet:
    """The sheet of records in memory; rows count as they would in a file, from 2.

    Examples
    --------
    >>> from puttwright.evidence import FirstPutt
    >>> sheet = sheet_of([FirstPutt(distance_m=5, per_round=2)], table="x", record=FirstPutt)
    >>> sheet.rows[0], sheet.column("distance_m")
    (2, [5])
    """
    columns = {
        column.name: [getattr(each, column.name) for each in records]
        for column in columns_of(record)
    }
    return Sheet(table=table, record=record, columns=columns, rows=range(2, len(records) + 2))
