"""Who did what, when, and on what: names of deeds and ids, never what was written.

A line of a fitting goes when the fitting is erased.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any

from sqlalchemy import Connection, Select, func, insert, or_, select

from puttwright.store.tables import fitting as fittings
from puttwright.store.tables import trail


class Deed(StrEnum):
    """What can be done to the records."""

    STARTED = "fitting-started"
    DETAILS = "details-changed"
    BUILD_ADDED = "build-added"
    BUILD_CHANGED = "build-changed"
    READING = "reading-recorded"
    TAKEN_BACK = "reading-taken-back"
    FILE_READ = "file-read"
    FILE_BACK = "file-taken-back"
    INSTRUMENT = "instrument-kept"
    ORDERED = "order-made"
    CHECKED = "putter-checked"
    RACK = "rack-changed"
    SETTING = "setting-changed"
    JOINED = "golfers-joined"
    PARTED = "fitting-parted"
    NOTED = "golfer-noted"
    COPIED = "golfer-copied"
    ERASED = "fitting-erased"
    EXPORTED = "shop-exported"
    BACKUP_OUT = "backup-taken-out"
    INVITED = "device-invited"
    TURNED_AWAY = "device-turned-away"


@dataclass(frozen=True, slots=True, kw_only=True)
class TrailLine:
    """One thing done; ``fitting_id`` and ``about`` are empty when there is none."""

    when: datetime
    who: str
    deed: str
    fitting_id: str
    about: str


def note(
    connection: Connection, deed: Deed, *, now: datetime, who: str, about: str = "",
    key: int | None = None,
) -> None:  # fmt: skip
    """Add a line in the transaction of the deed itself; ``key`` is that of the fitting's row."""
    row = {"fitting": key, "deed": deed.value, "about": about, "done_at": now, "done_by": who}
    connection.execute(insert(trail).values(row))


def lines(
    connection: Connection, about: str = "", *, limit: int = 100, skip: int = 0
) -> list[TrailLine]:
    """The last lines first; with ``about`` those of one fitting, order, part, device or person."""
    query = _found(about).with_only_columns(trail, fittings.c.fitting_id)
    shown = query.order_by(trail.c.id.desc()).limit(limit).offset(skip)
    return [
        TrailLine(
            when=row["done_at"], who=row["done_by"], deed=row["deed"],
            fitting_id=row["fitting_id"] or "", about=row["about"],
        )
        for row in connection.execute(shown).mappings()
    ]  # fmt: skip


def count(connection: Connection, about: str = "") -> int:
    """How many lines there are."""
    counted = _found(about).with_only_columns(func.count())
    return int(connection.execute(counted).scalar_one())


def _found(about: str) -> Select[Any]:
    joined = trail.outerjoin(fittings, fittings.c.id == trail.c.fitting)
    query: Select[Any] = select(trail).select_from(joined)
    if about:
        ours = (fittings.c.fitting_id, trail.c.about, trail.c.done_by, trail.c.deed)
        query = query.where(or_(*(column == about for column in ours)))
    return query
