"""The list of golfers, and the page of one: what happened, the newest first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from puttwright.deeds.golfers_data import GolfersData
from puttwright.deeds.keep_order import OpenOrder
from puttwright.deeds.know_golfers import KnownGolfer, PastFitting
from puttwright.deeds.say_decision import choice_line
from puttwright.pictures.hand import worded
from puttwright.store.golfer_notes import GUARDIAN, TOLD, YES, LongKept
from puttwright.store.golfers import GolferLine
from puttwright.store.orders import CHECKED_IN
from puttwright.web.contexts.counts import counted
from puttwright.web.contexts.heading import address_of, quoted
from puttwright.web.contexts.paging import Paging
from puttwright.web.contexts.workshop_page import order_address, state_words
from puttwright.web.dates import day_words, iso_words
from puttwright.web.measures import handicap_words, measure
from puttwright.web.texts import catalogue

AT = "/golfers"


@dataclass(frozen=True, slots=True, kw_only=True)
class GolferRow:
    """One golfer in a list."""

    address: str
    golfer: str
    alias: str
    hand: str
    last: str
    counts: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LongRow:
    """A golfer who was not here for longer than the shop wants to keep them."""

    address: str
    alias: str
    last: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GolfersPage:
    """The golfers found."""

    words: str
    rows: tuple[GolferRow, ...]
    paging: Paging | None
    long_title: str = ""
    long: tuple[LongRow, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something that happened: a fitting, an order, a check at the bench."""

    when: str
    kind: str
    title: str
    words: str
    address: str
    fitting_id: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class GolferPage:
    """One golfer."""

    golfer: str
    alias: str
    about: str
    plays: str
    again: str
    events: tuple[Event, ...]
    alike: tuple[GolferRow, ...]
    address: str
    several: bool
    data_words: str


def golfer_row(line: GolferLine) -> GolferRow:
    """A golfer in a list."""
    text = catalogue()
    key = "golfers.fittings_one" if line.fittings == 1 else "golfers.fittings"
    return GolferRow(
        address=f"{AT}/{quoted(line.golfer)}",
        golfer=line.golfer,
        alias=line.alias,
        hand=text(f"list.{line.handed}"),
        last=text("golfers.last", date=iso_words(line.last_date)),
        counts=text(key, count=line.fittings),
    )


def long_row(kept: LongKept) -> LongRow:
    """One of them."""
    return LongRow(
        address=f"{AT}/{quoted(kept.golfer)}/data",
        alias=kept.alias,
        last=catalogue()("golfers.last", date=iso_words(kept.last_date)),
    )


def golfer_page(known: KnownGolfer, *, data: GolfersData) -> GolferPage:
    """The page of one golfer."""
    happened = [each for past in known.past for each in _happened(past)]
    happened.sort(key=lambda each: each[0], reverse=True)
    golfer = known.newest.fitting.golfer
    return GolferPage(
        golfer=known.golfer,
        alias=golfer.alias,
        about=_about(known),
        plays=_plays(known),
        again=f"/fittings/new?golfer={quoted(known.golfer)}",
        events=tuple(event for _, event in happened),
        alike=tuple(map(golfer_row, known.alike)),
        address=f"{AT}/{quoted(known.golfer)}",
        several=len(known.past) > 1,
        data_words=state_words_of(data),
    )


def state_words_of(data: GolfersData) -> str:
    """How it stands with what they agreed to, in a sentence."""
    text = catalogue()
    said = [text("people.minor")] if data.minor else []
    told = data.standing.get(TOLD)
    if told is None:
        said.append(text("people.not_told"))
    elif told.answer != YES:
        said.append(text("people.withdrawn", date=day_words(told.when.date())))
    else:
        said.append(text("people.agreed", date=day_words(told.when.date())))
    if data.minor:
        guardian = data.standing.get(GUARDIAN)
        agrees = guardian is not None and guardian.answer == YES
        said.append(text("people.guardian_agreed" if agrees else "people.guardian_not"))
        said.append(text("people.photos_agreed" if data.photos else "people.photos_not"))
    return " ".join(said)


def _about(known: KnownGolfer) -> str:
    text = catalogue()
    golfer = known.newest.fitting.golfer
    said = [text(f"list.{golfer.handed}")]
    if golfer.stature_mm is not None:
        said.append(text("golfers.stature", size=measure(golfer.stature_mm / 10, "cm")))
    if golfer.handicap is not None:
        said.append(text("golfers.handicap", value=handicap_words(golfer.handicap)))
    return " · ".join(said)


def _plays(known: KnownGolfer) -> str:
    build = known.own_putter
    lie, loft = (measure(angle, "°", digits=1) for angle in (build.lie_deg, build.loft_deg))
    figures = {"length": measure(build.length_mm / 25.4, "in", digits=1), "lie": lie, "loft": loft}
    return catalogue()("golfers.plays", name=build.name, **figures)


def _happened(past: PastFitting) -> Iterator[tuple[datetime, Event]]:
    opened, text = past.opened, catalogue()
    fitting = opened.fitting
    began = opened.history[0].when if opened.history else None
    day = datetime.fromisoformat(fitting.date).replace(tzinfo=UTC)
    counts = {"builds": past.line.builds, "aims": past.line.aims, "putts": past.line.putts}
    decided = worded(choice_line(opened.decision, fitting)) if opened.decision else ""
    yield (
        began or day,
        Event(
            when=iso_words(fitting.date),
            kind="fitting",
            title=text("golfers.fitting"),
            words=f"{counted(**counts)}. {decided}".strip(),
            address=address_of(fitting.fitting_id),
            fitting_id=fitting.fitting_id,
        ),
    )
    for order in past.orders:
        yield from _order(order)


def _order(opened: OpenOrder) -> Iterator[tuple[datetime, Event]]:
    text = catalogue()
    address = order_address(opened.kept.order_id)
    name = opened.order.build.name
    yield (
        opened.kept.when,
        Event(
            when=day_words(opened.kept.when.date()),
            kind="order",
            title=text("golfers.order", name=name),
            words=state_words(opened.checks),
            address=address,
        ),
    )
    for check in opened.checks:
        result: Any = check.result
        key = "golfers.check_in" if check.kind == CHECKED_IN else "golfers.check_again"
        yield (
            check.when,
            Event(
                when=day_words(check.when.date()),
                kind="check",
                title=text(key, name=name),
                words=str(result["says"]),
                address=address,
            ),
        )
