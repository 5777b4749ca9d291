"""Clips of filmed putts: measured beside the pages, shown, entered when the fitter says so.

The clip itself is never kept: it goes as soon as it was read (``web/clips.py``).
"""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from typing import Final, cast

from fastapi import APIRouter, Depends, Request, Response
from fastapi.responses import RedirectResponse
from starlette.datastructures import FormData, UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException

from puttwright.deeds.measure_roll import RollReading
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.record_film import clip_known, record_film
from puttwright.errors import NotFound, PackageFaults
from puttwright.evidence import Putt
from puttwright.web.clips import Clips, Filmed, ManyClips, Round
from puttwright.web.contexts.films_page import (
    end_prefix,
    film_row,
    films_page,
    rate_question,
    read_asked,
)
from puttwright.web.contexts.hand import hand_of
from puttwright.web.contexts.heading import address_of
from puttwright.web.contexts.hour import ROLL
from puttwright.web.forms.asking import read
from puttwright.web.forms.entry_forms import Entry, read_end
from puttwright.web.here import DeskHere, ShopHere, photos_allowed
from puttwright.web.pages import render
from puttwright.web.sentences import sentence_of
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm, entry_key_of

router = APIRouter(dependencies=[Depends(photos_allowed)])

MOST_CLIPS: Final = 6
_PAGE: Final = "films.html"


