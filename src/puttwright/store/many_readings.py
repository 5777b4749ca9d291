"""Many readings at once, as a file brings them: written like single ones, in one go."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import Connection, func, insert, select

from puttwright.store import tables
from puttwright.store.fingerprints import reading_fingerprint
from puttwright.store.readings import TABLES, Reading
from puttwright.store.revisions import touch
from puttwright.store.rows import row_of

_AT_ONCE = 2000


def record_many(
    connection: Connection, readings: Sequence[Reading], *, key: int, kind: str,
    entry_keys: Sequence[str], now: datetime, who: str,
) -> int:  # fmt: skip
    """Write readings of one kind at the end of the fitting; their own ``seq`` does not matter.

    Parameters
    ----------
    connection
        A transaction that writes.
    readings
        What was seen, in order; their builds are of this fitting.
    key, kind
        The fitting's row, and the table of readings.
    entry_keys
        A key each, of which the fitting holds none yet.
    now, who
        The time, and who recorded them.

    Returns
    -------
    int
        The number of the first one.
    """
    first = _next_seq(connection, key=key)
    for start in range(0, len(readings), _AT_ONCE):
        stop = min(start + _AT_ONCE, len(readings))
        rows, details = [], []
        for place in range(start, stop):
            reading = dataclasses.replace(readings[place], seq=first + place)
            common = {
                "fitting": key, "kind": kind, "seq": reading.seq, "build_id": reading.build_id,
                "entry_key": entry_keys[place], "extra": dict(reading.extra),
                "recorded_at": now, "recorded_by": who,
            }  # fmt: skip
            said = {n: v for n, v in row_of(reading).items() if n not in tables.COMMON}
            common["fingerprint"] = reading_fingerprint(common, said, recorded_at=now)
            rows.append(common)
            details.append(said)
        written = insert(tables.reading).returning(
            tables.reading.c.id, sort_by_parameter_order=True
        )
        ids = connection.execute(written, rows).scalars()
        connection.execute(
            insert(TABLES[kind][0]),
            [{"reading": own, **said} for own, said in zip(ids, details, strict=True)],
        )
    touch(connection, key)
    return first


def _next_seq(connection: Connection, *, key: int) -> int:
    table = tables.reading
    last = connection.execute(select(func.max(table.c.seq)).where(table.c.fitting == key)).scalar()
    return 1 if last is None else int(last) + 1
