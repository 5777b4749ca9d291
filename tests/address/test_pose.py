"""The chain of links against geometry worked by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from puttwright.address.pose import Body, Club, Stance, pose_of, reach_m

# Links whose triangles come out even: a leg of 0.8, a trunk of 0.5, arms of 0.3 and 0.4.
BODY = Body(
    ankle_m=0.1, hip_m=0.9, trunk_m=0.5, upper_arm_m=0.3, forearm_m=0.4, half_shoulders_m=0.3,
    eye_up_m=0.2, eye_ahead_m=0.1, toe_ahead_m=0.2,
)  # fmt: skip
THREE_FOUR_FIVE = math.atan2(4, 3)


def _pose(**change):
    # Weight so far ahead that the legs stand upright: 0.678 * 0.626 * 0.3.
    stance = {
        "trunk_rad": math.atan2(3, 4), "neck_rad": math.pi / 2 - math.atan2(3, 4),
        "elbow_rad": math.pi / 2, "grip_down_m": 0.1, "weight_ahead_m": 0.678 * 0.626 * 0.3,
    } | change  # fmt: skip
    club = Club(length_m=0.85, lie_rad=THREE_FOUR_FIVE, axis_to_ball_m=0.05)
    return pose_of(body=BODY, stance=Stance(**stance), club=club)


def test_every_joint_is_where_a_ruler_puts_it():
    pose = _pose()

    # 0.75 of shaft below the hands, rising 3 to 4 from 0.05 inside the ball.
    assert pose.hands == pytest.approx((0.05 + 0.45, 0.60))
    assert pose.butt == pytest.approx((0.05 + 0.51, 0.68))
    # Arms at a right angle are 0.5 long, seen from the side 0.4; hanging, below the shoulder.
    assert pose.shoulder == pytest.approx((0.50, 0.9 + 0.4))
    # The head is turned to the ground: eyes 0.2 nearer the ball and 0.1 below the shoulder.
    assert pose.eyes == pytest.approx((0.30, 1.20))
    # The trunk, 4 up and 3 across; then upright legs.
    assert pose.hip == pytest.approx((0.80, 0.9))
    assert pose.ankle == pytest.approx((0.80, 0.1))
    assert pose.toe == pytest.approx((0.60, 0.0))
    # The arms hang to 0.9, the grip is at 0.6.
    assert float(pose.misses_m) == pytest.approx(0.6 - 0.9)


def test_arms_off_the_plumb_line_move_the_shoulders_inside():
    reach = 0.4
    out = _pose(arm_rad=math.radians(30))

    assert out.shoulder[0] - out.hands[0] == pytest.approx(reach / 2)
    assert out.shoulder[0] == pytest.approx(0.5 + reach / 2)


def test_a_toe_in_the_air_lays_the_shaft_down():
    flat, up = _pose(), _pose(sole_tilt_rad=math.radians(2))
    angle = math.atan2(up.hands[1], up.hands[0] - 0.05)

    assert angle == pytest.approx(THREE_FOUR_FIVE - math.radians(2))
    assert up.hands[1] < flat.hands[1]


def test_straight_arms_reach_furthest():
    bends = np.linspace(0.0, 2.0, 20)

    assert float(reach_m(body=BODY, elbow_rad=0.0)) == pytest.approx(math.sqrt(0.49 - 0.09))
    assert np.all(np.diff(reach_m(body=BODY, elbow_rad=bends)) < 0)


def test_the_hips_go_back_until_the_weight_is_over_the_feet():
    pose = _pose(weight_ahead_m=0.04)
    legs, upper = 0.553, 0.626
    back, bend = pose.hip[0] - pose.ankle[0], pose.hip[0] - pose.shoulder[0]
    centre = 0.678 * (back - upper * bend) + 0.322 * legs * back

    assert centre == pytest.approx(-0.04)
    assert math.hypot(back, pose.hip[1] - 0.1) == pytest.approx(0.8)
