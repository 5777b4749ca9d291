"""Take the journal into a backup, so that it holds what was written since."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from puttwright.errors import UserError
from puttwright.store import journal
from puttwright.store.journal import Line, Told
from puttwright.store.journaling import is_there, number_in_file, rows_now
from puttwright.store.migrate import HEAD, revision_of, step_to


class RecordsBehind(UserError):
    """The records in {where} end {entries} entries before their journal does."""

    code = "records-behind"
    exit_code = 1
    http_status = 500
    hint = (
        "puttwright restore takes in what is missing. To go on with older records instead, move "
        "the folder records.journal away."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Replayed:
    """What the journal gave.

    ``whole`` says that it holds everything since the backup; ``reaches`` that it
    goes back to it at all, and nothing was taken in otherwise. ``torn`` and
    ``unreadable`` are those of :class:`puttwright.store.journal.Told`.
    """

    reaches: bool
    whole: bool = False
    lines: int = 0
    readings: int = 0
    torn: bool = False
    unreadable: int = 0


def replay(told: Told, records: Path) -> Replayed:
    """Take every line in that a copy does not hold yet.

    Parameters
    ----------
    told
        The journal.
    records
        A backup nobody has open; made when it is not there and the journal goes back to
        the very beginning. It is at the tables of the newest line afterwards.

    Raises
    ------
    StoreTooNew
        A newer version of this program wrote a line.
    """
    held = number_in_file(records) if records.exists() else 0
    lines = [line for line in told.lines if line.number > held]
    if told.after is None or told.after > held:
        return Replayed(reaches=False, torn=told.torn, unreadable=told.unreadable)
    if not records.exists():
        step_to(records, lines[0].revision if lines else HEAD)
    before = _readings(records)
    for revision, some in _by_revision(lines):
        if revision_of(records) != revision:
            step_to(records, revision)
        _take_in(records, some)
    return Replayed(
        reaches=True,
        whole=not told.unreadable,
        lines=len(lines),
        readings=_readings(records) - before,
        torn=told.torn,
        unreadable=told.unreadable,
    )


def catch_up(records: Path) -> None:
    """Take in the one line that a kill may leave between the journal and the records.

    Somebody may have been told of it: its transaction can have been lost with the end of
    the log of writes.

    Raises
    ------
    RecordsBehind
        The journal is ahead by more than that.
    """
    folder = journal.folder_of(records)
    last = journal.last_number(folder)
    if last is None or not is_there(records):
        return
    with closing(sqlite3.connect(records, isolation_level=None)) as target:
        if last <= _number(target):
            return
        target.execute("PRAGMA foreign_keys=OFF")
        target.execute("BEGIN IMMEDIATE")  # whoever was writing that line is done
        told, number = journal.read(folder), _number(target)
        if told.last is not None and told.last > number + 1:
            raise RecordsBehind(where=records, entries=told.last - number)
        missing = [line for line in told.lines if line.number > number]
        if missing and missing[0].revision == _revision(target):
            _put_lines(target, missing)
        target.execute("COMMIT")


def _number(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _revision(connection: sqlite3.Connection) -> str:
    return str(connection.execute("SELECT version_num FROM alembic_version").fetchone()[0])


def differing(told: Told, connection: sqlite3.Connection, *, revision: str) -> Iterator[str]:
    """The tables with rows that are not what the journal says of them, as ``table: count``."""
    newest: dict[str, dict[int, tuple[object, ...] | None]] = {}
    held = _number(connection)
    for line in told.lines:
        if line.revision != revision or line.number > held:
            continue
        for table, said in line.tables.items():
            of_table = newest.setdefault(table, {})
            of_table |= {int(row[0] or 0): row for row in said.rows}
            of_table |= dict.fromkeys(said.gone)
    for table, wanted in newest.items():
        there = {int(row[0] or 0): row for row in
                 rows_now(connection, table, keys=sorted(wanted)).rows}  # fmt: skip
        wrong = sum(there.get(key) != row for key, row in wanted.items())
        if wrong:
            yield f"{table}: {wrong}"


def _by_revision(lines: list[Line]) -> Iterator[tuple[str, list[Line]]]:
    start = 0
    for place, line in enumerate(lines):
        if line.revision != lines[start].revision:
            yield lines[start].revision, lines[start:place]
            start = place
    if lines:
        yield lines[start].revision, lines[start:]


def _take_in(records: Path, lines: list[Line]) -> None:
    with closing(sqlite3.connect(records, isolation_level=None)) as target:
        target.execute("PRAGMA foreign_keys=OFF")  # within a line rows stand in any order
        target.execute("BEGIN IMMEDIATE")
        _put_lines(target, lines)
        _drop_what_lost_its_ground(target)
        target.execute("COMMIT")


def _put_lines(target: sqlite3.Connection, lines: list[Line]) -> None:
    for line in lines:
        for table, said in line.tables.items():
            _put(target, table, columns=said.columns, rows=said.rows)
            gone = f"DELETE FROM {table} WHERE rowid = ?"  # noqa: S608 - a name of ours
            target.executemany(gone, ((key,) for key in said.gone))
    target.execute(f"PRAGMA user_version = {lines[-1].number}")


def _put(
    target: sqlite3.Connection, table: str, *, columns: tuple[str, ...],
    rows: tuple[tuple[object, ...], ...],
) -> None:  # fmt: skip
    if rows:
        names = ", ".join(f'"{name}"' for name in columns)
        places = ", ".join("?" * len(columns))
        statement = f"INSERT OR REPLACE INTO {table} ({names}) VALUES ({places})"  # noqa: S608
        target.executemany(statement, rows)


def _drop_what_lost_its_ground(target: sqlite3.Connection) -> None:
    """A line that could not be read may have held what later rows belong to."""
    while alone := target.execute("PRAGMA foreign_key_check").fetchall():
        for table, key in {(row[0], row[1]) for row in alone}:
            target.execute(f"DELETE FROM {table} WHERE rowid = ?", (key,))  # noqa: S608


def _readings(records: Path) -> int:
    with closing(sqlite3.connect(records)) as connection:
        return int(connection.execute("SELECT count(*) FROM reading").fetchone()[0])
