"""Start a fitting: golfer, greens, own putter, builds to try."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.know_golfers import KnownGolfer, know_golfer
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.errors import PackageFaults
from puttwright.evidence import Build, FittingGreen, Golfer, Green
from puttwright.pictures.builds import letter_for
from puttwright.web.contexts.golfer_pages import AT as GOLFERS
from puttwright.web.contexts.heading import address_of, quoted
from puttwright.web.forms.asking import (
    Answers,
    Field,
    Question,
    as_typed,
    fields,
    read,
    under_columns,
)
from puttwright.web.forms.fitting_forms import (
    BUILDS,
    GREENS,
    build_questions,
    golfer_questions,
    green_questions,
    here_questions,
    more_build_questions,
)
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import form_fault
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm, entry_key_of, new_key

router = APIRouter()

GOLFER = "golfer"
"""The field that says who came back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildRow:
    """The fields of one build."""

    letter: str
    fields: tuple[Field, ...]
    more: tuple[Field, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPage:
    """The form, empty or as it was typed."""

    golfer: tuple[Field, ...]
    greens: tuple[tuple[Field, ...], ...]
    here: tuple[Field, ...]
    own: BuildRow
    builds: tuple[BuildRow, ...]
    entry_key: str
    golfer_key: str = ""
    faults: tuple[str, ...] = ()
    wrong: bool = False


@router.get("/fittings/new")
def new_fitting(request: Request, shop: ShopHere, golfer: str = "") -> Response:
    """The form: empty, or with what is known of a golfer who was here before."""
    if not golfer:
        return render(request, "new_fitting.html", page=_page())
    known = know_golfer(shop.store, golfer)
    return render(request, "new_fitting.html", page=_page(_as_last_time(known)))


@router.post("/fittings")
def start(request: Request, typed: TypedForm, shop: ShopHere) -> Response:
    """Start it, or show the form again with what needs another look."""
    answers = read(_asked(typed), typed)
    if not answers.good:
        return _again(request, typed, messages=answers.messages)
    key = entry_key_of(typed)
    try:
        fitting_id = start_fitting(
            shop.store, shop.clock, new=_new(answers, typed), entry_key=key, who=shop.who,
            golfer=typed.get(GOLFER) or None,
        )  # fmt: skip
    except PackageFaults as error:
        faults = tuple(map(form_fault, error.faults))
        return _again(request, typed, faults=faults)
    if answers.values["golfer-minor"]:  # a guardian is asked before anything is measured
        whose = quoted(typed.get(GOLFER) or fitting_id)
        return RedirectResponse(f"{GOLFERS}/{whose}/data?started={fitting_id}", status_code=303)
    return RedirectResponse(address_of(fitting_id), status_code=303)


def _again(
    request: Request,
    typed: Mapping[str, str],
    *,
    messages: Mapping[str, str] | None = None,
    faults: tuple[str, ...] = (),
) -> Response:
    page = _page(typed, messages=messages, faults=faults)
    return render(request, "new_fitting.html", page=page, status=422)


def _page(
    typed: Mapping[str, str] | None = None,
    *,
    messages: Mapping[str, str] | None = None,
    faults: tuple[str, ...] = (),
) -> NewPage:
    def drawn(questions: Sequence[Question]) -> tuple[Field, ...]:
        return fields(questions, typed=typed, told=messages)

    def row(number: int) -> BuildRow:
        prefix = f"build-{number}-"
        return BuildRow(
            letter=letter_for(number),
            fields=drawn(build_questions(prefix=prefix, own=number == 0, needed=number == 0)),
            more=drawn(more_build_questions(prefix=prefix)),
        )

    return NewPage(
        golfer=drawn(golfer_questions()),
        greens=tuple(drawn(green_questions(number)) for number in range(1, GREENS + 1)),
        here=drawn(here_questions()),
        own=row(0),
        builds=tuple(row(number) for number in range(1, BUILDS + 1)),
        entry_key=entry_key_of(typed) if typed else new_key(),
        golfer_key=(typed or {}).get(GOLFER, ""),
        faults=faults,
        wrong=bool(messages or faults),
    )


def _as_last_time(known: KnownGolfer) -> dict[str, str]:
    """What a golfer's last fitting and their putter answer already."""
    fitting = known.newest.fitting
    typed = {GOLFER: known.golfer}
    typed |= {each.name: each.first for each in here_questions()}
    typed |= as_typed(fitting.golfer, golfer_questions())
    for number, green in enumerate(fitting.greens[:GREENS], start=1):
        typed |= as_typed(green, green_questions(number))
    own = "build-0-"
    asked = (*build_questions(prefix=own, own=True), *more_build_questions(prefix=own))
    return typed | as_typed(known.own_putter, asked)


def _filled(questions: Sequence[Question], typed: Mapping[str, str]) -> bool:
    return any(typed.get(each.name, "").strip() for each in questions)


def _build_rows(typed: Mapping[str, str]) -> list[tuple[Question, ...]]:
    """The questions of each build that was filled in; the own one always."""
    rows = []
    for number in range(BUILDS + 1):
        prefix = f"build-{number}-"
        asked = build_questions(prefix=prefix, needed=True)
        more = more_build_questions(prefix=prefix)
        if number == 0 or _filled(asked, typed):
            rows.append((*asked, *more))
    return rows


def _green_rows(typed: Mapping[str, str]) -> list[tuple[Question, ...]]:
    rows = [green_questions(number) for number in range(1, GREENS + 1)]
    needed = [row for number, row in enumerate(rows) if number == 0 or _filled(row, typed)]
    return [tuple(_needed(each) for each in row) for row in needed]


def _needed(asked: Question) -> Question:
    return replace(asked, needed=True)


def _asked(typed: Mapping[str, str]) -> list[Question]:
    rows = [golfer_questions(), here_questions(), *_green_rows(typed), *_build_rows(typed)]
    return [asked for row in rows for asked in row]


def _new(answers: Answers, typed: Mapping[str, str]) -> NewFitting:
    builds = [under_columns(answers, row) for row in _build_rows(typed)]
    return NewFitting(
        golfer=Golfer(**under_columns(answers, golfer_questions())),
        greens=[Green(**under_columns(answers, row)) for row in _green_rows(typed)],
        fitting_green=FittingGreen(**under_columns(answers, here_questions())),
        builds=[
            Build(**values | {"build_id": letter_for(number), "label": _label(values, number)})
            for number, values in enumerate(builds)
        ],
    )


def _label(values: Mapping[str, object], number: int) -> str | None:
    label = values["label"]
    return str(label) if label else catalogue()("build.own_name") if number == 0 else None
