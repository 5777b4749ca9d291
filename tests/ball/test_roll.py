import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.ball.green import GreenPlane
from puttwright.ball.roll import Launch, roll
from puttwright.errors import OutOfRange

greens = st.builds(
    GreenPlane.of_speed,
    speed_ft=st.floats(5.0, 14.0),
    slope=st.floats(0.0, 0.12),
    slope_towards_rad=st.floats(-math.pi, math.pi),
)
launches = st.builds(
    Launch,
    ball_speed_mps=st.floats(0.0, 6.0),
    launch_rad=st.floats(-0.1, 0.3),
    start_rad=st.floats(-0.5, 0.5),
    spin_radps=st.floats(-80.0, 150.0),
    spin_right_radps=st.floats(-20.0, 20.0),
)


@given(launches, greens, st.floats(0.1, 0.8), st.floats(0.0, 0.7))
def test_the_energy_books_balance(launch, green, friction, bounce):
    putt = roll(launch=launch, green=green, sliding_friction=friction, turf_restitution=bounce)
    assert abs(float(putt.energy.error)) < 1e-10


@given(launches, greens)
def test_the_mirror_image_breaks_the_other_way(launch, green):
    mirrored = GreenPlane(
        deceleration_mps2=green.deceleration_mps2,
        slope=green.slope,
        slope_towards_rad=-green.slope_towards_rad,
    )
    back = Launch(
        ball_speed_mps=launch.ball_speed_mps,
        launch_rad=launch.launch_rad,
        start_rad=-launch.start_rad,
        spin_radps=launch.spin_radps,
        spin_right_radps=-launch.spin_right_radps,
    )
    one, other = roll(launch=launch, green=green), roll(launch=back, green=mirrored)
    assert bool(one.never_stops) == bool(other.never_stops)
    assert float(one.skid_m) == pytest.approx(float(other.skid_m), rel=1e-9, abs=1e-12)
    if not one.never_stops:
        assert float(one.total_m) == pytest.approx(float(other.total_m), rel=1e-9, abs=1e-12)
        assert float(one.break_m) == pytest.approx(-float(other.break_m), rel=1e-9, abs=1e-9)


@given(st.floats(0.3, 4.0), st.floats(1.05, 2.0))
def test_harder_goes_further_by_the_square(speed, times):
    green = GreenPlane.of_speed(speed_ft=10, slope=0.02, slope_towards_rad=2.0)
    soft, hard = (
        roll(launch=Launch(ball_speed_mps=v, launch_rad=0.0), green=green)
        for v in (speed, speed * times)
    )
    assert float(hard.total_m / soft.total_m) == pytest.approx(times**2, rel=1e-9)


def test_a_slope_beyond_friction_is_a_result():
    green = GreenPlane.of_speed(speed_ft=12, slope=0.08)
    putt = roll(launch=Launch(ball_speed_mps=[0.0, 1.0]), green=green)
    assert putt.never_stops.tolist() == [False, True]
    assert np.isinf(putt.total_m[1])
    assert putt.roll_share[1] == 1.0
    assert putt.energy.error[1] == 0.0


def test_a_ball_that_is_not_hit_stays():
    putt = roll(launch=Launch(ball_speed_mps=0.0), green=GreenPlane.of_speed(speed_ft=10))
    assert (float(putt.total_m), float(putt.roll_share)) == (0.0, 0.0)


def test_uphill_is_shorter_and_downhill_longer():
    def length(towards):
        green = GreenPlane.of_speed(speed_ft=10, slope=0.03, slope_towards_rad=towards)
        return float(roll(launch=Launch(ball_speed_mps=2.0), green=green).total_m)

    level = roll(launch=Launch(ball_speed_mps=2.0), green=GreenPlane.of_speed(speed_ft=10))
    assert length(math.pi) < float(level.total_m) < length(0.0)


@pytest.mark.parametrize(
    ("name", "value"), [("ball_speed_mps", 40.0), ("launch_rad", 0.5), ("spin_radps", -1000.0)]
)
def test_what_is_no_putt_is_refused(name, value):
    launch = Launch(**{"ball_speed_mps": 2.0, name: value})
    with pytest.raises(OutOfRange, match=name):
        roll(launch=launch, green=GreenPlane.of_speed(speed_ft=10))


def test_answers_have_the_shape_of_the_question():
    launch = Launch(ball_speed_mps=np.ones((3, 1)), start_rad=np.zeros(4))
    putt = roll(launch=launch, green=GreenPlane.of_speed(speed_ft=10))
    assert putt.total_m.shape == putt.never_stops.shape == putt.energy.error.shape == (3, 4)
