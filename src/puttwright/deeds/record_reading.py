"""Record what was just seen: a putt, an aim, an address position."""

from __future__ import annotations

from typing import Final

from puttwright.deeds.bootstrap import Clock
from puttwright.errors import PackageFaults
from puttwright.evidence import AimReading, Putt, SetupReading
from puttwright.evidence.sheet import sheet_of
from puttwright.evidence.tables import table_faults
from puttwright.store import Store, readings
from puttwright.store.readings import AIMS, PUTTS, SETUPS, Kept, Reading
from puttwright.store.revisions import key_to_write

_TABLES: Final[dict[type, str]] = {SetupReading: SETUPS, AimReading: AIMS, Putt: PUTTS}


def record_reading(
    store: Store, clock: Clock, *, fitting_id: str, reading: Reading, entry_key: str, who: str
) -> Kept:
    """Write a reading at the end of the fitting; it is on the disk when this returns.

    Parameters
    ----------
    store, clock
        The shop's.
    fitting_id
        Which fitting.
    reading
        What was seen; its ``seq`` is given here.
    entry_key
        The sender's key: the same sent twice is kept once.
    who
        Who recorded it.

    Raises
    ------
    PackageFaults
        Everything in it that cannot be; nothing is written then.
    NotFound
        There is no such fitting or build.
    """
    check_reading(reading)
    with store.writing() as transaction:
        return readings.record(
            transaction,
            reading,
            key=key_to_write(transaction, fitting_id),
            entry_key=entry_key,
            now=clock(),
            who=who,
        )


def check_reading(reading: Reading) -> str:
    """The table a reading belongs to, once it is known that it can be.

    Raises
    ------
    PackageFaults
        Everything in it that cannot be.
    """
    table = _TABLES[type(reading)]
    faults = table_faults({table: sheet_of([reading], table=table, record=type(reading))})
    if faults:
        raise PackageFaults(faults=faults)
    return table
