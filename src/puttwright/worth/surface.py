"""Putts a round of thousands of patterns that lie close together, from some hundreds of them.

The patterns of one golfer's posterior fill a small cloud over which putts a round
bend gently. They are computed for the outermost patterns and for an even sample of
the rest; a polynomial of fourth degree through those gives the others. Some are
computed and held out of the fit: where the polynomial misses them, all are computed.
"""

from __future__ import annotations

import itertools
from typing import Final

import numpy as np
from numpy.polynomial.hermite_e import hermevander
from numpy.typing import NDArray

from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import Course, putts_per_round

Floats = NDArray[np.float64]
Numbers = NDArray[np.intp]

OUTERMOST: Final = 200
SAMPLE: Final = 400
HELD_OUT: Final = 8
"""Every so many of the sample is held out of the fit."""
MOST_MISSED: Final = 0.01
"""Putts a round, root mean square, that the polynomial may miss the held-out patterns by."""
_DEGREE: Final = 4
_POWERS: Final = [
    powers for powers in itertools.product(range(_DEGREE + 1), repeat=4) if sum(powers) <= _DEGREE
]
_WORTH_A_FIT: Final = 2 * (OUTERMOST + SAMPLE)
_OUTER_WEIGHT: Final = 0.5


def putts_per_round_of_many(pattern: Pattern, *, course: Course) -> Floats:
    """Expected putts in a round for each of many patterns of one golfer.

    Parameters
    ----------
    pattern
        Posterior draws of one golfer's builds; few are computed one by one.
    course
        The greens, first putts and noise.

    Returns
    -------
    ndarray of pattern.shape
        Putts a round, within about :data:`MOST_MISSED` of
        :func:`~puttwright.worth.rounds.putts_per_round`, or the same.
    """
    total = int(np.prod(pattern.shape))
    if total <= _WORTH_A_FIT:
        return putts_per_round(pattern, course=course)
    numbers = _standardised(pattern)
    outer, inner = _chosen(numbers)
    chosen = np.concatenate([outer, inner])
    exact = putts_per_round(_some(pattern, chosen), course=course)
    held_out = np.zeros(chosen.size, dtype=bool)
    held_out[outer.size :: HELD_OUT] = True
    weight = np.where(np.arange(chosen.size) < outer.size, _OUTER_WEIGHT, 1.0) * ~held_out
    terms = _terms(numbers[chosen])
    fit, *_ = np.linalg.lstsq(terms * weight[:, None], exact * weight, rcond=None)
    missed = exact[held_out] - terms[held_out] @ fit
    if not float(np.sqrt((missed**2).mean())) <= MOST_MISSED:
        return putts_per_round(pattern, course=course)
    putts = _terms(numbers) @ fit
    putts[chosen] = exact
    return np.asarray(putts.reshape(pattern.shape))


def _standardised(pattern: Pattern) -> Floats:
    """The four numbers of each pattern about their mean, in standard deviations, shape (n, 4)."""
    numbers = np.stack(
        [
            np.log(pattern.start_sd_rad).ravel(),
            pattern.start_bias_rad.ravel(),
            np.log(pattern.pace_sd).ravel(),
            pattern.pace_bias.ravel(),
        ],
        axis=1,
    )
    return np.asarray((numbers - numbers.mean(axis=0)) / np.maximum(numbers.std(axis=0), 1e-12))


def _chosen(numbers: Floats) -> tuple[Numbers, Numbers]:
    """The outermost patterns, where a polynomial would be guessing, and an even sample within."""
    by_distance = np.argsort(-(numbers**2).sum(axis=1), kind="stable")
    within = np.sort(by_distance[OUTERMOST:])
    sample = within[np.linspace(0, within.size - 1, SAMPLE).astype(int)]
    return by_distance[:OUTERMOST], sample


def _some(pattern: Pattern, which: Numbers) -> Pattern:
    return Pattern(
        start_sd_rad=pattern.start_sd_rad.ravel()[which],
        start_bias_rad=pattern.start_bias_rad.ravel()[which],
        pace_sd=pattern.pace_sd.ravel()[which],
        pace_bias=pattern.pace_bias.ravel()[which],
    )


def _terms(numbers: Floats) -> Floats:
    """All products of Hermite polynomials up to the degree, shape (n, terms)."""
    one = [hermevander(numbers[:, k], _DEGREE) for k in range(4)]
    terms = np.empty((numbers.shape[0], len(_POWERS)))
    for column, (a, b, c, d) in enumerate(_POWERS):
        terms[:, column] = one[0][:, a] * one[1][:, b] * one[2][:, c] * one[3][:, d]
    return terms
