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

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.hole import effective_half_width_m, fastest_capture_mps
from puttwright.cores import cores, on_all_cores
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

    asked = _asked(pattern, distance_m, deceleration_mps2=deceleration_mps2, noise=noise)
    make, putts = np.empty(asked.shape), np.empty(asked.shape)

    def solve(part: slice) -> None:
        solve_patterns(*asked.of(part), make[part], putts[part])

    asked.in_parts(solve)
    shape = (*pattern.shape, asked.shape[1])
    return Outcome(make=make.reshape(shape), putts=putts.reshape(shape))


def chance_to_hole(
    pattern: Pattern, *, distance_m: Floats, deceleration_mps2: float, noise: ReadNoise
) -> Floats:
    """The ``make`` of :func:`outcome` alone, many times quicker: no miss is followed up.

    Takes what :func:`outcome` takes; an array of shape ``(*pattern.shape, k)``.
    """
    from puttwright.worth.kernels import chances_of_patterns  # noqa: PLC0415 - as above

    asked = _asked(pattern, distance_m, deceleration_mps2=deceleration_mps2, noise=noise)
    make = np.empty(asked.shape)

    def solve(part: slice) -> None:
        chances_of_patterns(*asked.of(part), make[part])

    asked.in_parts(solve)
    return make.reshape((*pattern.shape, asked.shape[1]))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What the kernels take, and how the patterns are shared out between the cores."""

    distances: Floats
    numbers: tuple[Floats, ...]
    rest: tuple[object, ...]

    @property
    def shape(self) -> tuple[int, int]:
        return self.numbers[0].size, self.distances.size

    def of(self, part: slice) -> tuple[object, ...]:
        return (self.distances, *(each[part] for each in self.numbers), *self.rest)

    def in_parts(self, solve: Callable[[slice], None]) -> None:
        n = self.shape[0]
        size = min(_CHUNK, -(-n // cores())) or 1
        on_all_cores(solve, [slice(start, start + size) for start in range(0, n, size)])


def _asked(
    pattern: Pattern, distance_m: Floats, *, deceleration_mps2: float, noise: ReadNoise
) -> _Asked:
    numbers = (
        pattern.start_sd_rad,
        pattern.start_bias_rad,
        pattern.pace_sd,
        pattern.pace_bias,
    )
    return _Asked(
        distances=np.ascontiguousarray(distance_m, dtype=np.float64),
        numbers=tuple(np.ascontiguousarray(each, dtype=np.float64).ravel() for each in numbers),
        rest=(
            PLANNED_PAST_M,
            np.array([noise.line_rad, noise.line_growth_rad_per_sqrt_m, noise.pace]),
            deceleration_mps2,
            fastest_capture_mps(),
            _width_table(),
        ),
    )
