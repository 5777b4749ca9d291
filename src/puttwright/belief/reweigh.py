"""The posterior after a few more readings, from the draws that were made before them.

A draw that makes the new readings likely counts for more, by importance weights, and the
draws are taken again in the proportion of their weights (Chopin 2002, Biometrika 89(3):
539-552, whose next step, moving them by a chain, is :mod:`puttwright.belief.sample`).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammaln, stdtr

from puttwright.belief.model import Draws, Readings

Floats = NDArray[np.float64]
Numbers = NDArray[np.intp]

LEAST_LEFT: Final = 0.4
"""Share of the draws that must be left, in effect, for their weights to be trusted; a judgement,
held against new chains in ``docs/decisions/2026-11-29-said-early.md``."""
_LEAST_CHANCE: Final = 1e-12


def log_likelihood(draws: Mapping[str, Draws], readings: Mapping[str, Readings]) -> Floats:
    """How likely each draw makes some readings.

    Parameters
    ----------
    draws
        Of every quantity that was read.
    readings
        By quantity; two of different quantities that share a number in ``pair`` must both be
        there.

    Returns
    -------
    ndarray
        Natural logarithms, shape (draws,).
    """
    total = np.zeros(next(iter(draws.values())).nu.size)
    inside: dict[int, list[Floats]] = {}
    for name, read in readings.items():
        of = draws[name]
        seen = np.isfinite(read.value)
        total += _density(of, _some(read, seen))
        for one, pair in enumerate(read.pair.tolist()):
            if pair >= 0:
                chance = _held(of, _some(read, [one]))
                inside.setdefault(pair, []).append(chance)
        alone = ~seen & (read.pair < 0)
        if alone.any():
            total += np.log(_chance(of, _some(read, alone))).sum(axis=1)
    for chances in inside.values():
        total += np.log(np.maximum(1.0 - np.prod(chances, axis=0), _LEAST_CHANCE))
    return total


def weights_of(log_ratio: Floats) -> Floats | None:
    """Weights of draws that add up to 1; none where too few draws would carry them.

    Parameters
    ----------
    log_ratio
        By how much more likely each draw became, as natural logarithms.
    """
    weight = np.exp(log_ratio - log_ratio.max())
    weight /= weight.sum()
    return weight if left(weight) >= LEAST_LEFT else None


def left(weight: Floats) -> float:
    """Share of the draws that the weights leave in effect (Kish 1965)."""
    return float(1.0 / (weight.size * (weight**2).sum()))


def taken_again(weight: Floats) -> Numbers:
    """Numbers of the draws, each as often as its weight says, as many as there are.

    Taken at even steps along the weights, so that no luck comes in.
    """
    steps = (np.arange(weight.size) + 0.5) / weight.size
    found = np.searchsorted(np.cumsum(weight), steps)
    return np.minimum(found, weight.size - 1)  # the sum may end a rounding short of 1


def _some(read: Readings, which: NDArray[np.bool_] | list[int]) -> Readings:
    return Readings(**{name: getattr(read, name)[which] for name in Readings.__dataclass_fields__})


def _scale(of: Draws, read: Readings) -> Floats:
    return np.asarray(np.hypot(of.spread[:, read.group], read.instrument_sd))


def _fitted(of: Draws, read: Readings) -> Floats:
    return np.asarray(of.location[:, read.group] + of.drift[:, None] * read.order)


def _density(of: Draws, read: Readings) -> Floats:
    """Log density of readings that were read, added up, shape (draws,)."""
    scale, nu = _scale(of, read), of.nu[:, None]
    z2 = ((read.value - _fitted(of, read)) / scale) ** 2
    each = np.log(scale) + 0.5 * (nu + 1.0) * np.log1p(z2 / nu)
    constant = gammaln(0.5 * (of.nu + 1.0)) - gammaln(0.5 * of.nu) - 0.5 * np.log(np.pi * of.nu)
    return np.asarray(read.value.size * constant - each.sum(axis=1))


def _chance(of: Draws, read: Readings) -> Floats:
    """Chance that each reading lies between its limits, shape (draws, readings)."""
    scale, fitted, nu = _scale(of, read), _fitted(of, read), of.nu[:, None]
    below = stdtr(nu, (read.low - fitted) / scale)
    return np.maximum(stdtr(nu, (read.high - fitted) / scale) - below, _LEAST_CHANCE)


def _held(of: Draws, read: Readings) -> Floats:
    """Chance that one reading of a pair lies between its limits, shape (draws,).

    One that was read lies there or does not.
    """
    if np.isfinite(read.value[0]):
        between = read.low[0] < read.value[0] < read.high[0]
        return np.full(of.nu.size, float(between))
    return np.asarray(_chance(of, read)[:, 0])
