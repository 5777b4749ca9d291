"""Off the face: small hops, then the skid, until the ball truly rolls.

Every instant the lowest point of the ball slides over the grass with the slip
w = v - r (spin). Friction works against the slip, so on a slope the slip itself
glides as :mod:`puttwright.ball.hodograph` says, and the velocity follows from it:
v(t) = v0 + 2/7 (w(t) - w0) + 5/7 g sin(theta) t downhill. All of it is exact.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from puttwright.ball.green import GreenPlane
from puttwright.ball.hodograph import glide
from puttwright.ball.limits import FloatArray
from puttwright.units import GRAVITY_MPS2

SLIDING_FRICTION: Final = 0.4
"""Usual choice for turf (Penner; from memory). Believable 0.3 to 0.5; skid goes as 1/friction."""

TURF_RESTITUTION: Final = 0.3
"""How much a small hop is thrown back: an assumption. It hardly matters: however the
fall is shared out among hops, the turf must give back the same upward momentum, and
the friction with it."""

LAST_HOP_MPS: Final = 0.02
"""A landing slower than this is the last one; its hop would be 0.02 mm high."""

MOST_HOPS: Final = 60
DOWN, RIGHT = 0, 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """Balls on a plane. Vectors are (2, n): along the target line, and right of it.

    ``surface_mps`` is spin as a speed, the radius times the spin that rolls that
    way: it equals ``velocity_mps`` in true roll. ``lost`` is energy per unit mass
    lost in bounces and in sliding.
    """

    place_m: FloatArray
    velocity_mps: FloatArray
    surface_mps: FloatArray
    time_s: FloatArray
    bounce_lost: FloatArray
    slide_lost: FloatArray

    @property
    def slip_mps(self) -> FloatArray:
        """Velocity of the lowest point over the grass."""
        return self.velocity_mps - self.surface_mps

    @property
    def energy(self) -> FloatArray:
        """Energy of motion along the plane and of rolling spin, per unit mass."""
        move = np.sum(self.velocity_mps**2, axis=0)
        return np.asarray(0.5 * (move + 0.4 * np.sum(self.surface_mps**2, axis=0)))


def downhill(green: GreenPlane) -> FloatArray:
    """Unit vector downhill, (2, 1)."""
    turn = green.slope_towards_rad
    return np.array([[np.cos(turn)], [np.sin(turn)]])


def _landed(
    ball: Ball, *, landing_mps: FloatArray, rise_mps: FloatArray, friction: FloatArray
) -> Ball:
    """The ball after a landing: friction takes the slip, wholly if it can."""
    slip = np.hypot(*ball.slip_mps)
    pushed = friction * (landing_mps + rise_mps)
    share = np.minimum(2.0 / 7.0, np.divide(pushed, slip, out=np.ones_like(slip), where=slip > 0))
    velocity = ball.velocity_mps - share * ball.slip_mps
    surface = ball.surface_mps + 2.5 * share * ball.slip_mps
    after = replace(ball, velocity_mps=velocity, surface_mps=surface)
    lost = ball.energy - after.energy + 0.5 * (landing_mps**2 - rise_mps**2)
    return replace(after, bounce_lost=ball.bounce_lost + lost)


def _flown(ball: Ball, *, rise_mps: FloatArray, green: GreenPlane) -> Ball:
    """The ball at the end of a hop that began with ``rise_mps``."""
    air = 2.0 * rise_mps / green.gravity_across_mps2
    pull = green.gravity_along_mps2 * downhill(green)
    return replace(
        ball,
        place_m=ball.place_m + air * ball.velocity_mps + 0.5 * air * air * pull,
        velocity_mps=ball.velocity_mps + air * pull,
        time_s=ball.time_s + air,
    )


def hop(
    ball: Ball,
    *,
    rise_mps: FloatArray,
    green: GreenPlane,
    friction: FloatArray,
    restitution: FloatArray,
) -> Ball:
    """Let the ball hop until it stays down.

    A negative rise, a launch into the ground, starts with a landing.
    """
    down = np.maximum(-rise_mps, 0.0)
    up = np.where(rise_mps < 0.0, restitution * down, rise_mps)
    ball = _landed(
        ball, landing_mps=down, rise_mps=np.maximum(up, 0.0) * (down > 0), friction=friction
    )
    for _ in range(MOST_HOPS):
        if not up.any():
            break
        ball = _flown(ball, rise_mps=up, green=green)
        after = np.where(up > LAST_HOP_MPS, restitution * up, 0.0)
        ball = _landed(ball, landing_mps=up, rise_mps=after, friction=friction)
        up = after
    return ball


def skid(ball: Ball, *, green: GreenPlane, friction: FloatArray) -> Ball:
    """Let the ball slide until its lowest point stands still: true roll."""
    slip = ball.slip_mps
    drag = 3.5 * friction * GRAVITY_MPS2 * green.cosine
    end = glide(
        speed_mps=np.hypot(*slip),
        angle_rad=np.arctan2(slip[RIGHT], slip[DOWN]) - green.slope_towards_rad,
        drag_mps2=drag,
        pull_mps2=green.gravity_along_mps2,
    )
    t = end.time_s
    forward = downhill(green)
    rightward = np.array([-forward[1], forward[0]])
    slid = end.along_m * forward + end.across_m * rightward
    gained = 5.0 / 7.0 * green.gravity_along_mps2 * t * forward
    settled = ball.velocity_mps - 2.0 / 7.0 * slip
    return replace(
        ball,
        place_m=ball.place_m + settled * t + 2.0 / 7.0 * slid + 0.5 * t * gained,
        velocity_mps=settled + gained,
        surface_mps=settled + gained,
        time_s=ball.time_s + t,
        slide_lost=ball.slide_lost + 2.0 / 7.0 * drag * end.path_m,
    )
