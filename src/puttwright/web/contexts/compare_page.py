"""The builds side by side: what each is worth, how it aims, starts and rolls."""

from __future__ import annotations

from dataclasses import dataclass

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.paper.report_context import EvidenceRow, report_context
from puttwright.pictures.aim_board import aim_board, aim_table
from puttwright.pictures.green import green, green_table
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.make import make_by_distance, make_table
from puttwright.pictures.of_fitting import (
    aim_sets,
    board_distance_mm,
    make_lines,
    stop_sets,
    usual_distances,
)
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.contexts.hour import COMPARE
from puttwright.web.contexts.step_says import StepSays, step_says
from puttwright.web.contexts.verdict import saved_drawing
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
class ComparePage:
    """The builds side by side."""

    heading: Heading
    stream: str
    state: str
    says: StepSays
    saved: Drawing | None
    rows: tuple[EvidenceRow, ...]
    left_out: str
    drawings: tuple[Titled, ...]


def compare_page(opened: OpenFitting, *, state: str, stream: str) -> ComparePage:
    """The page at this moment; ``state`` is what goes on with the decision, in a line."""
    fitting, decision = opened.fitting, opened.decision
    told = report_context(fitting, decision) if decision else None
    return ComparePage(
        heading=heading(fitting, here=COMPARE),
        stream=stream,
        state=state,
        says=step_says(opened, COMPARE),
        saved=saved_drawing(fitting, decision) if decision else None,
        rows=told.evidence if told else (),
        left_out=told.left_out if told else "",
        drawings=_drawings(fitting, decision) if decision else (),
    )


def aims_drawing(
    fitting: Fitting, decision: Decision | None, *, letters: frozenset[str] = frozenset()
) -> Drawing | None:
    """Where every build, or those of these letters, looked at address; nothing without readings."""
    sets = [
        each for each in aim_sets(fitting, decision) if not letters or each.mark.letter in letters
    ]
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
    makes = makes_drawing(fitting, decision)
    if makes:
        shown.append(Titled(title=text("decision.makes"), drawing=makes))
    return tuple(shown)


def makes_drawing(fitting: Fitting, decision: Decision) -> Drawing | None:
    """The chance to hole by length, of the own putter and the one it is held against."""
    lines = make_lines(fitting, decision)
    if not lines:
        return None
    return drawing(
        lambda width, prefix: make_by_distance(lines, ground=PAGE, prefix=prefix, width=width),
        prefix="makes",
        table=make_table(lines),
    )
