import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from puttwright.ball.green import GreenPlane
from puttwright.ball.pace import Stroke, read
from puttwright.ball.putt import putt
from puttwright.ball.roll import Launch
from puttwright.errors import NotAllowed, OutOfRange
from puttwright.units import BALL_RADIUS_M


@settings(max_examples=25)
@given(
    st.floats(0.8, 15.0),
    st.floats(0.05, 1.0),
    st.floats(0.0, 0.045),
    st.floats(-math.pi, math.pi),
)
def test_the_putt_that_was_read_runs_over_the_hole_and_drops(distance, past, slope, towards):
    green = GreenPlane.of_speed(speed_ft=10, slope=slope, slope_towards_rad=towards)
    stroke = Stroke(launch_rad=0.03, spin_share=-0.02)
    found = read(distance_m=distance, past_m=past, green=green, stroke=stroke)
    launch = Launch(
        ball_speed_mps=found.ball_speed_mps,
        launch_rad=0.03,
        start_rad=found.aim_rad,
        spin_radps=-0.02 * found.ball_speed_mps / BALL_RADIUS_M,
    )
    struck = putt(launch=launch, green=green, distance_m=distance)
    assert struck.reached
    # The line bends a little between rim and centre.
    assert abs(float(struck.rim_offset_m)) < 4e-3
    # Slowing or running away from the rim to the centre is no more than the rim's width allows.
    gain = 2.0 * (green.resistance_mps2 + green.pull_mps2) * 0.06
    assert abs(float(struck.rim_speed_mps) ** 2 - found.hole_speed_mps**2) < gain


def test_a_putt_on_the_level_is_aimed_at_the_hole():
    found = read(distance_m=4.0, past_m=0.3, green=GreenPlane.of_speed(speed_ft=10))
    assert found.aim_rad == pytest.approx(0.0, abs=1e-12)
    assert found.hole_speed_mps**2 / (2 * 0.54864) == pytest.approx(0.3, rel=1e-4)


@given(st.floats(0.005, 0.04), st.floats(0.1, 3.0))
@settings(max_examples=10)
def test_the_mirror_image_is_aimed_the_other_way(slope, towards):
    one, other = (
        read(
            distance_m=5.0,
            past_m=0.4,
            green=GreenPlane.of_speed(speed_ft=11, slope=slope, slope_towards_rad=side * towards),
        )
        for side in (1, -1)
    )
    assert one.aim_rad < 0.0 < other.aim_rad
    assert one.aim_rad == pytest.approx(-other.aim_rad, abs=1e-9)
    assert one.ball_speed_mps == pytest.approx(other.ball_speed_mps, rel=1e-9)


def test_a_firmer_putt_breaks_less():
    green = GreenPlane.of_speed(speed_ft=10, slope=0.02, slope_towards_rad=1.5)
    aims = [abs(read(distance_m=4.0, past_m=x, green=green).aim_rad) for x in (0.0, 0.3, 1.0)]
    assert np.all(np.diff(aims) < 0)


def test_a_ball_that_dies_at_the_hole_has_no_speed_there():
    green = GreenPlane.of_speed(speed_ft=10, slope=0.02, slope_towards_rad=1.5)
    assert read(distance_m=4.0, green=green).hole_speed_mps == 0.0


def test_a_slope_that_never_lets_go_cannot_be_read():
    green = GreenPlane.of_speed(speed_ft=12, slope=0.08)
    with pytest.raises(NotAllowed, match="never stops"):
        read(distance_m=3.0, past_m=0.3, green=green)


def test_a_putt_still_skidding_at_the_hole_is_said_so():
    with pytest.raises(NotAllowed, match="skidding"):
        read(distance_m=0.1, past_m=5.0, green=GreenPlane.of_speed(speed_ft=10))


def test_short_of_the_hole_is_not_past_it():
    with pytest.raises(OutOfRange, match="past the hole, never short of it"):
        read(distance_m=3.0, past_m=-0.1, green=GreenPlane.of_speed(speed_ft=10))
