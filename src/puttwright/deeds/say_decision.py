"""A decision in lines a golf professional reads out across the counter."""

from __future__ import annotations

from puttwright.evidence import Fitting
from puttwright.fitting.decision import KEEP, UNDECIDED, BuildVerdict, Decision
from puttwright.fitting.phrases import (
    chances,
    figure,
    interval,
    more_putts_phrase,
    strokes_phrase,
    sureness_phrase,
)


def name_of(build_id: str, fitting: Fitting) -> str:
    """What the fitter calls a build: its label, and its id where that differs."""
    known = {build.build_id: build.name for build in fitting.builds}
    name = known.get(build_id, build_id)
    return name if name == build_id else f"{name} ({build_id})"


def choice_line(decision: Decision, fitting: Fitting) -> str:
    """The choice in one sentence."""
    if decision.choice == KEEP:
        return f"Keep the golfer's own putter, {name_of(fitting.own_build, fitting)}."
    if decision.choice == UNDECIDED:
        return more_putts_phrase(decision.more_putts)
    guess = ", a build nobody has had in hand yet" if decision.extrapolated else ""
    return f"Change to {name_of(decision.choice, fitting)}{guess}."


def saved_line(verdict: BuildVerdict, name: str) -> str:
    """Strokes saved by one build in words, the figure and its interval beside."""
    saved = verdict.strokes_saved_per_round
    words = strokes_phrase(saved.mean, saved.interval_90)
    figures = f"{figure(saved.mean)} a round, {interval(saved.interval_90)}"
    return f"{name}: {words} [{figures}]; better {chances(verdict.probability_better)}"


def _others(decision: Decision, fitting: Fitting) -> list[str]:
    """The builds but the own one, the best first."""
    ids = [build_id for build_id in decision.builds if build_id != fitting.own_build]
    return sorted(ids, key=lambda build_id: -decision.builds[build_id].strokes_saved_per_round.mean)


def next_line(decision: Decision, fitting: Fitting) -> str:
    """What to try next and what it would settle, in one line."""
    trial = decision.next_trial
    if trial is None:
        return "Nothing more to try: no further putts would change this."
    asks = [f"{trial.putts} putts from {trial.distance_m:g} m"] if trial.putts else []
    asks += [f"{trial.aims} aim readings"] if trial.aims else []
    what = " and ".join(asks) or "a look"
    return f"Try next: {name_of(trial.build_id, fitting)}, {what}. {_sentence(trial.settles)}"


def _sentence(text: str) -> str:
    shown = text.strip()
    if not shown:
        return ""
    return f"{shown[0].upper()}{shown[1:]}{'' if shown.endswith('.') else '.'}"


def decision_lines(decision: Decision, fitting: Fitting) -> list[str]:
    """All a decision says: choice, strokes saved by each build, why, what next, what to mind.

    Parameters
    ----------
    decision
        What the fitting says.
    fitting
        What it was decided on, for the names.

    Returns
    -------
    list of str
        Lines without line ends.
    """
    own = name_of(fitting.own_build, fitting)
    others = _others(decision, fitting)
    lines = [choice_line(decision, fitting), ""]
    if others:
        lines.append(f"Strokes saved against {own}, [mean, 90 % interval]:")
    lines += [f"  {saved_line(decision.builds[each], name_of(each, fitting))}" for each in others]
    lines += _block("Why:", [reason.text for reason in decision.reasons])
    lines += ["", next_line(decision, fitting)]
    return lines + _block("Mind:", list(decision.cautions))


def _block(title: str, texts: list[str]) -> list[str]:
    return ["", title, *(f"  {text}" for text in texts)] if texts else []


def five_lines(decision: Decision, fitting: Fitting) -> list[str]:
    """The decision in five lines: choice, what it is worth, how sure, why, what next."""
    others = _others(decision, fitting)
    shown = decision.choice if decision.choice in decision.builds else (others or [""])[0]
    verdict = decision.builds.get(shown)
    if verdict is None:
        worth, sure = "There is no other build to hold against it.", "Nothing was compared."
    else:
        worth = f"Worth: {saved_line(verdict, name_of(shown, fitting)).split(';')[0]}."
        sure = f"That it is better than the own putter: {_sure(verdict)}."
    reason = decision.reasons[0].text if decision.reasons else "the readings alone."
    return [
        choice_line(decision, fitting),
        worth,
        sure,
        f"Why: {reason}",
        next_line(decision, fitting),
    ]


def _sure(verdict: BuildVerdict) -> str:
    return sureness_phrase(verdict.probability_better)
