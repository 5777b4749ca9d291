"""The decision in full, and the calm view of it for the client."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.say_decision import choice_line, next_line
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.paper.report_context import report_context, subject_of
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import worded
from puttwright.pictures.of_fitting import chosen_build, marks
from puttwright.pictures.putter import putter_drawing, putter_table
from puttwright.web.contexts.compare_page import Titled, aims_drawing, makes_drawing
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.contexts.verdict import (
    ReasonLine,
    Step,
    Worth,
    reason_lines,
    saved_drawing,
    steps,
    worth,
)
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.texts import catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class DecisionPage:
    """Everything the decision says."""

    heading: Heading
    stream: str
    state: str
    headline: str
    worth: Worth | None
    guess: bool
    saved: Drawing | None
    reasons: tuple[ReasonLine, ...]
    would_change: tuple[ReasonLine, ...]
    cautions: tuple[str, ...]
    next: str
    steps: tuple[Step, ...]
    build: Titled | None
    model: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClientPage:
    """What the client is shown."""

    heading: Heading
    stream: str
    headline: str
    worth: str
    figure: str
    sure: str
    greens: str
    saw: tuple[str, ...]
    tried: str
    next: str
    saved: Drawing | None
    aims: Drawing | None
    makes: Drawing | None


def decision_page(opened: OpenFitting, *, state: str, stream: str) -> DecisionPage:
    """The page of the decision at this moment; ``state`` is what goes on with it, in a line."""
    fitting, decision = opened.fitting, opened.decision
    text = catalogue()
    common = {
        "heading": heading(fitting, here="decide"),
        "stream": stream,
        "state": state,
    }
    if decision is None:
        nothing: dict[str, Any] = {"worth": None, "guess": False, "saved": None, "build": None}
        nothing |= {"reasons": (), "cautions": (), "next": "", "model": ""}
        nothing |= {"would_change": (), "steps": ()}
        return DecisionPage(**common, headline=text("decision.none"), **nothing)  # type: ignore[arg-type]
    return DecisionPage(
        **common,  # type: ignore[arg-type]
        headline=worded(choice_line(decision, fitting)),
        worth=worth(fitting, decision),
        guess=decision.extrapolated,
        saved=saved_drawing(fitting, decision),
        reasons=reason_lines(decision.reasons),
        would_change=reason_lines(decision.would_change),
        cautions=tuple(worded(each) for each in decision.cautions),
        next=worded(next_line(decision, fitting)),
        steps=steps(fitting, decision),
        build=_build(fitting, decision),
        model=text("decision.model", version=decision.model.version, seed=decision.model.seed),
    )


def _build(fitting: Fitting, decision: Decision) -> Titled | None:
    build = chosen_build(fitting, decision)
    if build is None:
        return None
    handed = fitting.golfer.handed
    shown = drawing(
        lambda width, prefix: putter_drawing(
            build, handed=handed, ground=PAGE, prefix=prefix, width=width
        ),
        prefix="build",
        table=putter_table(build, handed=handed),
    )
    return Titled(title=catalogue()("decision.build"), drawing=shown)


def client_page(opened: OpenFitting, *, stream: str) -> ClientPage:
    """The calm view: what we saw, what it is worth, how sure we are."""
    fitting, decision = opened.fitting, opened.decision
    text = catalogue()
    read = {putt.build_id for putt in fitting.used_putts} | {aim.build_id for aim in fitting.aims}
    tried = text(
        "client.tried_one" if len(read) == 1 else "client.tried_line",
        putts=len(fitting.used_putts),
        aims=len(fitting.aims),
        builds=len(read),
    )
    common = {
        "heading": heading(fitting, here="client"),
        "stream": stream,
        "tried": tried,
        "aims": aims_drawing(fitting, decision, letters=_in_question(fitting, decision)),
        "makes": makes_drawing(fitting, decision) if decision else None,
    }
    if decision is None or not (fitting.aims or fitting.used_putts):
        empty = {"worth": "", "figure": "", "sure": "", "greens": "", "saw": (), "next": ""}
        return ClientPage(**common, **empty, headline=text("client.none"), saved=None)  # type: ignore[arg-type]
    told = report_context(fitting, decision)
    return ClientPage(
        **common,  # type: ignore[arg-type]
        headline=worded(told.headline),
        worth=worded(told.worth),
        figure=worded(told.worth_figure),
        sure=worded(told.sure),
        greens=worded(told.greens),
        saw=tuple(worded(each) for each in told.saw),
        next=worded(told.next_step),
        saved=saved_drawing(fitting, decision),
    )


def _in_question(fitting: Fitting, decision: Decision | None) -> frozenset[str]:
    """The letters of the own putter and of the one it is held against: a client sees no more."""
    subject = subject_of(fitting, decision) if decision else None
    every = marks(fitting, decision)
    return frozenset(every[b].letter for b in (fitting.own_build, subject) if b)
