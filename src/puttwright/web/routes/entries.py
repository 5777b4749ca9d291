"""Entries on the green: a reading taken, a reading taken back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.void_reading import void_reading
from puttwright.errors import NotFound, PackageFaults
from puttwright.store.readings import Kept
from puttwright.web.contexts.bench import BenchPage
from puttwright.web.contexts.bench_page import numbers_of
from puttwright.web.contexts.hand import TASKS, Hand, hand_of
from puttwright.web.contexts.heading import address_of
from puttwright.web.contexts.said import name_of, unlikely
from puttwright.web.forms.asking import Typed
from puttwright.web.forms.entry_forms import TAPPED, read_entry
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render, wants_fragment
from puttwright.web.routes.green import BenchPieces, page_of, pieces
from puttwright.web.sentences import beside_field
from puttwright.web.texts import catalogue
from puttwright.web.typed import ENTRY_KEPT, TypedForm, entry_key_of

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class WrongTap:
    """Why a tap could not be taken."""

    sentences: tuple[str, ...]


@router.post("/fittings/{fitting_id}/take/{kind}")
def take_reading(
    request: Request, fitting_id: str, kind: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Record a reading; it is on the disk before this answers."""
    if kind not in TASKS:
        raise NotFound(what="table of readings", name=kind, known="")
    before = open_fitting(shop.store, fitting_id)
    hand = _hand(before, typed, kind=kind)
    entry = read_entry(
        kind,
        typed,
        build_id=hand.build_id,
        distance_m=hand.distance_m,
        board_mm=hand.board_mm,
        mirror=hand.mirror,
    )
    if entry.reading is None:
        page = page_of(before, hand, desk=desk, typed=typed, told=entry.messages)
        return _wrong(request, page, typed)
    try:
        kept = record_reading(
            shop.store,
            shop.clock,
            fitting_id=fitting_id,
            reading=entry.reading,
            entry_key=entry_key_of(typed),
            who=shop.who,
        )
    except PackageFaults as error:
        told = {fault.column: beside_field(fault.message) for fault in error.faults}
        page = page_of(before, hand, desk=desk, typed=typed, told=told)
        return _wrong(request, page, typed)
    desk.changed(fitting_id)
    after = open_fitting(shop.store, fitting_id)
    if not wants_fragment(request):
        return RedirectResponse(f"{address_of(fitting_id)}?{hand.query()}", status_code=303)
    notice = catalogue()("bench.recorded", reading=name_of(kept))
    numbers = None if typed.get("via") == TAPPED else numbers_of(hand)
    done = pieces(after, hand, desk=desk, notice=notice, doubt=unlikely(kept), numbers=numbers)
    return _done(request, done, kept)


@router.post("/fittings/{fitting_id}/void")
def take_back(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Take a reading back at once: it stays in the records as a slip of the finger."""
    kept = void_reading(
        shop.store,
        shop.clock,
        fitting_id=fitting_id,
        kind=typed.get("kind", ""),
        seq=number_of(typed.get("seq", "")),
        why=catalogue()("bench.slip"),
        who=shop.who,
    )
    desk.changed(fitting_id)
    after = open_fitting(shop.store, fitting_id)
    hand = hand_of(after, typed)
    if not wants_fragment(request):
        return RedirectResponse(f"{address_of(fitting_id)}?{hand.query()}", status_code=303)
    notice = catalogue()("bench.undone", reading=name_of(kept))
    return _done(request, pieces(after, hand, desk=desk, notice=notice), kept)


def _done(request: Request, page: BenchPieces, kept: Kept) -> Response:
    response = render(request, "entry_done.html", page=page)
    response.headers[ENTRY_KEPT] = str(kept.seq)
    return response


def number_of(text: str) -> int:
    """The number of a reading, as a form sends it.

    Raises
    ------
    NotFound
        It is none.
    """
    if not (text.isascii() and text.isdigit() and len(text) < 12):
        raise NotFound(what="reading", name=text[:20], known="")
    return int(text)


def _hand(opened: OpenFitting, typed: Typed, *, kind: str) -> Hand:
    """What was in hand when it was typed; a build that is not there is told, never replaced."""
    hand = hand_of(opened, dict(typed) | {"task": kind})
    return replace(hand, build_id=typed.get("hand") or hand.build_id)


def _wrong(request: Request, page: BenchPage, typed: Mapping[str, str]) -> Response:
    if not wants_fragment(request):
        return render(request, "green.html", page=page, status=422)
    if typed.get("via") == TAPPED:
        wrong = WrongTap(sentences=page.numbers.messages)
        return render(request, "wrong_tap.html", page=wrong, status=422)
    return render(request, "numbers_piece.html", page=page.numbers, status=422)
