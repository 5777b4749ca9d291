"""The first steps of the hour as forms: the interview, and a putter on the gauge."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from puttwright.deeds.change_fitting import details_of, state_mark
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import Build, Fitting
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.of_fitting import marks
from puttwright.pictures.putter import putter_drawing, putter_table
from puttwright.web.contexts.bench import Chip
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.contexts.hour import GAUGE, INTERVIEW
from puttwright.web.contexts.step_says import StepSays, step_says
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.forms.asking import Field, Question, Typed, as_typed, fields, question
from puttwright.web.forms.fitting_forms import (
    GREENS,
    build_questions,
    golfer_questions,
    green_questions,
    here_questions,
    more_build_questions,
)
from puttwright.web.forms.stale import FilledFrom, filled_from


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Why a form was not taken: ``changed`` lists what is no longer as the page had it."""

    messages: Mapping[str, str]
    faults: tuple[str, ...] = ()
    stale: bool = False
    changed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class InterviewPage:
    """The golfer and their greens, to be put right."""

    heading: Heading
    says: StepSays
    golfer: tuple[Field, ...]
    greens: tuple[tuple[Field, ...], ...]
    here: tuple[Field, ...]
    filled: FilledFrom
    trouble: Trouble | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugePage:
    """One putter, its figures and its drawing."""

    heading: Heading
    says: StepSays
    chips: tuple[Chip, ...]
    build_id: str
    name: str
    fields: tuple[Field, ...]
    more: tuple[Field, ...]
    drawing: Drawing
    filled: FilledFrom
    trouble: Trouble | None


def green_rows(fitting: Fitting) -> list[tuple[Question, ...]]:
    """The questions about the greens: a row for each there is, and some to spare."""
    return [green_questions(number) for number in range(1, max(GREENS, len(fitting.greens)) + 1)]


def interview_questions(fitting: Fitting) -> tuple[Question, ...]:
    """All that the interview asks."""
    rows = [golfer_questions(), *green_rows(fitting), here_questions()]
    return tuple(asked for row in rows for asked in row)


def interview_stands(fitting: Fitting) -> dict[str, str]:
    """The answers as they stand, as they would be typed."""
    stands = as_typed(fitting.golfer, golfer_questions())
    stands |= as_typed(fitting.fitting_green, here_questions())
    for asked, green in zip(green_rows(fitting), fitting.greens, strict=False):
        stands |= as_typed(green, asked)
    return {each.name: "" for each in interview_questions(fitting)} | stands


def interview_page(
    opened: OpenFitting, *, typed: Typed | None = None, trouble: Trouble | None = None
) -> InterviewPage:
    """The page, as things stand or with what was typed and what is wrong with it."""
    fitting = opened.fitting
    stands = interview_stands(fitting)
    shown, told = typed or stands, trouble.messages if trouble else {}
    return InterviewPage(
        heading=heading(fitting, here=INTERVIEW),
        says=step_says(opened, INTERVIEW),
        golfer=fields(golfer_questions(), typed=shown, told=told),
        greens=tuple(fields(row, typed=shown, told=told) for row in green_rows(fitting)),
        here=fields(here_questions(), typed=shown, told=told),
        filled=filled_from(state_mark(details_of(fitting)), stood=stands),
        trouble=trouble,
    )


def gauge_questions() -> tuple[Question, ...]:
    """What the gauge tells of a putter, length, lie and loft first."""
    return (*_first_figures(), *_more_figures())


def _first_figures() -> tuple[Question, ...]:
    return build_questions(prefix="", needed=True)


def _more_figures() -> tuple[Question, ...]:
    return (
        *more_build_questions(prefix=""),
        question(Build, "total_mass_g", label="putter.total"),
        question(Build, "balance_from_butt_mm", label="putter.balance"),
        question(Build, "grip_diameter_mm", label="rack.grip_diameter_mm"),
    )


def gauge_page(
    opened: OpenFitting,
    build: Build,
    *,
    typed: Typed | None = None,
    trouble: Trouble | None = None,
) -> GaugePage:
    """The page of one putter, as it stands or with what was typed and what is wrong with it."""
    fitting = opened.fitting
    stands = as_typed(build, gauge_questions())
    shown, told = typed or stands, trouble.messages if trouble else {}
    return GaugePage(
        heading=heading(fitting, here=GAUGE),
        says=step_says(opened, GAUGE),
        chips=_chips(fitting, build),
        build_id=build.build_id,
        name=build.name,
        fields=fields(_first_figures(), typed=shown, told=told),
        more=fields(_more_figures(), typed=shown, told=told),
        drawing=drawing(
            lambda width, prefix: putter_drawing(
                build, handed=fitting.golfer.handed, ground=PAGE, prefix=prefix, width=width
            ),
            prefix="gauge",
            table=putter_table(build, handed=fitting.golfer.handed),
        ),
        filled=filled_from(state_mark(build), stood=stands),
        trouble=trouble,
    )


def _chips(fitting: Fitting, shown: Build) -> tuple[Chip, ...]:
    every = marks(fitting)
    return tuple(
        Chip(
            words=every[build.build_id].name,
            address=f"?hand={build.build_id}",
            here=build.build_id == shown.build_id,
            letter=every[build.build_id].letter,
            role=every[build.build_id].role,
        )
        for build in fitting.builds
    )
