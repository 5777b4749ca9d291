"""Skid, roll and break against what is published: one case a row of references/roll."""

from __future__ import annotations

import math

import numpy as np
import pytest

from puttwright.ball.green import GreenPlane, deceleration_mps2
from puttwright.ball.hodograph import glide
from puttwright.ball.pace import read
from puttwright.ball.roll import Launch, roll
from puttwright.units import BALL_RADIUS_M, FOOT_M, GRAVITY_MPS2, INCH_M

RELEASE_MPS = 1.83


def _green(speed_ft, *, slope=0.0, towards_rad=0.0):
    deceleration = deceleration_mps2(speed_ft=speed_ft, release_speed_mps=RELEASE_MPS)
    return GreenPlane(
        deceleration_mps2=float(deceleration), slope=slope, slope_towards_rad=towards_rad
    )


def _rolled(speed_mps, green):
    """A ball set down in true roll."""
    return roll(
        launch=Launch(ball_speed_mps=speed_mps, spin_radps=speed_mps / BALL_RADIUS_M), green=green
    )


def _skid(*, spin_radps=0.0, friction=0.4, green=None):
    return roll(
        launch=Launch(ball_speed_mps=2.0, spin_radps=spin_radps),
        green=green or _green(10),
        sliding_friction=friction,
    )


def _pace_of_3m(speed_ft):
    return math.sqrt(3.0 / float(_rolled(1.0, _green(speed_ft)).total_m))


def _across(speed_ft, slope):
    """A putt that would roll 10 ft on the level, sent straight across the slope."""
    green = _green(speed_ft, slope=slope, towards_rad=math.pi / 2)
    return _rolled(math.sqrt(2.0 * green.deceleration_mps2 * 10 * FOOT_M), green)


def _entry(past_ft, *, slope=0.0, towards_rad=0.0, speed_ft=10):
    green = _green(speed_ft, slope=slope, towards_rad=towards_rad)
    return read(distance_m=5.0, past_m=past_ft * FOOT_M, green=green).hole_speed_mps


def _entry_on_3_degrees(towards_rad):
    return _entry(1.0, slope=math.tan(math.radians(3.0)), towards_rad=towards_rad, speed_ft=10.25)


def _first_order():
    rho = _green(10).deceleration_mps2 / (5.0 / 7.0 * GRAVITY_MPS2)
    return float(_across(10, 0.001).stop_y_m) / (0.001 / rho * 10 * FOOT_M / 2)


def _target_points():
    """Where the aim lines of equal putts cross the fall line, above the hole."""
    heights = []
    for from_fall_line in np.radians([-30, -20, -10, 10, 20, 30]):
        green = _green(10, slope=0.02, towards_rad=math.pi + from_fall_line)
        putt = read(distance_m=4.0, past_m=0.0, green=green)
        # In the putt's own axes uphill lies at from_fall_line; the aim line meets it there.
        up = np.array([math.cos(from_fall_line), math.sin(from_fall_line)])
        aim = np.array([math.cos(putt.aim_rad), math.sin(putt.aim_rad)])
        hole = np.array([4.0, 0.0])
        along, height = np.linalg.solve(np.column_stack([aim, -up]), hole)
        assert along > 0.0
        heights.append(height)
    return np.ptp(heights) / np.mean(heights)


def _share_of_energy():
    putt = _skid()
    return float(putt.energy.sliding_j / putt.energy.launch_j)


def _skid_pct(speed_ft, friction):
    putt = _skid(friction=friction, green=_green(speed_ft))
    return 100.0 * (1.0 - float(putt.roll_share))


def _launch_over_roll(speed_ft):
    green = _green(speed_ft)
    skidded = float(roll(launch=Launch(ball_speed_mps=1.0), green=green).total_m)
    return math.sqrt(float(_rolled(1.0, green).total_m) / skidded)


def _first_hop():
    hop = roll(
        launch=Launch(ball_speed_mps=2.0, launch_rad=math.radians(2.5)),
        green=_green(10),
        sliding_friction=0.05,
        turf_restitution=0.0,
    )
    return float(hop.hop_m)


OURS = {
    "ramp_8": lambda: _rolled(RELEASE_MPS, _green(8)).total_m / FOOT_M,
    "ramp_10": lambda: _rolled(RELEASE_MPS, _green(10)).total_m / FOOT_M,
    "ramp_13": lambda: _rolled(RELEASE_MPS, _green(13)).total_m / FOOT_M,
    "roll_time_10": lambda: _rolled(RELEASE_MPS, _green(10)).stop_s,
    **{f"pace_3m_{ft}": lambda ft=ft: _pace_of_3m(ft) for ft in (8, 10, 11, 12, 14)},
    **{
        f"break_{ft}_{pct}": lambda ft=ft, pct=pct: _across(ft, pct / 100).break_m / INCH_M
        for ft, pct in ((10, 1), (10, 2), (8, 2), (12, 2), (12, 3))
    },
    "end_10_1": lambda: _across(10, 0.01).stop_x_m,
    "end_10_2": lambda: _across(10, 0.02).stop_x_m,
    "first_order": _first_order,
    "entry_up": lambda: _entry_on_3_degrees(math.pi),
    "entry_down": lambda: _entry_on_3_degrees(0.0),
    "entry_ratio": lambda: _entry_on_3_degrees(math.pi) / _entry_on_3_degrees(0.0),
    "entry_1ft": lambda: _entry(1.0),
    "entry_1_5ft": lambda: _entry(1.5),
    "entry_2ft": lambda: _entry(2.0),
    "entry_3ft": lambda: _entry(3.0),
    "one_target": _target_points,
    "share_after": lambda: _skid().roll_start_speed_mps / 2.0,
    "topspin_after": lambda: _skid(spin_radps=40.0).roll_start_speed_mps,
    "skid_length": lambda: _skid().skid_m,
    "skid_time": lambda: _skid().skid_s,
    "skid_energy": _share_of_energy,
    "skid_back20": lambda: _skid(spin_radps=-20.0).skid_m,
    "skid_top20": lambda: _skid(spin_radps=20.0).skid_m,
    "skid_top50": lambda: _skid(spin_radps=50.0).skid_m,
    "friction_ratio": lambda: _skid(friction=0.11).skid_m / _skid(friction=0.40).skid_m,
    **{
        f"share_{ft}_{tenths}": lambda ft=ft, tenths=tenths: _skid_pct(ft, tenths / 10)
        for ft in (8, 10, 12)
        for tenths in (3, 4)
    },
    "share_range": lambda: _skid_pct(10, 0.4),
    **{f"launch_{ft}": lambda ft=ft: _launch_over_roll(ft) for ft in (8, 10, 12)},
    "first_hop": _first_hop,
}


@pytest.mark.parametrize("key", OURS)
def test_roll(key, validate, published):
    row = published("roll", keys=OURS)[key]
    validate(ours=float(OURS[key]()), **row)


def test_glide_ends_where_a_constant_deceleration_ends():
    end = glide(speed_mps=1.83, angle_rad=0.0, drag_mps2=0.5494, pull_mps2=0.0)
    assert float(end.path_m) == pytest.approx(1.83**2 / 2 / 0.5494, rel=1e-12)
