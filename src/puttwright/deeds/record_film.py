"""Record a filmed putt in the shop's records, with how well the film told it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.enter_roll import INSTRUMENT, MEASURED, as_instruments
from puttwright.deeds.measure_roll import RollReading
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.record_reading import check_reading
from puttwright.evidence import Putt
from puttwright.store import Store, instruments, readings
from puttwright.store.readings import Kept
from puttwright.store.revisions import key_to_write


def clip_known(history: Sequence[Kept], film: RollReading) -> Kept | None:
    """The putt this very clip was entered as, if it still counts: one clip is one putt."""
    begins = _key(film, "")
    return next((k for k in history if k.void is None and k.entry_key.startswith(begins)), None)


def _key(film: RollReading, entry_key: str, /) -> str:
    return f"film-{film.sha256[:40]}-{entry_key}"


def record_film(
    store: Store, clock: Clock, *, fitting_id: str, seen: Putt, film: RollReading, entry_key: str,
    who: str,
) -> Kept:  # fmt: skip
    """Write a filmed putt and the film as an instrument, in one go.

    Parameters
    ----------
    store, clock
        The shop's.
    fitting_id
        Which fitting.
    seen
        The putter in hand, from where, and what was seen of the putt by eye.
    film
        What the clip gave; what it does not carry stays empty.
    entry_key
        The sender's key: the same sent twice is kept once. The clip becomes part of it.
    who
        Who recorded it.

    Raises
    ------
    PackageFaults
        A figure that cannot be; nothing is written then.
    NotFound
        There is no such fitting or build.
    """
    found = {name: getattr(film, name).value for name in MEASURED}
    told: dict[str, Any] = {
        name: float(f"{value:.4g}") for name, value in found.items() if value is not None
    }
    putt = replace(seen, instrument=INSTRUMENT, **told)
    check_reading(putt)
    known = open_fitting(store, fitting_id).fitting.instruments
    with store.writing() as transaction:
        key = key_to_write(transaction, fitting_id)
        for entry in as_instruments(film, known=known):
            instruments.put(transaction, entry, key=key)
        return readings.record(
            transaction, putt, key=key, entry_key=_key(film, entry_key), now=clock(), who=who
        )
