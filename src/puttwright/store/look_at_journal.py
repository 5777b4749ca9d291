"""Look whether the journal is whole, goes as far as the records and says what they say."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from puttwright.store import journal
from puttwright.store.journal import Told
from puttwright.store.replay import differing


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """What a journal holds, what is wrong with it, and what is worth a word, a sentence each.

    ``records_wrong`` says that the records are not what it says of them.
    """

    folder: Path
    lines: int = 0
    damage: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    records_wrong: bool = False


def look_at_journal(records: Path, *, revision: str | None) -> Looked:
    """Look at the journal of a file of records; nothing is changed.

    Parameters
    ----------
    records
        The file.
    revision
        Of its tables, to hold its rows to those of the journal; None when it is
        damaged itself.
    """
    folder = journal.folder_of(records)
    if not journal.segments(folder):
        note = f"No journal lies in {folder}; it begins when the records are next opened."
        return Looked(folder=folder, notes=(note,))
    if revision is None:
        return _looked(journal.read(folder), damage=[], folder=folder)
    with closing(sqlite3.connect(f"file:{records}?mode=ro", uri=True)) as connection:
        connection.execute("BEGIN")
        number = int(connection.execute("PRAGMA user_version").fetchone()[0])
        told = journal.read(folder)  # second: it has all that these records hold
        damage = list(_behind(told, records))
        early = number - (told.last or 0)
        if early <= 0 and not told.unreadable:  # otherwise what it says of a row may be old
            damage += [
                f"Rows that are not what the journal says: {each}."
                for each in differing(told, connection, revision=revision)
            ]
        wrong = bool(damage)
        if early > 0:
            damage.append(f"The journal in {folder} ends {early} entries too early.")
    return _looked(told, damage=damage, folder=folder, wrong=wrong)


def _behind(told: Told, records: Path) -> Iterator[str]:
    """The log of writes may have lost its end; a line more is one that is just being written."""
    with closing(sqlite3.connect(f"file:{records}?mode=ro", uri=True)) as connection:
        number = int(connection.execute("PRAGMA user_version").fetchone()[0])
    if told.last is not None and told.last > number + 1:
        yield f"The records end {told.last - number} entries before their journal does."


def _looked(told: Told, *, damage: list[str], folder: Path, wrong: bool = False) -> Looked:
    notes = []
    if told.unreadable:
        damage.append(
            f"Unreadable lines of the journal in {folder}: {told.unreadable}. A backup taken now "
            "holds what they held: puttwright backup"
        )
    if told.torn:
        notes.append(
            f"The last line of the journal in {folder} was cut off as it was written and is "
            "passed over; its entry was never acknowledged."
        )
    return Looked(
        folder=folder,
        lines=len(told.lines),
        damage=tuple(damage),
        notes=tuple(notes),
        records_wrong=wrong,
    )
