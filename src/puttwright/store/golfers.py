"""Golfers in the records: whose fitting is whose.

A golfer is named after their first fitting. Nobody is recognised by a name alone:
two people may be called the same, so it is the fitter who says who is who.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, func, or_, select, update

from puttwright.errors import NotFound
from puttwright.store import tables
from puttwright.store.fittings import found_keys
from puttwright.store.revisions import key_of, row_of_fitting


@dataclass(frozen=True, slots=True, kw_only=True)
class GolferLine:
    """One golfer as a list of golfers shows them; date and hand are those of the newest fitting."""

    golfer: str
    alias: str
    handed: str
    last_date: str
    fittings: int


def search(
    connection: Connection, words: str = "", *, limit: int = 50, skip: int = 0
) -> list[GolferLine]:
    """The golfers with a fitting that holds every word, the last one seen first."""
    table = tables.fitting
    keys = (
        found_keys(words)
        .with_only_columns(table.c.golfer_key)
        .group_by(table.c.golfer_key)
        .order_by(func.max(table.c.created_at).desc(), table.c.golfer_key)
        .limit(limit)
        .offset(skip)
    )
    return lines_of(connection, [str(each) for each in connection.execute(keys).scalars()])


def lines_of(connection: Connection, names: Sequence[str]) -> list[GolferLine]:
    """The lines of these golfers, in this order."""
    table = tables.fitting
    grouped = (
        select(table.c.golfer_key, func.max(table.c.id).label("newest"))
        .where(table.c.practice.is_(False), table.c.golfer_key.in_(names))
        .group_by(table.c.golfer_key)
        .subquery("grouped")
    )
    counted = (
        select(func.count())
        .where(table.c.golfer_key == grouped.c.golfer_key, table.c.practice.is_(False))
        .correlate(grouped)
        .scalar_subquery()
    )
    newest = table.alias("newest")
    query = select(newest, counted.label("fittings")).join(grouped, grouped.c.newest == newest.c.id)
    found = {
        str(row["golfer_key"]): GolferLine(
            golfer=row["golfer_key"],
            alias=row["golfer_alias"],
            handed=row["golfer_handed"],
            last_date=row["date"],
            fittings=row["fittings"],
        )
        for row in connection.execute(query).mappings()
    }
    return [found[name] for name in names]


def count(connection: Connection, words: str = "") -> int:
    """How many golfers have a fitting that holds every word."""
    table = tables.fitting
    found = found_keys(words).with_only_columns(table.c.golfer_key).distinct().subquery("found")
    return int(connection.execute(select(func.count()).select_from(found)).scalar_one())


def fittings_of(connection: Connection, golfer: str) -> list[str]:
    """The ids of a golfer's fittings, the newest first.

    Raises
    ------
    NotFound
        There is no such golfer.
    """
    table = tables.fitting
    query = (
        select(table.c.fitting_id)
        .where(table.c.golfer_key == golfer, table.c.practice.is_(False))
        .order_by(table.c.created_at.desc(), table.c.id.desc())
    )
    found = [str(each) for each in connection.execute(query).scalars()]
    if not found:
        raise NotFound(what="golfer", name=golfer, known="")
    return found


def golfer_of(connection: Connection, fitting_id: str) -> str:
    """Whose fitting it is.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    return str(row_of_fitting(connection, fitting_id)["golfer_key"])


def newest_key(connection: Connection, golfer: str) -> int:
    """The key of the row of a golfer's newest fitting."""
    return key_of(connection, fittings_of(connection, golfer)[0])


def called_alike(connection: Connection, golfer: str, *, aliases: Sequence[str]) -> list[str]:
    """Other golfers whose name begins with one of these, who may or may not be the same person."""
    table = tables.fitting
    begins = [
        table.c.search_text.startswith(f"{alias.casefold()} ", autoescape=True) for alias in aliases
    ]
    alike = or_(*begins)
    query = (
        select(table.c.golfer_key)
        .where(table.c.practice.is_(False), table.c.golfer_key != golfer, alike)
        .group_by(table.c.golfer_key)
        .order_by(func.max(table.c.created_at).desc())
        .limit(20)
    )
    return [str(each) for each in connection.execute(query).scalars()]


def join(connection: Connection, golfer: str, *, other: str) -> None:
    """Say that ``other`` is this golfer too: all their fittings are of one.

    Raises
    ------
    NotFound
        One of them is not there.
    """
    fittings_of(connection, golfer)
    fittings_of(connection, other)
    table = tables.fitting
    theirs = update(table).where(table.c.golfer_key == other)
    connection.execute(theirs.values(golfer_key=golfer))


def part(connection: Connection, golfer: str, *, fitting_id: str) -> str:
    """Say that a fitting is not this golfer's after all; the golfer it is of now.

    Raises
    ------
    NotFound
        The golfer has no such fitting.
    """
    theirs = fittings_of(connection, golfer)
    if fitting_id not in theirs:
        raise NotFound(what="fitting of this golfer", name=fitting_id, known="")
    table = tables.fitting
    if fitting_id == golfer:  # the one they are named after: the others get another name
        rest = [each for each in theirs if each != fitting_id]
        moved = update(table).where(table.c.fitting_id.in_(rest))
        connection.execute(moved.values(golfer_key=rest[-1] if rest else golfer))
        return golfer
    taken = update(table).where(table.c.fitting_id == fitting_id)
    connection.execute(taken.values(golfer_key=fitting_id))
    return fitting_id
