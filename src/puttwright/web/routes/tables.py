"""Tables of devices: chosen or arrived, confirmed once, read; what did not fit; taken back."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Final

from fastapi import APIRouter, Depends, Request, Response
from fastapi.responses import RedirectResponse
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.look_at_tables import look_at_tables, watched_folder
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.table_maps import with_fixed
from puttwright.deeds.take_back_table import take_back_table
from puttwright.deeds.take_table import LookedAt, Taking, look_at_table, take_table
from puttwright.errors import NotFound, UserError
from puttwright.readers.tables.open_table import bytes_of
from puttwright.readers.tables.table_map import known_columns
from puttwright.store.readings import PUTTS
from puttwright.web.arrivals import CONFIRM, NOBODY, Arrivals, ArrivalsHere, Waiting
from puttwright.web.contexts.counts import counted
from puttwright.web.contexts.hand import BOARD, DISTANCE, HELD, hand_of, typed_length
from puttwright.web.contexts.heading import address_of
from puttwright.web.contexts.table_page import (
    WaitingLine,
    builds_of,
    confirm_page,
    tables_page,
)
from puttwright.web.forms.asking import Typed
from puttwright.web.forms.table_forms import map_typed
from puttwright.web.held import Held
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import said_here, sentence_of, with_hint
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm

router = APIRouter()

TAKEN: Final = "?added="
"""Stands in the address of the page once a table was taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableFile:
    """A file in hand until it is confirmed: its bytes, or where it lies."""

    name: str
    data: bytes = b""
    path: Path | None = None

    def bytes(self) -> bytes:
        """What is in it now."""
        return self.data if self.path is None else bytes_of(self.path)


def _held_tables(request: Request) -> Held[TableFile]:
    held: Held[TableFile] = request.app.state.tables
    return held


HeldTables = Annotated[Held[TableFile], Depends(_held_tables)]


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrivedPiece:
    """What a page says of what waits."""

    address: str
    words: str


@router.get("/fittings/{fitting_id}/tables")
def show_tables(
    request: Request, fitting_id: str, shop: ShopHere, arrivals: ArrivalsHere
) -> Response:
    """The page."""
    opened = open_fitting(shop.store, fitting_id)
    return _page(request, opened, shop, arrivals)


@router.get("/fittings/{fitting_id}/arrived")
def show_arrived(
    request: Request, fitting_id: str, shop: ShopHere, arrivals: ArrivalsHere
) -> Response:
    """What waits, in a line; a piece of any page of the fitting."""
    open_fitting(shop.store, fitting_id)
    names = [each.path.name for each in arrivals.waiting()]
    text = catalogue()
    words = ""
    if names:
        key = "tables.waits_one" if len(names) == 1 else "tables.waits_many"
        words = text(key, name=names[0][-60:], count=len(names))
    piece = ArrivedPiece(address=f"{address_of(fitting_id)}/tables", words=words)
    return render(request, "arrived_piece.html", page=piece)


@router.post("/fittings/{fitting_id}/tables")
async def choose_table(
    request: Request, fitting_id: str, shop: ShopHere, arrivals: ArrivalsHere, desk: DeskHere,
    held: HeldTables,
) -> Response:  # fmt: skip
    """A file was chosen: taken if its kind is known, asked about if not."""
    opened = await asyncio.to_thread(open_fitting, shop.store, fitting_id)
    try:
        async with request.form(max_files=1, max_fields=10) as form:
            typed = {name: value for name, value in form.items() if isinstance(value, str)}
            chosen = form.get("table")
            if not isinstance(chosen, UploadFile) or not chosen.filename:
                message = catalogue()("tables.none_chosen")
                return _page(request, opened, shop, arrivals, message=message)
            file = TableFile(name=Path(chosen.filename).name[-100:], data=await chosen.read())
    except MultiPartException as error:
        raise HTTPException(400) from error
    name = held.hold(file)

    def work() -> Response:
        return _look(request, opened, file, shop=shop, arrivals=arrivals, name=name, typed=typed)

    answer = await asyncio.to_thread(work)
    if TAKEN in answer.headers.get("location", ""):
        desk.changed(fitting_id)
    return answer


