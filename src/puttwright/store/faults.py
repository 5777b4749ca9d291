"""What can go wrong with the shop's records, in sentences a fitter can act on."""

from __future__ import annotations

import sqlite3
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
    hint = (
        "Stop the pages, then: puttwright restore. It sets the damaged file aside, takes the "
        "newest whole backup and adds what can still be read."
    )


class StoreAway(UserError):
    """The database {where} does not answer; nothing was stored, try again."""

    code = "store-away"
    exit_code = 1
    http_status = 503
    hint = "See whether the database runs and this machine reaches it."


class NoDriver(UserError):
    """What talks to PostgreSQL is not installed here."""

    code = "no-driver"
    exit_code = 1
    hint = "Install it with: pip install 'puttwright[postgresql]'"


class StoreTooNew(UserError):
    """The records in {where} were written by a newer version of this program ({revision})."""

    code = "store-too-new"
    exit_code = 1
    http_status = 500
    hint = "Install the newer version again, or open another folder with --data."


_SENTENCES = {
    "readonly": "the file or its folder may only be read",
    "disk is full": "the disk is full",
    "no space left": "the disk is full",
    "unable to open": "the file cannot be opened",
    "disk i/o error": "the disk reports an error",
}
_AWAY = ("connection", "server closed", "shutting down", "starting up", "terminating", "timeout")


def told(error: DatabaseError | sqlite3.DatabaseError, *, where: str) -> UserError | None:
    """The user's sentence for what the database said, or None when it is a bug of ours."""
    text = str(error.orig if isinstance(error, DatabaseError) else error).lower()
    if "locked" in text or "busy" in text or "lock timeout" in text:
        return StoreBusy()
    if "malformed" in text or "not a database" in text:
        return StoreDamaged(where=where, reason="the file is damaged")
    for sign, sentence in _SENTENCES.items():
        if sign in text:
            return CannotWrite(path=where, reason=sentence)
    if isinstance(error, OperationalError) and any(sign in text for sign in _AWAY):
        return StoreAway(where=where)
    return None


@contextmanager
def faults_told(where: str) -> Iterator[None]:
    """Turn what the database raises into the sentence for it, where there is one."""
    try:
        yield
    except (DatabaseError, sqlite3.DatabaseError) as error:  # copies are made past SQLAlchemy
        sentence = told(error, where=where)
        if sentence is None:
            raise
        raise sentence from error
    except OSError as error:
        raise CannotWrite(path=where, reason=(error.strerror or "no access").lower()) from error
