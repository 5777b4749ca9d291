"""The golfer seen down the line: a chain of links from the feet to the eyes and to the ball.

A plane square to the target line: ``inside`` is from the ball-target line toward
the golfer, ``up`` from the ground. The same for both hands. Angles of trunk and head
are from the upright, bending toward the ball positive; the arm's from the plumb line
through the shoulder, hands toward the ball positive. Numbers or arrays of one shape.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from puttwright.address.usual import LEG_CENTRE, UPPER_CENTRE, UPPER_MASS

Floats = npt.NDArray[np.float64]
Number = float | Floats
Where = tuple[Floats, Floats]


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Lengths [m], heights with shoes on; ``forearm_m`` ends in the middle of the closed hand."""

    ankle_m: Number
    hip_m: Number
    trunk_m: Number
    upper_arm_m: Number
    forearm_m: Number
    half_shoulders_m: Number
    eye_up_m: Number
    eye_ahead_m: Number
    toe_ahead_m: Number = 0.195


@dataclass(frozen=True, slots=True, kw_only=True)
class Stance:
    """How the body stands: joints [rad], hands down from the butt [m], toe up [rad]."""

    trunk_rad: Number
    neck_rad: Number
    arm_rad: Number = 0.0
    elbow_rad: Number = 0.0
    grip_down_m: Number = 0.095
    sole_tilt_rad: Number = 0.0
    weight_ahead_m: Number = 0.045


@dataclass(frozen=True, slots=True, kw_only=True)
class Club:
    """What of a putter the body meets.

    ``axis_to_ball_m`` is how far the shaft axis meets the ground inside the ball line
    (the sweet spot's distance from the axis); ``lean_rad`` handle toward the target.
    """

    length_m: Number
    lie_rad: Number
    axis_to_ball_m: Number = 0.030
    lean_rad: Number = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """Where the joints are, (inside, up) [m]; ``misses_m`` is how far grip and hands are apart."""

    sole: Where
    butt: Where
    hands: Where
    elbow: Where
    shoulder: Where
    eyes: Where
    hip: Where
    ankle: Where
    toe: Where
    head_rad: Floats
    misses_m: Floats


def pose_of(*, body: Body, stance: Stance, club: Club) -> Pose:
    """Put the chain together: from the sole up the shaft to the hands, from there to the eyes.

    Sideways the chain is closed by where the feet stand. Upward it is closed only
    if trunk, arms and shaft agree; ``misses_m`` says by how much they do not (grip
    above the hands positive).

    Examples
    --------
    >>> body = Body(
    ...     ankle_m=0.09,
    ...     hip_m=0.9,
    ...     trunk_m=0.5,
    ...     upper_arm_m=0.3,
    ...     forearm_m=0.3,
    ...     half_shoulders_m=0.0,
    ...     eye_up_m=0.2,
    ...     eye_ahead_m=0.1,
    ... )
    >>> club = Club(length_m=0.8, lie_rad=np.radians(70), axis_to_ball_m=0.0)
    >>> pose = pose_of(body=body, stance=Stance(trunk_rad=0.7, neck_rad=0.5), club=club)
    >>> round(float(pose.hands[1]), 3)
    0.662
    """
    grip = _hands_on(stance, club)
    arm, trunk = np.asarray(stance.arm_rad, float), np.asarray(stance.trunk_rad, float)
    reach = reach_m(body=body, elbow_rad=stance.elbow_rad)
    shoulder_in = grip[0] + reach * np.sin(arm)
    hip, ankle = _legs(body, stance, shoulder_in=shoulder_in)
    shoulder = (shoulder_in, hip[1] + body.trunk_m * np.cos(trunk))
    hands = (grip[0], shoulder[1] - reach * np.cos(arm))
    head = trunk + np.asarray(stance.neck_rad, float)
    eyes = (
        shoulder[0] - body.eye_up_m * np.sin(head) - body.eye_ahead_m * np.cos(head),
        shoulder[1] + body.eye_up_m * np.cos(head) - body.eye_ahead_m * np.sin(head),
    )
    return Pose(
        sole=(np.asarray(club.axis_to_ball_m, float), np.zeros_like(grip[1])),
        butt=_along(stance, club, club.length_m),
        hands=grip,
        elbow=_elbow(body, shoulder=shoulder, hands=hands),
        shoulder=shoulder,
        eyes=eyes,
        hip=hip,
        ankle=ankle,
        toe=(ankle[0] - body.toe_ahead_m, np.zeros_like(ankle[0])),
        head_rad=head,
        misses_m=np.asarray(grip[1] - hands[1]),
    )


