"""Chance to hole and expected putts for a pattern of putts on a level green.

A ball that would roll ``L`` passes the hole, ``d`` away, at
``v = sqrt(2 a (L - d))``; the hole takes it if ``|d sin(start)|`` is below its
effective half width at ``v`` (:mod:`puttwright.ball.hole`). Start line and
roll are normal and independent; read and green noise add to both. Expected
putts solve the Markov chain ``E(d) = 1 + sum over misses of P(leave) E(leave)``
with the pattern's own short putts, the leave of a miss being where the ball
would have stopped.
"""

from __future__ import annotations

import os
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.hole import effective_half_width_m, fastest_capture_mps
from puttwright.worth.pattern import PLANNED_PAST_M, Pattern, ReadNoise

Floats = NDArray[np.float64]

_CHUNK = 1024
_TABLE = 129


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What a pattern of putts comes to, at each distance.

    ``make`` is the chance to hole and ``putts`` the expected number of putts to
    hole out, both of shape ``(*pattern.shape, distances)``.
    """

    make: Floats
    putts: Floats


@cache
def _width_table() -> Floats:
    """Half widths at equal steps of sqrt(1 - v/v_max), in which they are nearly straight."""
    s = np.linspace(0.0, 1.0, _TABLE)
    return np.ascontiguousarray(
        effective_half_width_m(speed_mps=fastest_capture_mps() * (1.0 - s * s)), dtype=np.float64
    )


def outcome(
    pattern: Pattern, *, distance_m: Floats, deceleration_mps2: float, noise: ReadNoise
) -> Outcome:
    """Chance to hole and expected putts of every pattern at every distance.

    Parameters
    ----------
    pattern
        Any number of patterns.
    distance_m
        Distances from the hole, shape ``(k,)`` [m], each above 0.05.
    deceleration_mps2
        Of a rolling ball on the green [m/s²].
    noise
        Read and green noise.

    Returns
    -------
    Outcome
        Arrays of shape ``(*pattern.shape, k)``.
    """
    from puttwright.worth.kernels import solve_patterns  # noqa: PLC0415 - the compiler loads late

    distances = np.ascontiguousarray(distance_m, dtype=np.float64)
    flat = [
        np.ascontiguousarray(numbers, dtype=np.float64).ravel()
        for numbers in (
            pattern.start_sd_rad,
            pattern.start_bias_rad,
            pattern.pace_sd,
            pattern.pace_bias,
        )
    ]
    n = flat[0].size
    make, putts = np.empty((n, distances.size)), np.empty((n, distances.size))
    noises = np.array([noise.line_rad, noise.line_growth_rad_per_sqrt_m, noise.pace])

    def solve(start: int) -> None:
        part = slice(start, start + _CHUNK)
        solve_patterns(
            distances,
            *(numbers[part] for numbers in flat),
            PLANNED_PAST_M,
            noises,
            deceleration_mps2,
            fastest_capture_mps(),
            _width_table(),
            make[part],
            putts[part],
        )

    with ThreadPoolExecutor(os.cpu_count() or 1) as pool:
        list(pool.map(solve, range(0, n, _CHUNK)))
    shape = (*pattern.shape, distances.size)
    return Outcome(make=make.reshape(shape), putts=putts.reshape(shape))