def _look(
    request: Request, opened: OpenFitting, file: TableFile, *, shop: Shop, arrivals: Arrivals,
    name: str, typed: Typed,
) -> Response:  # fmt: skip
    try:
        looked = _looked(opened, file, shop)
        if looked.sure:
            return _take(opened, looked, shop=shop, arrivals=arrivals, key=name, typed=typed)
    except UserError as trouble:
        return _page(request, opened, shop, arrivals, message=with_hint(trouble))
    address = f"{address_of(opened.fitting.fitting_id)}/tables/{name}"
    return RedirectResponse(address, status_code=303)


@router.get("/fittings/{fitting_id}/tables/{name}")
def ask_about_table(
    request: Request, fitting_id: str, name: str, shop: ShopHere, arrivals: ArrivalsHere,
    held: HeldTables,
) -> Response:  # fmt: skip
    """A new kind of table, and what it leaves open."""
    opened = open_fitting(shop.store, fitting_id)
    file = _file(name, held, arrivals)
    return _confirm(request, opened, file, shop=shop, arrivals=arrivals, name=name, typed={})


@router.post("/fittings/{fitting_id}/tables/take-back")
def take_back(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere,
    arrivals: ArrivalsHere,
) -> Response:  # fmt: skip
    """Take a file's readings back, so that it may be read anew."""
    count = take_back_table(
        shop.store, shop.clock, fitting_id=fitting_id, entry_key=typed.get("file", ""), who=shop.who
    )
    desk.changed(fitting_id)
    notice = catalogue()("tables.taken_back", count=count)
    return _page(request, open_fitting(shop.store, fitting_id), shop, arrivals, notice=notice)


@router.post("/fittings/{fitting_id}/tables/watch")
def watch(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, arrivals: ArrivalsHere
) -> Response:
    """Watch a folder from now on, or none."""
    opened = open_fitting(shop.store, fitting_id)
    told = typed.get("folder", "").strip()
    try:
        arrivals.watch(watched_folder(shop.store, shop.clock, folder=told, who=shop.who))
    except UserError as trouble:
        wrong = sentence_of(trouble)
        return _page(request, opened, shop, arrivals, folder=told, folder_message=wrong)
    notice = catalogue()("tables.watched" if told else "tables.unwatched")
    return _page(request, opened, shop, arrivals, notice=notice)


@router.post("/fittings/{fitting_id}/tables/{name}")
def answer_about_table(
    request: Request, fitting_id: str, name: str, typed: TypedForm, shop: ShopHere,
    arrivals: ArrivalsHere, desk: DeskHere, held: HeldTables,
) -> Response:  # fmt: skip
    """Show what comes of the answers, or take the table by them."""
    opened = open_fitting(shop.store, fitting_id)
    file = _file(name, held, arrivals)
    if typed.get("do") == "leave":
        _let_go(file, name, held, arrivals)
        return RedirectResponse(f"{address_of(fitting_id)}/tables", status_code=303)
    answer = _confirm(
        request, opened, file, shop=shop, arrivals=arrivals, name=name, typed=typed,
        take=typed.get("do") == "take",
    )  # fmt: skip
    if answer.status_code == 303:
        _let_go(file, name, held, arrivals)
        arrivals.again(fitting_id)
        desk.changed(fitting_id)
    return answer


def _let_go(file: TableFile, name: str, held: HeldTables, arrivals: Arrivals) -> None:
    held.forget(name)
    if file.path is not None:
        arrivals.done(file.path)


def _confirm(
    request: Request, opened: OpenFitting, file: TableFile, *, shop: Shop, arrivals: Arrivals,
    name: str, typed: Typed, take: bool = False,
) -> Response:  # fmt: skip
    fitting = opened.fitting
    try:
        looked = _looked(opened, file, shop)
    except UserError as trouble:
        return _page(request, opened, shop, arrivals, message=sentence_of(trouble))
    said = map_typed(typed, looked, builds=dict(builds_of(fitting)))
    length = typed_length(typed, DISTANCE if said.map.table == PUTTS else BOARD)
    wrong = length.message or (take and said.messages)
    message = catalogue()("form.wrong") if wrong else ""
    if take and not wrong:
        try:
            confirmed = LookedAt(
                name=looked.name, opened=looked.opened, layout=looked.layout,
                header=looked.header, map=said.map, known=True,
            )  # fmt: skip
            return _take(opened, confirmed, shop=shop, arrivals=arrivals, key=name, typed=typed)
        except UserError as trouble:
            message = with_hint(trouble)
    hand = hand_of(opened, {**arrivals.hand(fitting.fitting_id), **_handed(typed)})
    taken = with_fixed(
        said.map, fitting, said=_known(_said(opened, arrivals, typed), said.map.table)
    )
    page = confirm_page(
        opened, hand, looked=looked, said=said, taken=taken, message=message,
        address=f"{address_of(fitting.fitting_id)}/tables/{name}", length=length,
    )  # fmt: skip
    return render(request, "table_confirm.html", page=page, status=422 if message else 200)


