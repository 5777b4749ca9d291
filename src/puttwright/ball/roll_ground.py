"""The way down on a filmed putt's residuals, and along them: what each launch would cost.

A hop lasts a few pictures; a launch that lands in another picture lies in a valley of its own,
with a spin of its own to make up for it. So the launch is held at one value after the other and
the rest found to each: what the film says of the launch is told by the whole of it, not by the
lowest place alone (Laplace's approximation for the rest: Tierney and Kadane 1986).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.roll_model import AT

Floats = NDArray[np.float64]

_LAUNCH: Final = AT["rise_share"]
_LAUNCHES: Final = np.linspace(0.0, 0.12, 13)
_TAIL: Final = 4.0
"""Residuals beyond so many spreads count less and less: a lost picture must not decide."""
_STUCK: Final = 1e8
_STEP: Final = 1e-5
_ROUNDS: Final = 60
_SETTLED: Final = 1e-6
_HELD_ROUNDS: Final = 8
_HELD_SETTLED: Final = 1e-4
_VALLEY: Final = 30.0
_FAR: Final = 9.0
"""What is so much less probable, as a logarithm, is not looked at nearer."""
_APART: Final = 1.2
"""Neighbours whose probabilities lie further apart, as a logarithm, get a place between them."""
_CLOSE: Final = 2e-5
_MOST: Final = 56


@dataclass(frozen=True, kw_only=True)
class Place:
    """Parameters, what they cost, and the squares of the slopes there, in units of ``scale``."""

    p: Floats
    cost: float
    square: Floats
    scale: Floats

    @property
    def launch(self) -> float:
        """Speed up as a share of that along the green."""
        return float(self.p[_LAUNCH])

    @cached_property
    def _rest(self) -> Floats:
        rest = np.arange(len(self.p)) != _LAUNCH
        return np.asarray(self.square[np.ix_(rest, rest)])

    @cached_property
    def density(self) -> float:
        """Logarithm of how probable this launch is, whatever the rest."""
        _, log_det = np.linalg.slogdet(self._rest + 1e-9 * np.eye(len(self._rest)))
        return -self.cost - 0.5 * float(log_det)

    @cached_property
    def root(self) -> Floats:
        """A root of the rest's covariance; nothing for the launch."""
        values, vectors = np.linalg.eigh(self._rest)
        least = 1e-13 * float(values[-1])
        root = vectors / np.sqrt(np.maximum(values, least)) * (values > least)
        return (
            np.asarray(np.insert(np.insert(root, _LAUNCH, 0.0, 0), _LAUNCH, 0.0, 1))
            * (self.scale[:, None])
        )


