"""What a step of the hour says: what is known, what is still uncertain, what to read next."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final
from urllib.parse import urlencode

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.say_decision import choice_line, next_line
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision, Estimate
from puttwright.fitting.phrases import chances, give_or_take, strokes_phrase
from puttwright.paper.report_context import subject_of
from puttwright.pictures.hand import worded
from puttwright.pictures.of_fitting import marks
from puttwright.store.readings import AIMS, PUTTS
from puttwright.web.contexts import hour
from puttwright.web.contexts.heading import address_of
from puttwright.web.contexts.interview_says import address_says, gauge_says, interview_says
from puttwright.web.contexts.says import Said
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue

SHOWN: Final = 2
MEASURED: Final = (hour.AIM, hour.ROLL, hour.STRIKE, hour.PACE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure a step is about: how it is set, and what its two sides are called."""

    quantity: str
    unit: str
    digits: int = 0
    sides: tuple[str, str] | None = None


FIGURES: Final[Mapping[str, tuple[Figure, ...]]] = {
    hour.AIM: (
        Figure(quantity="aim_bias_deg", unit="°", digits=1, sides=("bench.right", "bench.left")),
        Figure(quantity="aim_sd_deg", unit="°", digits=1),
    ),
    hour.ROLL: (
        Figure(quantity="launch_deg", unit="°", digits=1),
        Figure(quantity="skid_m", unit="m", digits=2),
    ),
    hour.STRIKE: (
        Figure(quantity="strike_bias_mm", unit="mm", sides=("hour.toe", "hour.heel")),
        Figure(quantity="start_bias_deg", unit="°", digits=1, sides=("bench.right", "bench.left")),
        Figure(quantity="start_sd_deg", unit="°", digits=1),
    ),
    hour.PACE: (
        Figure(quantity="pace_bias_pct", unit="%", sides=("hour.longer", "hour.shorter")),
        Figure(quantity="pace_sd_pct", unit="%"),
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class StepSays:
    """A step: its lines, the way to what it asks for, and whether that is worth most now."""

    step: str
    name: str
    place: str
    known: tuple[str, ...]
    doubt: tuple[str, ...]
    next: str
    address: str
    now: bool


def step_says(opened: OpenFitting, step: str, *, orders: int = 0) -> StepSays:
    """The lines of one step.

    Parameters
    ----------
    opened
        The fitting.
    step
        One of :data:`puttwright.web.contexts.hour.STEPS`.
    orders
        How many putters were ordered, for the last step.
    """
    said = _said(opened, step, orders=orders)
    at = address_of(opened.fitting.fitting_id)
    place = hour.place_of(step, fitting_address=at)
    return StepSays(
        step=step,
        name=catalogue()(f"hour.{step}"),
        place=place,
        known=said.known or (catalogue()("hour.nothing_known"),),
        doubt=said.doubt,
        next=said.next,
        address=f"{at}{said.way}" if said.way else place,
        now=step == worth_most(opened.decision),
    )


def worth_most(decision: Decision | None) -> str:
    """The step whose readings would tell most now; empty while nothing is decided."""
    trial = decision.next_trial if decision else None
    if trial is None:
        return ""
    return hour.PACE if trial.putts else hour.AIM


def _said(opened: OpenFitting, step: str, *, orders: int) -> Said:
    if step in MEASURED:
        return _measured(opened, step)
    if step == hour.ORDER:
        return _order(opened, orders)
    says: dict[str, Callable[[OpenFitting], Said]] = {
        hour.INTERVIEW: interview_says,
        hour.GAUGE: gauge_says,
        hour.ADDRESS: address_says,
        hour.COMPARE: _compare,
        hour.DECIDE: _decide,
    }
    return says[step](opened)


def _measured(opened: OpenFitting, step: str) -> Said:
    """Aim, roll, strike, pace: the figures of each build, which lack some, which is least sure."""
    fitting, decision = opened.fitting, opened.decision
    text = catalogue()
    every = marks(fitting)
    shown = _shown(fitting, decision, step)
    lacking = [b for b in every if not hour.taken(fitting, step, build_id=b)]
    doubt = []
    if lacking:
        letters = ", ".join(every[b].letter for b in lacking)
        doubt.append(text("hour.lacking", letters=letters))
    least = _least_sure(fitting, decision, step)
    if least and len(shown) > 1:
        doubt.append(text("hour.least_sure", letter=every[least].letter))
    return Said(
        known=tuple(_figures_of(fitting, decision, step, build_id=b) for b in shown),
        doubt=tuple(doubt),
        **_asked(opened, step, wanted=(lacking or [least or fitting.own_build])[0]),
    )


def _asked(opened: OpenFitting, step: str, *, wanted: str) -> dict[str, str]:
    """The next reading of a step: the trial that is planned, else the build that lacks some.

    Where nothing more is worth trying no step asks for more.
    """
    if opened.decision and opened.decision.next_trial is None:
        return {"next": worded(next_line(opened.decision, opened.fitting)), "way": "/compare"}
    fitting, decision = opened.fitting, opened.decision
    trial = decision.next_trial if decision else None
    made = {build.build_id for build in fitting.builds}
    if trial and step == worth_most(decision) and trial.build_id in made:
        way = {"hand": trial.build_id, "task": PUTTS if trial.putts else AIMS}
        way |= {"from": f"{trial.distance_m:g}"} if trial.putts else {}
        return {"next": worded(next_line(decision, fitting)), "way": f"?{urlencode(way)}"}  # type: ignore[arg-type]
    letter = marks(fitting)[wanted].letter
    way = {"hand": wanted, "task": AIMS if step == hour.AIM else PUTTS}
    way |= {} if step == hour.AIM else {"look": step}
    return {"next": catalogue()(f"hour.next_{step}", letter=letter), "way": f"?{urlencode(way)}"}


def _shown(fitting: Fitting, decision: Decision | None, step: str) -> list[str]:
    """The builds told of: the own one and the one it is held against, where they were read."""
    subject = subject_of(fitting, decision) if decision else None
    first = [fitting.own_build, *([subject] if subject else [])]
    rest = [build.build_id for build in fitting.builds if build.build_id not in first]
    return [b for b in (*first, *rest) if hour.taken(fitting, step, build_id=b)][:SHOWN]


def _found(decision: Decision | None, build_id: str) -> Mapping[str, Estimate]:
    verdict = decision.builds.get(build_id) if decision else None
    return verdict.quantities if verdict else {}


def _least_sure(fitting: Fitting, decision: Decision | None, step: str) -> str | None:
    """The build whose first figure of the step has the widest interval."""
    quantity = FIGURES[step][0].quantity
    doubts = {
        build.build_id: give_or_take(found[quantity].interval_90)
        for build in fitting.builds
        if quantity in (found := _found(decision, build.build_id))
    }
    return max(doubts, key=lambda b: doubts[b], default=None)


def _figures_of(fitting: Fitting, decision: Decision | None, step: str, *, build_id: str) -> str:
    """A line of a build: "B, 6: aims 0.8° right, give or take 0.3°; …"."""
    text = catalogue()
    found = _found(decision, build_id)
    told = [_figure(each, found[each.quantity]) for each in FIGURES[step] if each.quantity in found]
    count = hour.taken(fitting, step, build_id=build_id)
    letter = marks(fitting)[build_id].letter
    return text(
        "hour.of_build",
        letter=letter,
        count=text("hour.taken", count=count),
        told="; ".join(told) or text("hour.not_yet"),
    )


def _figure(each: Figure, found: Estimate) -> str:
    text = catalogue()
    size = abs(found.mean) if each.sides else found.mean
    value = measure(size, each.unit, digits=each.digits)
    if each.sides:
        value = f"{value} {text(each.sides[0 if found.mean > 0 else 1])}"
    least = 0.5 * 10.0**-each.digits
    spread = max(give_or_take(found.interval_90), 2 * least)
    doubt = measure(spread, each.unit, digits=each.digits)
    return text(f"hour.{each.quantity}", value=value, doubt=doubt)


def _compare(opened: OpenFitting) -> Said:
    fitting, decision = opened.fitting, opened.decision
    text = catalogue()
    if decision is None:
        return Said(doubt=(text("hour.no_decision"),), next=text("hour.next_compare"))
    every = marks(fitting, decision)
    others = [b for b in decision.builds if b != fitting.own_build]
    ranked = sorted(others, key=lambda b: -decision.builds[b].strokes_saved_per_round.mean)
    return Said(
        known=tuple(
            text("hour.worth", letter=every[b].letter, words=_saved(decision, b))
            for b in ranked[:3]
        ),
        doubt=tuple(_rivals(decision, letters={b: every[b].letter for b in decision.builds})),
        next=worded(next_line(decision, fitting)),
        way="/compare",
    )


def _saved(decision: Decision, build_id: str) -> str:
    saved = decision.builds[build_id].strokes_saved_per_round
    return worded(strokes_phrase(saved.mean, saved.interval_90))


def _rivals(decision: Decision, *, letters: Mapping[str, str]) -> Sequence[str]:
    best = sorted(decision.builds, key=lambda b: -decision.builds[b].probability_best)[:2]
    told = [
        catalogue()(
            "hour.best",
            letter=letters[b],
            chance=worded(chances(decision.builds[b].probability_best)),
        )
        for b in best
    ]
    return [", ".join(told)] if len(told) > 1 else []


def _decide(opened: OpenFitting) -> Said:
    fitting, decision = opened.fitting, opened.decision
    if decision is None:
        return Said(doubt=(catalogue()("hour.no_decision"),), next=catalogue()("hour.next_compare"))
    return Said(
        known=(worded(choice_line(decision, fitting)),),
        doubt=tuple(worded(reason.text) for reason in decision.would_change[:1]),
        next=worded(next_line(decision, fitting)),
        way="/decision",
    )


def _order(opened: OpenFitting, orders: int) -> Said:
    text = catalogue()
    ordered = text("hour.ordered", count=orders) if orders else text("hour.not_ordered")
    settled = opened.decision is not None and opened.decision.choice in opened.decision.builds
    return Said(
        known=(ordered,),
        next="" if orders else text("hour.next_order" if settled else "hour.wait_order"),
        way="/workshop",
    )
