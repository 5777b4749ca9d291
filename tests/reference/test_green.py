"""Green speed and slope against what is published: one case a row of references/green."""

from __future__ import annotations

import math

import numpy as np
import pytest

from puttwright.ball.green import (
    GreenPlane,
    deceleration_mps2,
    deceleration_of_rho,
    level_speed,
    rho_penner2002,
    rolling_mu,
)
from puttwright.ball.hodograph import glide
from puttwright.units import BALL_RADIUS_M, FOOT_M

RELEASE_MPS = 1.83


def _deceleration(speed_ft):
    return deceleration_mps2(speed_ft=speed_ft, release_speed_mps=RELEASE_MPS)


def _steepest(speed_ft):
    grades = np.linspace(0.0, 0.2, 200001)
    pull = [GreenPlane(deceleration_mps2=float(_deceleration(speed_ft)), slope=grade).never_stops
            for grade in grades[[0, -1]]]  # fmt: skip
    assert pull == [False, True]
    low, high = 0.0, 0.2
    for _ in range(50):
        middle = 0.5 * (low + high)
        plane = GreenPlane(deceleration_mps2=float(_deceleration(speed_ft)), slope=middle)
        low, high = (low, middle) if plane.never_stops else (middle, high)
    return high


def _slowing(towards_rad, *, rho=0.131, angle_deg=5.0):
    """Deceleration straight along the fall line."""
    green = GreenPlane(
        deceleration_mps2=float(deceleration_of_rho(rho=rho)),
        slope=math.tan(math.radians(angle_deg)),
        slope_towards_rad=towards_rad,
    )
    end = glide(
        speed_mps=1.0,
        angle_rad=towards_rad,
        drag_mps2=green.resistance_mps2,
        pull_mps2=green.pull_mps2,
    )
    return 1.0 / float(end.time_s)


def _reading(speed_ft, towards_rad):
    green = GreenPlane(
        deceleration_mps2=float(_deceleration(speed_ft)), slope=0.02, slope_towards_rad=towards_rad
    )
    end = glide(
        speed_mps=RELEASE_MPS,
        angle_rad=-towards_rad,
        drag_mps2=green.resistance_mps2,
        pull_mps2=green.pull_mps2,
    )
    return float(end.path_m) / FOOT_M


OURS = {
    "rho_12": lambda: rho_penner2002(deceleration_mps2=_deceleration(12)),
    "rho_4": lambda: rho_penner2002(deceleration_mps2=_deceleration(4)),
    "rho_6": lambda: rho_penner2002(deceleration_mps2=_deceleration(6)),
    "never_10": lambda: _steepest(10),
    "never_12": lambda: _steepest(12),
    "up_deceleration": lambda: _slowing(math.pi),
    "down_deceleration": lambda: _slowing(0.0),
    "missed_up": lambda: 1.63**2 / (2.0 * _slowing(math.pi)) / FOOT_M,
    "missed_down": lambda: 1.563**2 / (2.0 * _slowing(0.0)) / FOOT_M,
    "up_2pct": lambda: _reading(10, math.pi),
    "down_2pct": lambda: _reading(10, 0.0),
    "level_2pct": lambda: level_speed(up_ft=7.970, down_ft=13.426).level_ft,
    "level_14_9": lambda: level_speed(up_ft=9, down_ft=14).level_ft,
    "level_12_8": lambda: level_speed(up_ft=8, down_ft=12).level_ft,
    "level_10_6": lambda: level_speed(up_ft=6, down_ft=10).level_ft,
    **{f"deceleration_{ft}": lambda ft=ft: _deceleration(ft) for ft in (8, 10, 11, 12, 14)},
    **{
        f"mu_{ft}": lambda ft=ft: rolling_mu(deceleration_mps2=_deceleration(ft))
        for ft in (8, 10, 12)
    },
}


@pytest.mark.parametrize("key", OURS)
def test_green(key, validate, published):
    row = published("green", keys=OURS)[key]
    validate(ours=float(OURS[key]()), **row)


def test_the_ball_is_the_ball_of_the_rules():
    assert pytest.approx(42.672) == BALL_RADIUS_M * 2000
