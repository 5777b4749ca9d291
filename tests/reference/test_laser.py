"""Laser and mirror against worked examples: one case a row of references/laser."""

from __future__ import annotations

import math

import pytest

from puttwright.address.laser import angle_sd_rad, face_angle_rad, mirror_rise_m, reading_of_m


def _face(reading_mm, distance_m, *, mirror):
    return math.degrees(
        face_angle_rad(reading_m=reading_mm / 1e3, board_distance_m=distance_m, mirror=mirror)
    )


def _dot(mirror):
    return 1e3 * reading_of_m(face_rad=math.radians(1), board_distance_m=3.0, mirror=mirror)


def _error(mirror):
    return math.degrees(angle_sd_rad(reading_sd_m=1e-3, board_distance_m=3.0, mirror=mirror))


OURS = {
    "mirror_2_5": lambda: _face(2, 5.0, mirror=True),
    "laser_10_3": lambda: _face(10, 3.0, mirror=False),
    "mirror_10_3": lambda: _face(10, 3.0, mirror=True),
    "laser_17_1": lambda: _face(17.5, 1.0, mirror=False),
    "mirror_17_1": lambda: _face(17.5, 1.0, mirror=True),
    "dot_laser": lambda: _dot(mirror=False),
    "dot_mirror": lambda: _dot(mirror=True),
    "error_laser": lambda: _error(mirror=False),
    "error_mirror": lambda: _error(mirror=True),
    "rise": lambda: 1e3 * mirror_rise_m(loft_rad=math.radians(3), board_distance_m=3.0),
}


@pytest.mark.parametrize("key", OURS)
def test_a_beam_on_a_board(key, validate, published):
    validate(ours=OURS[key](), **published("laser", keys=OURS)[key])


@pytest.mark.parametrize("mirror", [True, False])
@pytest.mark.parametrize("face_deg", [-3.0, -0.2, 0.0, 1.5])
def test_left_is_right_turned_round(face_deg, mirror):
    dot = {"board_distance_m": 2.0, "mirror": mirror}
    there = reading_of_m(face_rad=math.radians(face_deg), **dot)

    assert math.degrees(face_angle_rad(reading_m=there, **dot)) == pytest.approx(face_deg)
    assert reading_of_m(face_rad=-math.radians(face_deg), **dot) == pytest.approx(-there)
