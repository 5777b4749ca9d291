"""What a golfer was told and agreed to, and whether a guardian agreed.

Notes are added, never changed: the last one of a kind is what holds.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Final

from sqlalchemy import Connection, func, insert, select, update

from puttwright.store.tables import fitting, golfer_note

TOLD, GUARDIAN, PHOTOS = "told", "guardian", "photos"
"""What a note is about: what was told, and a guardian's word on the fitting and on photos."""
YES, NO = "yes", "no"
NOTED: Final = (TOLD, GUARDIAN, PHOTOS)


@dataclass(frozen=True, slots=True, kw_only=True)
class GolferNote:
    """One note; ``told`` holds the very words that were told, where some were."""

    kind: str
    answer: str
    told: str
    when: datetime
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LongKept:
    """A golfer who was not here for long."""

    golfer: str
    alias: str
    last_date: str


def add(connection: Connection, each: GolferNote, *, golfer: str) -> None:
    """Write a note down."""
    row = {
        "golfer": golfer, "kind": each.kind, "answer": each.answer, "told": each.told,
        "noted_at": each.when, "noted_by": each.who,
    }  # fmt: skip
    connection.execute(insert(golfer_note).values(row))


def of_golfer(connection: Connection, golfer: str) -> list[GolferNote]:
    """Every note, the first first."""
    query = select(golfer_note).where(golfer_note.c.golfer == golfer).order_by(golfer_note.c.id)
    return [
        GolferNote(
            kind=row["kind"], answer=row["answer"], told=row["told"], when=row["noted_at"],
            who=row["noted_by"],
        )
        for row in connection.execute(query).mappings()
    ]  # fmt: skip


def move(connection: Connection, golfer: str, *, to: str) -> None:
    """Let the notes of one golfer be another's, as their fittings are."""
    ours = update(golfer_note).where(golfer_note.c.golfer == golfer)
    connection.execute(ours.values(golfer=to))


def not_here_since(connection: Connection, day: str, *, limit: int = 200) -> list[LongKept]:
    """Golfers whose newest fitting is of before this day, the longest kept first."""
    last = func.max(fitting.c.date).label("last")
    query = (
        select(fitting.c.golfer_key, func.max(fitting.c.golfer_alias).label("alias"), last)
        .where(fitting.c.practice.is_(False))
        .group_by(fitting.c.golfer_key)
        .having(last < day)
        .order_by(last, fitting.c.golfer_key)
        .limit(limit)
    )
    return [
        LongKept(golfer=row["golfer_key"], alias=row["alias"], last_date=row["last"])
        for row in connection.execute(query).mappings()
    ]
