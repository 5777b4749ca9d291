"""Look over the records and the backups for damage, changing nothing."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from puttwright.deeds.bootstrap import RECORDS, Clock, system_clock
from puttwright.deeds.golfers_data import kept_long
from puttwright.errors import NotFound, UserError
from puttwright.store import backups, open_store
from puttwright.store.examine import Examined, examine, examine_file, whole_or_told
from puttwright.store.look_at_journal import Looked, look_at_journal
from puttwright.store.migrate import HEAD


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What was found in records and journal, which backups are not whole, who is kept for long."""

    where: str
    records: Examined
    backups: int
    newest: str
    backup_damage: tuple[str, ...]
    journal: Looked | None = None
    reminders: tuple[str, ...] = ()

    @property
    def damage(self) -> tuple[str, ...]:
        """Everything that is wrong, a sentence each."""
        of_journal = self.journal.damage if self.journal else ()
        return (*self.records.damage, *self.backup_damage, *of_journal)

    @property
    def mends(self) -> bool:
        """Whether a restore puts it right."""
        behind = self.journal is not None and self.journal.records_wrong
        return bool(self.records.damage) or behind

    @property
    def notes(self) -> tuple[str, ...]:
        """What is worth a word and no damage, a sentence each."""
        return self.journal.notes if self.journal else ()


def check_records(
    folder: Path, *, database: str | None, backup_folder: Path, clock: Clock = system_clock
) -> Checked:
    """Examine the records, their journal and every backup.

    Parameters
    ----------
    folder
        The data folder.
    database
        The address of the database, if the records are not a file in the folder.
    backup_folder
        Where the backups lie.
    clock
        What tells since when a golfer is kept.

    Raises
    ------
    NotFound
        There are no records to check.
    """
    where, found = _examined(folder, database=database)
    there = backups.listed(backup_folder) if backup_folder.is_dir() else []
    sound = found.revision == HEAD and not found.damage
    return Checked(
        reminders=_reminders(database or folder / RECORDS, clock) if sound else (),
        where=where,
        records=found,
        backups=len(there),
        newest=there[-1].file.name if there else "",
        journal=_journal(folder, sound=sound) if database is None else None,
        backup_damage=tuple(filter(None, (_damage_of(each.file) for each in there))),
    )


def _journal(folder: Path, *, sound: bool) -> Looked:
    return look_at_journal(folder / RECORDS, revision=HEAD if sound else None)


def _examined(folder: Path, *, database: str | None) -> tuple[str, Examined]:
    if database is None:
        file = folder / RECORDS
        if not file.exists():
            raise NotFound(what="file of records", name=str(file), known="")
        return str(file), examine_file(file)
    store = open_store(database)
    try:
        with store.reading() as look:
            return store.where, examine(look)
    finally:
        store.close()


def _reminders(where: Path | str, clock: Clock) -> tuple[str, ...]:
    store = open_store(where, journaled=False)
    try:
        years, golfers = kept_long(store, clock)
    finally:
        store.close()
    if not golfers:
        return ()
    longest = f"the longest since {golfers[0].last_date}"
    who = "One golfer was" if len(golfers) == 1 else f"{len(golfers)} golfers were"
    return (f"{who} not here for more than {years} years, {longest}: look at them on the pages.",)


def _damage_of(file: Path) -> str:
    try:
        backups.check_sum(file)
        whole_or_told(file)
    except UserError as trouble:
        return str(trouble)
    return ""
