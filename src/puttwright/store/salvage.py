"""Take out of damaged records what can still be read and what a backup does not hold yet."""

from __future__ import annotations

import json
import sqlite3
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final

from puttwright.store.fingerprints import reading_fingerprint
from puttwright.store.readings import TABLES
from puttwright.store.tables import metadata

_BEYOND: Final = 20_000
"""So many row numbers past the backup's are tried when the newest cannot be asked for."""
_DETAILS: Final = {kind: table.name for kind, (table, _) in TABLES.items()}
_CHANGED_IN_PLACE: Final = {"shop_part": "changed_at", "shop_setting": "changed_at"}

_ENTRIES: Final = """
    SELECT fitting_id, revision,
        (SELECT count(*) FROM reading WHERE reading.fitting = fitting.id)
        + (SELECT count(*) FROM voiding JOIN reading ON reading.id = voiding.reading
           WHERE reading.fitting = fitting.id)
        + (SELECT count(*) FROM build WHERE build.fitting = fitting.id) AS entries
    FROM fitting"""
_GAPS: Final = """
    SELECT max(seq) - min(seq) + 1 - count(*) FROM reading
    JOIN fitting ON fitting.id = reading.fitting
    WHERE fitting_id = ? AND reading.entry_key NOT LIKE 'package:%'"""

Row = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Salvaged:
    """What was added to a backup out of damaged records, and which entries are gone.

    ``gone`` holds how many entries of which fitting were acknowledged after the
    backup and could not be read back.
    """

    added: dict[str, int]
    gone: dict[str, int]

    @property
    def readings(self) -> int:
        """How many readings were added."""
        return self.added.get("reading", 0)


Entries = dict[str, tuple[int, int]]
"""Of each fitting its revision, and how many entries there are: the two grow together."""


def entries_in(records: Path) -> Entries:
    """How many entries a backup holds; none when it is not there."""
    if not records.exists():
        return {}
    with closing(sqlite3.connect(records)) as connection:
        connection.row_factory = sqlite3.Row
        return _entries(connection)


def salvage(damaged: Sequence[Path], restored: Path, *, before: Entries) -> Salvaged:
    """Add to ``restored`` every row of ``damaged`` that is readable, whole and not there yet.

    Parameters
    ----------
    damaged
        Records that cannot be read as a whole, one file or several; they are not changed.
    restored
        A backup that was brought up to date.
    before
        What the backup held, so that what is gone since can be counted.
    """
    added: Counter[str] = Counter()
    with closing(sqlite3.connect(restored)) as target:
        target.row_factory = sqlite3.Row
        target.execute("PRAGMA foreign_keys=ON")
        with target:
            for file in damaged:
                added += _read_out(file, target)
            gone = dict(_gone(target, before=before))
    return Salvaged(added=dict(added), gone=gone)


def _read_out(damaged: Path, target: sqlite3.Connection) -> Counter[str]:
    added: Counter[str] = Counter()
    with closing(sqlite3.connect(f"file:{damaged}?mode=ro", uri=True)) as source:
        source.row_factory = sqlite3.Row
        for table in metadata.sorted_tables:
            if table.name in _DETAILS.values():
                continue  # they come along with their reading
            for row in _readable(source, table.name, known=_newest(target, table.name)):
                added[table.name] += _add(source, target, table=table.name, row=row)
    return added


def _newest(connection: sqlite3.Connection, table: str) -> int:
    query = f"SELECT coalesce(max(id), 0) FROM {table}"  # noqa: S608 - a name of ours
    return int(connection.execute(query).fetchone()[0])


def _readable(source: sqlite3.Connection, table: str, *, known: int) -> Iterator[Row]:
    try:
        last = _newest(source, table)
    except sqlite3.DatabaseError:
        last = known + _BEYOND
    for number in range(1, last + 1):
        row = _row(source, table, key="id", number=number)
        if row is not None:
            yield row


def _row(source: sqlite3.Connection, table: str, *, key: str, number: int) -> Row | None:
    query = f"SELECT * FROM {table} WHERE {key} = ?"  # noqa: S608 - names of ours
    try:
        found = source.execute(query, (number,)).fetchone()
    except sqlite3.DatabaseError:
        return None
    return None if found is None else dict(found)


def _add(source: sqlite3.Connection, target: sqlite3.Connection, *, table: str, row: Row) -> int:
    """Put a row in unless it is there; whether that was done."""
    there = _row(target, table, key="id", number=row["id"])
    if there is not None:
        _bring_up_to_date(target, table, row=row, there=there)
        return 0
    details = None
    if table == "reading":
        details = _whole_details(source, row)
        if details is None:
            return 0
    try:
        _insert(target, table, row=row)
        if details is not None:
            _insert(target, _DETAILS[row["kind"]], row=details)
    except sqlite3.IntegrityError:  # it is there in another form, or what it belongs to is gone
        return 0
    return 1


def _insert(target: sqlite3.Connection, table: str, *, row: Row) -> None:
    names = ", ".join(row)
    places = ", ".join("?" * len(row))
    statement = f"INSERT INTO {table} ({names}) VALUES ({places})"  # noqa: S608 - names of ours
    target.execute(statement, tuple(row.values()))


def _bring_up_to_date(target: sqlite3.Connection, table: str, *, row: Row, there: Row) -> None:
    column = "revision" if table == "fitting" else _CHANGED_IN_PLACE.get(table)
    if column is None or row[column] <= there[column]:
        return
    names = [name for name in row if name != "id"]
    settings = ", ".join(f"{name} = ?" for name in names)
    statement = f"UPDATE {table} SET {settings} WHERE id = ?"  # noqa: S608 - names of ours
    target.execute(statement, (*(row[name] for name in names), row["id"]))


def _whole_details(source: sqlite3.Connection, row: Row) -> Row | None:
    """What was read, if it is what was written."""
    table = TABLES[row["kind"]][0] if row["kind"] in TABLES else None
    details = None
    if table is not None:
        details = _row(source, table.name, key="reading", number=row["id"])
    if table is None or details is None:
        return None
    said = {name: value for name, value in details.items() if name != "reading"}
    for name, value in said.items():
        if value is not None and name in table.c and table.c[name].type.python_type is bool:
            said[name] = bool(value)
    try:
        common = row | {"extra": json.loads(row["extra"])}
        when = datetime.fromisoformat(row["recorded_at"]).replace(tzinfo=UTC)
        whole = reading_fingerprint(common, said, recorded_at=when) == row["fingerprint"]
    except (TypeError, ValueError):
        return None
    return details if whole else None


def _entries(target: sqlite3.Connection) -> Entries:
    return {
        row["fitting_id"]: (row["revision"], row["entries"])
        for row in target.execute(_ENTRIES).fetchall()
    }


def _gone(target: sqlite3.Connection, *, before: Entries) -> Iterator[tuple[str, int]]:
    """Fittings that took more entries since the backup than could be added."""
    for fitting_id, (revision, entries) in _entries(target).items():
        if fitting_id in before:
            revision_then, entries_then = before[fitting_id]
            missing = (revision - revision_then) - (entries - entries_then)
        else:
            missing = target.execute(_GAPS, (fitting_id,)).fetchone()[0] or 0
        if missing > 0:
            yield fitting_id, int(missing)
