"""Fittings in the records: start one, find one, take one out whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import Connection, RowMapping, Select, Table, delete, func, insert, select, update

from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import (
    Build,
    FirstPutt,
    Fitting,
    FittingGreen,
    Golfer,
    Green,
    Instrument,
    Part,
)
from puttwright.store import readings, tables, trail
from puttwright.store.readings import Kept
from puttwright.store.revisions import row_of_fitting, touch
from puttwright.store.rows import keep_list, list_rows, record_from, row_of
from puttwright.store.trail import Deed

PRACTICE: Final = "practice"
"""What the ``extra`` of a fitting with an invented golfer says, so that a package of it says so."""

_LISTS: Final[dict[str, tuple[Table, type]]] = {
    "greens": (tables.green, Green),
    "first_putts": (tables.first_putt, FirstPutt),
    "instruments": (tables.instrument, Instrument),
    "builds": (tables.build, Build),
    "rack": (tables.rack_part, Part),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingLine:
    """One fitting as a list of fittings shows it."""

    fitting_id: str
    date: str
    alias: str
    handed: str
    builds: int
    putts: int
    aims: int
    golfer: str


def start(
    connection: Connection, fitting: Fitting, *, entry_key: str, now: datetime, who: str,
    golfer: str | None = None,
) -> str:  # fmt: skip
    """Write a new fitting with all it holds; sent twice under one key it is kept once.

    Parameters
    ----------
    connection
        A transaction that writes.
    fitting
        What is known; one whose ``extra`` says it is practice is kept out of the history.
    entry_key, now, who
        The sender's key, the time, and who starts it.
    golfer
        Whose fitting it is, when the golfer was here before; else the first of a new golfer.

    Returns
    -------
    str
        The ``fitting_id`` it is kept under.

    Raises
    ------
    NotAllowed
        Another fitting has that id.
    """
    table = tables.fitting
    known = select(table.c.fitting_id).where(table.c.entry_key == entry_key)
    already = connection.execute(known).scalar()
    if already is not None:
        return str(already)
    _refuse_taken(connection, fitting.fitting_id)
    row = _row(fitting) | {"entry_key": entry_key, "created_at": now, "created_by": who}
    row["golfer_key"] = golfer or fitting.fitting_id
    key = connection.execute(insert(table).values(row).returning(table.c.id)).scalar_one()
    for name, (listed, _) in _LISTS.items():
        keep_list(connection, listed, fitting=key, records=getattr(fitting, name))
    readings.keep_all(connection, fitting, key=key, now=now, who=who)
    trail.note(connection, Deed.STARTED, now=now, who=who, key=key)
    return fitting.fitting_id


def load(
    connection: Connection, fitting_id: str, *, history: Sequence[Kept] | None = None
) -> Fitting:
    """The whole fitting as evidence: voided putts marked, what was replaced left out.

    Parameters
    ----------
    connection
        A transaction.
    fitting_id
        Which fitting.
    history
        Its readings, when they have been looked up already.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    row = row_of_fitting(connection, fitting_id)
    looked_up = readings.history(connection, key=row["id"]) if history is None else history
    return load_row(connection, row, history=looked_up)


def load_row(connection: Connection, row: RowMapping, *, history: Sequence[Kept]) -> Fitting:
    """The whole fitting as evidence, whose row and readings were looked up already."""
    lists: dict[str, Any] = {
        name: tuple(
            record_from(each, kind) for each in list_rows(connection, table, fitting=row["id"])
        )
        for name, (table, kind) in _LISTS.items()
    }
    lists |= readings.as_evidence(history)
    return Fitting(
        fitting_id=row["fitting_id"],
        date=row["date"],
        golfer=record_from(row, Golfer, prefix="golfer_"),
        fitting_green=record_from(row, FittingGreen, prefix="green_"),
        own_build=row["own_build"],
        extra=row["extra"],
        **lists,
    )


def search(
    connection: Connection, words: str = "", *, limit: int = 50, skip: int = 0,
    golfer: str | None = None, practice: bool = False,
) -> list[FittingLine]:  # fmt: skip
    """The newest fittings whose golfer, date or id holds every word, case aside.

    Parameters
    ----------
    connection
        A transaction.
    words
        What is looked for; everything when empty.
    limit, skip
        So many at the most, after leaving out the newest ``skip``.
    golfer
        Of this golfer alone.
    practice
        Those that were practice, instead of those that were not.
    """
    table = tables.fitting
    found = (
        found_keys(words, practice=practice, golfer=golfer)
        .order_by(table.c.created_at.desc(), table.c.id.desc())
        .limit(limit)
        .offset(skip)
        .subquery("found")
    )
    counted = (
        select(
            table,
            _count(tables.build, table.c.id).label("builds"),
            _count_readings("putts", table.c.id).label("putts"),
            _count_readings("aims", table.c.id).label("aims"),
        )
        .join(found, found.c.id == table.c.id)
        .order_by(table.c.created_at.desc(), table.c.id.desc())
    )
    return [_line(row) for row in connection.execute(counted).mappings()]


