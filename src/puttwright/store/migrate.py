"""Bring the tables up to date, in one transaction with its record, after keeping a copy."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from sqlalchemy import URL, Connection, Engine, create_engine, inspect, text

from puttwright.store.copies import copy_records
from puttwright.store.faults import StoreTooNew
from puttwright.store.steps import known_revisions, upgrade

HEAD: Final = "0008"
"""The newest revision in ``migrations/versions``; a test holds it to the scripts."""


def migrate(engine: Engine, *, file: Path | None, where: str, copies: Path | None) -> None:
    """Bring the tables of ``engine`` up to :data:`HEAD`.

    A database that is up to date is left alone. Of older tables a copy is kept
    first. All steps and the record of them are one transaction. Two programs
    that open the same new file at once take turns.

    Parameters
    ----------
    engine
        The database.
    file
        Where it lies, if it is a file.
    where
        Its name for people.
    copies
        The folder for the copy.
    """
    revision = current_revision(engine)
    if revision == HEAD:
        return
    if copies is not None and revision is not None and int(revision) < int(HEAD):
        keep_copy(engine, copies, source=file, revision=revision)
    with engine.connect() as connection:
        if file is not None:
            # rebuilding a table must not cascade into the rows that point at it;
            # SQLite takes this setting only outside a transaction
            _foreign_keys(connection, on=False)
        with connection.execution_options(writes=True).begin():
            _upgrade(connection, where=where)
            _check_relations(connection)
        if file is not None:
            _foreign_keys(connection, on=True)


def current_revision(engine: Engine) -> str | None:
    """Which revision the tables are at; None when there are none yet."""
    with engine.connect() as connection:
        return _revision(connection)


def step_to(file: Path, revision: str) -> None:
    """Bring a file that nobody has open, or that is not there yet, to a revision."""
    engine = create_engine(URL.create("sqlite", database=str(file)), hide_parameters=True)
    try:
        with engine.connect() as connection:
            _foreign_keys(connection, on=False)
            with connection.begin():
                if revision not in known_revisions():
                    raise StoreTooNew(where=file, revision=revision)
                upgrade(connection, to=revision)
    finally:
        engine.dispose()


def revision_of(file: Path) -> str | None:
    """Which revision the tables of a file are at."""
    engine = create_engine(URL.create("sqlite", database=str(file)), hide_parameters=True)
    try:
        return current_revision(engine)
    finally:
        engine.dispose()


def keep_copy(engine: Engine, folder: Path, *, source: Path | None, revision: str) -> Path:
    """Keep a whole copy, named after the revision it is at."""
    folder.mkdir(parents=True, exist_ok=True)
    copy = folder / f"records-before-{HEAD}-at-{revision}.sqlite"
    copy_records(engine, copy, source=source)
    return copy


def _revision(connection: Connection) -> str | None:
    if not inspect(connection).has_table("alembic_version"):
        return None
    found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    return None if found is None else str(found)


def _foreign_keys(connection: Connection, *, on: bool) -> None:
    driver = connection.connection.dbapi_connection
    assert driver is not None
    driver.cursor().execute(f"PRAGMA foreign_keys={'ON' if on else 'OFF'}")


def _check_relations(connection: Connection) -> None:
    if connection.dialect.name != "sqlite":
        return
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
    if broken:
        raise RuntimeError(f"a migration broke relations: {broken[:3]}")


def _upgrade(connection: Connection, *, where: str) -> None:
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(7883)"))
    revision = _revision(connection)  # another program may have been first
    if revision is not None and revision not in known_revisions():
        raise StoreTooNew(where=where, revision=revision)
    upgrade(connection, to="head")
