"""What the golfer's sheet says, as plain data: every sentence and figure, no layout."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from puttwright.evidence import Build, Fitting
from puttwright.fitting.decision import (
    KEEP,
    UNDECIDED,
    BuildVerdict,
    Decision,
    Estimate,
    Reason,
    RestsOn,
)
from puttwright.fitting.phrases import (
    chances,
    figure,
    interval,
    measure,
    more_putts_phrase,
    pace_phrase,
    sideways_phrase,
    strokes_phrase,
    sureness_phrase,
)
from puttwright.paper.figures import NONE, Cell, cell, day_words, runs, shortened
from puttwright.paper.typesetting import day_of
from puttwright.pictures.builds import BuildMark
from puttwright.pictures.of_fitting import chosen_build, marks

MOST_BUILDS: Final = 6
_LONGEST_NAME: Final = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class _Room:
    """How many sentences the second sheet holds, and how long.

    ``argued`` counts the reasons together with what would change the answer.
    """

    reasons: int
    argued: int
    cautions: int
    letters: int


_PLENTY: Final = _Room(reasons=6, argued=9, cautions=4, letters=220)
_SCANT: Final = _Room(reasons=5, argued=6, cautions=3, letters=170)
_HEADING_MM: Final = 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedRow:
    """A putter as it was handed over."""

    letter: str
    name: str
    role: str
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EvidenceRow:
    """What the readings say of one build."""

    letter: str
    name: str
    role: str
    saved: Cell
    better: str
    best: str
    aim: Cell
    start: Cell
    start_spread: Cell
    pace: Cell
    pace_spread: Cell
    putts: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonRow:
    """A reason and the rows it rests on."""

    text: str
    rests_on: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportContext:
    """The sheet, sentence by sentence."""

    alias: str
    handed: str
    day: str
    fitting_id: str
    headline: str
    worth: str
    worth_figure: str
    sure: str
    greens: str
    saw: tuple[str, ...]
    tried_head: tuple[str, ...]
    tried: tuple[TriedRow, ...]
    next_step: str
    evidence: tuple[EvidenceRow, ...]
    left_out: str
    reasons: tuple[ReasonRow, ...]
    changes: tuple[ReasonRow, ...]
    cautions: tuple[str, ...]
    roomy: bool
    model: tuple[tuple[str, str], ...]


def report_context(fitting: Fitting, decision: Decision) -> ReportContext:
    """Everything the sheet says of a fitting and its decision."""
    every = marks(fitting, decision)
    shown = shown_builds(fitting, decision)
    subject = subject_of(fitting, decision)
    verdict = decision.builds.get(subject) if subject else None
    left = len(every) - len(shown)
    room = _PLENTY if is_roomy(decision, builds=len(shown)) else _SCANT
    return ReportContext(
        alias=fitting.golfer.alias,
        handed=fitting.golfer.handed,
        day=day_words(day_of(fitting.date)),
        fitting_id=fitting.fitting_id,
        headline=_headline(decision, every),
        worth=_worth(decision, every.get(subject or ""), verdict),
        worth_figure=_worth_figure(verdict),
        sure=_sure(decision, verdict),
        greens=_greens(fitting),
        saw=_saw(fitting, decision, subject),
        tried_head=("Putter", "Length", "Lie", "Loft", "Offset", "Hang"),
        tried=_tried(fitting, decision, shown),
        next_step=_next_step(decision, every),
        evidence=tuple(
            _evidence(every[build_id], decision.builds[build_id])
            for build_id in shown
            if build_id in decision.builds
        ),
        left_out=_left_out(left),
        reasons=_rows(decision.reasons[: room.reasons], room=room),
        changes=_rows(_changes(decision, room=room), room=room),
        cautions=_cautions(decision, room=room),
        roomy=room is _PLENTY,
        model=_model(decision),
    )


def _left_out(count: int) -> str:
    if not count:
        return ""
    return f"{count} more {'is' if count == 1 else 'are'} in the decision file."


def picture_room_mm(decision: Decision, *, builds: int) -> float:
    """About how much height the second sheet leaves for pictures beside table and words [mm]."""
    changes = _changes(decision, room=_PLENTY)
    said = (*decision.reasons[: _PLENTY.reasons], *changes)
    letters = (min(len(reason.text), _PLENTY.letters) for reason in said)
    lines = sum(math.ceil((count + 45) / 128) for count in letters)
    return 186.0 - 8.6 * builds - 4.0 * lines - (_HEADING_MM if changes else 0.0)


def cautions_mm(decision: Decision) -> float:
    """About how high the cautions stand in half the width of the sheet [mm]."""
    lines = sum(math.ceil(len(text) / 60) for text in decision.cautions)
    return 8.0 + 3.8 * max(lines, 1)


def is_roomy(decision: Decision, *, builds: int) -> bool:
    """Whether large pictures, the putt's side view among them, fit on the second sheet."""
    cautions = sum(len(text) for text in decision.cautions)
    return picture_room_mm(decision, builds=builds) >= 115.0 and cautions <= 330