@router.get("/fittings/{fitting_id}/films")
def show_films(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """The form, and the clips that were sent."""
    opened = open_fitting(shop.store, fitting_id)
    query = request.query_params
    name = query.get("read", "")
    sent = _clips(request).find(name)
    if sent is None or sent.fitting_id != fitting_id:
        message = catalogue()("films.gone") if name else ""
        return render(request, _PAGE, page=films_page(opened, query, message=message))
    typed = {"hand": sent.build_id, "from": f"{sent.distance_m:g}"}
    return render(request, _PAGE, page=films_page(opened, typed, name=name, sent=sent))


@router.post("/fittings/{fitting_id}/films")
async def take_clips(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """Take clips in; they are read in the background."""
    opened = await asyncio.to_thread(open_fitting, shop.store, fitting_id)
    try:
        async with request.form(max_files=MOST_CLIPS, max_fields=20) as form:
            return await asyncio.to_thread(_take, request, opened, form)
    except MultiPartException as error:
        raise HTTPException(400) from error


def _take(request: Request, opened: OpenFitting, form: FormData) -> Response:
    typed = {name: value for name, value in form.items() if isinstance(value, str)}
    files = [
        (each.filename[-60:], each.file)
        for each in form.getlist("clips")
        if isinstance(each, UploadFile) and each.filename
    ]
    hand = hand_of(opened, typed | {"task": "putts", "look": ROLL})
    answers, ask = read_asked(opened, typed, hand=hand)
    none = "" if files else catalogue()("films.none_chosen")
    if none or not answers.good:
        page = films_page(opened, typed, told=answers.messages, files=none, keep=True)
        return render(request, _PAGE, page=page, status=422)
    whose = opened.fitting.fitting_id
    distance_m = round(answers.values["distance_m"], 3)  # three metres said in feet stay three
    sent = Round(fitting_id=whose, build_id=hand.build_id, distance_m=distance_m)
    try:
        name = _clips(request).send(sent, files, ask=ask)
    except ManyClips as trouble:
        page = films_page(opened, typed, files=sentence_of(trouble), keep=True)
        return render(request, _PAGE, page=page, status=409)
    return RedirectResponse(f"{address_of(whose)}/films?read={name}", status_code=303)


@router.get("/fittings/{fitting_id}/films/{name}/{number}")
def show_clip(
    request: Request, fitting_id: str, name: str, number: str, shop: ShopHere
) -> Response:
    """One clip as it stands now."""
    opened = open_fitting(shop.store, fitting_id)
    sent = _sent(request, fitting_id, name=name)
    clip = _clip(sent, number)
    at = f"{address_of(fitting_id)}/films/{name}"
    row = film_row(clip, opened, number=sent.clips.index(clip), at=at)
    return render(request, "film_row.html", page=row)


@router.post("/fittings/{fitting_id}/films/{name}/rate")
def say_rate(
    request: Request, fitting_id: str, name: str, typed: TypedForm, shop: ShopHere
) -> Response:
    """How many pictures a second were taken: then the clip is read."""
    sent = _sent(request, fitting_id, name=name)
    number, _, quick = typed.get("quick", "").partition(":")
    said = dict(typed) | ({f"fps-{number}": quick} if quick else {})
    asked = [rate_question(n) for n in range(len(sent.clips)) if said.get(f"fps-{n}")]
    answers = read(asked, said)
    for n, clip in enumerate(sent.clips):
        rate = answers.values.get(f"fps-{n}")
        if rate is not None:
            _clips(request).said(clip, fps=rate)
    if not answers.good:
        opened = open_fitting(shop.store, fitting_id)
        told = answers.messages
        page = films_page(opened, said | _held(sent), name=name, sent=sent, told=told)
        return render(request, _PAGE, page=page, status=422)
    return RedirectResponse(f"{address_of(fitting_id)}/films?read={name}", status_code=303)


@router.post("/fittings/{fitting_id}/films/{name}/enter")
def enter_films(
    request: Request, fitting_id: str, name: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Enter what the fitter left chosen, in the order of the clips."""
    sent = _sent(request, fitting_id, name=name)
    films = {n: clip.reading for n, clip in enumerate(sent.clips) if clip.reading}
    chosen = {n: film for n, film in films.items() if typed.get(f"clip-{n}") == "yes"}
    entries = {n: _end(sent, typed, n) for n in chosen}
    told = {name: words for each in entries.values() for name, words in each.messages.items()}
    key = entry_key_of(typed)
    message = _not_to_be_entered(sent, chosen)
    try:
        for n, film in chosen.items() if not (told or message) else ():
            if clip_known(open_fitting(shop.store, fitting_id).history, film):
                continue  # sent twice: it stands there already
            seen = cast(Putt, entries[n].reading)
            record_film(
                shop.store, shop.clock, fitting_id=fitting_id, seen=seen, film=film,
                entry_key=f"{key}-{n}", who=shop.who,
            )  # fmt: skip
    except PackageFaults as trouble:
        message = sentence_of(trouble)
    if message or told:
        opened = open_fitting(shop.store, fitting_id)
        typed = dict(typed) | _held(sent)
        page = films_page(opened, typed, name=name, sent=sent, told=told, message=message)
        return render(request, _PAGE, page=page, status=422)
    desk.changed(fitting_id)
    hand = hand_of(open_fitting(shop.store, fitting_id), _held(sent) | {"look": ROLL})
    return RedirectResponse(f"{address_of(fitting_id)}?{hand.query()}", status_code=303)


def _not_to_be_entered(sent: Round, chosen: Mapping[int, RollReading]) -> str:
    """What is wrong with the choice: nothing chosen, or one clip chosen as two putts."""
    if not chosen:
        return catalogue()("films.none_ticked")
    seen: dict[str, int] = {}
    for n, film in chosen.items():
        if seen.setdefault(film.sha256, n) != n:
            first = sent.clips[seen[film.sha256]].name
            return catalogue()("films.twice", name=sent.clips[n].name, first=first)
    return ""


def _end(sent: Round, typed: Mapping[str, str], number: int, /) -> Entry:
    return read_end(
        typed, prefix=end_prefix(number), build_id=sent.build_id, distance_m=sent.distance_m
    )  # fmt: skip


def _held(sent: Round) -> dict[str, str]:
    return {"hand": sent.build_id, "task": "putts", "from": f"{sent.distance_m:g}"}


def _clips(request: Request) -> Clips:
    clips: Clips = request.app.state.clips
    return clips


def _sent(request: Request, fitting_id: str, *, name: str) -> Round:
    found = _clips(request).find(name)
    if found is None or found.fitting_id != fitting_id:
        raise NotFound(what="clip", name=name[:40], known="; send it again")
    return found


def _clip(sent: Round, number: str) -> Filmed:
    if not (number.isascii() and number.isdigit() and len(number) < 3):
        raise NotFound(what="clip", name=number[:20], known="")
    place = int(number)
    if place >= len(sent.clips):
        raise NotFound(what="clip", name=number[:20], known="")
    return sent.clips[place]
