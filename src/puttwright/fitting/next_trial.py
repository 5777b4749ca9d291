"""Which putts are worth most to take next: the knowledge gradient over builds.

Frazier, Powell & Dayanik 2008: the expected gain in the best build's mean from
``m`` more putts with one build, builds being correlated as the posterior draws
say. What one putt tells is found from the draws too: worth is regressed on the
four numbers of a build's pattern, and a putt informs each with its own noise.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]

BATCH: Final = 6
"""Putts handed over at a time: long enough to settle in, short enough to change plan."""
BATCH_AIMS: Final = 3
MOST_MORE: Final = 96
"""More putts than this are not asked for: nobody's stroke at the end is that of the beginning."""
_SURE: Final = 0.9
_Z, _W = np.polynomial.hermite_e.hermegauss(41)
_W = _W / _W.sum()


@dataclass(frozen=True, slots=True, kw_only=True)
class Gains:
    """Expected gain in putts a round from one more batch with each build."""

    gain: Floats

    @property
    def best(self) -> int:
        """The build whose next putts are worth most."""
        return int(self.gain.argmax())


def putt_noise(putts: Floats, *, pattern: Pattern) -> Floats:
    """Variance of worth that a single putt with each build leaves, shape (builds,).

    Parameters
    ----------
    putts
        Putts a round, shape (draws, builds).
    pattern
        The patterns they were computed from.
    """
    numbers = np.stack(
        [
            pattern.start_bias_rad,
            np.log(pattern.start_sd_rad),
            pattern.pace_bias,
            np.log(pattern.pace_sd),
        ]
    )
    noise = np.empty(putts.shape[1])
    for b in range(putts.shape[1]):
        x = numbers[:, :, b] - numbers[:, :, b].mean(axis=1, keepdims=True)
        slope, *_ = np.linalg.lstsq(x.T, putts[:, b] - putts[:, b].mean(), rcond=None)
        start_var = float((pattern.start_sd_rad[:, b] ** 2).mean())
        pace_var = float((pattern.pace_sd[:, b] ** 2).mean())
        per_putt = np.array([start_var, 0.5, pace_var, 0.5])
        noise[b] = float(slope**2 @ per_putt)
    return np.maximum(noise, 1e-9)


def knowledge_gradient(putts: Floats, *, noise: Floats, more: int) -> Gains:
    """Expected fall of the least expected putts a round from ``more`` putts with each build."""
    mean = -putts.mean(axis=0)
    covariance = np.atleast_2d(np.cov(putts, rowvar=False))
    gain = np.empty(mean.size)
    for b in range(mean.size):
        step = covariance[b] / np.sqrt(covariance[b, b] + noise[b] / more)
        gain[b] = _W @ (mean + _Z[:, None] * step).max(axis=1) - mean.max()
    return Gains(gain=np.maximum(gain, 0.0))


def putts_to_settle(putts: Floats, *, noise: Floats, best: int) -> int | None:
    """How many more putts, half with the best build and half with the own, would likely settle it.

    The smallest multiple of a batch after which the chance is even or better
    that one of the two is ahead with probability 0.9; :data:`MOST_MORE` when none is.
    """
    difference = putts[:, 0] - putts[:, best]
    mean, variance = float(difference.mean()), float(difference.var())
    for more in range(2 * BATCH, MOST_MORE + 1, 2 * BATCH):
        reading = (noise[0] + noise[best]) / (more / 2.0)
        learnt = variance**2 / (variance + reading)
        bar = 1.2816 * np.sqrt(max(variance - learnt, 0.0))
        spread = np.sqrt(max(learnt, 1e-12))
        settles = ndtr((mean - bar) / spread) + ndtr((-mean - bar) / spread)
        if settles >= 0.5:
            return more
    return None
