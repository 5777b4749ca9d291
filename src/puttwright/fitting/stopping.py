"""When to stop: whether further putts promise more than they cost.

What a further batch would teach is worked out before it is putted (preposterior
analysis, Raiffa & Schlaifer 1961): the draws say how far the builds' expected
worth may move, and the gain is how much better the best of them would then be.
Batches of several sizes are weighed, dealt to the builds where they are worth
most, for one block may promise nothing where six would tell.

A posterior does not mind how often it is looked at, as far as its prior is
right; what that is worth where the prior is wrong is held against invented
golfers in ``study/stopping.py``.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.fitting.next_trial import BATCH, MOST_MORE, allot, covariance_of

Floats = NDArray[np.float64]

BLOCK_COST: Final = 0.012
"""Putts a round that a block of putts must promise: one putt in the next eighty rounds; a
judgement of what two more minutes and a little freshness are worth to a golfer."""
_SIZES: Final = (1, 2, 4, 8, 12, MOST_MORE // BATCH)
_POINTS: Final = 1024


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """What the best further batch promises.

    ``putts`` is its size, 0 when none is worth its cost; ``gain`` its expected gain
    in putts a round, before its cost; ``most`` the gain of the largest batch weighed.
    """

    putts: int
    gain: float
    most: float

    @property
    def enough(self) -> bool:
        """Whether no further putts are worth taking."""
        return self.putts == 0


def outlook(putts: Floats, *, noise: Floats) -> Outlook:
    """Weigh batches of several sizes against what they cost.

    Parameters
    ----------
    putts
        Putts a round as the choice counts them, shape (draws, builds).
    noise
        Variance of worth that a single putt with each build leaves, shape (builds,).

    Returns
    -------
    Outlook
        The batch with the greatest gain beyond its cost, or none.
    """
    if putts.shape[1] < 2:
        return Outlook(putts=0, gain=0.0, most=0.0)
    gains = _gains(putts, noise=noise)
    net = [gain - BLOCK_COST * blocks for gain, blocks in zip(gains, _SIZES, strict=True)]
    best = int(np.argmax(net))
    worth_it = net[best] > 0.0
    return Outlook(
        putts=BATCH * _SIZES[best] if worth_it else 0,
        gain=gains[best] if worth_it else max(gains[0], 0.0),
        most=gains[-1],
    )


def _gains(putts: Floats, *, noise: Floats) -> list[float]:
    """Expected gain of each size of batch, dealt where the putts are worth most."""
    before = covariance_of(putts)
    after = allot(putts, noise=noise, blocks=_SIZES[-1]).after
    mean = -putts.mean(axis=0)
    return [_gain(mean, before - after[blocks - 1]) for blocks in _SIZES]


def _gain(mean: Floats, learnt: Floats) -> float:
    """How much better the best mean becomes when the means move with this covariance."""
    values, vectors = np.linalg.eigh(learnt)
    root = vectors * np.sqrt(np.maximum(values, 0.0))
    moved = mean + _standard(mean.size) @ root.T
    # The best mean's own move is nought on average; taking it out takes most of the noise out.
    return float((moved.max(axis=1) - moved[:, mean.argmax()]).mean())


@cache
def _standard(dimensions: int) -> Floats:
    """Standard normal points, mirrored so that their mean is nought, the same every time."""
    points = np.random.default_rng(1).standard_normal((_POINTS, dimensions))
    return np.concatenate([points, -points])
