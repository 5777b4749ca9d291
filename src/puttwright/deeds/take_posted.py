"""Take in what a program of the shop's own machine posts: one reading, or a few."""

from __future__ import annotations

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.read_tables import NoRowFits
from puttwright.deeds.take_table import LookedAt, Taking, reader_of, readings_of
from puttwright.errors import CannotRead
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.row_keys import row_keys
from puttwright.readers.tables.seen_before import stamped_rows
from puttwright.store import Store, fittings, readings
from puttwright.store.readings import Kept
from puttwright.store.revisions import key_to_write


def take_posted(
    store: Store, clock: Clock, *, fitting_id: str, table: LookedAt, taking: Taking
) -> list[Kept]:
    """Take all of it or nothing; sent twice under one key it is kept once.

    Parameters
    ----------
    store, clock
        The shop's.
    fitting_id
        Which fitting.
    table
        What was posted, with a map that is sure.
    taking
        Who posts it, and what holds for all its rows. A row that bears a time or an id is known
        by that, whatever the key.

    Raises
    ------
    NoRowFits, CannotRead, NotFound
        Nothing is kept then.
    """
    with store.writing() as transaction:
        key = key_to_write(transaction, fitting_id)
        reader = reader_of(table, fittings.load(transaction, fitting_id), said=taking.said)
        try:
            chunks = list(table.opened.chunks(table.layout.below, len(table.layout.names)))
            frames = list(reader.frames((), ()))
        except Unreadable as trouble:
            raise CannotRead(path=table.name, reason=str(trouble)) from trouble
        if reader.read.aside:
            first = reader.read.aside[0]
            raise NoRowFits(file=table.name, row=first.row, why=first.why)
        names = [
            f"{table.header}:{row:016x}" if stamped else f"{taking.entry_key}:{place}"
            for chunk in chunks
            for place, (row, stamped) in enumerate(
                zip(row_keys(chunk.frame).tolist(), stamped_rows(chunk.frame), strict=True)
            )
        ]
        found = readings_of(frames, reader.taker)
        now = clock()
        return [
            readings.record(
                transaction, each, key=key, entry_key=f"posted:{name}", now=now, who=taking.who
            )
            for each, name in zip(found, names, strict=True)
        ]
