"""Files of readings that were read into fittings, and the rows of them that did not fit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import Connection, RowMapping, delete, insert, select

from puttwright.store import tables, trail
from puttwright.store.trail import Deed

_MOST: Final = 400
"""So many files of a device, the newest, are looked at to know a row again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptFile:
    """A file that was read.

    ``kind``: the table of readings. ``row_keys``: fingerprints of all its rows as eight bytes
    each. ``added``, ``before``, ``aside``: readings from it, rows known before, rows kept aside.
    """

    fitting_id: str
    file: str
    header: str
    entry_key: str
    kind: str
    row_keys: bytes
    added: int
    before: int
    aside: int
    when: datetime
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptAside:
    """A row that did not fit: why, its cells as JSON, the fingerprint of the row."""

    file: str
    header: str
    row: int
    why: str
    cells: str
    row_key: str


def keep(connection: Connection, file: KeptFile, *, key: int) -> None:
    """Note that a file was read into the fitting."""
    values = {name: getattr(file, name) for name in _COLUMNS}
    values |= {"fitting": key, "read_at": file.when, "read_by": file.who}
    connection.execute(insert(tables.file_read).values(values))
    trail.note(connection, Deed.FILE_READ, now=file.when, who=file.who, key=key)


def of_header(connection: Connection, header: str) -> list[KeptFile]:
    """Files with this header that were read into any fitting, as they were read."""
    table = tables.file_read
    query = _query().where(table.c.header == header).order_by(table.c.id.desc()).limit(_MOST)
    return [_kept(row) for row in connection.execute(query).mappings()][::-1]


def of_fitting(connection: Connection, *, key: int) -> list[KeptFile]:
    """Files that were read into the fitting, the newest first."""
    table = tables.file_read
    query = _query().where(table.c.fitting == key).order_by(table.c.id.desc())
    return [_kept(row) for row in connection.execute(query).mappings()]


def find(connection: Connection, *, key: int, entry_key: str) -> KeptFile | None:
    """The file that was read under this key of its sender."""
    table = tables.file_read
    query = _query().where(table.c.fitting == key, table.c.entry_key == entry_key)
    row = connection.execute(query).mappings().first()
    return None if row is None else _kept(row)


def forget(connection: Connection, *, key: int, entry_key: str) -> None:
    """Forget that a file was read."""
    table = tables.file_read
    connection.execute(delete(table).where(table.c.fitting == key, table.c.entry_key == entry_key))


def asides(connection: Connection, *, key: int) -> list[KeptAside]:
    """The rows of files that did not fit."""
    table = tables.row_aside
    query = select(table).where(table.c.fitting == key).order_by(table.c.id)
    return [
        KeptAside(**{name: row[name] for name in _ASIDE_COLUMNS})
        for row in connection.execute(query).mappings()
    ]


def replace_asides(
    connection: Connection, rows: Iterable[KeptAside], *, key: int, header: str
) -> None:
    """Put these in place of the rows kept aside of files with this header."""
    table = tables.row_aside
    connection.execute(delete(table).where(table.c.fitting == key, table.c.header == header))
    values = [{name: getattr(row, name) for name in _ASIDE_COLUMNS} for row in rows]
    if values:
        connection.execute(insert(table), [each | {"fitting": key} for each in values])


_COLUMNS: Final[Sequence[str]] = (
    "file", "header", "entry_key", "kind", "row_keys", "added", "before", "aside"
)  # fmt: skip
_ASIDE_COLUMNS: Final[Sequence[str]] = ("file", "header", "row", "why", "cells", "row_key")


def _query() -> Any:
    table, fitting = tables.file_read, tables.fitting
    return select(table, fitting.c.fitting_id).join(fitting, fitting.c.id == table.c.fitting)


def _kept(row: RowMapping) -> KeptFile:
    return KeptFile(
        fitting_id=row["fitting_id"], when=row["read_at"], who=row["read_by"],
        **{name: row[name] for name in _COLUMNS},
    )  # fmt: skip
