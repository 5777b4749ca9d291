"""The backups there are, as a page shows them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from puttwright.store.backups import Backup
from puttwright.web.dates import moment_words
from puttwright.web.texts import catalogue

AT = "/backups"


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupRow:
    """One backup: when, how large, where it is downloaded."""

    number: int
    when: str
    size: str
    name: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupsPage:
    """All of them, the newest first; ``done`` and ``told`` say what came of the last order."""

    folder: str
    every: str
    rows: tuple[BackupRow, ...]
    restore: str
    database: bool
    done: str = ""
    told: str = ""


def backup_rows(there: Sequence[Backup]) -> tuple[BackupRow, ...]:
    """The backups, the newest first."""
    return tuple(
        BackupRow(
            number=each.number,
            when=moment_words(_moment(each)),
            size=catalogue()("backups.size", size=f"{each.file.stat().st_size / 1e6:.1f}"),
            name=each.file.name,
            address=f"{AT}/{each.number}",
        )
        for each in reversed(there)
    )


def _moment(backup: Backup) -> datetime:
    return datetime.strptime(backup.day + backup.minute, "%Y%m%d%H%M").replace(tzinfo=UTC)
