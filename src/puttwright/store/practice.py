"""The invented golfers of practice fittings: their truth, and whether it was shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select, update

from puttwright.store.revisions import key_of
from puttwright.store.tables import practice


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPractice:
    """The golfer as ``virtual`` writes them down; ``shown`` once the truth was asked for."""

    golfer: Mapping[str, Any]
    shown: bool


def keep(connection: Connection, fitting_id: str, *, golfer: Mapping[str, Any]) -> None:
    """Write down who putts in a practice fitting; sent twice it is kept once."""
    key = key_of(connection, fitting_id)
    known = select(practice.c.id).where(practice.c.fitting == key)
    if connection.execute(known).scalar() is None:
        connection.execute(insert(practice).values(fitting=key, golfer=dict(golfer)))


def find(connection: Connection, fitting_id: str) -> KeptPractice | None:
    """Who putts in it; nobody when it is a fitting of a person.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    query = select(practice).where(practice.c.fitting == key_of(connection, fitting_id))
    row = connection.execute(query).mappings().first()
    if row is None:
        return None
    return KeptPractice(golfer=row["golfer"], shown=row["shown_at"] is not None)


def show(connection: Connection, fitting_id: str, *, now: datetime) -> None:
    """Note that the truth was looked at; the first look counts."""
    key = key_of(connection, fitting_id)
    first = update(practice).where(practice.c.fitting == key, practice.c.shown_at.is_(None))
    connection.execute(first.values(shown_at=now))
