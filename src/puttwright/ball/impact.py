"""The strike: a rigid head meets the ball at one point of its face.

An impulse along the face's normal throws the ball off with restitution; one in
the face holds it (stick) or drags it (slip) by friction. Both act at the point
of strike, so head and ball turn. Penner 2001 is the special case through the
centre of gravity.

Axes are x to the target, y right, z up. That is a left-handed frame, so a cross
product turns clockwise here; spin is reported as what the ball does: forward
roll, roll to the right, and turning clockwise seen from above.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from puttwright.ball.head import Head
from puttwright.ball.limits import FloatArray, checked
from puttwright.evidence.signs import toe_side
from puttwright.units import BALL_INERTIA_FACTOR, BALL_MASS_KG, BALL_RADIUS_M

RESTITUTION: Final = 0.80
"""Ball off a putter face; with a 350 g head the ball leaves at 1.59 head speeds (1.6 measured)."""

FACE_FRICTION: Final = 0.4
"""From memory; putts need under 0.2 to stick, so the value hardly ever matters."""

CONTACT_S: Final = 6e-4
"""Time of contact, from memory; it only turns the head's rate of turning into an angle."""

PUTTING_SPEED_MPS: Final = 4.0
"""Head speed up to which restitution at putting speeds is meant."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """How the head comes to the ball; numbers or arrays that broadcast together.

    Parameters
    ----------
    head_speed_mps
        0.05 to 10 m/s.
    loft_rad, lean_rad
        Loft of the putter, and handle toward the target, which takes loft off.
    attack_rad, path_rad, face_rad
        Head rising; head's and face's direction from the target line, right positive.
    sole_tilt_rad
        Toe up. With loft it turns the face to the heel side.
    strike_toe_m, strike_high_m
        Point of strike from the sweet spot.
    closure_radps
        Turning of the face at impact, right positive.
    handed
        Turns toe into right (right-handers) or left.
    """

    head_speed_mps: npt.ArrayLike
    loft_rad: npt.ArrayLike = 0.0
    lean_rad: npt.ArrayLike = 0.0
    attack_rad: npt.ArrayLike = 0.0
    path_rad: npt.ArrayLike = 0.0
    face_rad: npt.ArrayLike = 0.0
    sole_tilt_rad: npt.ArrayLike = 0.0
    strike_toe_m: npt.ArrayLike = 0.0
    strike_high_m: npt.ArrayLike = 0.0
    closure_radps: npt.ArrayLike = 0.0
    handed: str = "right"

    def arrays(self) -> _Arrays:
        """All of it, checked and of one shape."""
        checked(limit="loft_rad", value=self.loft_rad)
        return _Arrays(
            *np.broadcast_arrays(
                checked(limit="head_speed_mps", value=self.head_speed_mps),
                np.asarray(self.loft_rad, float) - np.asarray(self.lean_rad, float),
                checked(limit="angle_rad", value=self.attack_rad, name="attack_rad"),
                checked(limit="angle_rad", value=self.path_rad, name="path_rad"),
                checked(limit="angle_rad", value=self.face_rad, name="face_rad"),
                checked(limit="angle_rad", value=self.sole_tilt_rad, name="sole_tilt_rad"),
                checked(limit="strike_m", value=self.strike_toe_m, name="strike_toe_m"),
                checked(limit="strike_m", value=self.strike_high_m, name="strike_high_m"),
                np.asarray(self.closure_radps, float),
            )
        )


@dataclass(frozen=True, slots=True)
class _Arrays:
    speed: FloatArray
    loft: FloatArray
    attack: FloatArray
    path: FloatArray
    face: FloatArray
    tilt: FloatArray
    toe: FloatArray
    high: FloatArray
    closure: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Impact:
    """What leaves the face; arrays of one shape.

    ``spin_radps`` is forward roll about the axis square to the start line
    (backspin negative), ``spin_right_radps`` roll to the right of it and
    ``spin_clockwise_radps`` about the upright axis. ``twist_radps`` is how fast
    the head turns afterwards, right positive, ``twist_rad`` how far it turned while
    in contact. ``slips`` says whether the ball slid on the face. Velocities are
    (..., 3): to the target, right, up.
    """

    ball_speed_mps: FloatArray
    launch_rad: FloatArray
    start_rad: FloatArray
    spin_radps: FloatArray
    spin_right_radps: FloatArray
    spin_clockwise_radps: FloatArray
    twist_radps: FloatArray
    twist_rad: FloatArray
    slips: npt.NDArray[np.bool_]
    ball_velocity_mps: FloatArray
    head_velocity_mps: FloatArray
    flags: tuple[str, ...] = ()


def dynamic_loft_rad(*, loft_rad: npt.ArrayLike, lean_rad: npt.ArrayLike = 0.0) -> FloatArray:
    """Loft as delivered: loft less shaft lean.

    Parameters
    ----------
    loft_rad, lean_rad
        Loft of the putter, and handle toward the target.

    Returns
    -------
    ndarray
        Their difference.

    Examples
    --------
    >>> float(dynamic_loft_rad(loft_rad=0.06, lean_rad=0.02).round(3))
    0.04
    """
    return np.asarray(np.asarray(loft_rad, float) - np.asarray(lean_rad, float))


def lie_aim_rad(
    *, loft_rad: npt.ArrayLike, sole_tilt_rad: npt.ArrayLike, handed: str = "right"
) -> FloatArray:
    """Where a lofted face looks when the sole does not lie flat, atan(tan L sin tilt).

    Parameters
    ----------
    loft_rad, sole_tilt_rad
        Dynamic loft, and toe up.
    handed
        Which way the toe points.

    Returns
    -------
    ndarray
        Right positive; toe up turns the face to the heel side.

    Examples
    --------
    >>> aim = lie_aim_rad(loft_rad=np.radians(3.0), sole_tilt_rad=np.radians(2.0))
    >>> round(float(np.degrees(aim)), 3)
    -0.105
    """
    turn = np.arctan(np.tan(np.asarray(loft_rad, float)) * np.sin(np.asarray(sole_tilt_rad, float)))
    return np.asarray(-toe_side(handed) * turn)


def _face_axes(a: _Arrays, side: int) -> FloatArray:
    """Normal, toe and up along the face as rows (..., 3, 3), and head axes follow them."""
    zero, one = np.zeros_like(a.loft), np.ones_like(a.loft)
    normal = np.stack([np.cos(a.loft), zero, np.sin(a.loft)], axis=-1)
    across = np.stack([zero, one, zero], axis=-1)
    up = np.stack([-np.sin(a.loft), zero, np.cos(a.loft)], axis=-1)
    axes = np.stack([normal, across, up], axis=-2)
    # Toe up lifts the toe's side about the target axis; then the face turns about the upright.
    c, s = np.cos(side * a.tilt), np.sin(side * a.tilt)
    tilted = np.stack(
        [axes[..., 0], c[..., None] * axes[..., 1] - s[..., None] * axes[..., 2],
         s[..., None] * axes[..., 1] + c[..., None] * axes[..., 2]], axis=-1,
    )  # fmt: skip
    c, s = np.cos(a.face)[..., None], np.sin(a.face)[..., None]
    x, y, z = tilted[..., 0], tilted[..., 1], tilted[..., 2]
    return np.stack([c * x - s * y, s * x + c * y, z], axis=-1)


def _crossing(vector: FloatArray) -> FloatArray:
    """Matrix (..., 3, 3) of "vector cross"."""
    x, y, z = vector[..., 0], vector[..., 1], vector[..., 2]
    zero = np.zeros_like(x)
    rows = [[zero, -z, y], [z, zero, -x], [-y, x, zero]]
    return np.stack([np.stack(row, axis=-1) for row in rows], axis=-2)


def _yield_matrix(arm: FloatArray, *, mass_kg: float, inverse_inertia: FloatArray) -> FloatArray:
    """How the point at ``arm`` of a free body moves for each unit of impulse there."""
    cross = _crossing(arm)
    return np.asarray(np.eye(3) / mass_kg - cross @ inverse_inertia @ cross)


def _impulse(
    matrix: FloatArray, *, slip: FloatArray, normal: FloatArray, restitution: float, friction: float
) -> tuple[FloatArray, npt.NDArray[np.bool_]]:
    """Impulse on the ball, and whether it slides; ``slip`` is the ball's velocity at the face."""
    closing = np.sum(slip * normal, axis=-1, keepdims=True)
    wanted = -restitution * closing * normal - slip
    stick = np.linalg.solve(matrix, wanted[..., None])[..., 0]
    pressed = np.sum(stick * normal, axis=-1, keepdims=True)
    tangent = stick - pressed * normal
    size = np.linalg.norm(tangent, axis=-1, keepdims=True)
    slides = size > friction * pressed
    along = normal + friction * tangent / np.where(size > 0.0, size, 1.0)
    give = np.sum(normal * (matrix @ along[..., None])[..., 0], axis=-1, keepdims=True)
    slide = -(1.0 + restitution) * closing / give * along
    return np.where(slides, slide, stick), slides[..., 0]