@dataclass(frozen=True, kw_only=True)
class Walk:
    """Places by rising launch."""

    places: list[Place]

    @cached_property
    def _density(self) -> Floats:
        return np.array([each.density for each in self.places])

    @cached_property
    def _launches(self) -> Floats:
        return np.array([each.launch for each in self.places])

    @property
    def evidence(self) -> float:
        """Logarithm of how probable all launches are together."""
        top = float(self._density.max())
        return top + math.log(float(np.trapezoid(np.exp(self._density - top), self._launches)))

    def draws(self, rng: np.random.Generator, *, count: int) -> Floats:
        """Putts from what the film leaves, (count, parameters)."""
        dense = np.exp(self._density - self._density.max())
        step = 0.5 * (dense[1:] + dense[:-1]) * np.diff(self._launches)
        mass = np.concatenate([[0.0], np.cumsum(step)])
        # Between two places a launch is as probable as another.
        at = (np.arange(count) + rng.random(count)) / count * mass[-1]
        behind = np.clip(np.searchsorted(mass, at, side="right") - 1, 0, len(step) - 1)
        part = ((at - mass[behind]) / np.maximum(step[behind], 1e-300))[:, None]
        p = np.stack([each.p for each in self.places])
        middle = (1.0 - part) * p[behind] + part * p[behind + 1]
        normal = rng.standard_normal(p[behind].shape)
        shift = np.empty_like(middle)
        for row, near in enumerate(behind + (part[:, 0] > 0.5)):
            shift[row] = self.places[near].root @ normal[row]
        return np.asarray(middle + shift)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """Residuals over the parameters, to go down on (Marquardt 1963).

    The first ``data`` of them are the film's, of which the tails count less (pseudo-Huber); the
    rest are what is known besides.
    """

    left: Callable[[Floats], Floats]
    data: int
    scale: Floats
    bounds: tuple[Floats, Floats]

    def lowest(self, begins: list[Floats]) -> Place:
        """The lowest place below these beginnings."""
        return min((self._down(each, rounds=_ROUNDS) for each in begins), key=_cost)

    def walk(self, floor: Place) -> Walk:
        """From the lowest place along all launches, closely where they are probable."""
        places = [floor]
        above = _LAUNCHES[floor.launch < _LAUNCHES]
        below = _LAUNCHES[floor.launch > _LAUNCHES][::-1]
        for launches in (above, below):
            last = floor
            for launch in launches:
                last = self._held(last, launch)
                places.append(last)
                if last.cost > floor.cost + 3.0 * _VALLEY:
                    break
        places.sort(key=_launch)
        cost = np.array([each.cost for each in places])
        dips = np.flatnonzero((cost[1:-1] < cost[:-2]) & (cost[1:-1] < cost[2:])) + 1
        found = [
            self._down(places[at].p, rounds=_HELD_ROUNDS)
            for at in dips
            if cost[at] < cost.min() + _VALLEY and places[at] is not floor
        ]
        return self._closely(sorted([*places, *found], key=_launch))

    def _closely(self, places: list[Place]) -> Walk:
        """Places put between those whose probabilities lie far apart."""
        while len(places) < _MOST:
            log = np.array([each.density for each in places])
            apart = np.minimum(np.abs(np.diff(log)), _FAR)
            apart[np.maximum(log[1:], log[:-1]) < log.max() - _FAR] = 0.0
            apart[np.diff([each.launch for each in places]) < _CLOSE] = 0.0
            at = int(np.argmax(apart))
            if apart[at] < _APART:
                break
            pair = places[at : at + 2]
            near = min(pair, key=_cost)
            places.insert(at + 1, self._held(near, 0.5 * (pair[0].launch + pair[1].launch)))
        return Walk(places=places)

    def _held(self, near: Place, launch: float) -> Place:
        there = near.p.copy()
        there[_LAUNCH] = launch
        return self._down(there, rounds=_HELD_ROUNDS, held=True)

    def _weigh(self, off: Floats) -> tuple[Floats, float]:
        """How much each residual counts, and what all cost."""
        data, known = off[: self.data], off[self.data :]
        root = np.sqrt(1.0 + (data / _TAIL) ** 2)
        cost = _TAIL**2 * float(np.sum(root - 1.0)) + 0.5 * float(known @ known)
        return np.concatenate([1.0 / root, np.ones(len(known))]), cost

    def _slopes(self, p: Floats, off: Floats) -> Floats:
        """All at once: a putt a parameter, each moved a little; in units of the scale."""
        return np.asarray((self.left(p + np.diag(_STEP * self.scale)) - off).T / _STEP)

    def _down(self, begin: Floats, *, rounds: int, held: bool = False) -> Place:
        """The lowest place near a beginning, after so many rounds at most; ``held``: the launch."""
        p, off = begin, self.left(begin[None])[0]
        weight, cost = self._weigh(off)
        damp = 1e-3
        for _ in range(rounds):
            slope = self._slopes(p, off)
            square, pull = slope.T @ (slope * weight[:, None]), slope.T @ (off * weight)
            # What stands at its bound and would go beyond it stays.
            stays = ((p <= self.bounds[0]) & (pull > 0.0)) | ((p >= self.bounds[1]) & (pull < 0.0))
            stays[_LAUNCH] |= held
            free, pull = np.where(stays[:, None] | stays, 0.0, square), np.where(stays, 0.0, pull)
            stiff = np.diag(free) + 1e-9
            before = cost
            while damp < _STUCK:
                step = np.linalg.solve(free + np.diag(damp * stiff), -pull) * self.scale
                there = np.clip(p + step, *self.bounds)
                off_there = self.left(there[None])[0]
                weight_there, cost_there = self._weigh(off_there)
                if cost_there < cost:
                    p, off, weight, cost = there, off_there, weight_there, cost_there
                    damp = max(0.2 * damp, 1e-7)
                    break
                damp *= 8.0
            if before - cost < (_HELD_SETTLED if held else _SETTLED) * cost:
                break
        return Place(p=p, cost=cost, square=square, scale=self.scale)


def _cost(place: Place) -> float:
    return place.cost


def _launch(place: Place) -> float:
    return place.launch
