"""Another build to try, added while the fitting goes on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Query, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.add_build import add_build
from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.search_rack import made_with
from puttwright.errors import PackageFaults
from puttwright.evidence import Build
from puttwright.pictures.builds import letter_for
from puttwright.pictures.of_fitting import chosen_build
from puttwright.web.contexts.heading import Heading, address_of, heading, quoted
from puttwright.web.contexts.putter_page import builds_to_look_at
from puttwright.web.forms.asking import (
    Field,
    Question,
    as_typed,
    fields,
    question,
    read,
    under_columns,
)
from puttwright.web.forms.fitting_forms import build_questions, more_build_questions
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import beside_field
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
    request: Request, fitting_id: str, shop: ShopHere, as_decided: bool = False,
    part: Annotated[list[str] | None, Query()] = None, near: str = "",
) -> Response:  # fmt: skip
    """The empty form, or one filled in as the decision, or a set of parts, wants it made."""
    opened = open_fitting(shop.store, fitting_id)
    typed = _as_decided(opened) if as_decided else None
    page = _page(opened, typed=_of_parts(shop, opened, part, near=near) if part else typed)
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
            add_build(shop.store, shop.clock, fitting_id=fitting_id, build=build, who=shop.who)
        except PackageFaults as error:
            messages = {fault.column: beside_field(fault.message) for fault in error.faults}
        else:
            desk.changed(fitting_id)
            address = f"{address_of(fitting_id)}?hand={quoted(build_id)}"
            return RedirectResponse(address, status_code=303)
    page = _page(open_fitting(shop.store, fitting_id), typed=typed, messages=messages)
    return render(request, "build.html", page=page, status=422)


def _questions() -> tuple[Question, ...]:
    of_parts = (
        question(Build, "grip_diameter_mm", label="rack.grip_diameter_mm"),
        question(Build, "total_mass_g", label="putter.total"),
        question(Build, "balance_from_butt_mm", label="putter.balance"),
        question(Build, "head_id", label="build.head_id", hint="build.id_hint"),
        question(Build, "neck_id", label="build.neck_id"),
        question(Build, "grip_id", label="build.grip_id"),
    )
    return (*build_questions(prefix="", needed=True), *more_build_questions(prefix=""), *of_parts)


def _of_parts(
    shop: Shop, opened: OpenFitting, part_ids: list[str], *, near: str
) -> dict[str, str] | None:
    """The putter these parts of the rack make, as it would be typed."""
    known = {build.build_id: build for build in builds_to_look_at(opened)}
    wanted = known.get(near) or opened.fitting.build(opened.fitting.own_build)
    build = made_with(shop.store, opened.fitting, wanted=wanted, part_ids=part_ids)
    if build is None:
        return None
    typed = as_typed(build, _questions())
    return typed | {"label": ", ".join(part_ids)[:60]}


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
