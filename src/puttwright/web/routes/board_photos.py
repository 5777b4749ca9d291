"""Photos of the aim board: read, shown, and entered as aims when the fitter says so.

A photo lives in a folder of its own while it is read, and is gone before the page
answers. What remains is the reading, and for a doubtful photo a small picture without
the camera's notes, in memory only.
"""

from __future__ import annotations

import asyncio
import math
import shutil
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from fastapi import APIRouter, Depends, Request, Response
from fastapi.responses import RedirectResponse
from starlette.datastructures import FormData, UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException

from puttwright.deeds.measure_board import BoardSetup, PhotoReading, measure_board, settle_board
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.errors import NotFound, UserError
from puttwright.evidence import AimReading
from puttwright.readers.tap_picture import TapPicture
from puttwright.store.readings import AIMS
from puttwright.web.contexts.hand import BAR, BOARD, UNTYPED, Hand, Length, hand_of, typed_length
from puttwright.web.contexts.heading import Heading, address_of, heading
from puttwright.web.contexts.hour import AIM
from puttwright.web.held import Held
from puttwright.web.here import DeskHere, ShopHere, photos_allowed
from puttwright.web.measures import measure
from puttwright.web.pages import render
from puttwright.web.sentences import beside_field, sentence_of
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm, entry_key_of, new_key

router = APIRouter(dependencies=[Depends(photos_allowed)])

MOST_PHOTOS: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A reading that may be entered: what is sent, and how it is said."""

    value: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubtful:
    """A doubtful photo's small picture, and how its board stood."""

    picture: TapPicture
    setup: BoardSetup


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPicture:
    """A small picture on the page: its address and size."""

    address: str
    width: int
    height: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoRow:
    """One photo: its choices, or why there are none; ``sure`` when one is chosen already."""

    name: str
    choices: tuple[Choice, ...]
    told: str
    picture: ShownPicture | None
    sure: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Tapped:
    """Where the dot was tapped: a choice of one photo, or why it is none."""

    number: int
    choice: Choice | None
    told: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPhotosPage:
    """The form, and what the photos said."""

    heading: Heading
    hand: Hand
    builds: tuple[tuple[str, str], ...]
    entry_key: str
    rows: tuple[PhotoRow, ...] = ()
    message: str = ""
    length: Length = UNTYPED
    bar: Length = UNTYPED


