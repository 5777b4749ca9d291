"""What can go wrong with the shop's records, in sentences a fitter can act on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DatabaseError, OperationalError

from puttwright.errors import CannotWrite, UserError


class StoreBusy(UserError):
    """The records are busy with another entry; nothing was stored, try again."""

    code = "store-busy"
    exit_code = 1
    http_status = 503


class StoreDamaged(UserError):
    """The records in {where} cannot be read: {reason}."""

    code = "store-damaged"
    exit_code = 1
    http_status = 500
    hint = "Move the file aside and put back the newest copy from the backups folder."


class StoreTooNew(UserError):
    """The records in {where} were written by a newer version of this program ({revision})."""

    code = "store-too-new"
    exit_code = 1
    http_status = 500
    hint = "Install the newer version again, or open another folder with --data."


_SENTENCES = {
    "readonly": "the file or its folder may only be read",
    "disk is full": "the disk is full",
    "unable to open": "the file cannot be opened",
    "disk i/o error": "the disk reports an error",
}


def told(error: DatabaseError, *, where: str) -> UserError | None:
    """The user's sentence for what the database said, or None when it is a bug of ours."""
    text = str(error.orig).lower()
    if "locked" in text or "busy" in text:
        return StoreBusy()
    if "malformed" in text or "not a database" in text:
        return StoreDamaged(where=where, reason="the file is damaged")
    for sign, sentence in _SENTENCES.items():
        if sign in text:
            return CannotWrite(path=where, reason=sentence)
    if isinstance(error, OperationalError) and "connection" in text:
        return StoreDamaged(where=where, reason="the database cannot be reached")
    return None


@contextmanager
def faults_told(where: str) -> Iterator[None]:
    """Turn what the database raises into the sentence for it, where there is one."""
    try:
        yield
    except DatabaseError as error:
        sentence = told(error, where=where)
        if sentence is None:
            raise
        raise sentence from error
