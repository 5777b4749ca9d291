"""Instruments: how well each measures, from a table of repeat readings; kept with the fitting."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final

from fastapi import APIRouter, Depends, Request, Response
from fastapi.responses import RedirectResponse
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException

from puttwright.deeds.keep_instrument import keep_instrument, known_instruments, study_sent
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.say_gauge import gauge_lines, verdict
from puttwright.deeds.study_gauge import Gauge
from puttwright.errors import NotFound, UserError
from puttwright.evidence import AimReading, Column, Instrument, Putt, columns_of
from puttwright.web.contexts.hand import BOARD as BOARD_DISTANCE
from puttwright.web.contexts.hand import UNTYPED, Length, hand_of, typed_length
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.held import Held
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import with_hint
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm

router = APIRouter()

BOARD: Final = "reading_mm"
READ: Final = (
    BOARD, "start_deg", "ball_speed_mps", "launch_deg", "face_deg", "path_deg", "spin_rpm", "skid_m"
)  # fmt: skip
"""What instruments read of a fitting, the commonest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InstrumentLine:
    """An instrument in words, and what keeps it with this fitting when it is not yet."""

    name: str
    words: str
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Studied:
    """What a study found: the verdict, the figures, and the number under which it is kept."""

    verdict: str
    lines: tuple[str, ...]
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class InstrumentsPage:
    """The fitting's instruments, those of the shop, the form, and what a study found."""

    heading: Heading
    here: tuple[InstrumentLine, ...]
    others: tuple[InstrumentLine, ...]
    quantities: tuple[tuple[str, str], ...]
    board_m: float
    typed: Mapping[str, str]
    studied: Studied | None = None
    message: str = ""
    notice: str = ""
    length: Length = UNTYPED


def _held(request: Request) -> Held[Instrument]:
    held: Held[Instrument] = request.app.state.instruments
    return held


HeldInstruments = Annotated[Held[Instrument], Depends(_held)]


@router.get("/fittings/{fitting_id}/instruments")
def show_instruments(
    request: Request, fitting_id: str, shop: ShopHere, held: HeldInstruments
) -> Response:
    """The page."""
    opened = open_fitting(shop.store, fitting_id)
    notice = catalogue()("instruments.kept") if "kept" in request.query_params else ""
    return render(
        request, "instruments.html",
        page=_page(opened, known_instruments(shop.store), held, notice=notice),
    )  # fmt: skip


@router.post("/fittings/{fitting_id}/instruments")
async def study_instrument(
    request: Request, fitting_id: str, shop: ShopHere, held: HeldInstruments
) -> Response:
    """Study the readings that were sent; nothing is kept yet."""
    opened = await asyncio.to_thread(open_fitting, shop.store, fitting_id)
    try:
        async with request.form(max_files=1, max_fields=10) as form:
            typed = {name: value for name, value in form.items() if isinstance(value, str)}
            chosen = form.get("study")
            sent = isinstance(chosen, UploadFile) and bool(chosen.filename)
            data = await chosen.read() if isinstance(chosen, UploadFile) else b""
            name = chosen.filename or "" if isinstance(chosen, UploadFile) else ""
    except MultiPartException as error:
        raise HTTPException(400) from error

    def work() -> Response:
        known = known_instruments(shop.store)
        if not sent:
            message = catalogue()("tables.none_chosen")
            page = _page(opened, known, held, typed=typed, message=message)
            return render(request, "instruments.html", page=page, status=422)
        if typed_length(typed, BOARD_DISTANCE).message:
            page = _page(opened, known, held, typed=typed, message=catalogue()("form.wrong"))
            return render(request, "instruments.html", page=page, status=422)
        try:
            gauge = _study(opened, data, name=name, typed=typed)
        except UserError as trouble:
            message = with_hint(trouble)
            page = _page(opened, known, held, typed=typed, message=message)
            return render(request, "instruments.html", page=page, status=422)
        page = _page(opened, known, held, typed=typed, studied=_studied(gauge, held))
        return render(request, "instruments.html", page=page)

    return await asyncio.to_thread(work)


@router.post("/fittings/{fitting_id}/instruments/keep")
def keep(
    fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere, held: HeldInstruments
) -> Response:
    """Keep an instrument with this fitting; its decision is redrawn."""
    entry = held.find(typed.get("instrument", ""))
    if entry is None:
        raise NotFound(what="study", name="that", known="; choose its file again")
    keep_instrument(shop.store, shop.clock, fitting_id=fitting_id, entry=entry, who=shop.who)
    desk.changed(fitting_id)
    address = heading(open_fitting(shop.store, fitting_id).fitting).address
    return RedirectResponse(f"{address}/instruments?kept=yes", status_code=303)


def _study(opened: OpenFitting, data: bytes, *, name: str, typed: Mapping[str, str]) -> Gauge:
    quantity = typed.get("quantity", BOARD)
    on_board = quantity == BOARD
    hand = hand_of(opened, typed)
    return study_sent(
        data, name=name, quantity=quantity, called=typed.get("name", "").strip()[:80],
        board_distance_m=hand.board_mm / 1000.0 if on_board else None,
        mirror=on_board and hand.mirror,
    )  # fmt: skip


def _studied(gauge: Gauge, held: Held[Instrument]) -> Studied:
    lines = [each.strip() for each in gauge_lines(gauge)[1:]]
    entry = gauge.instrument
    told = tuple(each for each in lines if each and not each.startswith("instruments:"))
    return Studied(verdict=verdict(gauge), lines=told, number=held.hold(entry) if entry else "")


def _page(
    opened: OpenFitting, known: list[Instrument], held: Held[Instrument], /, *,
    typed: Mapping[str, str] | None = None, studied: Studied | None = None, message: str = "",
    notice: str = "",
) -> InstrumentsPage:  # fmt: skip
    here = opened.fitting.instruments
    columns = _columns()
    return InstrumentsPage(
        heading=heading(opened.fitting), here=tuple(_line(each, columns, "") for each in here),
        others=tuple(
            _line(each, columns, held.hold(each)) for each in known if each not in here
        ),
        quantities=tuple((name, columns[name].meaning) for name in READ),
        board_m=hand_of(opened, typed or {}).board_mm, typed=typed or {}, studied=studied,
        message=message, notice=notice, length=typed_length(typed or {}, BOARD_DISTANCE),
    )  # fmt: skip


def _columns() -> dict[str, Column]:
    return {each.name: each for record in (AimReading, Putt) for each in columns_of(record)}


def _line(entry: Instrument, columns: Mapping[str, Column], number: str, /) -> InstrumentLine:
    column = columns.get(entry.quantity)
    words = catalogue()(
        "instruments.line", what=column.meaning if column else entry.quantity,
        sd=f"{entry.repeatability_sd:.2g}", unit=(column.unit or "") if column else "",
    )  # fmt: skip
    return InstrumentLine(name=entry.name, words=words, number=number)
