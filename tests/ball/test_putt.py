import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from puttwright.ball.green import GreenPlane
from puttwright.ball.pace import read
from puttwright.ball.putt import putt
from puttwright.ball.roll import Launch, to_true_roll
from puttwright.units import HOLE_RADIUS_M

# Speed of the green, slope, where it falls, length of the putt.
PUTTS = [
    (10, 0.0, 0.0, 3.0),
    (10, 0.02, 1.2, 3.0),
    (11, 0.04, -2.0, 6.0),
    (10, 0.055, 3.0, 5.0),
    (12, 0.02, 0.0, 0.25),
]


def _scattered(speed_ft, slope, towards, distance, count, *, seed=3):
    """Putts about the read of a hole, wide enough to miss on every side."""
    green = GreenPlane.of_speed(speed_ft=speed_ft, slope=slope, slope_towards_rad=towards)
    plan = read(distance_m=distance, past_m=0.2, green=green)
    rng = np.random.default_rng(seed)
    launch = Launch(
        ball_speed_mps=plan.ball_speed_mps * rng.uniform(0.85, 1.3, count),
        launch_rad=rng.uniform(-0.03, 0.1, count),
        start_rad=plan.aim_rad + rng.uniform(-1.0, 1.0, count) * 0.1 / distance,
        spin_radps=rng.uniform(-20.0, 20.0, count),
        spin_right_radps=rng.uniform(-1.0, 1.0, count),
    )
    return launch, green


def _integrated(green, ball, distance):
    """The roll by numerical integration to the rim; None when it stays out."""
    turn = green.slope_towards_rad
    pull = green.pull_mps2 * np.array([math.cos(turn), math.sin(turn)])

    def rate(_, y):
        speed = max(math.hypot(y[2], y[3]), 1e-12)
        return np.concatenate([y[2:], pull - green.resistance_mps2 * y[2:] / speed])

    def rim(_, y):
        return math.hypot(y[0] - distance, y[1]) - HOLE_RADIUS_M

    def stopped(_, y):
        return math.hypot(y[2], y[3]) - 1e-6

    rim.terminal = stopped.terminal = True
    rim.direction = -1
    run = solve_ivp(
        rate, (0.0, 60.0), ball, events=[rim, stopped], rtol=1e-9, atol=1e-11, max_step=0.01
    )
    return run.y_events[0][0] if len(run.t_events[0]) else None


@pytest.mark.parametrize("case", PUTTS[:4], ids=str)
def test_the_rim_is_crossed_where_a_numerical_integration_says(case):
    launch, green = _scattered(*case, 12)
    struck = putt(launch=launch, green=green, distance_m=case[3])
    rolling = to_true_roll(launch=launch, green=green).rolling
    for i in range(12):
        first = np.concatenate([rolling.place_m[:, i], rolling.velocity_mps[:, i]])
        y = _integrated(green, first, case[3])
        assert (y is not None) == struck.reached[i]
        if y is not None:
            speed = math.hypot(y[2], y[3])
            assert struck.rim_speed_mps[i] == pytest.approx(speed, abs=1e-6)
            offset = (y[2] * y[1] - y[3] * (y[0] - case[3])) / speed
            assert struck.rim_offset_m[i] == pytest.approx(offset, abs=1e-6)


@pytest.mark.parametrize("case", [*PUTTS, (12, 0.07, 2.8, 4.0), (12, 0.09, 0.3, 2.0)], ids=str)
def test_compiled_and_array_forms_agree_to_rounding(case):
    if case[1] < 0.06:
        launch, green = _scattered(*case, 3000)
    else:
        green = GreenPlane.of_speed(speed_ft=case[0], slope=case[1], slope_towards_rad=case[2])
        rng = np.random.default_rng(0)
        launch = Launch(
            ball_speed_mps=rng.uniform(0.5, 5.0, 3000), start_rad=rng.uniform(-1.0, 1.0, 3000)
        )
    one, other = (
        putt(launch=launch, green=green, distance_m=case[3], compiled=compiled)
        for compiled in (True, False)
    )
    assert (one.reached == other.reached).all()
    assert (one.holed == other.holed).all()
    assert one.reached.any()
    assert one.rim_speed_mps == pytest.approx(other.rim_speed_mps, abs=1e-9)
    assert one.rim_offset_m == pytest.approx(other.rim_offset_m, abs=1e-9)
    assert one.roll.skid_m == pytest.approx(other.roll.skid_m, rel=1e-9)
    assert one.roll.total_m == pytest.approx(other.roll.total_m, rel=1e-9)
    assert np.abs(one.roll.energy.error).max() < 1e-10


def test_the_mirror_image_drops_alike():
    launch, green = _scattered(10, 0.03, 1.0, 4.0, 500)
    there = putt(launch=launch, green=green, distance_m=4.0)
    mirrored = Launch(
        ball_speed_mps=launch.ball_speed_mps,
        launch_rad=launch.launch_rad,
        start_rad=-launch.start_rad,
        spin_radps=launch.spin_radps,
        spin_right_radps=-launch.spin_right_radps,
    )
    back = putt(
        launch=mirrored,
        green=GreenPlane(
            deceleration_mps2=green.deceleration_mps2, slope=0.03, slope_towards_rad=-1.0
        ),
        distance_m=4.0,
    )
    assert there.holed.any()
    assert (there.holed == back.holed).all()
    assert there.rim_offset_m == pytest.approx(-back.rim_offset_m, abs=1e-9)


def test_a_pace_that_grows_goes_from_short_through_the_hole_to_over_it():
    green = GreenPlane.of_speed(speed_ft=10)
    speeds = np.linspace(1.0, 5.0, 81)
    struck = putt(launch=Launch(ball_speed_mps=speeds), green=green, distance_m=3.0)
    assert np.abs(np.diff(struck.holed.astype(int))).sum() == 2
    assert not struck.reached[0]
    assert struck.reached[-1]
    assert np.all(np.diff(struck.rim_speed_mps[struck.reached]) > 0)


def test_a_ball_that_curls_back_down_may_still_reach_the_hole():
    """Past the hole on the high side, then down into it: the line is followed to its end."""
    green = GreenPlane.of_speed(speed_ft=12, slope=0.07, slope_towards_rad=math.pi)
    launch = Launch(ball_speed_mps=3.0, start_rad=np.linspace(0.0005, 0.04, 400))
    struck = putt(launch=launch, green=green, distance_m=1.0)
    returned = struck.reached & (np.cos(struck.rim_direction_rad) < 0.0)
    assert returned.any()
