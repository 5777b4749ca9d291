"""Golfers and their history: find one, look at one, say who is who."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.keep_order import OpenOrder, open_order, orders_of
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.evidence import Build
from puttwright.store import Store, fittings, golfer_notes, golfers, trail
from puttwright.store.fittings import FittingLine
from puttwright.store.golfers import GolferLine
from puttwright.store.revisions import key_of
from puttwright.store.trail import Deed


@dataclass(frozen=True, slots=True, kw_only=True)
class PastFitting:
    """A fitting of the past with the putters ordered from it."""

    opened: OpenFitting
    line: FittingLine
    orders: tuple[OpenOrder, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownGolfer:
    """A golfer with every fitting, the newest first; ``alike`` may be the same person."""

    golfer: str
    past: tuple[PastFitting, ...]
    alike: tuple[GolferLine, ...]

    @property
    def newest(self) -> OpenFitting:
        """The fitting that knows best who this is today."""
        return self.past[0].opened

    @property
    def own_putter(self) -> Build:
        """What they play by our records: the putter ordered last, else the one they came with."""
        for each in self.past:
            if each.orders:
                return each.orders[0].order.build
            fitting = each.opened.fitting
            return next(one for one in fitting.builds if one.build_id == fitting.own_build)
        raise AssertionError("a golfer has a fitting")


def find_golfers(
    store: Store, words: str = "", *, limit: int = 50, skip: int = 0
) -> tuple[list[GolferLine], int]:
    """The golfers with a fitting that holds every word, and how many there are."""
    with store.reading() as look:
        return golfers.search(look, words, limit=limit, skip=skip), golfers.count(look, words)


def know_golfer(store: Store, golfer: str) -> KnownGolfer:
    """A golfer and all that is on record.

    Raises
    ------
    NotFound
        There is no such golfer.
    """
    with store.reading() as look:
        names = golfers.fittings_of(look, golfer)
        lines = fittings.search(look, golfer=golfer, limit=len(names))
        aliases = sorted({line.alias for line in lines})
        alike = golfers.lines_of(look, golfers.called_alike(look, golfer, aliases=aliases))
    return KnownGolfer(
        golfer=golfer,
        past=tuple(_past(store, line) for line in lines),
        alike=tuple(alike),
    )


def same_golfer(store: Store, golfer: str, *, other: str, clock: Clock, who: str) -> None:
    """Say that two golfers are one.

    Raises
    ------
    NotFound
        One of them is not there.
    """
    with store.writing() as write:
        golfers.join(write, golfer, other=other)
        golfer_notes.move(write, other, to=golfer)
        key = golfers.newest_key(write, golfer)
        trail.note(write, Deed.JOINED, now=clock(), who=who, about=golfer, key=key)


def other_golfer(store: Store, golfer: str, *, fitting_id: str, clock: Clock, who: str) -> str:
    """Say that a fitting is somebody else's; the golfer it is of now.

    Raises
    ------
    NotFound
        The golfer has no such fitting.
    """
    with store.writing() as write:
        return _parted(write, golfer, fitting_id=fitting_id, now=clock(), who=who)


def _parted(write: Connection, golfer: str, *, fitting_id: str, now: datetime, who: str) -> str:
    """The notes stay with the golfer."""
    rest = [each for each in golfers.fittings_of(write, golfer) if each != fitting_id]
    theirs = golfers.part(write, golfer, fitting_id=fitting_id)
    if theirs == golfer and rest:  # it was named after this one, so the others got another name
        golfer_notes.move(write, golfer, to=golfers.golfer_of(write, rest[0]))
    key = key_of(write, fitting_id)
    trail.note(write, Deed.PARTED, now=now, who=who, about=fitting_id, key=key)
    return theirs


def _past(store: Store, line: FittingLine) -> PastFitting:
    return PastFitting(
        opened=open_fitting(store, line.fitting_id),
        line=line,
        orders=tuple(
            open_order(store, kept.order_id) for kept in orders_of(store, line.fitting_id)
        ),
    )