def strike(
    *,
    delivery: Delivery,
    head: Head | None = None,
    restitution: float = RESTITUTION,
    face_friction: float = FACE_FRICTION,
    contact_s: float = CONTACT_S,
) -> Impact:
    """Strike the ball.

    Parameters
    ----------
    delivery, head
        How the head comes, and what it is.
    restitution
        Ball on face, 0.5 to 1.
    face_friction
        0 to 2; the ball sticks unless loft or strike are far from usual.
    contact_s
        Time of contact, for the twist as an angle only.

    Returns
    -------
    Impact
        Arrays of the broadcast shape. Above 4 m/s of head speed a flag says that
        restitution is no longer that of a putt.

    Notes
    -----
    Impulses at one point, both bodies rigid and free (Penner 2001, Am. J. Phys. 69:563,
    is the case through the centre of gravity). When it slides, friction keeps the
    direction it would have stuck in.

    Examples
    --------
    >>> hit = strike(delivery=Delivery(head_speed_mps=1.5, loft_rad=np.radians(3.0)))
    >>> round(float(hit.ball_speed_mps), 2), round(float(np.degrees(hit.launch_rad)), 2)
    (2.38, 2.52)
    """
    checked(limit="restitution", value=restitution)
    checked(limit="face_friction", value=face_friction)
    head, a = head or Head(), delivery.arrays()
    side = toe_side(delivery.handed)
    axes = _face_axes(a, side)
    normal = axes[..., 0, :]
    point = (
        head.cg_depth_m * normal
        + (side * a.toe)[..., None] * axes[..., 1, :]
        + a.high[..., None] * axes[..., 2, :]
    )
    inverse = np.swapaxes(axes, -1, -2) @ np.linalg.inv(head.inertia()) @ axes
    ball = np.eye(3) / (BALL_INERTIA_FACTOR * BALL_MASS_KG * BALL_RADIUS_M**2)
    arm = -BALL_RADIUS_M * normal
    matrix = _yield_matrix(arm, mass_kg=BALL_MASS_KG, inverse_inertia=ball) + _yield_matrix(
        point, mass_kg=head.mass_kg, inverse_inertia=inverse
    )
    velocity = _head_velocity(a)
    turning = np.stack([np.zeros_like(a.speed), np.zeros_like(a.speed), a.closure], axis=-1)
    push, slides = _impulse(
        matrix,
        slip=-velocity - np.cross(turning, point),
        normal=normal,
        restitution=restitution,
        friction=face_friction,
    )
    spin = np.cross(arm, push) @ ball
    turned = turning - (inverse @ np.cross(point, push)[..., None])[..., 0]
    return _impact(
        ball_velocity=push / BALL_MASS_KG,
        spin=spin,
        head_velocity=velocity - push / head.mass_kg,
        turned=turned[..., 2],
        contact_s=contact_s,
        closure=a.closure,
        slides=slides,
        fast=bool((a.speed > PUTTING_SPEED_MPS).any()),
    )


