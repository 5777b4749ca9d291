"""Every reading of a fitting, and what was taken back: by whom, when and why."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.void_reading import void_reading
from puttwright.pictures.of_fitting import marks
from puttwright.store.readings import Kept
from puttwright.web.contexts.heading import Heading, address_of, heading
from puttwright.web.contexts.said import name_of, said_of
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render, wants_fragment
from puttwright.web.routes.entries import number_of
from puttwright.web.texts import catalogue
from puttwright.web.typed import ENTRY_KEPT, TypedForm

router = APIRouter()

WHYS: Final = ("slip", "distracted", "instrument", "practice")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One reading."""

    anchor: str
    kind: str
    seq: int
    name: str
    words: str
    letter: str
    when: str
    void: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingsPage:
    """All of them, and why one may be taken back."""

    heading: Heading
    rows: tuple[Row, ...]
    whys: tuple[tuple[str, str], ...]


@router.get("/fittings/{fitting_id}/readings")
def show_readings(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """The table."""
    return render(request, "readings.html", page=_page(open_fitting(shop.store, fitting_id)))


@router.post("/fittings/{fitting_id}/readings/void")
def take_back(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Take one back for a reason."""
    why = typed.get("why", "")
    kept = void_reading(
        shop.store,
        shop.clock,
        fitting_id=fitting_id,
        kind=typed.get("kind", ""),
        seq=number_of(typed.get("seq", "")),
        why=catalogue()(f"readings.why_{why if why in WHYS else WHYS[0]}"),
        who=shop.who,
    )
    desk.changed(fitting_id)
    if wants_fragment(request):
        return Response(status_code=204, headers={ENTRY_KEPT: str(kept.seq)})
    address = f"{address_of(fitting_id)}/readings#{_anchor(kept)}"
    return RedirectResponse(address, status_code=303)


def _page(opened: OpenFitting) -> ReadingsPage:
    text = catalogue()
    known = marks(opened.fitting)
    return ReadingsPage(
        heading=heading(opened.fitting, here="readings"),
        rows=tuple(_row(kept, known[kept.reading.build_id].letter) for kept in opened.history),
        whys=tuple((why, text(f"readings.why_{why}")) for why in WHYS),
    )


def _anchor(kept: Kept) -> str:
    return f"{kept.kind}-{kept.seq}"


def _row(kept: Kept, letter: str) -> Row:
    text = catalogue()
    return Row(
        anchor=_anchor(kept),
        kind=kept.kind,
        seq=kept.seq,
        name=name_of(kept),
        words=said_of(kept),
        letter=letter,
        when=kept.when.astimezone().strftime("%H:%M"),
        void=text("readings.void", why=kept.void.why) if kept.void else "",
    )
