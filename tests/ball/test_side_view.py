"""The putt through time is the putt that the closed forms end with."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.ball.green import GreenPlane
from puttwright.ball.roll import Launch, roll
from puttwright.ball.side_view import SideStrike, side_view


def _strike(speed_mps, launch_rad, spin_radps, **more):
    return SideStrike(
        along_mps=speed_mps * math.cos(launch_rad), rise_mps=speed_mps * math.sin(launch_rad),
        surface_mps=0.021336 * spin_radps, deceleration_mps2=0.55, **more,
    )  # fmt: skip


@given(
    speed_mps=st.floats(0.8, 4.0), launch_rad=st.floats(-0.05, 0.1),
    spin_radps=st.floats(-30.0, 60.0), friction=st.floats(0.2, 0.6),
)  # fmt: skip
def test_it_ends_where_the_closed_forms_end(speed_mps, launch_rad, spin_radps, friction):
    ours = side_view(
        _strike(speed_mps, launch_rad, spin_radps, frictions=(friction,) * 3), time_s=np.zeros(1)
    )
    theirs = roll(
        launch=Launch(ball_speed_mps=speed_mps, launch_rad=launch_rad, spin_radps=spin_radps),
        green=GreenPlane(deceleration_mps2=0.55), sliding_friction=friction,
    )  # fmt: skip
    assert ours.skid_m == pytest.approx(float(theirs.skid_m), abs=2e-4)
    assert ours.skid_s == pytest.approx(float(theirs.skid_s), abs=2e-4)
    assert ours.total_m == pytest.approx(float(theirs.total_m), abs=2e-4)


def test_friction_turns_what_it_takes_from_the_speed_into_turning():
    strike = _strike(2.0, 0.0, -10.0, frictions=(0.2, 0.5, 0.3))
    times = np.linspace(0.0, 0.3, 50)
    seen = side_view(strike, time_s=times)
    sliding = times < seen.skid_s
    books = seen.speed_mps + 0.4 * seen.surface_mps
    assert np.ptp(books[sliding]) < 1e-12
    rolling = ~sliding
    assert np.allclose(seen.speed_mps[rolling], seen.surface_mps[rolling])


def test_places_are_the_sum_of_speeds():
    strike = _strike(2.2, 0.04, 5.0, frictions=(0.4, 0.3), radius_share=1.01)
    times = np.linspace(0.0, 0.8, 8001)
    seen = side_view(strike, time_s=times)
    for place, speed in ((seen.along_m, seen.speed_mps), (seen.turned_m, seen.surface_mps)):
        summed = np.sum(0.5 * (speed[1:] + speed[:-1]) * np.diff(times))
        assert place[-1] == pytest.approx(summed, abs=1e-4)


def test_a_ball_rests_before_the_strike_and_after_the_stop():
    seen = side_view(_strike(1.0, 0.02, 0.0, frictions=(0.4,)), time_s=np.array([-0.1, 30.0, 40.0]))
    assert seen.along_m[0] == seen.up_m[0] == seen.speed_mps[0] == 0.0
    assert seen.along_m[1] == seen.along_m[2] == pytest.approx(seen.total_m)


def test_many_putts_at_once_are_each_the_putt_by_itself():
    launches, speeds = np.array([-0.03, 0.0, 0.01, 0.07]), np.array([1.2, 2.0, 2.4, 1.6])
    more = {"surface_mps": np.array([0.0, -0.2, 0.3, 1.7]), "deceleration_mps2": np.full(4, 0.5)}
    many = SideStrike(
        along_mps=speeds, rise_mps=speeds * launches, radius_share=np.array([1.0, 0.99, 1.01, 1.0]),
        frictions=(np.full(4, 0.4), np.array([0.2, 0.3, 0.4, 0.5])), **more,
    )  # fmt: skip
    times = np.linspace(-0.1, 0.7, 33)
    seen = side_view(many, time_s=times - np.zeros((4, 1)))
    for row in range(4):
        alone = side_view(
            SideStrike(
                along_mps=speeds[row], rise_mps=speeds[row] * launches[row],
                radius_share=float(np.asarray(many.radius_share)[row]),
                frictions=[float(np.asarray(each)[row]) for each in many.frictions],
                **{name: float(value[row]) for name, value in more.items()},
            ), time_s=times,
        )  # fmt: skip
        for name in (
            "along_m",
            "up_m",
            "turned_m",
            "speed_mps",
            "surface_mps",
            "skid_m",
            "total_m",
        ):
            assert np.allclose(getattr(seen, name)[row], getattr(alone, name), atol=1e-12), name
