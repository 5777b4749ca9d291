"""The evidence of the fittings looked at last, kept for as long as nothing is added to them.

An entry has its fitting looked up four times over: for the page it came from, the page that
answers, the decision and the pages that listen. Whatever adds to a fitting raises its
revision, so what was looked up at a revision stays true of it, and of a later one only what
came since is looked up.
"""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock
from typing import Any, Final
from weakref import WeakKeyDictionary

from sqlalchemy import Connection, RowMapping

from puttwright.evidence import Fitting
from puttwright.store import Store, fittings, readings
from puttwright.store.readings import Kept
from puttwright.store.revisions import row_of_fitting

MOST: Final = 16
"""So many fittings are kept in mind."""

_lock = Lock()
_kept: WeakKeyDictionary[Store, OrderedDict[str, tuple[Any, Evidence]]] = WeakKeyDictionary()


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """A fitting at one revision, with every reading's history."""

    fitting: Fitting
    history: tuple[Kept, ...]


def evidence_of(store: Store, look: Connection, *, row: RowMapping) -> Evidence:
    """The evidence of the fitting whose row was looked up just now.

    Parameters
    ----------
    store
        The shop's.
    look
        The transaction that looked.
    row
        The fitting's row.
    """
    name, state = row["fitting_id"], (row["id"], row["created_at"], row["revision"])
    with _lock:
        known = _kept.get(store, {}).get(name)
    if known and known[0] == state:
        return known[1]
    before = known[1].history if known and known[0][:2] == state[:2] else ()
    history = tuple(readings.history(look, key=row["id"], known=before))
    found = Evidence(fitting=fittings.load_row(look, row, history=history), history=history)
    with _lock:
        ours = _kept.setdefault(store, OrderedDict())
        ours[name] = (state, found)
        ours.move_to_end(name)
        while len(ours) > MOST:
            ours.popitem(last=False)
    return found


def fitting_now(store: Store, fitting_id: str) -> tuple[Fitting, int]:
    """A fitting as it is at this moment, and its revision.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        row = row_of_fitting(look, fitting_id)
        return evidence_of(store, look, row=row).fitting, int(row["revision"])


def forget(store: Store) -> None:
    """Keep nothing in mind: somebody was erased."""
    with _lock:
        _kept.pop(store, None)