@router.get("/fittings/{fitting_id}/board-photos")
def show_form(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """The form."""
    opened = open_fitting(shop.store, fitting_id)
    return render(request, "board_photos.html", page=_page(opened, request.query_params))


@router.get("/board-pictures/{name}")
def show_picture(request: Request, name: str) -> Response:
    """A small picture of a doubtful photo, while it is held."""
    return Response(_doubtful(request, name).picture.jpeg, media_type="image/jpeg")


@router.post("/board-pictures/{name}/tap")
def settle_by_tap(request: Request, name: str, typed: TypedForm) -> Response:
    """The reading where a person tapped in it; nothing is entered yet."""
    doubtful = _doubtful(request, name)
    number, x, y = (_reading(typed.get(each, "")) for each in ("number", "x", "y"))
    found = settle_board(doubtful.picture, doubtful.setup, tap_px=(x, y))
    choice = None
    if found.reading_mm is not None:
        words = catalogue()(
            "photos.tapped", reading=_way(found.reading_mm),
            sd=measure(found.reading_sd_mm or 0.0, "mm", digits=1),
        )  # fmt: skip
        choice = Choice(value=f"{found.reading_mm:.2f}", words=words)
    tapped = Tapped(number=int(number), choice=choice, told=beside_field(found.doubt))
    return render(request, "board_tap_piece.html", page=tapped)


@router.post("/fittings/{fitting_id}/board-photos")
async def read_photos(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """Read the photos and show what they say; nothing is entered yet."""
    opened = await asyncio.to_thread(open_fitting, shop.store, fitting_id)
    try:
        async with request.form(max_files=MOST_PHOTOS, max_fields=20) as form:
            typed = {name: value for name, value in form.items() if isinstance(value, str)}
            photos = _photos(form)
            if not photos:
                message = catalogue()("photos.none_chosen")
                page = _page(opened, typed, message=message)
                return render(request, "board_photos.html", page=page, status=422)
            board, bar = (typed_length(typed, name) for name in (BOARD, BAR))
            if board.message or bar.message:
                page = _page(opened, typed, message=catalogue()("form.wrong"))
                return render(request, "board_photos.html", page=page, status=422)
            setup = _setup(opened, typed)
            held = _held(request)
            rows = await asyncio.to_thread(_read, photos, setup, held)
    except MultiPartException as error:
        raise HTTPException(400) from error
    except UserError as trouble:
        page = _page(opened, typed, message=sentence_of(trouble))
        return render(request, "board_photos.html", page=page, status=422)
    return render(request, "board_photos.html", page=_page(opened, typed, rows=rows))


@router.post("/fittings/{fitting_id}/board-photos/enter")
def enter_readings(fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere) -> Response:
    """Enter what the fitter left chosen, in the order of the photos."""
    hand = hand_of(open_fitting(shop.store, fitting_id), dict(typed) | {"task": AIMS})
    key = entry_key_of(typed)
    for number in range(MOST_PHOTOS):
        chosen = typed.get(f"photo-{number}", "")
        if chosen:
            aim = AimReading(
                seq=0, build_id=hand.build_id, board_distance_mm=hand.board_mm,
                reading_mm=_reading(chosen), mirror=hand.mirror, instrument="board photo",
            )  # fmt: skip
            record_reading(
                shop.store, shop.clock, fitting_id=fitting_id, reading=aim,
                entry_key=f"{key}-{number}", who=shop.who,
            )  # fmt: skip
    desk.changed(fitting_id)
    return RedirectResponse(f"{address_of(fitting_id)}?{hand.query()}", status_code=303)


def _reading(text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = math.inf
    if not math.isfinite(value):
        raise NotFound(what="reading", name=text[:20], known="")
    return value


def _held(request: Request) -> Held[Doubtful]:
    held: Held[Doubtful] = request.app.state.board_pictures
    return held


def _doubtful(request: Request, name: str) -> Doubtful:
    found = _held(request).find(name)
    if found is None:
        raise NotFound(what="picture", name=name[:40], known="; read the photo again")
    return found


def _page(
    opened: OpenFitting, typed: Mapping[str, str], *, rows: tuple[PhotoRow, ...] = (),
    message: str = "",
) -> BoardPhotosPage:  # fmt: skip
    return BoardPhotosPage(
        heading=heading(opened.fitting, here=AIM),
        hand=hand_of(opened, dict(typed) | {"task": AIMS}),
        builds=tuple((build.build_id, build.name) for build in opened.fitting.builds),
        entry_key=new_key(), rows=rows, message=message, length=typed_length(typed, BOARD),
        bar=typed_length(typed, BAR),
    )  # fmt: skip


def _photos(form: FormData) -> list[UploadFile]:
    found = form.getlist("photos")
    return [each for each in found if isinstance(each, UploadFile) and each.filename]


def _setup(opened: OpenFitting, typed: Mapping[str, str]) -> BoardSetup:
    hand = hand_of(opened, dict(typed) | {"task": AIMS})
    return BoardSetup(
        distance_m=hand.board_mm / 1000.0, mirror=hand.mirror, bar_mm=typed_length(typed, BAR).value
    )  # fmt: skip


def _read(
    photos: Sequence[UploadFile], setup: BoardSetup, held: Held[Doubtful], /
) -> tuple[PhotoRow, ...]:
    """Read them from files of our own naming, which are gone when this returns."""
    shown: dict[str, ShownPicture] = {}

    def show(_path: Path, picture: TapPicture) -> str:
        address = f"/board-pictures/{held.hold(Doubtful(picture=picture, setup=setup))}"
        width, height = picture.size
        shown[address] = ShownPicture(address=address, width=width, height=height)
        return address

    with tempfile.TemporaryDirectory(prefix="puttwright-") as folder:
        paths = []
        for number, photo in enumerate(photos):
            path = Path(folder) / f"photo-{number}"
            with path.open("wb") as file:
                shutil.copyfileobj(photo.file, file)
            paths.append(path)
        found = measure_board(paths, setup, show=show)
    named = zip(photos, found, strict=True)
    return tuple(_row(photo.filename or "", each, shown=shown) for photo, each in named)


def _row(name: str, found: PhotoReading, *, shown: Mapping[str, ShownPicture]) -> PhotoRow:
    text = catalogue()
    if found.reading_mm is not None:
        words = text(
            "photos.reading", reading=_way(found.reading_mm),
            sd=measure(found.reading_sd_mm or 0.0, "mm", digits=1),
        )  # fmt: skip
        choices: tuple[Choice, ...] = (Choice(value=f"{found.reading_mm:.2f}", words=words),)
    else:
        choices = tuple(
            Choice(value=f"{each.reading_mm:.2f}", words=f"{each.number}: {_way(each.reading_mm)}")
            for each in found.candidates
        )
    return PhotoRow(
        name=name[-60:], choices=choices, told=beside_field(found.trouble or found.doubt),
        sure=found.reading_mm is not None, picture=shown.get(found.picture),
    )  # fmt: skip


def _way(reading_mm: float) -> str:
    side = catalogue()("bench.right" if reading_mm >= 0 else "bench.left")
    return f"{measure(abs(reading_mm), 'mm', digits=1)} {side}"
