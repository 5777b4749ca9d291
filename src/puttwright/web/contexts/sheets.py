"""The decision in full, and the calm view of it for the client."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.say_decision import choice_line, next_line
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.paper.report_context import report_context
from puttwright.pictures.aim_board import aim_board, aim_table
from puttwright.pictures.green import green, green_table
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.make import make_by_distance, make_table
from puttwright.pictures.of_fitting import (
    aim_sets,
    board_distance_mm,
    chosen_build,
    make_lines,
    stop_sets,
    usual_distances,
)
from puttwright.pictures.putter import putter_drawing, putter_table
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
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue

MOST_DISTANCES = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Titled:
    """A drawing under its title."""

    title: str
    drawing: Drawing
    folded: bool = False


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
    drawings: tuple[Titled, ...]
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


def decision_page(opened: OpenFitting, *, state: str, stream: str) -> DecisionPage:
    """The page of the decision at this moment; ``state`` is what goes on with it, in a line."""
    fitting, decision = opened.fitting, opened.decision
    text = catalogue()
    common = {
        "heading": heading(fitting, here="decision"),
        "stream": stream,
        "state": state,
    }
    if decision is None:
        nothing: dict[str, Any] = {"worth": None, "guess": False, "saved": None, "build": None}
        nothing |= {"drawings": (), "reasons": (), "cautions": (), "next": "", "model": ""}
        nothing |= {"would_change": (), "steps": ()}
        return DecisionPage(**common, headline=text("decision.none"), **nothing)  # type: ignore[arg-type]
    return DecisionPage(
        **common,  # type: ignore[arg-type]
        headline=choice_line(decision, fitting),
        worth=worth(fitting, decision),
        guess=decision.extrapolated,
        saved=saved_drawing(fitting, decision),
        drawings=_drawings(fitting, decision),
        reasons=reason_lines(decision.reasons),
        would_change=reason_lines(decision.would_change),
        cautions=decision.cautions,
        next=next_line(decision, fitting),
        steps=steps(fitting, decision),
        build=_build(fitting, decision),
        model=text("decision.model", version=decision.model.version, seed=decision.model.seed),
    )


def aims_drawing(fitting: Fitting, decision: Decision | None) -> Drawing | None:
    """Where every build looked at address; nothing without readings."""
    sets = aim_sets(fitting, decision)
    if not sets:
        return None
    return drawing(
        lambda width, prefix: aim_board(
            sets,
            board_distance_mm=board_distance_mm(fitting),
            handed=fitting.golfer.handed,
            ground=PAGE,
            prefix=prefix,
            width=width,
        ),
        prefix="aims",
        table=aim_table(sets),
    )


def _greens(fitting: Fitting, decision: Decision, *, distance_m: float) -> Drawing:
    sets = stop_sets(fitting, decision, distance_m=distance_m)
    return drawing(
        lambda width, prefix: green(
            sets, distance_m=distance_m, ground=PAGE, prefix=prefix, width=width
        ),
        prefix=f"green-{distance_m:g}",
        table=green_table(sets, distance_m=distance_m),
    )


def _drawings(fitting: Fitting, decision: Decision) -> tuple[Titled, ...]:
    text = catalogue()
    shown = []
    aims = aims_drawing(fitting, decision)
    if aims:
        shown.append(Titled(title=text("decision.aims"), drawing=aims))
    for number, distance_m in enumerate(usual_distances(fitting)[:MOST_DISTANCES]):
        where = text("said.from", distance=measure(distance_m, "m", digits=1))
        title = text("decision.putts", distance=where)
        putts = _greens(fitting, decision, distance_m=distance_m)
        shown.append(Titled(title=title, drawing=putts, folded=number > 0))
    lines = make_lines(fitting, decision)
    if lines:
        makes = drawing(
            lambda width, prefix: make_by_distance(lines, ground=PAGE, prefix=prefix, width=width),
            prefix="makes",
            table=make_table(lines),
        )
        shown.append(Titled(title=text("decision.makes"), drawing=makes))
    return tuple(shown)


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
    tried = text(
        "client.tried_line",
        putts=len(fitting.used_putts),
        aims=len(fitting.aims),
        builds=len(fitting.builds),
    )
    common = {
        "heading": heading(fitting, here="client"),
        "stream": stream,
        "tried": tried,
        "aims": aims_drawing(fitting, decision),
    }
    if decision is None or not (fitting.aims or fitting.used_putts):
        empty = {"worth": "", "figure": "", "sure": "", "greens": "", "saw": (), "next": ""}
        return ClientPage(**common, **empty, headline=text("client.none"), saved=None)  # type: ignore[arg-type]
    told = report_context(fitting, decision)
    return ClientPage(
        **common,  # type: ignore[arg-type]
        headline=told.headline,
        worth=told.worth,
        figure=told.worth_figure,
        sure=told.sure,
        greens=told.greens,
        saw=told.saw,
        next=told.next_step,
        saved=saved_drawing(fitting, decision),
    )
