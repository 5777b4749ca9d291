"""The shop's rack in the records: stock is counted, so a part is changed in place."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from sqlalchemy import Connection, delete, insert, select, update

from puttwright.errors import NotFound
from puttwright.evidence import Part
from puttwright.store import trail
from puttwright.store.rows import record_from, row_of
from puttwright.store.tables import shop_part
from puttwright.store.trail import Deed

_KINDS = {kind: n for n, kind in enumerate(("putter", "head", "neck", "shaft", "grip", "weight"))}


def load(connection: Connection) -> tuple[Part, ...]:
    """Every part, by kind and id."""
    rows = connection.execute(select(shop_part).order_by(shop_part.c.part_id)).mappings()
    parts = [record_from(row, Part) for row in rows]
    return tuple(sorted(parts, key=lambda part: _KINDS.get(part.kind, 99)))


def put(connection: Connection, parts: Iterable[Part], *, now: datetime, who: str) -> None:
    """Put parts on the rack; one with a known id takes the place of what stood there."""
    for part in parts:
        row = row_of(part) | {"changed_at": now, "changed_by": who}
        known = update(shop_part).where(shop_part.c.part_id == part.part_id).values(row)
        if connection.execute(known).rowcount == 0:
            connection.execute(insert(shop_part).values(row))
        trail.note(connection, Deed.RACK, now=now, who=who, about=part.part_id)


def take_off(connection: Connection, part_id: str) -> None:
    """Take a part off the rack.

    Raises
    ------
    NotFound
        There is none of that id.
    """
    gone = connection.execute(delete(shop_part).where(shop_part.c.part_id == part_id))
    if gone.rowcount == 0:
        raise NotFound(what="part", name=part_id, known="")
