"""The row of a fitting and its revision, which grows with every entry."""

from __future__ import annotations

from typing import Any, Final

from sqlalchemy import Connection, RowMapping, Select, bindparam, select, update

from puttwright.errors import NotFound
from puttwright.store import tables

_ROW: Final[Select[Any]] = select(tables.fitting).where(
    tables.fitting.c.fitting_id == bindparam("called")
)
_HELD_ROW: Final = _ROW.with_for_update()


def row_of_fitting(connection: Connection, fitting_id: str, *, hold: bool = False) -> RowMapping:
    """The row of a fitting; ``hold`` keeps other writers of it waiting until the end.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    query = _HELD_ROW if hold else _ROW
    row = connection.execute(query, {"called": fitting_id}).mappings().first()
    if row is None:
        raise NotFound(what="fitting", name=fitting_id, known="")
    return row


def key_to_write(connection: Connection, fitting_id: str) -> int:
    """The key of the fitting's row, held so that its writers take turns."""
    return int(row_of_fitting(connection, fitting_id, hold=True)["id"])


def key_of(connection: Connection, fitting_id: str) -> int:
    """The key of the fitting's row, to look at what belongs to it."""
    return int(row_of_fitting(connection, fitting_id)["id"])


def touch(connection: Connection, key: int) -> None:
    """Note that something was added to the fitting."""
    table = tables.fitting
    grown = update(table).where(table.c.id == key).values(revision=table.c.revision + 1)
    connection.execute(grown)
