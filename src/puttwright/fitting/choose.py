"""Keep, change or not yet: the choice by expected worth, and what being wrong would cost.

The posterior already shrinks each build toward the others, so its mean is what
a choice may promise. A change has to beat the golfer's own putter by more than
:data:`CHANGE_COST` and be likelier right than :data:`SURE_ENOUGH`; when neither
a change is warranted nor much could be gained by knowing more, or when no
reasonable number of putts would tell, the own putter stays; in between, more
putts are asked for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.fitting.decision import KEEP, UNDECIDED
from puttwright.fitting.next_trial import putt_noise, putts_to_settle
from puttwright.fitting.value import Values
from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]

CHANGE_COST: Final = 0.10
"""Putts a round a change must promise to be worth its price and getting used to; a judgement."""
SURE_ENOUGH: Final = 0.60
WORTH_KNOWING: Final = 0.12
"""Putts a round that knowing all must promise before more putts are asked for; a judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """``choice`` is a column of the builds, ``keep`` or ``undecided``; ``best`` the best by mean.

    ``worth_knowing`` is what perfect knowledge would add, in putts a round;
    ``more_putts`` how many would likely settle it, when undecided.
    """

    choice: int | str
    best: int
    probability_better: Floats
    probability_best: Floats
    worth_knowing: float
    more_putts: int | None


def choose(values: Values, *, pattern: Pattern) -> Choice:
    """Choose from draws of worth, the own putter first, and the patterns behind them."""
    saved = values.saved
    mean = saved.mean(axis=0)
    better = (saved > 0.0).mean(axis=0)
    worth_knowing = float(saved.max(axis=1).mean() - max(mean.max(), 0.0))
    more = _more_putts(values, pattern=pattern)
    verdict = _verdict(mean=mean, better=better, worth_knowing=worth_knowing)
    if verdict == UNDECIDED and more is None:
        verdict = KEEP
    return Choice(
        choice=verdict,
        best=int(mean.argmax()),
        probability_better=better,
        probability_best=np.bincount(saved.argmax(axis=1), minlength=mean.size) / saved.shape[0],
        worth_knowing=worth_knowing,
        more_putts=more if verdict == UNDECIDED else None,
    )


def _more_putts(values: Values, *, pattern: Pattern) -> int | None:
    """Putts that would likely settle the best of the other builds against the own putter."""
    if values.putts.shape[1] < 2:
        return None
    rival = int(values.saved[:, 1:].mean(axis=0).argmax()) + 1
    noise = putt_noise(values.putts, pattern=pattern)
    return putts_to_settle(values.putts, noise=noise, best=rival)


def _verdict(*, mean: Floats, better: Floats, worth_knowing: float) -> int | str:
    best = int(mean.argmax())
    if best > 0 and mean[best] >= CHANGE_COST and better[best] >= SURE_ENOUGH:
        return best
    if worth_knowing < WORTH_KNOWING:
        return KEEP
    return UNDECIDED
