"""A head or putter on the bench, and its sheet to the rack."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request, Response

from puttwright.club.bench import HeadSheet
from puttwright.deeds.measure_part import OnBench, bench_sheet, keep_sheet
from puttwright.errors import UserError
from puttwright.web.contexts.rack_bench_page import rack_bench_page
from puttwright.web.forms.asking import read
from puttwright.web.forms.bench_forms import bench_part_questions, listed
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import sentence_of
from puttwright.web.typed import TypedForm

router = APIRouter()


@router.get("/rack/bench")
def show_bench(request: Request) -> Response:
    """The empty form."""
    return render(request, "rack_bench.html", page=rack_bench_page())


@router.post("/rack/bench")
def keep(request: Request, typed: TypedForm, shop: ShopHere) -> Response:
    """Work out the sheet, and put it on the rack unless it was only to be looked at."""
    answers = read(bench_part_questions(), typed)
    readings, wrong = listed(typed)
    messages = {**answers.messages, **wrong}
    if messages:
        return _again(request, typed, messages=messages)
    try:
        sheet = bench_sheet(_on_bench(answers.values, readings))
        kept = typed.get("do") == "keep"
        if kept:
            keep_sheet(shop.store, shop.clock, sheet=sheet, who=shop.who)
    except UserError as error:
        return _again(request, typed, message=sentence_of(error))
    return _told(request, typed, sheet=sheet, kept=kept)


def _on_bench(values: Mapping[str, Any], readings: Mapping[str, list[float]]) -> OnBench:
    return OnBench(
        part_id=values["part_id"],
        kind=values["kind"],
        label=values["label"],
        alloy=values["alloy"] or "",
        neck_joint=values["neck_joint"] or "",
        bent_before_deg=values["bent_before_deg"] or 0.0,
        head_shape=values["head_shape"],
        readings={name: found for name, found in readings.items() if name != "period_s"},
        spacing_mm=values["spacing_mm"],
        thread_mm=values["thread_mm"],
        periods_s=readings["period_s"],
    )


def _told(request: Request, typed: Mapping[str, str], *, sheet: HeadSheet, kept: bool) -> Response:
    page = rack_bench_page(typed=typed, sheet=sheet, kept=kept)
    return render(request, "rack_bench.html", page=page)


def _again(
    request: Request,
    typed: Mapping[str, str],
    *,
    messages: Mapping[str, str] | None = None,
    message: str = "",
) -> Response:
    page = rack_bench_page(typed=typed, messages=messages, message=message)
    return render(request, "rack_bench.html", page=page, status=422)
