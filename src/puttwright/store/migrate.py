"""Bring the tables up to date, in one transaction with its record, after keeping a copy."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Final

from sqlalchemy import Connection, Engine, inspect, text

from puttwright.store.faults import StoreTooNew

HEAD: Final = "0005"
"""The newest revision in ``migrations/versions``; a test holds it to the scripts."""


def migrate(engine: Engine, *, file: Path | None, where: str) -> None:
    """Bring the tables of ``engine`` up to :data:`HEAD`.

    A database that is up to date is left alone. Of a file with older tables a
    copy is kept beside it first. Two programs that open the same new file at
    once take turns.
    """
    revision = current_revision(engine)
    if revision == HEAD:
        return
    if file is not None and revision is not None:
        keep_copy(file, revision=revision)
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


def keep_copy(file: Path, *, revision: str) -> Path:
    """Keep a whole copy of the file, named after the revision it is at."""
    folder = file.parent / "backups"
    folder.mkdir(exist_ok=True)
    copy = folder / f"{file.stem}-before-{HEAD}-at-{revision}{file.suffix}"
    part = copy.with_suffix(".part")
    with closing(sqlite3.connect(file)) as source, closing(sqlite3.connect(part)) as target:
        source.backup(target)
    part.replace(copy)
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
    # alembic takes a third of a second to import and is not needed on most starts
    from alembic import command  # noqa: PLC0415
    from alembic.config import Config  # noqa: PLC0415
    from alembic.script import ScriptDirectory  # noqa: PLC0415

    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(7883)"))
    config = Config()
    config.set_main_option("script_location", "puttwright.store:migrations")
    config.attributes["connection"] = connection
    revision = _revision(connection)  # another program may have been first
    known = {script.revision for script in ScriptDirectory.from_config(config).walk_revisions()}
    if revision is not None and revision not in known:
        raise StoreTooNew(where=where, revision=revision)
    command.upgrade(config, "head")
