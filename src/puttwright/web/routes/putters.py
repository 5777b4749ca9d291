"""One putter of a fitting: what it weighs and how it swings, and how to change that."""

from __future__ import annotations

from collections.abc import Mapping

from fastapi import APIRouter, Request, Response

from puttwright.deeds.keep_rack import look_at_rack
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.search_rack import rack_behind
from puttwright.deeds.want_feel import Feel, FeelFound, feel_of
from puttwright.errors import NotFound, UserError
from puttwright.evidence import Build, Part
from puttwright.web.contexts.putter_page import builds_to_look_at, putter_page
from puttwright.web.forms.asking import Answers, read
from puttwright.web.forms.bench_forms import feel_questions
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import sentence_of

router = APIRouter()


@router.get("/fittings/{fitting_id}/putters/{build_id}")
def show_putter(request: Request, fitting_id: str, build_id: str, shop: ShopHere) -> Response:
    """The page; what is wished for stands in its address."""
    opened = open_fitting(shop.store, fitting_id)
    known = {build.build_id: build for build in builds_to_look_at(opened)}
    if build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
    asked = dict(request.query_params)
    answers = read(feel_questions(), asked)
    feel, message = None, ""
    if any(value.strip() for value in asked.values()) and answers.good:
        rack = rack_behind(opened.fitting, look_at_rack(shop.store))
        feel, message = _found(known[build_id], answers, rack=rack)
    page = putter_page(
        opened, known[build_id], feel=feel, typed=_shown(asked), messages=answers.messages,
        message=message,
    )  # fmt: skip
    return render(
        request, "putter.html", page=page, status=422 if _wrong(answers, message) else 200
    )


def _shown(asked: Mapping[str, str]) -> Mapping[str, str] | None:
    return asked or None


def _wrong(answers: Answers, message: str) -> bool:
    return bool(message or answers.messages)


def _found(
    build: Build, answers: Answers, *, rack: tuple[Part, ...]
) -> tuple[FeelFound | None, str]:
    values = answers.values
    feel = Feel(
        swing_weight=values["swing_weight"] or "",
        balance_mm=values["balance_from_butt_mm"],
        total_g=values["total_mass_g"],
        length_mm=values["length_mm"],
        tape_g=values["tape_g"] or 0,
    )
    try:
        return feel_of(build, feel, rack=rack), ""
    except UserError as trouble:
        return None, sentence_of(trouble)