def _head_velocity(a: _Arrays) -> FloatArray:
    level = a.speed * np.cos(a.attack)
    return np.stack(
        [level * np.cos(a.path), level * np.sin(a.path), a.speed * np.sin(a.attack)], axis=-1
    )


def _impact(
    *,
    ball_velocity: FloatArray,
    spin: FloatArray,
    head_velocity: FloatArray,
    turned: FloatArray,
    closure: FloatArray,
    contact_s: float,
    slides: npt.NDArray[np.bool_],
    fast: bool,
) -> Impact:
    """Vectors turned into what is spoken of."""
    x, y, z = ball_velocity[..., 0], ball_velocity[..., 1], ball_velocity[..., 2]
    start = np.arctan2(y, x)
    # In this left-handed frame spin about +y rolls forward, about -x to the right.
    forward_axis = -np.sin(start) * spin[..., 0] + np.cos(start) * spin[..., 1]
    along_axis = np.cos(start) * spin[..., 0] + np.sin(start) * spin[..., 1]
    return Impact(
        ball_speed_mps=np.linalg.norm(ball_velocity, axis=-1),
        launch_rad=np.arctan2(z, np.hypot(x, y)),
        start_rad=start,
        spin_radps=forward_axis,
        spin_right_radps=-along_axis,
        spin_clockwise_radps=spin[..., 2],
        twist_radps=turned,
        twist_rad=0.5 * (turned + closure) * contact_s,
        slips=slides,
        ball_velocity_mps=ball_velocity,
        head_velocity_mps=head_velocity,
        flags=(
            ("The head is faster than in putting; restitution is a guess there.",) if fast else ()
        ),
    )
