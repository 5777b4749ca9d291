"""Erase a fitting, or all of a golfer, so that nothing of it is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.recent_evidence import forget
from puttwright.deeds.restore_records import ASIDE_FILES, ASIDE_JOURNALS
from puttwright.errors import UserError
from puttwright.store import Store, backups, erasure, journal
from puttwright.store.revisions import key_of

_ADVICE: Final = "sheets on paper, packages and exports given out, tablets' own memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class Erased:
    """What was erased, and where something of it may still be.

    ``log_empty`` is False when another program was looking at the records, so
    that the log of writes is emptied only when that one lets go. ``untaken`` says why
    no backup could be taken of what is left.
    """

    fittings: int
    log_empty: bool
    holding: tuple[Path, ...]
    cleaned: tuple[Path, ...]
    untaken: str = ""
    elsewhere: str = _ADVICE


def fittings_of_golfer(store: Store, fitting_id: str) -> list[str]:
    """The ids of every fitting of the golfer whose fitting this is.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        key_of(look, fitting_id)
    return erasure.of_same_golfer(store, fitting_id)


def erase_fittings(
    store: Store, fitting_ids: Sequence[str], *, folder: Path, backup_folder: Path, copies: bool,
    clock: Clock, who: str,
) -> Erased:  # fmt: skip
    """Erase fittings from the records for good; none of them comes back with a restore.

    Parameters
    ----------
    store
        The shop's.
    fitting_ids
        Which; an id that is not there was erased before.
    folder, backup_folder
        The data folder and the backups', where older copies may hold them.
    copies
        Erase them from those copies too; they get new SHA-256 then.
    clock, who
        What tells the time, and who erases them.
    """
    erasure.note_erased(backup_folder, fitting_ids)  # first: a kill in between is no way back
    log_empty = erasure.erase(store, fitting_ids, now=clock(), who=who)
    forget(store)
    marks = [erasure.mark_of(each) for each in fitting_ids]
    untaken = _secure_the_rest(store, backup_folder, clock=clock)
    found = backups.copies_in(backup_folder)
    found += [file for pattern in ASIDE_FILES for file in sorted(folder.glob(pattern))]
    holding, cleaned = [], []
    for file in found:
        ids = erasure.held_in(file, marks)
        if ids and copies and erasure.erase_from_file(file, ids):
            backups.write_sum_again(file)
            cleaned.append(file)
        elif ids is None or ids:
            holding.append(file)
    for aside in sorted(folder.glob(ASIDE_JOURNALS)):
        if copies:
            journal.delete(aside)
        (cleaned if copies else holding).append(aside)
    return Erased(
        fittings=len(fitting_ids), log_empty=log_empty, holding=tuple(holding),
        cleaned=tuple(cleaned), untaken=untaken,
    )  # fmt: skip


def _secure_the_rest(store: Store, backup_folder: Path, *, clock: Clock) -> str:
    """What others' entries had in the journal goes into a backup; why not, if it cannot."""
    if store.journal is None:
        return ""
    try:
        backups.take(store, backup_folder, now=clock())
    except UserError as trouble:
        return str(trouble)
    return ""


def erased_lines(erased: Erased) -> list[str]:
    """What was done and what is left to do, for the terminal."""
    lines = [f"Erased: {erased.fittings} fittings, with readings, decisions, orders and checks."]
    if not erased.log_empty:
        lines.append("Close the pages once: until then the log of writes may hold some of it.")
    if erased.untaken:
        lines.append(f"No backup of what is left could be taken: {erased.untaken}")
    lines += [f"Erased from {file}" for file in erased.cleaned]
    lines += [f"Still in {file}" for file in erased.holding]
    if erased.holding:
        lines.append("To erase it there too: the same command with --copies, or delete those files")
    lines.append(f"Not ours to reach: {erased.elsewhere}, backups of this machine.")
    return lines
