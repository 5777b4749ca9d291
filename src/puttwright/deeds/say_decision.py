"""A decision in lines a golf professional reads out across the counter."""

from __future__ import annotations

from typing import Final

from puttwright.evidence import Fitting
from puttwright.fitting.decision import KEEP, UNDECIDED, Block, BuildVerdict, Decision
from puttwright.fitting.phrases import (
    chances,
    figure,
    interval,
    more_putts_phrase,
    strokes_phrase,
    sureness_phrase,
)

OWN_NAMES: Final = frozenset({"own putter", "eigener putter"})
"""Labels that say only whose putter it is, as a page offers them in each language."""


def name_of(build_id: str, fitting: Fitting, *, decision: Decision | None = None) -> str:
    """What the fitter calls a build: its label, with the id where the label does not say it.

    With the decision, a build that was never in hand has its label too.
    """
    known = {build.build_id: build.name for build in fitting.builds}
    if decision and decision.extrapolated and decision.spec.get("label"):
        known.setdefault(decision.choice, str(decision.spec["label"]))
    name = known.get(build_id, build_id)
    return name if build_id in name.split() else f"{name} ({build_id})"


def choice_line(decision: Decision, fitting: Fitting) -> str:
    """The choice in one sentence."""
    if decision.choice == KEEP:
        return f"Keep the golfer's own putter{_own_named(fitting)}."
    if decision.choice == UNDECIDED:
        return more_putts_phrase(decision.more_putts)
    guess = ", a build nobody has had in hand yet" if decision.extrapolated else ""
    return f"Change to {name_of(decision.choice, fitting, decision=decision)}{guess}."


def _own_named(fitting: Fitting) -> str:
    """Which putter the own one is; its letter alone where its label says no more than that."""
    own = fitting.build(fitting.own_build)
    if own.name.strip().casefold() in OWN_NAMES:
        return f" ({own.build_id})"
    return f", {name_of(own.build_id, fitting)}"


def saved_words(verdict: BuildVerdict) -> str:
    """Strokes saved by one build in plain words."""
    saved = verdict.strokes_saved_per_round
    return strokes_phrase(saved.mean, saved.interval_90)


def saved_figures(verdict: BuildVerdict) -> str:
    """The figure and its interval: "0.5 strokes a round (−0.1 to 1.1)"."""
    saved = verdict.strokes_saved_per_round
    return f"{figure(saved.mean)} strokes a round ({interval(saved.interval_90)})"


def _saved_lines(verdict: BuildVerdict, name: str, *, width: int) -> list[str]:
    better = f"better than the own putter: {chances(verdict.probability_better)}"
    return [
        f"  {name:<{width}}  {saved_words(verdict)}",
        f"  {'':<{width}}  {saved_figures(verdict)}; {better}",
    ]


def _others(decision: Decision, fitting: Fitting) -> list[str]:
    """The builds but the own one, the best first."""
    ids = [build_id for build_id in decision.builds if build_id != fitting.own_build]
    return sorted(ids, key=lambda build_id: -decision.builds[build_id].strokes_saved_per_round.mean)


def next_line(decision: Decision, fitting: Fitting) -> str:
    """What to try next and what it would settle, in one line."""
    trial = decision.next_trial
    if trial is None:
        return "Nothing more to try: further putts would teach too little to be worth it."
    putts = f"{trial.putts} putt{'' if trial.putts == 1 else 's'}"
    asks = [f"{putts} from {trial.distance_m:g} m"] if trial.putts else []
    asks += [f"{trial.aims} aim readings"] if trial.aims else []
    what = " and ".join(asks) or "a look"
    name = name_of(trial.build_id, fitting, decision=decision)
    told = (_sentence(text) for text in (trial.settles, trial.why_there) if text)
    return " ".join((f"Try next: {name}, {what}.", *told))


def order_line(decision: Decision, fitting: Fitting) -> str:
    """What to hand over now and after, in one line; empty when there is nothing more to try."""
    words = order_words(decision, fitting)
    return f"Hand over now: {', then '.join(words)}; planned anew with every putt." if words else ""


def order_words(decision: Decision, fitting: Fitting) -> list[str]:
    """Each block of the running order in a few words: "Trial B (B), 4 putts and 2 aims"."""
    order = decision.next_trial.running_order if decision.next_trial else ()
    return [
        f"{name_of(block.build_id, fitting, decision=decision)}, {block_words(block)}"
        for block in order
    ]


def block_words(block: Block) -> str:
    """The readings of a block: "4 putts and 2 aims"."""
    putts = f"{block.putts} putt{'' if block.putts == 1 else 's'}"
    return f"{putts} and {block.aims} aims" if block.aims else putts


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
    names = {each: name_of(each, fitting, decision=decision) for each in others}
    width = max(map(len, names.values()), default=0)
    if others:
        lines.append(f"Strokes saved against {own}, with the 90 % interval:")
    for each, name in names.items():
        lines += _saved_lines(decision.builds[each], name, width=width)
    lines += _block("Why:", [reason.text for reason in decision.reasons])
    changing = [reason.text for reason in decision.would_change]
    lines += _block("What would change the answer:", changing)
    order = order_line(decision, fitting)
    lines += ["", next_line(decision, fitting), *([order] if order else [])]
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
        name, words = name_of(shown, fitting, decision=decision), saved_words(verdict)
        worth = f"Worth: {name}, {words}; {saved_figures(verdict)}."
        sure = f"Better than the own putter: {sureness_phrase(verdict.probability_better)}."
    # The first reason is the worth itself, which stands above already.
    reason = decision.reasons[:2][-1].text if decision.reasons else "the readings alone."
    return [
        choice_line(decision, fitting),
        worth,
        sure,
        f"Why: {reason}",
        next_line(decision, fitting),
    ]
