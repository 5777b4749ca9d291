"""Whole copies of the records as one SQLite file, whatever database they lie in."""

from __future__ import annotations

import os
import secrets
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

from sqlalchemy import Connection, Engine, MetaData, create_engine, insert, literal, select, text

from puttwright.store.steps import upgrade

_ROWS_AT_ONCE: Final = 500


def copy_records(engine: Engine, file: Path, *, source: Path | None) -> None:
    """Copy everything of one moment into ``file``; it is there whole or not at all.

    Parameters
    ----------
    engine
        The records.
    file
        The new file; what was there is replaced.
    source
        Where the records lie, if they are a SQLite file: it is copied page by page.
    """
    part = file.with_name(f".{file.name}.{secrets.token_hex(4)}.part")
    try:
        if source is None:
            _copy_rows(engine, part)
        else:
            with closing(sqlite3.connect(source)) as old, closing(sqlite3.connect(part)) as new:
                old.backup(new)
        make_lasting(part)
        part.replace(file)
        make_lasting(file.parent)
    finally:
        part.unlink(missing_ok=True)


def make_lasting(path: Path) -> None:
    """Have the disk hold a file, or the names in a folder, before going on."""
    flags = os.O_RDWR if path.is_file() else os.O_RDONLY | getattr(os, "O_DIRECTORY", 0)
    if path.is_dir() and not hasattr(os, "O_DIRECTORY"):
        return  # such a system lets no folder be opened
    handle = os.open(path, flags)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def holds_rows(connection: Connection) -> bool:
    """Whether there is anything at all in the tables."""
    found = MetaData()
    found.reflect(connection)
    return any(
        connection.execute(select(literal(1)).select_from(table).limit(1)).first()
        for table in found.sorted_tables
        if table.name != "alembic_version"
    )


def fill_from(file: Path, connection: Connection) -> None:
    """Copy every row of a SQLite file into empty tables of the same revision."""
    engine = create_engine(f"sqlite:///{file}", hide_parameters=True)
    try:
        with engine.connect() as source:
            _rows_over(source, connection)
    finally:
        engine.dispose()
    if connection.dialect.name == "postgresql":
        _count_on(connection)


def _copy_rows(engine: Engine, file: Path) -> None:
    target = create_engine(f"sqlite:///{file}", hide_parameters=True)
    try:
        with engine.connect().execution_options(isolation_level="REPEATABLE READ") as source:
            revision = source.execute(text("SELECT version_num FROM alembic_version")).scalar_one()
            with target.begin() as connection:
                upgrade(connection, to=str(revision))
                _rows_over(source, connection)
    finally:
        target.dispose()


def _rows_over(source: Connection, target: Connection) -> None:
    """Row by row in the order in which rows need each other."""
    found = MetaData()
    found.reflect(target)
    for table in found.sorted_tables:
        if table.name == "alembic_version":
            continue
        rows = source.execution_options(stream_results=True).execute(
            select(table).order_by(*table.primary_key)
        )
        for some in rows.mappings().partitions(_ROWS_AT_ONCE):
            target.execute(insert(table), [dict(row) for row in some])


def _count_on(connection: Connection) -> None:
    """Have PostgreSQL number new rows after those that were copied."""
    found = MetaData()
    found.reflect(connection)
    for table in found.sorted_tables:
        if "id" not in table.c or table.name == "alembic_version":
            continue
        connection.execute(
            text(
                f"SELECT setval(pg_get_serial_sequence('{table.name}', 'id'), "  # noqa: S608
                f"COALESCE((SELECT max(id) FROM {table.name}), 1), "
                f"EXISTS (SELECT 1 FROM {table.name}))"
            )
        )
