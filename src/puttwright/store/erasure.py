"""Erase fittings so that no byte of them is left, in records and in copies of them."""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Iterable, Sequence
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Final

from sqlalchemy import delete, select

from puttwright.store import journal, journaling, tables, trail
from puttwright.store.copies import make_lasting
from puttwright.store.open_store import Store
from puttwright.store.trail import Deed

LIST: Final = "erased.txt"
"""Lies beside the backups: fingerprints of the ids of erased fittings, so that none comes back."""
_HAS_NOTES: Final = "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'golfer_note'"
_NOBODYS_NOTES: Final = (
    "DELETE FROM golfer_note WHERE golfer NOT IN (SELECT golfer_key FROM fitting)"
)
_CHECKPOINT: Final = "PRAGMA wal_checkpoint(TRUNCATE)"


def erase(store: Store, fitting_ids: Sequence[str], *, now: datetime, who: str) -> bool:
    """Delete fittings with all that belongs to them, wipe their bytes and empty the log of writes.

    The notes on a golfer go with the last of their fittings. The journal begins anew: what it
    held stands in the records alone until the next backup. The trail keeps that
    somebody erased something, under a mark from which nobody reads a name.

    Returns
    -------
    bool
        False when another program was looking at the records, so that their
        bytes leave the log of writes only when that one lets go.
    """
    with store.writing() as transaction:
        gone = tables.fitting.c.fitting_id.in_(fitting_ids)
        transaction.execute(delete(tables.fitting).where(gone))
        nobodys = tables.golfer_note.c.golfer.not_in(select(tables.fitting.c.golfer_key))
        transaction.execute(delete(tables.golfer_note).where(nobodys))
        for each in fitting_ids:
            trail.note(transaction, Deed.ERASED, now=now, who=who, about=mark_of(each)[:12])
    store.outside("VACUUM")
    if store.journal is not None:
        with store.writing() as transaction:
            journal.forget(store.journal, after=journaling.number_in(transaction))
    if store.file is None:
        return True
    store.outside(_CHECKPOINT)
    log = store.file.with_name(store.file.name + "-wal")
    return not log.exists() or log.stat().st_size == 0


def held_in(file: Path, marks: Iterable[str]) -> list[str] | None:
    """The ids of the fittings in a copy whose mark is among ``marks``; None when it is damaged."""
    wanted = set(marks)
    with closing(sqlite3.connect(f"file:{file}?{_mode(file)}", uri=True)) as connection:
        try:
            ids = [row[0] for row in connection.execute("SELECT fitting_id FROM fitting")]
        except sqlite3.DatabaseError:
            return None
    return [fitting_id for fitting_id in ids if mark_of(fitting_id) in wanted]


def _mode(file: Path) -> str:
    """A copy without a log of writes is looked at without leaving anything beside it."""
    log = file.with_name(file.name + "-wal")
    return "mode=ro" if log.exists() else "immutable=1"


def erase_from_file(file: Path, fitting_ids: Sequence[str]) -> bool:
    """Erase fittings from a copy that nobody has open; False when it is too damaged for that."""
    try:
        _erase_from(file, fitting_ids)
    except sqlite3.DatabaseError:
        return False
    make_lasting(file)
    return True


def _erase_from(file: Path, fitting_ids: Sequence[str]) -> None:
    with closing(sqlite3.connect(file, isolation_level=None)) as connection:
        for pragma in ("foreign_keys=ON", "secure_delete=ON", "journal_mode=DELETE"):
            connection.execute(f"PRAGMA {pragma}")
        connection.executemany(
            "DELETE FROM fitting WHERE fitting_id = ?", [(each,) for each in fitting_ids]
        )
        if connection.execute(_HAS_NOTES).fetchone():
            connection.execute(_NOBODYS_NOTES)
        connection.execute("VACUUM")


def mark_of(fitting_id: str) -> str:
    """What stands for an erased fitting: nobody reads a name in it."""
    return hashlib.sha256(fitting_id.encode()).hexdigest()


def note_erased(folder: Path, fitting_ids: Iterable[str]) -> None:
    """Write down that these must not come back with a backup."""
    folder.mkdir(parents=True, exist_ok=True)
    known = erased_in(folder)
    with (folder / LIST).open("a", encoding="utf-8") as stream:
        for fitting_id in fitting_ids:
            if mark_of(fitting_id) not in known:
                stream.write(mark_of(fitting_id) + "\n")
    make_lasting(folder / LIST)


def erased_in(folder: Path) -> frozenset[str]:
    """The marks of every fitting that was erased."""
    file = folder / LIST
    return frozenset(file.read_text(encoding="utf-8").split()) if file.exists() else frozenset()


def of_same_golfer(store: Store, fitting_id: str) -> list[str]:
    """The ids of every fitting of the golfer of this one."""
    table = tables.fitting
    with store.reading() as look:
        golfer = select(table.c.golfer_key).where(table.c.fitting_id == fitting_id)
        query = select(table.c.fitting_id).where(table.c.golfer_key.in_(golfer))
        return list(look.execute(query.order_by(table.c.created_at)).scalars())