def shown_builds(fitting: Fitting, decision: Decision) -> list[str]:
    """The builds there is room for: own, choice, then by what they save; in order of letters."""

    def saved(build_id: str) -> float:
        verdict = decision.builds.get(build_id)
        return verdict.strokes_saved_per_round.mean if verdict else float("-inf")

    every = list(marks(fitting, decision))
    first = {fitting.own_build, decision.choice}
    ranked = sorted(every, key=lambda build_id: (build_id not in first, -saved(build_id)))
    kept = set(ranked[:MOST_BUILDS])
    return [build_id for build_id in every if build_id in kept]


def subject_of(fitting: Fitting, decision: Decision) -> str | None:
    """The build the sheet talks about: the choice, else the best of those not the golfer's own."""
    if decision.choice in decision.builds and decision.choice != fitting.own_build:
        return decision.choice
    others = {b: v for b, v in decision.builds.items() if b != fitting.own_build}
    if not others:
        return None
    return max(others, key=lambda build_id: others[build_id].strokes_saved_per_round.mean)


def _headline(decision: Decision, every: dict[str, BuildMark]) -> str:
    if decision.choice == KEEP:
        return "Keep your putter."
    if decision.choice == UNDECIDED:
        return more_putts_phrase(decision.more_putts)
    mark = every[decision.choice]
    name = shortened(mark.name, most=2 * _LONGEST_NAME)
    return f"{name} suits you better than your own putter."


def _worth(decision: Decision, mark: BuildMark | None, verdict: BuildVerdict | None) -> str:
    if verdict is None or mark is None:
        return "No other putter was tried, so there is nothing to hold yours against."
    saved = verdict.strokes_saved_per_round
    words = strokes_phrase(saved.mean, saved.interval_90)
    if decision.choice in {KEEP, UNDECIDED}:
        return f"The best of the others, {mark.name}: {words}."
    return f"{words[0].upper()}{words[1:]}."


def _worth_figure(verdict: BuildVerdict | None) -> str:
    if verdict is None:
        return ""
    saved = verdict.strokes_saved_per_round
    return (
        f"{figure(saved.mean, sign=True)} strokes a round, between "
        f"{interval(saved.interval_90).replace(' to ', ' and ')} with nine chances in ten."
    )


def _sure(decision: Decision, verdict: BuildVerdict | None) -> str:
    if verdict is None:
        return ""
    guess = " It was not in your hands, so this is a guess." if decision.extrapolated else ""
    words = sureness_phrase(verdict.probability_better)
    return f"{words[0].upper()}{words[1:]}, that it is better than your own.{guess}"


def _greens(fitting: Fitting) -> str:
    told = [
        f"{green.name} ({measure(green.speed_ft, 'ft', digits=1)}"
        + (
            f", {measure(100 * green.share, '%')} of your rounds)"
            if len(fitting.greens) > 1
            else ")"
        )
        for green in fitting.greens[:4]
    ]
    return f"{_listed(told)}." if told else ""


