"""Look over the records and the backups for damage, changing nothing."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from puttwright.deeds.bootstrap import RECORDS
from puttwright.errors import NotFound, UserError
from puttwright.store import backups, open_store
from puttwright.store.examine import Examined, examine, examine_file, whole_or_told


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """What was found in the records, and which backups are not whole."""

    where: str
    records: Examined
    backups: int
    newest: str
    backup_damage: tuple[str, ...]

    @property
    def damage(self) -> tuple[str, ...]:
        """Everything that is wrong, a sentence each."""
        return (*self.records.damage, *self.backup_damage)


def check_records(folder: Path, *, database: str | None, backup_folder: Path) -> Checked:
    """Examine the records and every backup.

    Parameters
    ----------
    folder
        The data folder.
    database
        The address of the database, if the records are not a file in the folder.
    backup_folder
        Where the backups lie.

    Raises
    ------
    NotFound
        There are no records to check.
    """
    where, found = _examined(folder, database=database)
    there = backups.listed(backup_folder) if backup_folder.is_dir() else []
    return Checked(
        where=where,
        records=found,
        backups=len(there),
        newest=there[-1].file.name if there else "",
        backup_damage=tuple(filter(None, (_damage_of(each.file) for each in there))),
    )


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


def _damage_of(file: Path) -> str:
    try:
        backups.check_sum(file)
        whole_or_told(file)
    except UserError as trouble:
        return str(trouble)
    return ""
