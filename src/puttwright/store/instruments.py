"""The instruments of a fitting: how well each repeats itself."""

from __future__ import annotations

from sqlalchemy import Connection, delete, func, insert, select

from puttwright.evidence import Instrument
from puttwright.store.revisions import touch
from puttwright.store.rows import record_from, row_of
from puttwright.store.tables import fitting as fittings
from puttwright.store.tables import instrument as table


def put(connection: Connection, entry: Instrument, *, key: int) -> None:
    """Put an instrument among the fitting's, in place of one of its name and quantity."""
    same = (table.c.fitting == key, table.c.name == entry.name, table.c.quantity == entry.quantity)
    last = select(func.max(table.c.position)).where(table.c.fitting == key)
    place = connection.execute(select(table.c.position).where(*same)).scalar()
    if place is None:
        found = connection.execute(last).scalar()
        place = 0 if found is None else int(found) + 1
    connection.execute(delete(table).where(*same))
    connection.execute(insert(table).values(fitting=key, position=place, **row_of(entry)))
    touch(connection, key)


def latest(connection: Connection) -> list[Instrument]:
    """Every instrument of the shop as it was studied last, by name and quantity."""
    query = select(table).join(fittings, fittings.c.id == table.c.fitting).order_by(table.c.id)
    found = {}
    for row in connection.execute(query).mappings():
        entry = record_from(row, Instrument)
        found[entry.name, entry.quantity] = entry
    return [found[name] for name in sorted(found)]
