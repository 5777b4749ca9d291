"""The linkage as numbers that can be learnt: from standard deviations to a pose.

Everything unknown is counted in prior standard deviations from what is usual, so the
prior is the standard normal in each. ``golfer`` holds a golfer's body and habits,
``met`` how one putter is met: what differs from the habit with it in hand. Both may have
axes in front.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.address.grips import grip_style
from puttwright.address.pose import Body, Club, Floats, Pose, Stance, pose_of
from puttwright.address.usual import (
    ANKLE_SHARE,
    ARM_UPPER,
    BODY,
    GIVES,
    HABITS,
    TOE_SHARE,
    Usual,
)

GOLFER: Final = (*BODY, *HABITS)
GOLFER_SIZE, MET_SIZE = len(GOLFER), len(GIVES)
OFFSET: Final = GIVES[-1]
"""The shaft axis' distance from the sweet spot, where it was not measured."""

OUTPUTS: Final = (
    "eye_inside_m",
    "eye_behind_m",
    "hands_height_m",
    "sole_tilt_rad",
    "trunk_rad",
    "hands_out_m",
    "toes_m",
)
"""What an address shows: eyes, hands, sole, trunk from the upright, hands beyond the plumb line
through the shoulders (toward the ball positive), toes from the ball line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A putter and how it is held; ``name`` tells apart what measures alike.

    ``axis_to_ball_m`` is ``None`` where the head's centre of gravity was not measured.
    """

    length_m: float
    lie_rad: float
    name: str = ""
    axis_to_ball_m: float | None = None
    lean_rad: float = 0.0
    style: str | None = None


def habits_of(golfer: Floats) -> dict[str, Floats]:
    """Body and habits by name, in their units."""
    return _named(golfer, GOLFER)


def body_of(golfer: Floats) -> Body:
    """The body; ``golfer`` in standard deviations, last axis the rows of the table."""
    of = _named(golfer, GOLFER)
    height = of["stature_m"]
    shoulder, hip = of["shoulder_share"] * height, of["hip_share"] * height
    arm = of["arm_share"] * height
    return Body(
        ankle_m=of["shoe_m"] + ANKLE_SHARE * height,
        hip_m=of["shoe_m"] + hip,
        trunk_m=shoulder - hip,
        upper_arm_m=ARM_UPPER * arm,
        forearm_m=(1.0 - ARM_UPPER) * arm + of["grip_share"] * height,
        half_shoulders_m=of["half_shoulders_share"] * height,
        eye_up_m=(of["eye_share"] - of["shoulder_share"]) * height,
        eye_ahead_m=of["eye_ahead_share"] * height,
        toe_ahead_m=TOE_SHARE * height,
    )


def heights_m(golfer: Floats) -> dict[str, Floats]:
    """Standing heights as a tape reads them, shoes on [m]."""
    of = _named(golfer, GOLFER)
    height, shoe = of["stature_m"], of["shoe_m"]
    return {
        "barefoot": height,
        "stature": height + shoe,
        "shoulder": of["shoulder_share"] * height + shoe,
        "wrist": (of["shoulder_share"] - of["arm_share"]) * height + shoe,
        "hip": of["hip_share"] * height + shoe,
    }


def posed(golfer: Floats, met: Floats, *, held: Held) -> Pose:
    """Where the joints are."""
    habit, now = _named(golfer, GOLFER), _named(met, GIVES)
    offset = now["axis_to_ball_m"] if held.axis_to_ball_m is None else held.axis_to_ball_m
    stance = Stance(
        **{name: habit[name] + now[name] for name in ("trunk_rad", "neck_rad", "arm_rad")},
        elbow_rad=habit["elbow_rad"] + now["elbow_rad"],
        grip_down_m=grip_style(held.style).down_m + habit["grip_down_m"] + now["grip_down_m"],
        sole_tilt_rad=now["sole_tilt_rad"],
        weight_ahead_m=habit["weight_ahead_m"],
    )
    club = Club(
        length_m=held.length_m, lie_rad=held.lie_rad, axis_to_ball_m=offset, lean_rad=held.lean_rad
    )
    return pose_of(body=body_of(golfer), stance=stance, club=club)


def outputs(golfer: Floats, met: Floats, *, held: Held) -> Floats:
    """What the address shows, in the order of :data:`OUTPUTS`."""
    pose = posed(golfer, met, held=held)
    habit, now = _named(golfer, GOLFER), _named(met, GIVES)
    shown = np.broadcast_arrays(
        pose.eyes[0],
        habit["eye_behind_m"] + now["eye_behind_m"],
        pose.hands[1],
        now["sole_tilt_rad"],
        habit["trunk_rad"] + now["trunk_rad"],
        pose.shoulder[0] - pose.hands[0],
        pose.toe[0],
    )
    return np.stack(shown, axis=-1)


def _named(deviations: Floats, table: tuple[Usual, ...]) -> dict[str, Floats]:
    return {
        row.name: row.mean + row.sd * deviations[..., column] for column, row in enumerate(table)
    }
