"""Put a backup in the place of lost or damaged records, with what can still be read of those."""

from __future__ import annotations

import secrets
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from puttwright.deeds.bootstrap import RECORDS, Clock
from puttwright.errors import NotAllowed, NotFound, UserError
from puttwright.store import backups, erasure, journal, open_store
from puttwright.store.copies import fill_from, holds_rows, make_lasting
from puttwright.store.examine import examine_file, whole_or_told
from puttwright.store.faults import faults_told
from puttwright.store.journal import Told
from puttwright.store.look_at_journal import look_at_journal
from puttwright.store.migrate import HEAD
from puttwright.store.replay import Replayed, replay
from puttwright.store.salvage import Entries, Salvaged, entries_in, salvage

_BESIDE: Final = ("", "-wal", "-shm")
_DAMAGED, _ASIDE = "records-damaged-", "records-aside-"
ASIDE_FILES: Final = (f"{_DAMAGED}*.sqlite", f"{_ASIDE}*.sqlite")
"""What a restore set aside, in the data folder."""
ASIDE_JOURNALS: Final = "records-*-*.journal"


class RecordsInUse(UserError):
    """The records in {where} are in use."""

    code = "records-in-use"
    exit_code = 1
    hint = "Stop the pages (Ctrl+C where puttwright serve runs) and try again."


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """What lies where now.

    ``sha256`` is that of the backup, and of the file that was written from it
    before anything was added; ``backup`` is None when there was none and all
    that is there comes out of the journal or was read out of the damaged file.
    """

    where: str
    backup: Path | None
    sha256: str
    aside: Path | None = None
    replayed: Replayed | None = None
    salvaged: Salvaged | None = None
    left_out: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What to restore and where to; the newest whole backup unless one is named."""

    folder: Path
    backup_folder: Path
    backup: Path | None = None
    database: str | None = None


def restore_records(wanted: Wanted, *, clock: Clock) -> Restored:
    """Restore the records of a folder, or fill an empty database.

    What was written since the backup is taken from the journal. Damaged records are
    set aside, never deleted; where the journal is not whole, what they hold beyond
    the backup is added as far as it is readable and what was written. Fittings
    that were erased after the backup do not come back.

    Raises
    ------
    NotAllowed
        The records are whole and no backup was named; the database is not empty.
    NotFound
        There is no backup and nothing to read either.
    RecordsInUse, BackupChanged, StoreDamaged, CannotWrite
        It cannot be done; what was there is as it was.
    """
    with faults_told(str(wanted.folder)):
        if wanted.database is not None:
            return _into_database(wanted)
        return _into_folder(wanted, clock=clock)


def _into_folder(wanted: Wanted, *, clock: Clock) -> Restored:
    file = wanted.folder / RECORDS
    _refuse_in_use(file)
    damaged = _to_read_out(wanted)
    told = _journal_of(file, damaged)
    backup, digest = _chosen(wanted, needed=not damaged and told.after != 0)
    wanted.folder.mkdir(parents=True, exist_ok=True)
    with _part(file) as part:
        if backup is not None:
            shutil.copyfile(backup, part)
            if backups.sha256_of(part) != digest:
                raise backups.BackupChanged(file=backup)
        before = entries_in(part)
        replayed = replay(told, part) if told.after is not None else None
        whole = replayed is not None and replayed.whole
        salvaged = None if whole else _read_out(damaged, part, before=before)
        left_out = _leave_out_erased(part, wanted.backup_folder)
        whole_or_told(part)
        make_lasting(part)
        name = f"{_DAMAGED if damaged else _ASIDE}{clock():%Y%m%d-%H%M%S}"
        aside = _set_aside(file, name=f"{name}.sqlite")
        if not whole:  # what lies here now is not what the journal goes on from
            journal.set_aside(journal.folder_of(file), name=f"{name}.journal")
        part.replace(file)
        make_lasting(file.parent)
    return Restored(
        where=str(file), backup=backup, sha256=digest, aside=aside, replayed=replayed,
        salvaged=salvaged, left_out=left_out,
    )  # fmt: skip


def _into_database(wanted: Wanted) -> Restored:
    backup, digest = _chosen(wanted, needed=True)
    assert backup is not None
    store = open_store(wanted.database or "")
    try:
        with _part(wanted.folder / RECORDS) as part:
            shutil.copyfile(backup, part)
            left_out = _leave_out_erased(part, wanted.backup_folder)
            open_store(part, journaled=False).close()  # brought up to the tables of today
            with store.writing() as transaction:
                if holds_rows(transaction):
                    raise NotAllowed(what=f"{store.where} holds records already; give an empty one")
                fill_from(part, transaction)
        return Restored(where=store.where, backup=backup, sha256=digest, left_out=left_out)
    finally:
        store.close()


@contextmanager
def _part(file: Path) -> Iterator[Path]:
    part = file.with_name(f".{file.name}.{secrets.token_hex(4)}.part")
    try:
        yield part
    finally:
        for ending in _BESIDE:
            part.with_name(part.name + ending).unlink(missing_ok=True)


def _refuse_in_use(file: Path) -> None:
    """Leaving WAL takes the file for oneself, which fails while another program has it open."""
    if not file.exists():
        return
    try:
        with closing(sqlite3.connect(file, timeout=0.2)) as connection:
            connection.execute("PRAGMA journal_mode=DELETE")
            connection.execute("PRAGMA journal_mode=WAL")
    except sqlite3.DatabaseError as error:
        if "locked" in str(error):
            raise RecordsInUse(where=file) from error


def _to_read_out(wanted: Wanted) -> list[Path]:
    """The damaged records, and those set aside by a restore that may have been cut off."""
    file = wanted.folder / RECORDS
    aside = sorted(wanted.folder.glob(f"{_DAMAGED}*.sqlite"))[-1:]
    if not file.exists():
        return aside
    found = examine_file(file)
    sound = not found.damage and found.revision == HEAD
    looked = look_at_journal(file, revision=HEAD if sound else None)
    if found.damage or looked.records_wrong:
        return [file, *aside]
    if wanted.backup is None:
        raise NotAllowed(
            what=f"The records in {file} are whole, so nothing was restored; name a backup to go "
            "back to it, or another folder with --to"
        )
    return []


def _journal_of(file: Path, damaged: list[Path]) -> Told:
    """The journal to take in: none to go back to a backup from whole records."""
    if file.exists() and not damaged:
        return Told(after=None)
    folder = journal.folder_of(file)
    if not folder.is_dir():  # a restore that was cut off may have moved it
        folder = next(iter(sorted(file.parent.glob(f"{_DAMAGED}*.journal"))[-1:]), folder)
    return journal.read(folder)


def _chosen(wanted: Wanted, *, needed: bool) -> tuple[Path | None, str]:
    """The backup and its SHA-256; the newest whole one unless one was named."""
    if wanted.backup is not None:
        if not wanted.backup.is_file():
            raise NotFound(what="backup", name=str(wanted.backup), known="")
        digest = backups.check_sum(wanted.backup)
        whole_or_told(wanted.backup)
        return wanted.backup, digest
    folder = wanted.backup_folder
    for each in reversed(backups.listed(folder) if folder.is_dir() else []):
        try:
            digest = backups.check_sum(each.file)
            whole_or_told(each.file)
        except UserError:
            continue
        return each.file, digest
    if needed:
        raise NotFound(what="whole backup in the folder", name=str(folder), known="")
    return None, ""


def _read_out(damaged: list[Path], part: Path, *, before: Entries) -> Salvaged | None:
    if not damaged:
        return None
    open_store(part, journaled=False).close()  # brought up to the tables of today, or made
    return salvage(damaged, part, before=before)


def _leave_out_erased(file: Path, backup_folder: Path) -> int:
    gone = erasure.held_in(file, erasure.erased_in(backup_folder)) or []
    if gone:
        erasure.erase_from_file(file, gone)
    return len(gone)


def _set_aside(file: Path, *, name: str) -> Path | None:
    """Copy the records aside and let go of their log of writes, which fits no other file."""
    if not file.exists():
        return None
    aside = file.with_name(name)
    while aside.exists():
        aside = aside.with_name(f"{aside.stem}-again.sqlite")
    for ending in _BESIDE:
        beside = file.with_name(file.name + ending)
        if beside.exists():
            shutil.copyfile(beside, aside.with_name(aside.name + ending))
            make_lasting(aside.with_name(aside.name + ending))
    make_lasting(file.parent)
    for ending in _BESIDE[1:]:
        file.with_name(file.name + ending).unlink(missing_ok=True)
    return aside
