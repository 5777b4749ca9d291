"""Putts a round: a pattern on the golfer's own greens from their own first putts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.green import deceleration_mps2
from puttwright.evidence import FirstPutt, Green
from puttwright.worth.holing import outcome
from puttwright.worth.pattern import Pattern, ReadNoise

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """Where and from where this golfer putts: greens with shares, first putts, read noise."""

    greens: tuple[Green, ...]
    first_putts: tuple[FirstPutt, ...]
    noise: ReadNoise

    @property
    def usual_green_ft(self) -> float:
        """Speed of the golfer's greens, averaged by share [ft]."""
        return sum(green.speed_ft * green.share for green in self.greens) / self._shares

    @property
    def _shares(self) -> float:
        return sum(green.share for green in self.greens)


def deceleration_of(*, speed_ft: float) -> float:
    """Deceleration of a rolling ball on a level green of that speed [m/s²]."""
    return float(deceleration_mps2(speed_ft=speed_ft))


def putts_per_round(pattern: Pattern, *, course: Course) -> Floats:
    """Expected putts in a round for each pattern.

    Parameters
    ----------
    pattern
        Any number of patterns.
    course
        The greens (weighted by share), first putts and noise.

    Returns
    -------
    ndarray of pattern.shape
        Putts a round.
    """
    return putts_per_round_on(pattern, courses=(course,))[0]


def putts_per_round_on(pattern: Pattern, *, courses: Sequence[Course]) -> list[Floats]:
    """The same for several courses at once; a green that several share is solved once.

    Parameters
    ----------
    pattern
        Any number of patterns.
    courses
        Any number of courses.

    Returns
    -------
    list of ndarray of pattern.shape
        Putts a round on each of them.
    """
    lengths: dict[tuple[float, ReadNoise], dict[float, None]] = {}
    for course in courses:
        for speed_ft, _ in _speeds(course.greens):
            of_green = lengths.setdefault((speed_ft, course.noise), {})
            of_green |= dict.fromkeys(putt.distance_m for putt in course.first_putts)
    solved = {
        (speed_ft, noise): outcome(
            pattern,
            distance_m=np.array(list(distances)),
            deceleration_mps2=deceleration_of(speed_ft=speed_ft),
            noise=noise,
        ).putts
        for (speed_ft, noise), distances in lengths.items()
    }
    totals = []
    for course in courses:
        counts = np.array([putt.per_round for putt in course.first_putts])
        total = np.zeros(pattern.shape)
        for speed_ft, share in _speeds(course.greens):
            green = (speed_ft, course.noise)
            place = {distance: k for k, distance in enumerate(lengths[green])}
            columns = [place[putt.distance_m] for putt in course.first_putts]
            total += share * (solved[green][..., columns] @ counts)
        totals.append(total)
    return totals


def _speeds(greens: Sequence[Green]) -> list[tuple[float, float]]:
    """Speeds with their shares of all rounds; greens of one speed are computed once."""
    shares: dict[float, float] = {}
    for green in greens:
        shares[green.speed_ft] = shares.get(green.speed_ft, 0.0) + green.share
    whole = sum(shares.values())
    return [(speed, share / whole) for speed, share in shares.items() if share > 0]
