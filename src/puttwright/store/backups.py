"""Backups: whole copies of the records, numbered, each with its SHA-256 beside it.

They are numbered because a clock may go back; what is kept for long goes by
the days that stand in the names, not by what day it is now.
"""

from __future__ import annotations

import hashlib
import re
import sqlite3
from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from puttwright.errors import UserError
from puttwright.store import journal, journaling
from puttwright.store.copies import make_lasting
from puttwright.store.examine import whole_or_told
from puttwright.store.faults import faults_told
from puttwright.store.open_store import Store

_NAME: Final = re.compile(r"records-(\d{6,})-(\d{8})-(\d{4})\.sqlite")
_BEFORE: Final = "records-before-*.sqlite"


class BackupChanged(UserError):
    """The backup {file} is not what was written: its SHA-256 differs."""

    code = "backup-changed"
    exit_code = 1
    hint = "Take an older one: puttwright restore FILE."


@dataclass(frozen=True, slots=True, kw_only=True)
class Backup:
    """One backup: its number, the day and minute in its name, its file."""

    number: int
    day: str
    minute: str
    file: Path

    @property
    def sum_file(self) -> Path:
        """Where its SHA-256 stands, as ``sha256sum --check`` reads it."""
        return self.file.with_name(self.file.name + ".sha256")


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep:
    """What is kept: so many of the newest, and the last of so many days and months."""

    newest: int = 12
    days: int = 30
    months: int = 12


def listed(folder: Path) -> list[Backup]:
    """The backups in a folder, the oldest first."""
    found = []
    for file in folder.glob("records-*.sqlite"):
        match = _NAME.fullmatch(file.name)
        if match:
            found.append(Backup(number=int(match[1]), day=match[2], minute=match[3], file=file))
    return sorted(found, key=lambda backup: backup.number)


def copies_in(folder: Path) -> list[Path]:
    """Every copy of the records in a folder: backups, and those kept before tables changed."""
    return [*sorted(folder.glob(_BEFORE)), *(backup.file for backup in listed(folder))]


def take(store: Store, folder: Path, *, now: datetime) -> Backup | None:
    """Take a backup, look whether it is whole, and only then let it count.

    Returns
    -------
    Backup or None
        None when nothing changed since the newest one.

    Raises
    ------
    CannotWrite
        The folder or its disk does not take it.
    StoreDamaged
        The records are damaged; the backups there are stay untouched.
    """
    with faults_told(str(folder)):
        folder.mkdir(parents=True, exist_ok=True)
        there = listed(folder)
        part = folder / f".taken-{now:%Y%m%d%H%M%S%f}.part"
        try:
            store.copy_to(part)
            whole_or_told(part, pages_only=True)
            digest = sha256_of(part)
            if there and _same(there[-1], part, digest=digest, page_by_page=store.file is not None):
                return None
            taken = _count(part, there, digest=digest, now=now)
        finally:
            part.unlink(missing_ok=True)
        _trim_journal(store, before=there[-1] if there else None)
    return taken


def _trim_journal(store: Store, *, before: Backup | None) -> None:
    """The journal goes back to the backup before this one: a single bad copy loses nothing."""
    if store.journal is None:
        return
    with store.writing() as transaction:
        journaling.begin_after_backup(transaction, store.journal)
    if before is not None and before.file.exists():
        journal.trim(store.journal, held=journaling.number_in_file(before.file))


def _count(part: Path, there: Sequence[Backup], *, digest: str, now: datetime) -> Backup:
    number = there[-1].number + 1 if there else 1
    name = f"records-{number:06d}-{now:%Y%m%d-%H%M}.sqlite"
    backup = Backup(number=number, day=f"{now:%Y%m%d}", minute=f"{now:%H%M}",
                    file=part.with_name(name))  # fmt: skip
    write_sum(backup, digest=digest)
    part.replace(backup.file)
    make_lasting(part.parent)
    return backup


def thin(folder: Path, *, keep: Keep) -> list[Backup]:
    """Let go of what need not be kept; those that went."""
    there = listed(folder)
    kept = {backup.number for backup in there[-keep.newest :]}
    for letters, most in ((8, keep.days), (6, keep.months)):
        last_of = {backup.day[:letters]: backup.number for backup in there}
        kept |= set(sorted(last_of.values())[-most:] if most else ())
    gone = [backup for backup in there if backup.number not in kept]
    for backup in gone:
        backup.file.unlink(missing_ok=True)
        backup.sum_file.unlink(missing_ok=True)
    return gone


def check_sum(file: Path) -> str:
    """The SHA-256 of a backup, held to the one written beside it if there is one.

    Raises
    ------
    BackupChanged
        They differ.
    """
    digest = sha256_of(file)
    beside = file.with_name(file.name + ".sha256")
    if beside.exists() and beside.read_text(encoding="utf-8").split()[:1] != [digest]:
        raise BackupChanged(file=file)
    return digest


def write_sum(backup: Backup, *, digest: str) -> None:
    """Write the SHA-256 beside a backup."""
    backup.sum_file.write_text(f"{digest}  {backup.file.name}\n", encoding="utf-8")
    make_lasting(backup.sum_file)


def write_sum_again(file: Path) -> None:
    """Write the SHA-256 of a backup that was changed on purpose; other copies have none."""
    for backup in listed(file.parent):
        if backup.file == file:
            write_sum(backup, digest=sha256_of(file))


def sha256_of(file: Path) -> str:
    """The SHA-256 of a file's bytes."""
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def _same(newest: Backup, part: Path, *, digest: str, page_by_page: bool) -> bool:
    """Whether nothing changed; rows that came out of a database lie in pages as it happens."""
    if _written_sum(newest) == digest:
        return True
    return not page_by_page and newest.file.exists() and _rows(newest.file) == _rows(part)


def _rows(file: Path) -> list[str]:
    with closing(sqlite3.connect(f"file:{file}?immutable=1", uri=True)) as connection:
        return sorted(line for line in connection.iterdump() if line.startswith("INSERT"))


def _written_sum(backup: Backup) -> str:
    if not backup.sum_file.exists():
        return ""
    return (backup.sum_file.read_text(encoding="utf-8").split() or [""])[0]
