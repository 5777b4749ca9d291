"""Look for damage: broken pages, rows without relations, readings that changed by themselves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from sqlalchemy import URL, Connection, create_engine, func, inspect, select, text
from sqlalchemy.exc import DatabaseError

from puttwright import __version__
from puttwright.evidence.fingerprint import inputs_sha256
from puttwright.store import fittings, readings, tables
from puttwright.store.faults import StoreDamaged
from puttwright.store.migrate import HEAD

_MOST_LINES: Final = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Examined:
    """What the records hold and what is wrong with them, a sentence each."""

    revision: str
    fittings: int
    readings: int
    damage: tuple[str, ...]


def examine_file(file: Path, *, pages_only: bool = False) -> Examined:
    """Examine a file without changing it; older tables are looked at as far as they go."""
    url = URL.create("sqlite", database=f"file:{file}", query={"mode": "ro", "uri": "true"})
    engine = create_engine(url, hide_parameters=True)
    try:
        with engine.connect() as connection:
            return examine(connection, pages_only=pages_only)
    except DatabaseError as error:
        return Examined(revision="", fittings=0, readings=0, damage=(_said(error),))
    finally:
        engine.dispose()


def whole_or_told(file: Path, *, pages_only: bool = False) -> None:
    """Examine a file that must be whole; ``pages_only`` leaves out what takes long in a big one.

    Raises
    ------
    StoreDamaged
        It is not; with the first thing that is wrong.
    """
    found = examine_file(file, pages_only=pages_only)
    if found.damage:
        raise StoreDamaged(where=file, reason=found.damage[0].rstrip("."))


def examine(connection: Connection, *, pages_only: bool = False) -> Examined:
    """Examine the records of a connection."""
    damage = list(_broken_pages(connection))
    if damage:  # what lies on broken pages cannot be looked at row by row
        return Examined(revision="", fittings=0, readings=0, damage=tuple(damage[:_MOST_LINES]))
    revision = _revision(connection)
    if not revision:
        damage = ["The file holds no records: its tables are missing."]
        return Examined(revision="", fittings=0, readings=0, damage=tuple(damage))
    if not pages_only:
        damage += _rows_alone(connection)
    if revision == HEAD and not pages_only:
        damage += _readings_that_changed(connection)
        damage += _decisions_without_ground(connection)
    return Examined(
        revision=revision,
        fittings=_count(connection, "fitting"),
        readings=_count(connection, "reading"),
        damage=tuple(damage[:_MOST_LINES]),
    )


def _revision(connection: Connection) -> str:
    if not inspect(connection).has_table("alembic_version"):
        return ""
    found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
    return str(found or "")


def _said(error: DatabaseError) -> str:
    return f"The database says: {error.orig}."


def _count(connection: Connection, table: str) -> int:
    counted = select(func.count()).select_from(text(table))
    return int(connection.execute(counted).scalar_one())


def _broken_pages(connection: Connection) -> Iterator[str]:
    if connection.dialect.name != "sqlite":
        return  # a database server looks after its own pages
    try:
        for (line,) in connection.exec_driver_sql(f"PRAGMA integrity_check({_MOST_LINES})"):
            if line != "ok":
                yield f"The file is damaged inside: {line}."
    except DatabaseError as error:
        yield _said(error)


def _rows_alone(connection: Connection) -> Iterator[str]:
    if connection.dialect.name == "sqlite":
        broken = connection.exec_driver_sql("PRAGMA foreign_key_check")
        for (table, needed), count in Counter((row[0], row[2]) for row in broken).items():
            yield f"{count} of {table} belong to a {needed} that is not there."
    for kind, (details, _) in readings.TABLES.items():
        table = tables.reading
        bare = (
            select(func.count())
            .select_from(table.outerjoin(details, details.c.reading == table.c.id))
            .where(table.c.kind == kind, details.c.reading.is_(None))
        )
        count = connection.execute(bare).scalar_one()
        if count:
            yield f"{count} of {kind} have lost what was read."


def _readings_that_changed(connection: Connection) -> Iterator[str]:
    named = select(tables.fitting.c.id, tables.fitting.c.fitting_id).order_by(tables.fitting.c.id)
    for key, fitting_id in connection.execute(named).all():
        for kind, seq in readings.changed(connection, key=key):
            yield f"Fitting {fitting_id}: {kind} {seq} is not what was written."


def _decisions_without_ground(connection: Connection) -> Iterator[str]:
    """A decision of this version on all readings must find the inputs it was made from."""
    made, table = tables.decision_made, tables.fitting
    query = (
        select(table.c.fitting_id, made.c.inputs_sha256)
        .join(table, table.c.id == made.c.fitting)
        .where(made.c.revision == table.c.revision, made.c.version == __version__)
    )
    for fitting_id, kept in connection.execute(query).all():
        if inputs_sha256(fittings.load(connection, fitting_id)) != kept:
            yield f"Fitting {fitting_id}: its decision rests on other readings than it now has."
