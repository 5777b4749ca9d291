"""Keep, change or not yet: the choice by expected worth, and what being wrong would cost.

The posterior already shrinks each build toward the others, so its mean is what
a choice may promise. A change has to beat the golfer's own putter by more than
:data:`CHANGE_COST` and be likelier right than :data:`SURE_ENOUGH`; when neither
a change is warranted nor much could be gained by knowing more, or when no
reasonable number of putts would tell, the own putter stays; in between, more
putts are asked for. A build that nobody putted with is never changed to, however
well its levers speak of it: it is tried first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.fitting.decision import KEEP, UNDECIDED
from puttwright.fitting.next_trial import FIRST_TRIAL, putt_noise
from puttwright.fitting.stopping import Outlook, outlook
from puttwright.fitting.value import Values
from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]

CHANGE_COST: Final = 0.10
"""Putts a round a change must promise to be worth its price and getting used to; a judgement."""
SURE_ENOUGH: Final = 0.60


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """``choice`` is a column of the builds, ``keep`` or ``undecided``; ``best`` the best by mean.

    ``worth_knowing`` is what perfect knowledge would add, in putts a round;
    ``outlook`` what the best further putts promise. ``untried`` is the best build where it
    would be changed to, had anybody putted with it.
    """

    choice: int | str
    best: int
    probability_better: Floats
    probability_best: Floats
    worth_knowing: float
    outlook: Outlook
    untried: int | None = None

    @property
    def more_putts(self) -> int | None:
        """How many more putts are worth taking, when undecided."""
        return (self.outlook.putts or FIRST_TRIAL) if self.choice == UNDECIDED else None


def choose(values: Values, *, pattern: Pattern, tried: NDArray[np.bool_]) -> Choice:
    """Choose from draws of worth, the own putter first, and the patterns behind them.

    Parameters
    ----------
    values
        What the builds are worth.
    pattern
        The patterns that was worked out from.
    tried
        Which builds were putted with, shape (builds,): one that never was is not changed to.
    """
    saved = values.saved
    mean = saved.mean(axis=0)
    better = (saved > 0.0).mean(axis=0)
    noise = putt_noise(values.putts, pattern=pattern)
    ahead = outlook(costed(values.putts), noise=noise)
    best = int(mean.argmax())
    worth_it = best > 0 and mean[best] >= CHANGE_COST and better[best] >= SURE_ENOUGH
    untried = worth_it and not tried[best]
    waiting = UNDECIDED if untried or not ahead.enough else KEEP
    return Choice(
        choice=best if worth_it and not untried else waiting,
        best=best,
        probability_better=better,
        probability_best=np.bincount(saved.argmax(axis=1), minlength=mean.size) / saved.shape[0],
        worth_knowing=float(saved.max(axis=1).mean() - max(mean.max(), 0.0)),
        outlook=ahead,
        untried=best if untried else None,
    )


def costed(putts: Floats) -> Floats:
    """Putts a round as the choice counts them: a change has to earn its price first."""
    return putts + np.where(np.arange(putts.shape[1]) > 0, CHANGE_COST, 0.0)
