"""Take a reading back; it stays in the records with who, when and why."""

from __future__ import annotations

from puttwright.deeds.bootstrap import Clock
from puttwright.store import Store, readings
from puttwright.store.readings import Kept
from puttwright.store.revisions import key_to_write


def void_reading(
    store: Store, clock: Clock, *, fitting_id: str, kind: str, seq: int, why: str, who: str
) -> Kept:
    """Take back the reading ``seq`` of a table; for the same reason twice is once.

    Raises
    ------
    NotFound, NotAllowed
        There is no such reading; it was taken back before for another reason.
    """
    with store.writing() as transaction:
        return readings.void(
            transaction,
            key=key_to_write(transaction, fitting_id),
            kind=kind,
            seq=seq,
            why=why,
            now=clock(),
            who=who,
        )
