"""What the readings say so far, as it stands beside the entry on the green."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final
from urllib.parse import urlencode

from puttwright.deeds.keep_settings import PageSettings
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.say_decision import block_words, choice_line, next_line
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Block, Decision, Reason
from puttwright.fitting.phrases import figure, interval, strokes_phrase, sureness_phrase
from puttwright.paper.figures import runs
from puttwright.paper.report_context import subject_of
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import worded
from puttwright.pictures.of_fitting import marks, saved_rows
from puttwright.pictures.strokes import SavedRow, strokes_saved, strokes_table
from puttwright.store.readings import AIMS, PUTTS
from puttwright.web.contexts.heading import address_of
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.manner import manner
from puttwright.web.texts import catalogue

SHOWN: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonLine:
    """A reason and the readings it rests on."""

    text: str
    rests_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What one build is worth: in words, as a figure with its interval, and how sure."""

    name: str
    words: str
    figure: str
    sure: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A block of the running order, the build to hand over and the way to take it in hand."""

    letter: str
    role: str
    words: str
    build_id: str
    task: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What to try next, and the way to it; ``made`` when the putter exists already.

    ``steps`` is the running order it begins, planned anew with every reading.
    """

    words: str
    address: str
    made: bool
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The decision as it stands; ``state`` says whether a newer one is on its way."""

    state: str
    headline: str
    worth: Worth | None
    saved: Drawing | None
    trial: Trial | None
    reasons: tuple[ReasonLine, ...]
    address: str


def verdict(opened: OpenFitting, *, busy: bool, fault: str | None) -> Verdict:
    """The verdict of a fitting at this moment.

    Parameters
    ----------
    opened
        The fitting.
    busy
        A newer decision is on its way.
    fault
        The id of the fault that kept the last one from being made.
    """
    fitting, decision = opened.fitting, opened.decision
    state = state_of(opened, busy=busy, fault=fault)
    address = f"{address_of(fitting.fitting_id)}/decision"
    if decision is None:
        return Verdict(
            state=state,
            headline="",
            worth=None,
            saved=None,
            trial=None,
            reasons=(),
            address=address,
        )
    return Verdict(
        state=state,
        headline=worded(choice_line(decision, fitting)),
        worth=worth(fitting, decision),
        saved=saved_drawing(fitting, decision),
        trial=trial(fitting, decision),
        reasons=reason_lines(decision.reasons[:SHOWN]),
        address=address,
    )


def state_of(opened: OpenFitting, *, busy: bool, fault: str | None) -> str:
    """What is going on with the decision, in a line; empty when it is up to date."""
    text = catalogue()
    if fault and not busy:
        return text("bench.fault", fault_id=fault)
    if busy and opened.decided:
        return text("bench.settling")
    if busy or not opened.decided:
        return text("bench.redrawing" if opened.decision else "bench.first_drawing")
    return ""


def worth(fitting: Fitting, decision: Decision) -> Worth | None:
    """What the build the decision talks about is worth; nothing when there is only the own one."""
    subject = subject_of(fitting, decision)
    found = decision.builds.get(subject or "")
    if subject is None or found is None:
        return None
    saved = found.strokes_saved_per_round
    mark = marks(fitting, decision)[subject]
    words = strokes_phrase(saved.mean, saved.interval_90)
    return Worth(
        name=mark.called,
        words=worded(f"{words[0].upper()}{words[1:]}."),
        figure=f"{figure(saved.mean, sign=True)} [{worded(interval(saved.interval_90))}]",
        sure=worded(sureness_phrase(found.probability_better)),
    )


def saved_drawing(fitting: Fitting, decision: Decision) -> Drawing:
    """Strokes saved by every build, with the doubt drawn."""
    return _saved_drawing(tuple(saved_rows(fitting, decision)), manner())


@lru_cache(maxsize=32)  # it is much of a page, and the same until the next decision is there
def _saved_drawing(rows: tuple[SavedRow, ...], _manner: PageSettings) -> Drawing:
    return drawing(
        lambda width, prefix: strokes_saved(rows, ground=PAGE, prefix=prefix, width=width),
        prefix="saved",
        table=strokes_table(rows),
    )


def trial(fitting: Fitting, decision: Decision) -> Trial | None:
    """What to try next; nothing when no reading would change the choice."""
    asked = decision.next_trial
    if asked is None:
        return None
    if asked.build_id not in {build.build_id for build in fitting.builds}:
        return Trial(
            words=worded(next_line(decision, fitting)),
            address=f"{address_of(fitting.fitting_id)}/builds/new?as_decided=yes",
            made=False,
            steps=steps(fitting, decision),
        )
    task = "putts" if asked.putts else "aims"
    way = urlencode({"hand": asked.build_id, "task": task, "from": f"{asked.distance_m:g}"})
    return Trial(
        words=worded(next_line(decision, fitting)),
        address=f"{address_of(fitting.fitting_id)}?{way}",
        made=True,
        steps=steps(fitting, decision),
    )


def steps(fitting: Fitting, decision: Decision) -> tuple[Step, ...]:
    """What to hand over now and after it."""
    every = marks(fitting, decision)
    order = decision.next_trial.running_order if decision.next_trial else ()
    made = {build.build_id for build in fitting.builds}
    at = address_of(fitting.fitting_id)
    distance_m = decision.next_trial.distance_m if decision.next_trial else 0.0

    def way(block: Block) -> str:
        if block.build_id not in made:
            return f"{at}/builds/new?as_decided=yes"
        asked = {"hand": block.build_id, "task": task_of(block), "from": f"{distance_m:g}"}
        return f"{at}?{urlencode(asked)}"

    return tuple(
        Step(
            letter=every[block.build_id].letter,
            role=every[block.build_id].role,
            words=f"{every[block.build_id].name}, {worded(block_words(block))}",
            build_id=block.build_id,
            task=task_of(block),
            address=way(block),
        )
        for block in order
    )


def task_of(block: Block) -> str:
    """What is taken first of a block."""
    return PUTTS if block.putts else AIMS


def reason_lines(reasons: tuple[Reason, ...]) -> tuple[ReasonLine, ...]:
    """Reasons with the numbers of the readings they rest on."""
    text = catalogue()

    def rows(reason: Reason) -> str:
        told = [
            text(f"decision.rows_{each.table}", numbers=worded(runs(each.seq)))
            for each in reason.rests_on
            if each.seq
        ]
        return text("decision.rests_on", rows="; ".join(told)) if told else ""

    return tuple(ReasonLine(text=worded(each.text), rests_on=rows(each)) for each in reasons)
