"""Another build to try, added while the fitting goes on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.add_build import add_build
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.errors import PackageFaults
from puttwright.evidence import Build
from puttwright.pictures.builds import letter_for
from puttwright.pictures.of_fitting import chosen_build
from puttwright.web.contexts.heading import Heading, address_of, heading, quoted
from puttwright.web.forms.asking import Field, Question, as_typed, fields, read, under_columns
from puttwright.web.forms.fitting_forms import build_questions, more_build_questions
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render
from puttwright.web.typed import TypedForm

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildPage:
    """The form for one build."""

    heading: Heading
    build_id: str
    letter: str
    fields: tuple[Field, ...]
    wrong: bool


@router.get("/fittings/{fitting_id}/builds/new")
def new_build(
    request: Request, fitting_id: str, shop: ShopHere, as_decided: bool = False
) -> Response:
    """The empty form, or one filled in as the decision wants it made."""
    opened = open_fitting(shop.store, fitting_id)
    page = _page(opened, typed=_as_decided(opened) if as_decided else None)
    return render(request, "build.html", page=page)


@router.post("/fittings/{fitting_id}/builds")
def add(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Add it and take it in hand, or show what needs another look."""
    answers = read(_questions(), typed)
    messages = dict(answers.messages)
    if not messages:
        build_id = typed.get("build_id", "").strip() or "?"
        build = Build(**under_columns(answers, _questions()) | {"build_id": build_id})
        try:
            add_build(shop.store, fitting_id=fitting_id, build=build)
        except PackageFaults as error:
            messages = {fault.column: fault.message for fault in error.faults}
        else:
            desk.changed(fitting_id)
            address = f"{address_of(fitting_id)}?hand={quoted(build_id)}"
            return RedirectResponse(address, status_code=303)
    page = _page(open_fitting(shop.store, fitting_id), typed=typed, messages=messages)
    return render(request, "build.html", page=page, status=422)


def _questions() -> tuple[Question, ...]:
    return (*build_questions(prefix="", needed=True), *more_build_questions(prefix=""))


def _as_decided(opened: OpenFitting) -> dict[str, str] | None:
    """The build the decision asks for as it would be typed; none where it asks for none."""
    build = chosen_build(opened.fitting, opened.decision) if opened.decision else None
    return None if build is None else as_typed(build, _questions()) | {"build_id": build.build_id}


def _page(
    opened: OpenFitting,
    *,
    typed: Mapping[str, str] | None = None,
    messages: Mapping[str, str] | None = None,
) -> BuildPage:
    known = {build.build_id for build in opened.fitting.builds}
    letter = letter_for(len(known))
    free = next(each for each in map(letter_for, range(len(known), 10_000)) if each not in known)
    return BuildPage(
        heading=heading(opened.fitting),
        build_id=(typed or {}).get("build_id", "") or free,
        letter=letter,
        fields=fields(_questions(), typed=typed, told=messages),
        wrong=bool(messages),
    )
