"""What each build is worth to this golfer, draw by draw."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence import Fitting
from puttwright.fitting.decision import Estimate
from puttwright.worth.first_putts import first_putts_or_default
from puttwright.worth.holing import chance_to_hole
from puttwright.worth.noise import read_noise_for
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import Course, deceleration_of

Floats = NDArray[np.float64]

SHOWN_DISTANCES_M = (1.2, 2.4, 4.6)
"""4, 8 and 15 ft: where putts are holed by skill, by half, and by luck."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Values:
    """Putts a round, shape (draws, builds), the golfer's own putter first."""

    putts: Floats

    @property
    def saved(self) -> Floats:
        """Strokes saved a round against the own putter; its own column is zero."""
        return np.asarray(self.putts[:, :1] - self.putts)


def course_of(fitting: Fitting) -> Course:
    """Where and from where the golfer putts, and how well they read."""
    return Course(
        greens=fitting.greens,
        first_putts=first_putts_or_default(fitting.first_putts),
        noise=read_noise_for(handicap=fitting.golfer.handicap),
    )


def make_percentages(pattern: Pattern, *, course: Course) -> Floats:
    """Percent holed from :data:`SHOWN_DISTANCES_M` on the usual green, (*pattern.shape, 3)."""
    chance = chance_to_hole(
        pattern,
        distance_m=np.array(SHOWN_DISTANCES_M),
        deceleration_mps2=deceleration_of(speed_ft=course.usual_green_ft),
        noise=course.noise,
    )
    return 100.0 * chance


_SHARES: Final = np.array([0.05, 0.25, 0.75, 0.95])


def estimate(draws: Floats, *, with_50: bool = False) -> Estimate:
    """Mean, standard deviation and central intervals of posterior draws."""
    low, lower, upper, high = _quantiles(draws, _SHARES)
    return Estimate(
        mean=float(draws.mean()),
        sd=float(draws.std()),
        interval_90=(low, high),
        interval_50=(lower, upper) if with_50 else None,
    )


def _quantiles(draws: Floats, shares: Floats) -> list[float]:
    """What ``numpy.quantile`` says; for some thousand draws its ceremony takes most of its time."""
    ordered = np.sort(draws, axis=None)
    place = shares * (ordered.size - 1)
    below = np.minimum(place.astype(np.intp), ordered.size - 2) if ordered.size > 1 else [0] * 4
    step = np.asarray(ordered[np.minimum(np.add(below, 1), ordered.size - 1)] - ordered[below])
    return list(map(float, ordered[below] + step * (place - below)))
