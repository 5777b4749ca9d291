"""Keep the journal of a file of records: every transaction stands in it before it is committed."""

from __future__ import annotations

import sqlite3
from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final, cast

from sqlalchemy import Connection, Engine, event

from puttwright.errors import UserError
from puttwright.store import journal
from puttwright.store.journal import Line, Rows
from puttwright.store.tables import metadata

_AT_ONCE: Final = 500
_TOUCHED: Final = "touched"
_CAN_BE_MADE_AGAIN: Final = {"decision_made": "issued_at IS NOT NULL"}
"""What is not journaled: a decision nobody was handed is made again from the readings."""
_TRIGGERS: Final = "".join(
    f"CREATE TEMP TRIGGER journal_{table}_{what} AFTER {what} ON main.{table} "
    f"BEGIN SELECT {_TOUCHED}('{table}', {row}.rowid); END;"
    for table in metadata.tables
    for what, row in (("INSERT", "NEW"), ("UPDATE", "NEW"), ("DELETE", "OLD"))
)


class RecordsGone(UserError):
    """The records {where} are gone, but their journal is there."""

    code = "records-gone"
    exit_code = 1
    http_status = 500
    hint = (
        "puttwright restore brings them back from the newest backup and the journal. To begin "
        "with empty records instead, move the folder records.journal away."
    )


def refuse_if_gone(records: Path) -> None:
    """Look whether records that were there are gone, before new ones are made in their place.

    Raises
    ------
    RecordsGone
        Their journal is there and they are not.
    """
    there = journal.segments(journal.folder_of(records))
    if there and not is_there(records):  # looked at second: it is made before its journal is
        raise RecordsGone(where=records)


def is_there(records: Path) -> bool:
    """Whether a file of records is there and not empty."""
    return records.exists() and records.stat().st_size > 0


def keep_journal(engine: Engine, records: Path, *, new: bool) -> None:
    """Journal every transaction of ``engine`` from now on, which is at the newest tables.

    Parameters
    ----------
    engine
        The records; no connection to them is open.
    records
        Their file.
    new
        Whether they were made just now. Records that were there without a journal
        skip a number: what was written before stands in no line, so no older
        backup may be taken for the journal's beginning.
    """
    folder = journal.folder_of(records)

    @event.listens_for(engine, "connect")
    def on_connect(connection: Any, record: Any) -> None:
        touched: set[tuple[str, int]] = set()
        record.info[_TOUCHED] = touched
        connection.create_function(_TOUCHED, 2, lambda table, key: touched.add((table, key)))
        connection.executescript(_TRIGGERS)

    @event.listens_for(engine, "begin")
    def on_begin(connection: Connection) -> None:
        connection.info[_TOUCHED].clear()

    @event.listens_for(engine, "commit")
    def on_commit(connection: Connection) -> None:
        if connection.info[_TOUCHED]:
            _note(connection, folder)

    if not journal.segments(folder):
        with engine.execution_options(writes=True).begin() as connection:
            if not journal.segments(folder):  # another program may have been first
                _begin(connection, folder, new=new)


def begin_after_backup(connection: Connection, folder: Path) -> None:
    """Begin the next file of the journal, so that a later backup lets go of this one.

    Parameters
    ----------
    connection
        A transaction that writes: meanwhile nobody adds a line.
    folder
        The journal's.
    """
    there = journal.segments(folder)
    if there and there[-1].file.stat().st_size:
        journal.begin(folder, after=number_in(connection))


def number_in(connection: Connection) -> int:
    """The number of the newest transaction in the records."""
    return int(connection.exec_driver_sql("PRAGMA user_version").scalar_one())


def number_in_file(records: Path) -> int:
    """The number of the newest transaction in a copy of the records; 0 when it has none."""
    with records.open("rb") as stream:
        return int.from_bytes(stream.read(64)[60:64])


def _begin(connection: Connection, folder: Path, *, new: bool) -> journal.Segment:
    after = number_in(connection)
    if not new:
        after += 1
        connection.exec_driver_sql(f"PRAGMA user_version = {after}")
    return journal.begin(folder, after=after)


def _note(connection: Connection, folder: Path) -> None:
    """Write what a transaction did into the journal, and its number into the records."""
    there = journal.segments(folder)
    segment = there[-1] if there else _begin(connection, folder, new=False)
    driver = cast("sqlite3.Connection", connection.connection.dbapi_connection)
    number = int(driver.execute("PRAGMA user_version").fetchone()[0]) + 1
    driver.execute(f"PRAGMA user_version = {number}")
    revision = driver.execute("SELECT version_num FROM alembic_version").fetchone()[0]
    by_table: dict[str, list[int]] = defaultdict(list)
    for table, key in sorted(connection.info[_TOUCHED]):
        by_table[table].append(key)
    rows = {table: rows_now(driver, table, keys=keys) for table, keys in by_table.items()}
    journal.append(segment, Line(number=number, revision=revision, tables=rows))


def rows_now(connection: sqlite3.Connection, table: str, *, keys: Sequence[int]) -> Rows:
    """The rows of a table that have these keys, and the keys that nobody has."""
    columns: tuple[str, ...] = ()
    found: dict[int, tuple[Any, ...]] = {}
    also = _CAN_BE_MADE_AGAIN.get(table, "TRUE")
    for start in range(0, len(keys), _AT_ONCE):
        some = keys[start : start + _AT_ONCE]
        places = ",".join("?" * len(some))
        query = f"SELECT rowid, * FROM {table} WHERE rowid IN ({places}) AND {also}"  # noqa: S608
        cursor = connection.execute(query, some)
        columns = tuple(each[0] for each in cursor.description[1:])
        found |= {row[0]: tuple(row[1:]) for row in cursor}
    gone = tuple(key for key in keys if key not in found)
    return Rows(columns=columns, rows=tuple(found.values()), gone=gone)
