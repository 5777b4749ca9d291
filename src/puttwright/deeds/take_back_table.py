"""Take a table back that was read wrongly: its readings stay in the records, taken back."""

from __future__ import annotations

from sqlalchemy import Connection

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.take_table import prefix_of
from puttwright.errors import NotFound
from puttwright.store import Store, files_read, readings, trail
from puttwright.store.files_read import KeptFile
from puttwright.store.revisions import key_to_write
from puttwright.store.trail import Deed

WHY = "the file was taken back"


def take_back_table(
    store: Store, clock: Clock, *, fitting_id: str, entry_key: str, who: str
) -> int:
    """Take back every reading of a file, and forget that it was read, so that it may be read anew.

    Parameters
    ----------
    store, clock
        The shop's.
    fitting_id, entry_key
        The fitting, and a key under which the file was taken.
    who
        Who takes it back.

    Returns
    -------
    int
        How many readings were taken back now.

    Raises
    ------
    NotFound
        No such file was read into the fitting.
    """
    with store.writing() as transaction:
        key = key_to_write(transaction, fitting_id)
        file = files_read.find(transaction, key=key, entry_key=entry_key)
        if file is None:
            raise NotFound(what="file read", name=entry_key[:20], known="")
        whose = prefix_of(file=file.file, header=file.header)
        taken = [
            kept
            for kept in readings.history(transaction, key=key)
            if kept.entry_key.startswith(whose) and kept.void is None
        ]
        for kept in taken:
            readings.void(
                transaction, key=key, kind=kept.kind, seq=kept.seq, why=WHY, now=clock(), who=who
            )
        _forget(transaction, file, key=key)
        trail.note(transaction, Deed.FILE_BACK, now=clock(), who=who, key=key)
    return len(taken)


def _forget(transaction: Connection, file: KeptFile, *, key: int) -> None:
    for each in files_read.of_fitting(transaction, key=key):
        if (each.file, each.header) == (file.file, file.header):
            files_read.forget(transaction, key=key, entry_key=each.entry_key)
    still = [each for each in files_read.asides(transaction, key=key) if each.file != file.file]
    ours = [each for each in still if each.header == file.header]
    files_read.replace_asides(transaction, ours, key=key, header=file.header)
