"""Keep, change or not yet: the choice by expected worth, and what being wrong would cost.

The posterior already shrinks each build toward the others, so its mean is what
a choice may promise. A change has to beat the golfer's own putter by more than
:data:`CHANGE_COST` and be likelier right than :data:`SURE_ENOUGH`; when neither
a change is warranted nor much could be gained by knowing more, the own putter
stays; in between, more putts are asked for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.fitting.decision import KEEP, UNDECIDED

Floats = NDArray[np.float64]

CHANGE_COST: Final = 0.10
"""Putts a round a change must promise to be worth its price and getting used to; a judgement."""
SURE_ENOUGH: Final = 0.60
WORTH_KNOWING: Final = 0.12
"""Putts a round that knowing all must promise before more putts are asked for; a judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """``choice`` is a column of the builds, ``keep`` or ``undecided``; ``best`` the best by mean.

    ``worth_knowing`` is what perfect knowledge would add, in putts a round.
    """

    choice: int | str
    best: int
    probability_better: Floats
    probability_best: Floats
    worth_knowing: float


def choose(saved: Floats) -> Choice:
    """Choose from draws of strokes saved, shape (draws, builds), the own putter first."""
    mean = saved.mean(axis=0)
    best = int(mean.argmax())
    better = (saved > 0.0).mean(axis=0)
    is_best = np.bincount(saved.argmax(axis=1), minlength=saved.shape[1]) / saved.shape[0]
    worth_knowing = float(saved.max(axis=1).mean() - max(mean.max(), 0.0))
    return Choice(
        choice=_verdict(mean=mean, best=best, better=better, worth_knowing=worth_knowing),
        best=best,
        probability_better=better,
        probability_best=is_best,
        worth_knowing=worth_knowing,
    )


def _verdict(*, mean: Floats, best: int, better: Floats, worth_knowing: float) -> int | str:
    if best > 0 and mean[best] >= CHANGE_COST and better[best] >= SURE_ENOUGH:
        return best
    if worth_knowing < WORTH_KNOWING:
        return KEEP
    return UNDECIDED
