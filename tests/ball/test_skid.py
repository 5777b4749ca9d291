import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from puttwright.ball.green import GreenPlane
from puttwright.ball.roll import Launch, roll, to_true_roll
from puttwright.units import BALL_RADIUS_M

LEVEL = GreenPlane.of_speed(speed_ft=10)


def _sliding(green, friction, velocity, surface):
    """A sliding ball by numerical integration, to where the slip has gone."""
    weight = friction * green.gravity_across_mps2
    turn = green.slope_towards_rad
    pull = green.gravity_along_mps2 * np.array([math.cos(turn), math.sin(turn)])

    def rate(_, y):
        slip = y[2:4] - y[4:6]
        along = slip / math.hypot(*slip)
        return np.concatenate([y[2:4], pull - weight * along, 2.5 * weight * along])

    def gone(_, y):
        return math.hypot(*(y[2:4] - y[4:6])) - 1e-9

    gone.terminal = True
    first = np.concatenate([[0.0, 0.0], velocity, surface])
    run = solve_ivp(rate, (0, 3), first, events=gone, method="DOP853", rtol=1e-11, atol=1e-13)
    return run.t_events[0][0], run.y_events[0][0]


@pytest.mark.parametrize("slope", [0.0, 0.02, 0.10])
@pytest.mark.parametrize("towards", [0.4, 2.0, -1.5])
def test_the_skid_on_a_slope_is_that_of_a_numerical_integration(slope, towards):
    green = GreenPlane.of_speed(speed_ft=9, slope=slope, slope_towards_rad=towards)
    launch = Launch(ball_speed_mps=2.4, start_rad=0.2, spin_radps=-15.0, spin_right_radps=8.0)
    stages = to_true_roll(launch=launch, green=green, sliding_friction=0.35)
    begun, ended = stages.launched, stages.rolling
    time, y = _sliding(green, 0.35, begun.velocity_mps[:, 0], begun.surface_mps[:, 0])
    assert float(ended.time_s[0]) == pytest.approx(time, rel=1e-7)
    assert ended.place_m[:, 0] == pytest.approx(y[:2], rel=1e-7)
    assert ended.velocity_mps[:, 0] == pytest.approx(y[2:4], rel=1e-7)


@given(st.floats(0.5, 4.0), st.floats(0.01, 0.2), st.floats(0.1, 0.6))
def test_a_hop_adds_its_rise_to_the_skid_whatever_the_bounce(speed, launch, bounce):
    """The turf must give back the upward momentum, so friction waits for v sin/g longer."""
    bound = Launch(ball_speed_mps=speed, launch_rad=launch)
    flying = roll(launch=bound, green=LEVEL, turf_restitution=bounce)
    level = roll(launch=Launch(ball_speed_mps=speed * math.cos(launch)), green=LEVEL)
    later = float(flying.skid_s - level.skid_s)
    # Unless a landing already stops the slip, which then waits for the last hop.
    assert later >= speed * math.sin(launch) / 9.80665 - 1e-9


def test_a_small_hop_adds_exactly_its_rise():
    bound = Launch(ball_speed_mps=2.0, launch_rad=0.04)
    level = roll(launch=Launch(ball_speed_mps=2.0 * math.cos(0.04)), green=LEVEL)
    for bounce in (0.0, 0.2, 0.5):
        flying = roll(launch=bound, green=LEVEL, turf_restitution=bounce)
        later = float(flying.skid_s - level.skid_s)
        assert later == pytest.approx(2.0 * math.sin(0.04) / 9.80665, rel=1e-6)


def test_a_ball_launched_down_meets_the_turf_at_once():
    down = roll(launch=Launch(ball_speed_mps=2.0, launch_rad=-0.05), green=LEVEL)
    level = roll(launch=Launch(ball_speed_mps=2.0), green=LEVEL)
    assert down.energy.bounces_j > 0.0
    assert down.skid_m < level.skid_m


def test_a_ball_in_true_roll_does_not_skid():
    rolling = roll(launch=Launch(ball_speed_mps=2.0, spin_radps=2.0 / BALL_RADIUS_M), green=LEVEL)
    assert float(rolling.skid_m) == pytest.approx(0.0, abs=1e-15)
    assert float(rolling.roll_share) == pytest.approx(1.0)


def test_more_topspin_skids_less_until_it_rolls_and_speeds_up_beyond():
    spins = np.array([-40.0, 0.0, 40.0, 93.0, 200.0])
    putts = roll(launch=Launch(ball_speed_mps=2.0, spin_radps=spins), green=LEVEL)
    assert np.all(np.diff(putts.skid_m[:4]) < 0)
    assert putts.roll_start_speed_mps[-1] > 2.0
