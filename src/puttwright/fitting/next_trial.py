"""Which putts are worth most to take next: the knowledge gradient over builds.

Frazier, Powell & Dayanik 2009: the expected gain in the best build's mean from
``m`` more putts with one build, builds being correlated as the posterior draws
say. What one putt tells is found from the draws too: worth is regressed on the
four numbers of a build's pattern, and a putt informs each with its own noise.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]

BATCH: Final = 3
"""Putts of a block: long enough to settle in, short enough to change plan."""
BATCH_AIMS: Final = 2
FIRST_TRIAL: Final = 2 * BATCH
"""Putts with a build that nobody putted with, for a first look; a judgement."""
MOST_MORE: Final = 96
"""More putts than this are not asked for: nobody's stroke at the end is that of the beginning."""
_BLOCKS: Final = (1, 2, 4, 8)
_Z, _W = np.polynomial.hermite_e.hermegauss(41)
_W = _W / _W.sum()


@dataclass(frozen=True, slots=True, kw_only=True)
class Gains:
    """Expected gain in putts a round from more putts with each build."""

    gain: Floats

    @property
    def best(self) -> int:
        """The build whose next putts are worth most."""
        return int(self.gain.argmax())


@dataclass(frozen=True, slots=True, kw_only=True)
class Allotment:
    """Blocks of putts dealt out one after the other to where they are worth most.

    ``builds`` in the order in which they were dealt, ``gains`` what each promised
    then in putts a round, ``after`` the covariance of worth that would be left after
    each, shape (blocks, builds, builds).
    """

    builds: tuple[int, ...]
    gains: Floats
    after: Floats


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
    return Gains(gain=_gains(mean, covariance_of(putts), noise=noise / more))


def allot(putts: Floats, *, noise: Floats, blocks: int, already: tuple[int, ...] = ()) -> Allotment:
    """Deal out blocks of putts one by one, each where the next ones are worth most.

    A block takes its share of doubt away before the next is dealt; what it will
    show is not known, so the means stay. A single block may promise nothing where
    several would tell, so a build is judged by its best run of blocks, each
    counting alike (Frazier & Powell 2010).

    Parameters
    ----------
    putts
        Putts a round, shape (draws, builds).
    noise
        Variance that a single putt leaves, shape (builds,).
    blocks
        How many blocks are dealt.
    already
        Blocks that will be putted in any case, before those dealt.
    """
    mean, left = -putts.mean(axis=0), covariance_of(putts)
    for b in already:
        left = _learnt(left, b, noise=noise[b] / BATCH)
    runs = np.array(_BLOCKS)[:, None]
    left_by_runs = noise / (BATCH * runs)
    dealt: list[int] = []
    gains: list[float] = []
    after: list[Floats] = []
    for _ in range(blocks):
        each = (_gains(mean, left, noise=left_by_runs) / runs).max(axis=0)
        b = int(each.argmax())
        dealt.append(b)
        gains.append(float(each[b]))
        left = _learnt(left, b, noise=noise[b] / BATCH)
        after.append(left)
    return Allotment(builds=tuple(dealt), gains=np.array(gains), after=np.array(after))


def covariance_of(putts: Floats) -> Floats:
    """Covariance of worth between the builds, shape (builds, builds)."""
    return np.atleast_2d(np.cov(putts, rowvar=False))


def _learnt(covariance: Floats, b: int, *, noise: float) -> Floats:
    step = covariance[b] / np.sqrt(covariance[b, b] + noise)
    return np.asarray(covariance - np.outer(step, step))


def _gains(mean: Floats, covariance: Floats, *, noise: Floats) -> Floats:
    """Expected rise of the best mean after a reading of each build, in the shape of ``noise``."""
    steps = covariance / np.sqrt(np.diagonal(covariance) + noise)[..., None]
    best = (mean + np.multiply.outer(_Z, steps)).max(axis=-1)
    return np.asarray(np.maximum(np.tensordot(_W, best, axes=1) - mean.max(), 0.0))
