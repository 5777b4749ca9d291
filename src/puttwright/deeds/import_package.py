"""Take a fitting package into the records."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Connection

from puttwright.deeds.bootstrap import Clock
from puttwright.errors import NotFound
from puttwright.evidence import Fitting
from puttwright.evidence.fingerprint import inputs_sha256
from puttwright.readers.package import read_package
from puttwright.store import Store, fittings


def import_package(store: Store, clock: Clock, *, package: Path, who: str) -> str:
    """Read, judge and keep a package; the same package again is kept once.

    Parameters
    ----------
    store, clock
        The shop's.
    package
        Folder or zip.
    who
        Who takes it in.

    Returns
    -------
    str
        The fitting's id.

    Raises
    ------
    PackageFaults
        Every fault of the package; nothing is written then.
    NotAllowed
        The records hold another fitting under that id.
    """
    fitting = read_package(package)
    entry_key = f"package:{inputs_sha256(fitting)}"
    with store.writing() as transaction:
        if _is_there(transaction, fitting):
            return fitting.fitting_id
        return fittings.start(transaction, fitting, entry_key=entry_key, now=clock(), who=who)


def _is_there(look: Connection, fitting: Fitting) -> bool:
    """Whether the records hold just these readings under this id."""
    try:
        there = fittings.load(look, fitting.fitting_id)
    except NotFound:
        return False
    return inputs_sha256(there) == inputs_sha256(fitting)
