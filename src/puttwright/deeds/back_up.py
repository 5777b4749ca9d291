"""Take a backup of the records, thin the old ones, and do so by itself while the pages are open."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.shop_settings import BackupSettings
from puttwright.errors import NotFound, UserError
from puttwright.store import Store, backups
from puttwright.store.backups import Backup
from puttwright.store.examine import whole_or_told


@dataclass(frozen=True, slots=True, kw_only=True)
class BackedUp:
    """What was done; ``new`` is None when nothing had changed since ``newest``."""

    new: Backup | None
    newest: Backup
    gone: int


def back_up(store: Store, clock: Clock, *, settings: BackupSettings) -> BackedUp:
    """Take a backup if anything changed, look whether it is whole, let go of old ones.

    Raises
    ------
    CannotWrite, StoreDamaged
        No backup was taken; those there are stay as they are.
    """
    new = backups.take(store, settings.folder, now=clock())
    newest = new or backups.listed(settings.folder)[-1]
    gone = backups.thin(settings.folder, keep=settings.keep) if new else []
    return BackedUp(new=new, newest=newest, gone=len(gone))


def known_backups(folder: Path) -> list[Backup]:
    """The backups there are, the oldest first."""
    return backups.listed(folder) if folder.is_dir() else []


def find_backup(folder: Path, number: str) -> Backup:
    """The backup of this number.

    Raises
    ------
    NotFound
        There is none.
    """
    for each in known_backups(folder):
        if str(each.number) == number:
            return each
    raise NotFound(what="backup", name=number[:20], known="")


def copy_out(store: Store, *, to: Path) -> str:
    """Write a whole copy of the records into one file; its SHA-256.

    Raises
    ------
    CannotWrite, StoreDamaged
        It cannot be written, or the records are damaged.
    """
    store.copy_to(to)
    try:
        whole_or_told(to)
    except UserError:
        to.unlink()
        raise
    return backups.sha256_of(to)


class BackupRound:
    """Backs up at the start and every so many minutes, in a thread of its own, until it is ended.

    Parameters
    ----------
    work
        Takes one backup.
    every_minutes
        How long it waits in between, by a clock that nobody sets; 0 does nothing at all.
    tell
        Is told what was done, or what stood in the way.
    """

    def __init__(
        self,
        work: Callable[[], BackedUp],
        *,
        every_minutes: float,
        tell: Callable[[BackedUp | UserError], None],
    ) -> None:
        self._work = work
        self._every_s = 60.0 * every_minutes
        self._tell = tell
        self._end = threading.Event()
        self._thread = threading.Thread(target=self._go_round, name="backups", daemon=True)

    def start(self) -> None:
        """Begin."""
        if self._every_s > 0:
            self._thread.start()

    def end(self) -> None:
        """Take one more, of what came in since, and stop."""
        if self._thread.is_alive():
            self._end.set()
            self._thread.join()
            self._once()

    def _go_round(self) -> None:
        self._once()
        while not self._end.wait(self._every_s):
            self._once()

    def _once(self) -> None:
        try:
            done = self._work()
        except UserError as trouble:
            self._tell(trouble)
        else:
            self._tell(done)