def count(connection: Connection, words: str = "") -> int:
    """How many fittings hold every word."""
    found = found_keys(words).subquery("found")
    return int(connection.execute(select(func.count()).select_from(found)).scalar_one())


def found_keys(
    words: str, *, practice: bool = False, golfer: str | None = None
) -> Select[tuple[int]]:
    """The keys of the fittings that hold every word, answered from an index alone."""
    table = tables.fitting
    query = select(table.c.id).where(table.c.practice.is_(practice))
    if golfer is not None:
        query = query.where(table.c.golfer_key == golfer)
    for word in words.casefold().split():
        query = query.where(table.c.search_text.contains(word, autoescape=True))
    return query


def add_build(connection: Connection, build: Build, *, fitting_id: str) -> bool:
    """Put one more build among those to try; False when the same build was there already.

    Raises
    ------
    NotFound, NotAllowed
        There is no such fitting; another build has that id.
    """
    row = row_of_fitting(connection, fitting_id, hold=True)
    kept = {
        each["build_id"]: record_from(each, Build)
        for each in list_rows(connection, tables.build, fitting=row["id"])
    }
    if kept.get(build.build_id) == build:
        return False
    if build.build_id in kept:
        raise NotAllowed(what=f"There is already a build {build.build_id} in this fitting")
    values = row_of(build) | {"fitting": row["id"], "position": len(kept)}
    connection.execute(insert(tables.build).values(values))
    touch(connection, row["id"])
    return True


def change_details(
    connection: Connection,
    *,
    fitting_id: str,
    golfer: Golfer,
    greens: Sequence[Green],
    fitting_green: FittingGreen,
) -> None:
    """Write who is fitted, the greens they play and the green here in place of what stood there.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    row = row_of_fitting(connection, fitting_id, hold=True)
    words = (golfer.alias, row["date"], fitting_id)
    table = tables.fitting
    changed = update(table).where(table.c.id == row["id"])
    connection.execute(
        changed.values(
            search_text=_search_text(words),
            **row_of(golfer, prefix="golfer_"),
            **row_of(fitting_green, prefix="green_"),
        )
    )
    connection.execute(delete(tables.green).where(tables.green.c.fitting == row["id"]))
    keep_list(connection, tables.green, fitting=row["id"], records=greens)
    touch(connection, row["id"])


def change_build(connection: Connection, build: Build, *, fitting_id: str) -> None:
    """Write other figures of a build there is.

    Raises
    ------
    NotFound
        There is no such fitting, or no such build in it.
    """
    row = row_of_fitting(connection, fitting_id, hold=True)
    table = tables.build
    ours = update(table).where(table.c.fitting == row["id"], table.c.build_id == build.build_id)
    if connection.execute(ours.values(row_of(build))).rowcount == 0:
        raise NotFound(what="build", name=build.build_id, known="")
    touch(connection, row["id"])


def _refuse_taken(connection: Connection, fitting_id: str) -> None:
    taken = select(tables.fitting.c.id).where(tables.fitting.c.fitting_id == fitting_id)
    if connection.execute(taken).scalar() is not None:
        raise NotAllowed(what=f"There is already a fitting {fitting_id} in the records")


def _row(fitting: Fitting) -> dict[str, Any]:
    words = (fitting.golfer.alias, fitting.date, fitting.fitting_id)
    return {
        "fitting_id": fitting.fitting_id,
        "date": fitting.date,
        "own_build": fitting.own_build,
        "extra": dict(fitting.extra),
        "search_text": _search_text(words),
        "revision": 1,
        "practice": fitting.extra.get(PRACTICE) is True,
        **row_of(fitting.golfer, prefix="golfer_"),
        **row_of(fitting.fitting_green, prefix="green_"),
    }


def _search_text(words: Sequence[str]) -> str:
    return " ".join(words).casefold()


def _line(row: RowMapping) -> FittingLine:
    return FittingLine(
        fitting_id=row["fitting_id"],
        date=row["date"],
        alias=row["golfer_alias"],
        handed=row["golfer_handed"],
        builds=row["builds"],
        putts=row["putts"],
        aims=row["aims"],
        golfer=row["golfer_key"],
    )


def _count(table: Table, key: Any) -> Any:
    query = select(func.count()).select_from(table).where(table.c.fitting == key)
    return query.scalar_subquery()


def _count_readings(kind: str, key: Any) -> Any:
    table, voiding = tables.reading, tables.voiding
    query = (
        select(func.count())
        .select_from(table.outerjoin(voiding, voiding.c.reading == table.c.id))
        .where(table.c.fitting == key, table.c.kind == kind, voiding.c.id.is_(None))
    )
    return query.scalar_subquery()
