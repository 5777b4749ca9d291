"""What a decision must be read with: thin evidence, assumptions, doubtful chains."""

from __future__ import annotations

import numpy as np

from puttwright.evidence import Fitting
from puttwright.fitting.believe import Belief
from puttwright.worth.noise import UNKNOWN_HANDICAP
from puttwright.worth.pattern import Pattern

FEW_PUTTS = 6


def cautions(fitting: Fitting, *, belief: Belief, pattern: Pattern) -> tuple[str, ...]:
    """Sentences that belong beside the decision on every page and paper."""
    return (
        *_thin(fitting),
        *_assumed(fitting),
        *_untrusted(belief),
        *_beyond(pattern),
    )


def _thin(fitting: Fitting) -> tuple[str, ...]:
    found = []
    if not fitting.used_putts:
        found.append("No putt counts, so this is what putters usually do, not what was seen.")
    few = []
    for build in fitting.builds:
        n = sum(putt.build_id == build.build_id for putt in fitting.used_putts)
        if n < FEW_PUTTS:
            few.append(f"{build.name} ({n})")
    if few and fitting.used_putts:
        found.append(f"Fewer than {FEW_PUTTS} putts with {', '.join(few)}: mostly guesswork.")
    if not any(putt.build_id == fitting.own_build for putt in fitting.used_putts):
        found.append(
            "The golfer's own putter was not putted with; the comparison leans on a guess."
        )
    return tuple(found)


def _assumed(fitting: Fitting) -> tuple[str, ...]:
    found = []
    if not fitting.first_putts:
        found.append(
            "Lengths of first putts are a tour player's; the golfer's own would be better."
        )
    if fitting.golfer.handicap is None:
        found.append(f"No handicap told; green reading of a {UNKNOWN_HANDICAP:.0f} is assumed.")
    slope = fitting.fitting_green.slope_pct
    if slope and slope > 0.5:
        sentence = (
            "The fitting green slopes; its break was taken out of start lines judged from stops."
        )
        found.append(sentence)
    return tuple(found)


def _untrusted(belief: Belief) -> tuple[str, ...]:
    diagnostics = belief.posterior.diagnostics
    if not diagnostics.poor:
        return ()
    sentence = (
        f"The sampler did not settle (R-hat {diagnostics.r_hat_max:.2f}, "
        f"{diagnostics.worst}): take the figures as rough."
    )
    return (sentence,)


def _beyond(pattern: Pattern) -> tuple[str, ...]:
    if float(np.mean(pattern.pace_bias <= -0.9)) > 0.05:
        return ("Putts roll hardly at all; was the distance or the green's speed entered right?",)
    return ()
