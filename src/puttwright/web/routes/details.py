"""The interview and the gauge: what was written down at first, put right while it still is so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.change_fitting import (
    ChangedMeanwhile,
    Details,
    change_build,
    change_details,
)
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.errors import NotFound, PackageFaults
from puttwright.evidence import Build, Green
from puttwright.web.contexts.details_page import (
    Trouble,
    gauge_page,
    gauge_questions,
    green_rows,
    interview_page,
    interview_questions,
    interview_stands,
)
from puttwright.web.contexts.heading import address_of, quoted
from puttwright.web.forms.asking import Answers, Question, Typed, as_typed, read, under_columns
from puttwright.web.forms.fitting_forms import golfer_questions, here_questions
from puttwright.web.forms.stale import SEEN, changed_since, put_right
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import beside_field, form_fault
from puttwright.web.typed import TypedForm

router = APIRouter()


@router.get("/fittings/{fitting_id}/interview")
def show_interview(request: Request, fitting_id: str, shop: ShopHere) -> Response:
    """The page."""
    page = interview_page(open_fitting(shop.store, fitting_id))
    return render(request, "interview.html", page=page)


@router.post("/fittings/{fitting_id}/interview")
def change_interview(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Write it, or show what needs another look, or what changed since the page was opened."""
    opened = open_fitting(shop.store, fitting_id)
    rows = _green_rows_filled(opened, typed)
    asked = [*golfer_questions(), *here_questions(), *(each for row in rows for each in row)]
    answers = read(asked, typed)
    if not answers.good:
        return _interview(request, opened, typed, Trouble(messages=answers.messages))
    try:
        details = _details(opened, answers, rows=rows, typed=typed)
        change_details(
            shop.store, shop.clock, fitting_id=fitting_id, details=details,
            seen=typed.get(SEEN, ""), who=shop.who,
        )  # fmt: skip
    except ChangedMeanwhile:
        now = open_fitting(shop.store, fitting_id)
        return _interview(request, now, typed, _stale_interview(now, typed))
    except PackageFaults as error:
        faults = tuple(map(form_fault, error.faults))
        return _interview(request, opened, typed, Trouble(messages={}, faults=faults))
    desk.changed(fitting_id)
    return RedirectResponse(f"{address_of(fitting_id)}/interview", status_code=303)


def _green_rows_filled(opened: OpenFitting, typed: Typed) -> list[tuple[Question, ...]]:
    """The rows of greens that say something, every field of them needed."""
    return [
        tuple(replace(each, needed=True) for each in row)
        for row in green_rows(opened.fitting)
        if any(typed.get(each.name, "").strip() for each in row)
    ]


def _details(
    opened: OpenFitting, answers: Answers, *, rows: list[tuple[Question, ...]], typed: Typed
) -> Details:
    """The details as they are to be; what no form asks for stays as it is."""

    def written(record: Any, asked: tuple[Question, ...]) -> Any:
        return put_right(record, asked, answers=answers, typed=typed)

    fitting = opened.fitting
    known = {green.name: green for green in fitting.greens}
    greens = []
    for row in rows:
        values = under_columns(answers, row)
        before = known.get(str(values["name"]))
        greens.append(written(before, row) if before else Green(**values))
    return Details(
        golfer=written(fitting.golfer, golfer_questions()),
        greens=tuple(greens),
        fitting_green=written(fitting.fitting_green, here_questions()),
    )


def _stale_interview(now: OpenFitting, typed: Typed) -> Trouble:
    changed = changed_since(
        interview_questions(now.fitting), typed, stands=interview_stands(now.fitting)
    )
    return Trouble(messages={}, stale=True, changed=changed)


def _interview(request: Request, opened: OpenFitting, typed: Typed, trouble: Trouble) -> Response:
    page = interview_page(opened, typed=typed, trouble=trouble)
    return render(request, "interview.html", page=page, status=409 if trouble.stale else 422)


@router.get("/fittings/{fitting_id}/gauge")
def show_gauge(request: Request, fitting_id: str, shop: ShopHere, hand: str = "") -> Response:
    """The page of the own putter, or of another build."""
    opened = open_fitting(shop.store, fitting_id)
    return render(request, "gauge.html", page=gauge_page(opened, _build(opened, hand)))


@router.post("/fittings/{fitting_id}/gauge")
def change_gauge(
    request: Request, fitting_id: str, typed: TypedForm, shop: ShopHere, desk: DeskHere
) -> Response:
    """Write the figures, or show what needs another look, or what changed meanwhile."""
    opened = open_fitting(shop.store, fitting_id)
    build = _build(opened, typed.get("hand", ""))
    answers = read(gauge_questions(), typed)
    messages: Mapping[str, str] = answers.messages
    if not messages:
        wanted = put_right(build, gauge_questions(), answers=answers, typed=typed)
        try:
            change_build(
                shop.store, shop.clock, fitting_id=fitting_id, build=wanted,
                seen=typed.get(SEEN, ""), who=shop.who,
            )  # fmt: skip
        except ChangedMeanwhile:
            now = open_fitting(shop.store, fitting_id)
            return _stale_gauge(request, now, typed)
        except PackageFaults as error:
            messages = {fault.column: beside_field(fault.message) for fault in error.faults}
        else:
            desk.changed(fitting_id)
            address = f"{address_of(fitting_id)}/gauge?hand={quoted(build.build_id)}"
            return RedirectResponse(address, status_code=303)
    page = gauge_page(opened, build, typed=typed, trouble=Trouble(messages=messages))
    return render(request, "gauge.html", page=page, status=422)


def _stale_gauge(request: Request, now: OpenFitting, typed: Typed) -> Response:
    build = _build(now, typed.get("hand", ""))
    stands = as_typed(build, gauge_questions())
    changed = changed_since(gauge_questions(), typed, stands=stands)
    trouble = Trouble(messages={}, stale=True, changed=changed)
    page = gauge_page(now, build, typed=typed, trouble=trouble)
    return render(request, "gauge.html", page=page, status=409)


def _build(opened: OpenFitting, build_id: str) -> Build:
    known = {build.build_id: build for build in opened.fitting.builds}
    wanted = build_id or opened.fitting.own_build
    if wanted not in known:
        raise NotFound(what="build", name=wanted, known=f"; there are {', '.join(known)}")
    return known[wanted]