def _listed(words: list[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _saw(fitting: Fitting, decision: Decision, subject: str | None) -> tuple[str, ...]:
    """A sentence for the own putter and one for the build the sheet is about."""
    every = marks(fitting, decision)
    found = []
    for build_id in filter(None, (fitting.own_build, subject)):
        verdict = decision.builds.get(build_id)
        told = _seen_of(verdict) if verdict else []
        if told:
            name = "Your own putter" if build_id == fitting.own_build else every[build_id].name
            found.append(f"{name} {_listed(told)}.")
    return tuple(found)


def _seen_of(verdict: BuildVerdict) -> list[str]:
    found = verdict.quantities
    told = []
    if "aim_bias_deg" in found:
        told.append(f"aims {sideways_phrase(found['aim_bias_deg'])}")
    if "start_bias_deg" in found:
        told.append(f"starts the ball {sideways_phrase(found['start_bias_deg'])}")
    if "pace_bias_pct" in found:
        told.append(f"rolls it {pace_phrase(found['pace_bias_pct'])}")
    return [f"{words.replace(', give', ' (give')})" for words in told]


def _tried(fitting: Fitting, decision: Decision, shown: list[str]) -> tuple[TriedRow, ...]:
    every = marks(fitting, decision)
    builds = {build.build_id: build for build in fitting.builds}
    if decision.extrapolated or decision.choice not in builds:
        chosen = chosen_build(fitting, decision) if "length_mm" in decision.spec else None
        if chosen:
            builds[decision.choice] = chosen
    return tuple(
        TriedRow(
            letter=every[build_id].letter,
            name=shortened(every[build_id].name, most=_LONGEST_NAME),
            role=every[build_id].note,
            figures=_dimensions(builds[build_id]),
        )
        for build_id in shown
        if build_id in builds
    )


def _dimensions(build: Build) -> tuple[str, ...]:
    return (
        measure(build.length_mm, "mm"),
        measure(build.lie_deg, "°", digits=1),
        measure(build.loft_deg, "°", digits=1),
        NONE if build.offset_mm is None else measure(build.offset_mm, "mm"),
        NONE if build.toe_hang_deg is None else measure(build.toe_hang_deg, "°"),
    )


def _next_step(decision: Decision, every: dict[str, BuildMark]) -> str:
    trial = decision.next_trial
    if decision.choice not in {KEEP, UNDECIDED}:
        if trial is not None:
            return "Next: a few more putts to be surer; then the workshop builds it to the order."
        return "Next: the workshop builds it to the order; then a few putts to see that it holds."
    if decision.choice == KEEP or trial is None:
        return "Next: nothing to buy. Come back when your putting or your putter changes."
    name = every[trial.build_id].name if trial.build_id in every else trial.build_id
    where = measure(trial.distance_m, "m", digits=1)
    after = [every[b.build_id].letter for b in trial.running_order[1:] if b.build_id in every]
    then = f" After it {_listed(after)}, in this order." if after else ""
    why = f" ({trial.why_there})" if trial.why_there else ""
    told = f"they tell {trial.settles}"
    return f"Next: {trial.putts} putts with {name} from {where}{why}; {told}.{then}"


def _evidence(mark: BuildMark, verdict: BuildVerdict) -> EvidenceRow:
    found = verdict.quantities
    own = mark.role == "own"
    left = f", {verdict.putts_left_out} left out" if verdict.putts_left_out else ""

    def of(name: str, *, digits: int = 1, sign: bool = False) -> Cell:
        return cell(found.get(name), digits=digits, sign=sign)

    zero: Estimate = verdict.strokes_saved_per_round
    return EvidenceRow(
        letter=mark.letter,
        name=shortened(mark.name, most=_LONGEST_NAME),
        role=mark.note,
        saved=Cell(value="0", interval="the measure") if own else cell(zero, sign=True),
        better=NONE if own else chances(verdict.probability_better),
        best=chances(verdict.probability_best),
        aim=of("aim_bias_deg", sign=True),
        start=of("start_bias_deg", sign=True),
        start_spread=of("start_sd_deg"),
        pace=of("pace_bias_pct", digits=0, sign=True),
        pace_spread=of("pace_sd_pct", digits=0),
        putts=f"{verdict.putts_used}{left}",
    )


def _changes(decision: Decision, *, room: _Room) -> tuple[Reason, ...]:
    """What would change the answer, as much of it as the reasons leave room for."""
    return decision.would_change[: room.argued - min(len(decision.reasons), room.reasons)]


def _rows(reasons: Iterable[Reason], *, room: _Room) -> tuple[ReasonRow, ...]:
    return tuple(
        ReasonRow(
            text=shortened(reason.text, most=room.letters), rests_on=_rests_on(reason.rests_on)
        )
        for reason in reasons
    )


def _cautions(decision: Decision, *, room: _Room) -> tuple[str, ...]:
    told = decision.cautions
    if len(told) > room.cautions:
        told = (*told[: room.cautions], f"{len(told) - room.cautions} more in the decision file.")
    return tuple(shortened(text, most=room.letters) for text in told)


def _rests_on(rows: Iterable[RestsOn]) -> str:
    return "; ".join(f"{each.table} {runs(each.seq, most=6)}" for each in rows)


def _model(decision: Decision) -> tuple[tuple[str, str], ...]:
    model = decision.model
    return (
        ("Model", model.version),
        ("Seed", str(model.seed)),
        ("Draws", str(model.draws)),
        ("R-hat at most", f"{model.r_hat_max:.3f}"),
        ("Effective draws at least", figure(model.ess_min, digits=0)),
        ("Readings, SHA-256", decision.inputs_sha256),
    )
