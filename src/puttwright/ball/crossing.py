"""When a rolling ball first crosses the rim of the hole.

The line of a roll is a convex arc known in closed form. It is cut into pieces; a
piece whose chord, with its bulge, comes near the hole is searched for the moment
the ball's centre crosses the rim, to rounding.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import numpy.typing as npt

from puttwright.ball.green import GreenPlane
from puttwright.ball.limits import FloatArray
from puttwright.ball.roll import Stages, rolled_to, true_roll
from puttwright.ball.roots import falling_root
from puttwright.ball.skid import Ball, downhill
from puttwright.units import HOLE_RADIUS_M

PIECES: Final = 12
PIECES_ENDLESS: Final = 48
_DOUBLINGS: Final = 10
_ALMOST: Final = 1.0 - 1e-12

Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class RimEntry:
    """First crossing of the rim: whether, how fast, in what direction and how far off centre."""

    reached: Mask
    speed_mps: FloatArray
    direction_rad: FloatArray
    offset_m: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class _Arc:
    """The lines of rolling balls, by z from 0 (roll begins) to 1 (stop, or well past the hole)."""

    ball: Ball
    green: GreenPlane
    hole_x_m: float
    last_p: FloatArray

    def subset(self, mask: Mask) -> _Arc:
        ball = replace(
            self.ball,
            place_m=self.ball.place_m[:, mask],
            velocity_mps=self.ball.velocity_mps[:, mask],
        )
        return replace(self, ball=ball, last_p=self.last_p[mask])

    def at(self, z: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Place from the hole's centre and velocity, each (2, n)."""
        # Just short of the stop the ball still has a direction.
        p = self.last_p * z if self.green.never_stops else -np.log1p(-np.minimum(z, _ALMOST))
        rolled = true_roll(self.ball, green=self.green, p=p)
        place = rolled_to(self.ball, rolled=rolled, green=self.green)
        forward = downhill(self.green)
        rightward = np.array([-forward[1], forward[0]])
        velocity = rolled.along_mps * forward + rolled.across_mps * rightward
        return place - np.array([[self.hole_x_m], [0.0]]), velocity

    def outside(self, z: FloatArray) -> FloatArray:
        """Squared distance from the centre less the squared radius of the hole."""
        place, _ = self.at(z)
        return np.asarray(np.sum(place * place, axis=0) - HOLE_RADIUS_M**2)

    def receding(self, z: FloatArray) -> FloatArray:
        """Positive once the ball moves away from the hole."""
        place, velocity = self.at(z)
        return np.asarray(np.sum(place * velocity, axis=0))


def _arc(ball: Ball, green: GreenPlane, hole_x_m: float) -> _Arc:
    """The lines up to the stop, or where there is none until they are below the hole for good."""
    last = np.full(ball.place_m.shape[1], np.inf)
    if green.never_stops:
        last[:] = 1.0
        beyond = (hole_x_m * downhill(green)[0] + HOLE_RADIUS_M)[0]
        for _ in range(_DOUBLINGS):
            rolled = true_roll(ball, green=green, p=last)
            below = np.sum(rolled_to(ball, rolled=rolled, green=green) * downhill(green), axis=0)
            last = np.where((below > beyond) & (rolled.along_mps > 0.0), last, 2.0 * last)
    return _Arc(ball=ball, green=green, hole_x_m=hole_x_m, last_p=last)


def _entry_between(arc: _Arc, low: float, high: float) -> FloatArray:
    """Parameter z of the crossing between two of them, or nan."""
    count = len(arc.last_p)
    start, end = np.full(count, low), np.full(count, high)
    inside_end = arc.outside(end) < 0.0
    passing = ~inside_end & (arc.receding(start) < 0.0) & (arc.receding(end) > 0.0)
    if passing.any():
        some = arc.subset(passing)
        nearest = falling_root(lambda z: -some.receding(z), low=start[passing], high=end[passing])
        end[passing] = nearest
    inside = arc.outside(end) < 0.0
    found = np.full(count, np.nan)
    inside &= arc.outside(start) >= 0.0
    if inside.any():
        found[inside] = falling_root(
            arc.subset(inside).outside, low=start[inside], high=end[inside]
        )
    return found


