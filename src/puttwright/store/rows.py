"""Between a frozen record and a row of a table, by the columns the record declares."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any, TypeVar

from sqlalchemy import Connection, RowMapping, Select, Table, bindparam, insert, select

from puttwright.evidence import columns_of

Record = TypeVar("Record")


def row_of(record: object, *, prefix: str = "") -> dict[str, Any]:
    """The columns of ``record``, and what it holds beside them, as the row that keeps them."""
    kind: Any = type(record)
    row = {prefix + column.name: getattr(record, column.name) for column in columns_of(kind)}
    extra = getattr(record, "extra", None)
    return row if extra is None else row | {prefix + "extra": dict(extra)}


def record_from(row: RowMapping, kind: type[Record], *, prefix: str = "") -> Record:
    """The record a row keeps; columns of the row that the record does not know are left aside."""
    declared: Any = kind
    held = dict(row)  # asking a row for one column after the other takes many times as long
    values = {
        column.name: held[prefix + column.name]
        for column in columns_of(declared)
        if prefix + column.name in held
    }
    if prefix + "extra" in held:
        values["extra"] = held[prefix + "extra"]
    return kind(**values)


def keep_list(
    connection: Connection, table: Table, *, fitting: int, records: Iterable[object]
) -> None:
    """Write the records of a fitting that have an order, in that order."""
    rows = [
        {"fitting": fitting, "position": position, **row_of(record)}
        for position, record in enumerate(records)
    ]
    if rows:
        connection.execute(insert(table), rows)


def list_rows(connection: Connection, table: Table, *, fitting: int) -> list[RowMapping]:
    """The rows of a fitting in their order."""
    return list(connection.execute(_of_fitting(table), {"of": fitting}).mappings())


@cache  # to put a question together takes longer than to answer it
def _of_fitting(table: Table) -> Select[Any]:
    return select(table).where(table.c.fitting == bindparam("of")).order_by(table.c.position)
