"""Put a better reading in the place of one; the old one stays in the records, with why."""

from __future__ import annotations

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.record_reading import check_reading
from puttwright.store import Store, readings
from puttwright.store.readings import Kept, Reading
from puttwright.store.revisions import key_to_write


def correct_reading(
    store: Store, clock: Clock, *, fitting_id: str, seq: int, better: Reading, why: str,
    entry_key: str, who: str,
) -> Kept:  # fmt: skip
    """Write ``better`` and take the reading ``seq`` of its table back for it, both or neither.

    Sent twice under one key it is done once.

    Raises
    ------
    PackageFaults
        Everything in it that cannot be; nothing is written then.
    NotFound, NotAllowed
        There is no such reading or build; the reading was taken back before.
    """
    kind = check_reading(better)
    with store.writing() as transaction:
        key, now = key_to_write(transaction, fitting_id), clock()
        kept = readings.record(transaction, better, key=key, entry_key=entry_key, now=now, who=who)
        readings.void(
            transaction, key=key, kind=kind, seq=seq, why=why, now=now, who=who,
            replaced_by=kept.seq,
        )  # fmt: skip
    return kept
