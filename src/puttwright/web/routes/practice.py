"""Practice: an invented golfer who putts when asked, kept out of everybody's history."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.find_fittings import find_fittings
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.practise import Practice, practise, show_truth, start_practice
from puttwright.evidence import LEFT, RIGHT
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.of_fitting import marks
from puttwright.pictures.truth import Believed, belief_and_truth, truth_table
from puttwright.web.contexts.counts import counted
from puttwright.web.contexts.hand import hand_of
from puttwright.web.contexts.heading import Heading, address_of, heading, quoted
from puttwright.web.contexts.verdict import Verdict
from puttwright.web.dates import iso_words
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.manner import manner
from puttwright.web.pages import render
from puttwright.web.routes.green import verdict_now
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm, entry_key_of, new_key

router = APIRouter()

AT: Final = "/practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeLine:
    """A practice in the list."""

    address: str
    alias: str
    date: str
    counts: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticePage:
    """Start one, or go on with one."""

    rows: tuple[PracticeLine, ...]
    handed: str
    entry_key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TruthPage:
    """What was believed beside what is so."""

    heading: Heading
    world: str
    held: str
    verdict: Verdict
    drawing: Drawing


@router.get(AT)
def show_practice(request: Request, shop: ShopHere) -> Response:
    """The page."""
    rows = tuple(
        PracticeLine(
            address=address_of(line.fitting_id),
            alias=line.alias,
            date=iso_words(line.date),
            counts=counted(builds=line.builds, aims=line.aims, putts=line.putts),
        )
        for line in find_fittings(shop.store, practice=True, limit=20)
    )
    page = PracticePage(rows=rows, handed=manner().handed, entry_key=new_key())
    return render(request, "practice.html", page=page)


@router.post(AT)
def start(typed: TypedForm, shop: ShopHere) -> Response:
    """Invent a golfer and go to the green."""
    handed = LEFT if typed.get("handed") == LEFT else RIGHT
    key = entry_key_of(typed)
    fitting_id = start_practice(shop.store, shop.clock, handed=handed, entry_key=key, who=shop.who)
    return RedirectResponse(address_of(fitting_id), status_code=303)


@router.post(AT + "/{fitting_id}/once")
def once(fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere) -> Response:
    """Let the golfer putt or aim once with what is in hand."""
    hand = hand_of(open_fitting(shop.store, fitting_id), typed)
    practise(
        shop.store,
        shop.clock,
        fitting_id=fitting_id,
        kind=hand.task,
        build_id=hand.build_id,
        distance_m=hand.distance_m,
        entry_key=entry_key_of(typed),
        who=shop.who,
    )
    desk.changed(fitting_id)
    return RedirectResponse(f"{address_of(fitting_id)}?{hand.query()}", status_code=303)


@router.post(AT + "/{fitting_id}/truth")
def end(fitting_id: str, shop: ShopHere) -> Response:
    """End it and show the truth."""
    show_truth(shop.store, shop.clock, fitting_id=fitting_id)
    return RedirectResponse(f"{AT}/{quoted(fitting_id)}/truth", status_code=303)


@router.get(AT + "/{fitting_id}/truth")
def truth(request: Request, fitting_id: str, shop: ShopHere, desk: DeskHere) -> Response:
    """What was believed beside what is so; looking at it ends the practice."""
    found = show_truth(shop.store, shop.clock, fitting_id=fitting_id)
    rows = _rows(found)
    told = [row.held for row in rows if row.held is not None]
    page = TruthPage(
        heading=heading(found.opened.fitting),
        world=found.world,
        held=catalogue()("practice.held", held=sum(told), of=len(told)) if told else "",
        verdict=verdict_now(found.opened, desk),
        drawing=drawing(
            lambda width, prefix: belief_and_truth(rows, ground=PAGE, prefix=prefix, width=width),
            prefix="truth",
            table=truth_table(rows),
        ),
    )
    return render(request, "practice_truth.html", page=page)


def _rows(found: Practice) -> list[Believed]:
    fitting, decision = found.opened.fitting, found.opened.decision
    known = marks(fitting, decision)
    believed = decision.builds if decision else {}
    return [
        Believed(
            mark=known[name],
            believed=believed[name].strokes_saved_per_round
            if name in believed and name != fitting.own_build
            else None,
            truth=facts["strokes_saved_per_round"],
        )
        for name, facts in found.truth.items()
    ]
