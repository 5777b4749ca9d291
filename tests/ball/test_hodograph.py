import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from puttwright.ball.hodograph import glide

angles = st.floats(-math.pi + 1e-3, math.pi - 1e-3)


def _integrated(speed, angle, drag, pull, until):
    """The same motion by a Runge-Kutta method of order 8."""

    def rate(_, y):
        size = math.hypot(y[2], y[3])
        return [y[2], y[3], pull - drag * y[2] / size, -drag * y[3] / size]

    first = [0.0, 0.0, speed * math.cos(angle), speed * math.sin(angle)]
    return solve_ivp(rate, (0.0, until), first, method="DOP853", rtol=1e-11, atol=1e-13).y[:, -1]


@given(st.floats(0.2, 5.0), angles, st.floats(0.3, 1.0), st.floats(0.0, 1.4), st.floats(0.05, 1.5))
def test_agrees_with_a_numerical_integration(speed, angle, drag, ratio, p):
    at = glide(speed_mps=speed, angle_rad=angle, drag_mps2=drag, pull_mps2=ratio * drag, p=p)
    y = _integrated(speed, angle, drag, ratio * drag, float(at.time_s))
    found = [at.along_m, at.across_m, at.along_mps, at.across_mps]
    assert np.allclose(found, y, rtol=1e-7, atol=1e-8)


@given(st.floats(0.2, 5.0), angles, st.floats(0.3, 1.0), st.floats(0.0, 0.95))
def test_what_friction_takes_is_what_motion_and_height_give(speed, angle, drag, ratio):
    pull = ratio * drag
    end = glide(speed_mps=speed, angle_rad=angle, drag_mps2=drag, pull_mps2=pull)
    given_up = 0.5 * speed**2 + pull * float(end.along_m)
    assert drag * float(end.path_m) == pytest.approx(given_up, rel=1e-11)


@given(st.floats(0.2, 5.0), angles, st.floats(0.0, 0.9))
def test_the_mirror_image_goes_the_other_way(speed, angle, pull):
    one, other = (
        glide(speed_mps=speed, angle_rad=sign * angle, drag_mps2=1.0, pull_mps2=pull)
        for sign in (1, -1)
    )
    assert float(one.across_m) == pytest.approx(-float(other.across_m), abs=1e-12)
    assert float(one.along_m) == float(other.along_m)


def test_a_slope_that_fades_away_leaves_the_level():
    steps = [
        float(glide(speed_mps=2.0, angle_rad=1.0, drag_mps2=0.5, pull_mps2=pull).across_m)
        for pull in (1e-6, 1e-9, 1e-12, 0.0)
    ]
    assert steps == pytest.approx([4.0 * math.sin(1.0)] * 4, rel=1e-5)
    assert steps[2] == pytest.approx(steps[3], rel=1e-11)


def test_downhill_never_ends_where_the_pull_is_as_strong():
    end = glide(speed_mps=1.0, angle_rad=0.3, drag_mps2=0.5, pull_mps2=0.5)
    assert np.isinf(end.time_s)
    assert np.isinf(end.along_m)


def test_twice_the_speed_is_the_same_line_four_times_as_large():
    one, two = (
        glide(speed_mps=speed, angle_rad=2.0, drag_mps2=0.5, pull_mps2=0.2) for speed in (1.0, 2.0)
    )
    assert float(two.along_m) == pytest.approx(4 * float(one.along_m))
    assert float(two.across_m) == pytest.approx(4 * float(one.across_m))
    assert float(two.time_s) == pytest.approx(2 * float(one.time_s))
