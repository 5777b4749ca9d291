import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.ball.green import (
    GreenPlane,
    climb_out_launch_rad,
    deceleration_mps2,
    deceleration_of_rho,
    hollow_m,
    hollow_width_m,
    level_speed,
    rho_penner2002,
    rolling_mu,
    speed_ft,
)
from puttwright.errors import OutOfRange
from puttwright.units import GRAVITY_MPS2


@given(st.floats(3.0, 16.0), st.floats(1.5, 2.5))
def test_speed_and_deceleration_are_each_others_inverse(feet, release):
    there = deceleration_mps2(speed_ft=feet, release_speed_mps=release)
    back = speed_ft(deceleration_mps2=there, release_speed_mps=release)
    assert float(back) == pytest.approx(feet, rel=1e-12)


@given(st.floats(0.1, 2.0))
def test_rho_is_seven_fifths_of_mu(deceleration):
    rho = float(rho_penner2002(deceleration_mps2=deceleration))
    assert rho == pytest.approx(1.4 * float(rolling_mu(deceleration_mps2=deceleration)))
    assert float(deceleration_of_rho(rho=rho)) == pytest.approx(deceleration)


@given(st.floats(3.0, 16.0), st.floats(3.0, 16.0))
def test_level_speed_lies_between_the_readings_and_below_their_mean(up, down):
    level = level_speed(up_ft=up, down_ft=down).level_ft
    assert min(up, down) - 1e-9 <= level <= 0.5 * (up + down) + 1e-9


def test_more_than_18_inches_between_the_ways_is_flagged():
    assert level_speed(up_ft=9.0, down_ft=10.5).flags == ()
    (flag,) = level_speed(up_ft=9.0, down_ft=10.51).flags
    assert "18 in" in flag


def test_readings_the_wrong_way_round_are_flagged():
    (flag,) = level_speed(up_ft=10.0, down_ft=9.0).flags
    assert "uphill" in flag


def test_the_plane_shares_gravity_out():
    green = GreenPlane(deceleration_mps2=0.55, slope=0.2)
    whole = math.hypot(green.gravity_along_mps2, green.gravity_across_mps2)
    assert whole == pytest.approx(GRAVITY_MPS2)
    assert green.gravity_along_mps2 / green.gravity_across_mps2 == pytest.approx(0.2)
    assert green.pull_mps2 == pytest.approx(5 / 7 * green.gravity_along_mps2)


def test_no_green_is_a_roof():
    with pytest.raises(OutOfRange, match="no hole is cut on steeper ground"):
        GreenPlane.of_speed(speed_ft=10, slope=0.3)


def test_longer_grass_makes_a_deeper_and_wider_hollow_that_asks_for_more_launch():
    depth = hollow_m(grass_m=np.array([0.002, 0.004, 0.008]))
    assert np.all(np.diff(depth) > 0)
    assert np.all(np.diff(hollow_width_m(hollow_m=depth)) > 0)
    launch = climb_out_launch_rad(hollow_m=depth)
    assert np.all(np.diff(launch) > 0)
    # The way out is the chord from the bottom to the rim.
    assert np.tan(launch) == pytest.approx(depth / (0.5 * hollow_width_m(hollow_m=depth)))