def _take(
    opened: OpenFitting, looked: LookedAt, *, shop: Shop, arrivals: Arrivals, key: str, typed: Typed
) -> Response:
    fitting_id = opened.fitting.fitting_id
    taking = Taking(entry_key=key, who=shop.who, said=_said(opened, arrivals, typed))
    read = take_table(
        shop.store, shop.clock, fitting_id=fitting_id, table=looked, taking=taking,
        folder=shop.folder,
    )  # fmt: skip
    words = f"{TAKEN}{read.added}&kind={read.table}&before={read.before}&aside={len(read.aside)}"
    return RedirectResponse(f"{address_of(fitting_id)}/tables{words}", status_code=303)


def _handed(typed: Typed) -> dict[str, str]:
    return {name: typed[name] for name in HELD if typed.get(name)}


def _said(opened: OpenFitting, arrivals: Arrivals, typed: Typed) -> Mapping[str, str | None]:
    query = dict(arrivals.hand(opened.fitting.fitting_id)) | _handed(typed)
    return arrivals.said(opened, query)


def _known(said: Mapping[str, str | None], table: str) -> dict[str, str | None]:
    known = known_columns(table)
    return {name: value for name, value in said.items() if name in known}


def _looked(opened: OpenFitting, file: TableFile, shop: Shop) -> LookedAt:
    return look_at_table(file.bytes(), name=file.name, fitting=opened.fitting, folder=shop.folder)


def _file(name: str, held: HeldTables, arrivals: Arrivals) -> TableFile:
    found = held.find(name)
    waiting = arrivals.find(name)
    if found is not None:
        return found
    if waiting is not None:
        return TableFile(name=waiting.path.name, path=waiting.path)
    raise NotFound(what="table", name=name[:20], known="; choose the file again")


def _page(
    request: Request, opened: OpenFitting, shop: Shop, arrivals: Arrivals, /, *, notice: str = "",
    message: str = "", folder: str | None = None, folder_message: str = "",
) -> Response:  # fmt: skip
    fitting_id = opened.fitting.fitting_id
    kept = look_at_tables(shop.store, fitting_id)
    query = request.query_params
    if "added" in query and not notice:
        notice = _taken_words(query)
    shown = folder if folder is not None else str(arrivals.folder or "")
    page = tables_page(
        opened, hand_of(opened, arrivals.hand(fitting_id)), files=kept.files, asides=kept.asides,
        waiting=[_waiting(each, fitting_id) for each in arrivals.waiting()], folder=shown,
        notice=notice, message=message, folder_message=folder_message,
    )  # fmt: skip
    return render(
        request, "tables.html", page=page, status=422 if message or folder_message else 200
    )


def _waiting(each: Waiting, fitting_id: str) -> WaitingLine:
    text = catalogue()
    why = {CONFIRM: text("tables.to_confirm"), NOBODY: text("tables.nobody")}.get(each.why)
    return WaitingLine(
        name=each.path.name[-80:], why=why or said_here(each.told),
        address=f"{address_of(fitting_id)}/tables/{each.number}",
    )  # fmt: skip


def _taken_words(query: Mapping[str, str]) -> str:
    text = catalogue()
    counts = {n: int(query[n]) if query.get(n, "").isdigit() else 0 for n in _COUNTS}
    kind = query.get("kind", "")
    kind = kind if kind in ("putts", "aims", "setups") else "putts"
    parts = [text("tables.added", readings=counted(**{kind: counts["added"]}))]
    parts += [text("tables.before", count=counts["before"])] if counts["before"] else []
    parts += [text("tables.aside", count=counts["aside"])] if counts["aside"] else []
    return " ".join(parts)


_COUNTS: Final = ("added", "before", "aside")
