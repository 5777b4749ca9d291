"""Every row that is kept on a golfer, table by table, found by how the tables hang together.

A table that is added later and belongs to a fitting is found without being named here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from sqlalchemy import Column, Connection, Select, Table, select

from puttwright.store.tables import fitting, golfer_note, metadata

OF_THE_SHOP: Final = frozenset({"shop_part", "shop_setting"})
"""Tables that hold nothing of a golfer."""

Rows = Sequence[Mapping[str, Any]]


def of_golfer(connection: Connection, golfer: str) -> dict[str, Rows]:
    """All rows by table; tables without any are left out."""
    found: dict[str, Rows] = {}
    for name, query in _queries(golfer).items():
        rows = [dict(row) for row in connection.execute(query).mappings()]
        if rows:
            found[name] = rows
    return found


def tables_of_golfer() -> frozenset[str]:
    """The tables that are looked through."""
    return frozenset(_queries(""))


def _queries(golfer: str) -> dict[str, Select[Any]]:
    whole: Select[Any] = select(fitting).where(fitting.c.golfer_key == golfer)
    queries = {fitting.name: whole}
    queries[golfer_note.name] = select(golfer_note).where(golfer_note.c.golfer == golfer)
    for table in metadata.sorted_tables:
        above = None if table.name in queries else _belongs(table, queries)
        if above is not None:
            column, owner = above
            keys = queries[owner].with_only_columns(metadata.tables[owner].c.id)
            queries[table.name] = select(table).where(column.in_(keys))
    return {
        name: query.order_by(*metadata.tables[name].primary_key) for name, query in queries.items()
    }


def _belongs(table: Table, known: Mapping[str, Any]) -> tuple[Column[Any], str] | None:
    """The column that says to what a row belongs, and in which table that stands."""
    if "fitting" in table.c:
        return table.c.fitting, fitting.name
    for column in table.c:
        for key in column.foreign_keys:
            if key.column.name == "id" and key.column.table.name in known:
                return column, key.column.table.name
    return None
