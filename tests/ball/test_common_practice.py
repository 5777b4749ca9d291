"""What the trade knows. Common practice, no source: kept apart from the reference tests."""

import math

import numpy as np
import pytest

from puttwright.ball.green import GreenPlane
from puttwright.ball.head import Head
from puttwright.ball.impact import Delivery
from puttwright.ball.loft import (
    GrassPlayed,
    Habit,
    grass_of_speed_m,
    launch_window,
    loft_need,
    roll_of,
)
from puttwright.ball.roll import Launch, roll
from puttwright.ball.strike import off_centre, strike_scatter


def _need_deg(speed_ft, lean_deg):
    grass = float(grass_of_speed_m(speed_ft=speed_ft))
    green = GreenPlane.of_speed(speed_ft=speed_ft)
    need = loft_need(
        greens=[GrassPlayed(green=green, grass_m=grass)],
        habit=Habit(lean_rad=math.radians(lean_deg)),
        present_loft_rad=0.05,
        draws=40,
    )
    return math.degrees(need.loft_rad)


@pytest.mark.parametrize("speed_ft", [8, 10, 12])
@pytest.mark.parametrize("lean_deg", [-1.5, 0.0, 2.5])
def test_the_loft_that_is_needed_is_among_those_on_sale(speed_ft, lean_deg):
    """Loft on sale runs from about 1 to 7 degrees."""
    assert 1.0 < _need_deg(speed_ft, lean_deg) < 7.0


def test_short_fast_grass_needs_less_loft_and_long_grass_more():
    needs = [_need_deg(speed_ft, 0.0) for speed_ft in (13, 11, 9, 7)]
    assert np.all(np.diff(needs) > 0)


def test_a_putt_that_skids_half_its_way_is_a_bad_one():
    """Only a lofted chop on a slippery mat does that."""
    usual = roll_of(
        delivery=Delivery(head_speed_mps=1.5, loft_rad=0.06), green=GreenPlane.of_speed(speed_ft=10)
    )
    chop = roll(
        launch=Launch(ball_speed_mps=2.0, launch_rad=0.2, spin_radps=-60.0),
        green=GreenPlane.of_speed(speed_ft=6),
        sliding_friction=0.2,
    )
    assert 1.0 - float(usual.roll.roll_share) < 0.2
    assert 1.0 - float(chop.roll_share) > 0.5


def test_more_loft_than_needed_skids_longer():
    green = GreenPlane.of_speed(speed_ft=10)
    window = launch_window(green=green, grass_m=0.0035)
    lofts = np.linspace(window.low_loft_rad, math.radians(10.0), 8)
    putts = roll_of(delivery=Delivery(head_speed_mps=1.5, loft_rad=lofts), green=green)
    assert np.all(np.diff(putts.roll.roll_share) < 0)


def test_a_big_stable_head_loses_less_off_the_centre_than_a_thin_blade():
    blade = Head(mass_kg=0.34, moi_vertical_kg_m2=3.5e-4, cg_depth_m=0.010)
    mallet = Head(mass_kg=0.36, moi_vertical_kg_m2=9e-4, cg_depth_m=0.025)
    lost = [float(off_centre(head=head, strike_toe_m=0.02).short_m) for head in (blade, mallet)]
    assert lost[1] < 0.6 * lost[0]
    spread = [strike_scatter(head=head, toe_sd_m=0.009).pace_sd_share for head in (blade, mallet)]
    assert spread[1] < spread[0]
