"""A check after weeks in words: what drifted, what changed, how likely each is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any, Final

from puttwright.club.targets import BY_FIELD
from puttwright.deeds.check_order_again import CheckAgain
from puttwright.evidence.signs import side_word
from puttwright.fitting.check_again import NOTICED, NOTICED_FACTOR, Changed, Drift
from puttwright.fitting.phrases import chances, figure, interval, measure

LIKELY: Final = 0.8
UNLIKELY: Final = 0.2
_SURPRISING: Final = 0.05


def check_again_lines(result: CheckAgain) -> list[str]:
    """All of it, the verdict first."""
    lines = [headline(result), ""]
    lines += [f"  {drift_words(each)}" for each in result.drifts]
    for name, found in (("Start line", result.starts), ("Aim", result.aims)):
        if found:
            lines += [f"  {each}" for each in changed_words(name, found)]
    return lines


def headline(result: CheckAgain) -> str:
    """What to do, in one sentence."""
    bent = [each for each in result.drifts if each.probability_out >= LIKELY]
    moved = [found for found in (result.starts, result.aims) if found and _moved(found)]
    if bent:
        names = " and ".join(BY_FIELD[each.field].name.lower() for each in bent)
        return f"Check {names} in again against the order: it is likely to have drifted."
    if moved:
        return "Something is likely to have changed since the fitting: a fresh look is due."
    sure = all(each.probability_out <= UNLIKELY for each in result.drifts)
    steady = all(_steady(found) for found in (result.starts, result.aims) if found)
    if sure and steady:
        return "As it was handed over: nothing speaks for a change."
    return "Too close to call: measure again, or take more readings."


def _moved(found: Changed) -> bool:
    return found.probability_moved >= LIKELY or found.probability_wider >= LIKELY


def _steady(found: Changed) -> bool:
    return found.probability_moved < 0.5 and found.probability_wider < 0.5


def drift_words(found: Drift) -> str:
    """One angle, then and now."""
    name = BY_FIELD[found.field].name
    then, now = (measure(value, "°", digits=1) for value in (found.then, found.now))
    limit = measure(found.tolerance, "°", digits=1)
    return (
        f"{name} {now}, was {then}: drifted by more than {limit}, {chances(found.probability_out)}."
    )


def changed_words(name: str, found: Changed) -> list[str]:
    """One quantity: the mean and spread now and at the fitting, and how likely a change is."""
    mean, low, high = found.bias_change
    factor, least, most = found.spread_factor
    noticed = measure(NOTICED, "°", digits=1)
    more = figure(100 * (NOTICED_FACTOR - 1), digits=0)
    spreads = [measure(each, "°", digits=1) for each in (found.spread_now, found.spread_then)]
    rare = "that is surprising" if found.surprise < _SURPRISING else "nothing out of the way"
    so_wide = chances(found.probability_wider)
    then = f"{_side(found.bias_then)} at the fitting"
    moved = f"Moved {_side(mean)} ({interval((low, high))})"
    wider = f"Spread {spreads[0]}, was {spreads[1]}; {figure(factor)} times"
    return [
        f"{name}, {found.readings} readings: {_side(found.mean_now)} on average, {then}.",
        f"  {moved}; by more than {noticed}: {chances(found.probability_moved)}.",
        f"  {wider} ({interval((least, most))}); over {more} % wider: {so_wide}.",
        f"  Had nothing changed, a mean this far off would come {chances(found.surprise)}; {rare}.",
    ]


def _side(angle_deg: float) -> str:
    if abs(angle_deg) < 0.05:
        return "0.0°"
    return f"{measure(abs(angle_deg), '°', digits=1)} {side_word(angle_deg)}"


def check_again_json(result: CheckAgain) -> Mapping[str, Any]:
    """The same for programs."""
    return {
        "says": headline(result),
        "lines": [line.strip() for line in check_again_lines(result)[2:]],
        "drifts": [
            {
                "column": each.field,
                "then": each.then,
                "now": each.now,
                "change": round(each.change, 6),
                "sd": round(each.sd, 6),
                "tolerance": each.tolerance,
                "probability_out": round(each.probability_out, 4),
            }
            for each in result.drifts
        ],
        "starts": _changed(result.starts),
        "aims": _changed(result.aims),
    }


def _changed(found: Changed | None) -> dict[str, Any] | None:
    if found is None:
        return None
    values = asdict(found)
    for name in ("bias_change", "spread_factor"):
        mean, low, high = (round(each, 4) for each in values.pop(name))
        values[name] = {"mean": mean, "interval_90": [low, high]}
    return {n: round(v, 4) if isinstance(v, float) else v for n, v in values.items()}