def _near(place: FloatArray, velocity: FloatArray, after: FloatArray, turned: FloatArray) -> Mask:
    """Whether a piece of the arc, chord and bulge, may come within the rim."""
    chord = after - place
    length = np.hypot(*chord)
    safe = np.where(length > 0.0, length * length, 1.0)
    share = np.clip(-np.sum(place * chord, axis=0) / safe, 0.0, 1.0)
    closest = np.hypot(*(place + share * chord))
    turn = np.abs(np.arctan2(_cross(velocity, turned), np.sum(velocity * turned, axis=0)))
    bulge = 0.5 * length * np.minimum(np.tan(0.5 * np.minimum(turn, 3.0)), 1.0e3)
    return np.asarray(closest - bulge <= HOLE_RADIUS_M)


def _cross(a: FloatArray, b: FloatArray) -> FloatArray:
    return np.asarray(a[0] * b[1] - a[1] * b[0])


def _rolling_entry(arc: _Arc) -> FloatArray:
    """Parameter z of the first crossing of each line, or nan."""
    count = len(arc.last_p)
    found = np.full(count, np.nan)
    place, velocity = arc.at(np.zeros(count))
    pieces = PIECES_ENDLESS if arc.green.never_stops else PIECES
    for piece in range(pieces):
        low, high = piece / pieces, (piece + 1) / pieces
        after, turned = arc.at(np.full(count, high))
        asked = np.isnan(found) & _near(place, velocity, after, turned)
        if asked.any():
            found[asked] = _entry_between(arc.subset(asked), low, high)
        place, velocity = after, turned
    return found


def _offset(place: FloatArray, velocity: FloatArray) -> FloatArray:
    """How far right of the hole's centre a straight run on would pass."""
    speed = np.hypot(*velocity)
    return np.asarray(_cross(velocity, place) / np.where(speed > 0.0, speed, 1.0))


def rim_entry(*, stages: Stages, green: GreenPlane, distance_m: float) -> RimEntry:
    """First crossing of the rim of a hole ``distance_m`` along the target line.

    A hole reached before true roll is met on the straight line from the ball's
    start to where the roll begins, speed squared falling evenly: that line is
    straight to a millimetre.
    """
    arc = _arc(stages.rolling, green, distance_m)
    z = _rolling_entry(arc)
    rolling = ~np.isnan(z)
    place, velocity = arc.at(np.where(rolling, z, 0.0))
    skidding, early_place, early_velocity = _skid_entry(stages, distance_m)
    place = np.where(skidding, early_place, place)
    velocity = np.where(skidding, early_velocity, velocity)
    reached = rolling | skidding
    return RimEntry(
        reached=reached,
        speed_mps=np.where(reached, np.hypot(*velocity), 0.0),
        direction_rad=np.where(reached, np.arctan2(velocity[1], velocity[0]), 0.0),
        offset_m=np.where(reached, _offset(place, velocity), 0.0),
    )


def _skid_entry(stages: Stages, distance_m: float) -> tuple[Mask, FloatArray, FloatArray]:
    """Whether the skid crosses the rim, and place and velocity there."""
    ball = stages.rolling
    chord, start = ball.place_m, np.array([[-distance_m], [0.0]])
    length = np.hypot(*chord)
    ahead = chord / np.where(length > 0.0, length, 1.0)
    nearest = -np.sum(start * ahead, axis=0)
    beside = np.sum((start + nearest * ahead) ** 2, axis=0)
    half = np.sqrt(np.maximum(HOLE_RADIUS_M**2 - beside, 0.0))
    run = nearest - half
    crossed = (beside < HOLE_RADIUS_M**2) & (run >= 0.0) & (run <= length) & (length > 0.0)
    share = np.where(crossed, run / np.where(length > 0.0, length, 1.0), 0.0)
    first = np.sum(stages.launched.velocity_mps**2, axis=0)
    squared = (1.0 - share) * first + share * np.sum(ball.velocity_mps**2, axis=0)
    return crossed, start + run * ahead, ahead * np.sqrt(squared)