def reach_m(*, body: Body, elbow_rad: Number) -> Floats:
    """Shoulder to hands as seen down the line: both arms bent and meeting in the middle.

    Parameters
    ----------
    body
        Its arms and shoulders.
    elbow_rad
        How far the elbows are bent, 0 straight.

    Returns
    -------
    ndarray
        By the law of cosines, less what half the shoulders' width takes up sideways.

    Examples
    --------
    >>> body = Body(
    ...     ankle_m=0.09,
    ...     hip_m=0.9,
    ...     trunk_m=0.5,
    ...     upper_arm_m=0.3,
    ...     forearm_m=0.4,
    ...     half_shoulders_m=0.3,
    ...     eye_up_m=0.2,
    ...     eye_ahead_m=0.1,
    ... )
    >>> round(float(reach_m(body=body, elbow_rad=np.pi / 2)), 6)
    0.4
    """
    upper, fore = np.asarray(body.upper_arm_m, float), np.asarray(body.forearm_m, float)
    square = upper**2 + fore**2 + 2.0 * upper * fore * np.cos(elbow_rad)
    seen = np.maximum(square - np.asarray(body.half_shoulders_m, float) ** 2, 1e-6)
    return np.asarray(np.sqrt(seen))


def _along(stance: Stance, club: Club, from_sole_m: Number) -> Where:
    """A point of the shaft axis; toe up lays the shaft down, lean shortens it as seen from here."""
    angle = np.asarray(club.lie_rad, float) - np.asarray(stance.sole_tilt_rad, float)
    seen = np.asarray(from_sole_m, float) * np.cos(np.asarray(club.lean_rad, float))
    return club.axis_to_ball_m + seen * np.cos(angle), seen * np.sin(angle)


def _hands_on(stance: Stance, club: Club) -> Where:
    return _along(stance, club, np.asarray(club.length_m, float) - stance.grip_down_m)


def _legs(body: Body, stance: Stance, *, shoulder_in: Floats) -> tuple[Where, Where]:
    """Hip and ankle: the hips go back as far as keeps the weight over the feet."""
    bend = body.trunk_m * np.sin(np.asarray(stance.trunk_rad, float))
    leg = np.asarray(body.hip_m, float) - body.ankle_m
    lever = UPPER_MASS + (1.0 - UPPER_MASS) * LEG_CENTRE
    back = (UPPER_MASS * UPPER_CENTRE * bend - stance.weight_ahead_m) / lever
    back = np.clip(back, -0.5 * leg, 0.5 * leg)
    hip = (shoulder_in + bend, body.ankle_m + np.sqrt(leg**2 - back**2))
    return hip, (hip[0] - back, np.zeros_like(back) + body.ankle_m)


def _elbow(body: Body, *, shoulder: Where, hands: Where) -> Where:
    """Halfway down the bent arm, behind it; for the picture, where the arms' spread is not seen."""
    down = (hands[0] - shoulder[0], hands[1] - shoulder[1])
    seen = np.hypot(*down)
    arm = np.asarray(body.upper_arm_m, float) + body.forearm_m
    share = np.asarray(body.upper_arm_m, float) / arm
    out = 0.5 * np.sqrt(np.maximum(share * (1 - share) * (arm**2 - seen**2), 0.0))
    return (
        shoulder[0] + share * down[0] - out * down[1] / seen,
        shoulder[1] + share * down[1] + out * down[0] / seen,
    )
