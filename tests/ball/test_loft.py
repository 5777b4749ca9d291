import math

import numpy as np
import pytest

from puttwright.ball.green import GreenPlane, climb_out_launch_rad, hollow_m
from puttwright.ball.impact import Delivery
from puttwright.ball.loft import (
    GrassPlayed,
    Habit,
    grass_of_speed_m,
    launch_window,
    loft_need,
    roll_of,
)

GREEN = GreenPlane.of_speed(speed_ft=10)
PLAYED = [GrassPlayed(green=GREEN, grass_m=0.0035)]


def _need(*, present_deg=3.5, **habit):
    return loft_need(
        greens=PLAYED, habit=Habit(**habit), present_loft_rad=math.radians(present_deg), draws=60
    )


def test_the_window_opens_where_the_ball_climbs_out_and_closes_where_skid_has_grown():
    window = launch_window(green=GREEN, grass_m=0.0035)
    assert window.low_rad == pytest.approx(
        float(climb_out_launch_rad(hollow_m=hollow_m(grass_m=0.0035)))
    )
    skids = [
        float(
            roll_of(delivery=Delivery(head_speed_mps=2.0, loft_rad=loft), green=GREEN).roll.skid_m
        )
        for loft in (window.low_loft_rad, window.high_loft_rad)
    ]
    speeds = [
        float(
            roll_of(
                delivery=Delivery(head_speed_mps=2.0, loft_rad=loft), green=GREEN
            ).impact.ball_speed_mps
        )
        for loft in (window.low_loft_rad, window.high_loft_rad)
    ]
    grown = (skids[1] / skids[0]) * (speeds[0] / speeds[1]) ** 2
    assert grown == pytest.approx(1.03, abs=0.002)


def test_loft_delivered_in_the_window_launches_in_the_window():
    window = launch_window(green=GREEN, grass_m=0.0035, attack_rad=0.02)
    hit = roll_of(
        delivery=Delivery(head_speed_mps=1.5, loft_rad=window.middle_loft_rad, attack_rad=0.02),
        green=GREEN,
    )
    assert window.low_rad < float(hit.impact.launch_rad) < window.high_rad


def test_lean_asks_for_as_much_more_loft():
    straight, leaned = _need(), _need(lean_rad=0.03)
    assert leaned.loft_rad - straight.loft_rad == pytest.approx(0.03, abs=1e-9)
    assert leaned.bend_rad - straight.bend_rad == pytest.approx(0.03, abs=1e-9)


def test_an_upward_strike_asks_for_less_loft():
    assert _need(attack_rad=0.03).loft_rad < _need().loft_rad


def test_not_knowing_the_lean_widens_the_interval_and_the_same_seed_gives_the_same():
    known, unknown = _need(), _need(lean_sd_rad=0.02)
    assert np.ptp(unknown.interval_90) > np.ptp(known.interval_90)
    assert _need(lean_sd_rad=0.02) == unknown


def test_a_putter_inside_the_window_may_stay_as_it_is():
    assert _need(present_deg=3.8).within_window
    assert not _need(present_deg=-1.0).within_window


def test_a_share_of_no_rounds_does_not_count():
    slow = GrassPlayed(green=GreenPlane.of_speed(speed_ft=7), grass_m=0.006, share=0.0)
    alone = loft_need(greens=PLAYED, habit=Habit(), present_loft_rad=0.06, draws=1)
    both = loft_need(greens=[PLAYED[0], slow], habit=Habit(), present_loft_rad=0.06, draws=1)
    assert both.loft_rad == pytest.approx(alone.loft_rad, abs=1e-12)


def test_slower_greens_are_taken_to_be_longer():
    assert np.all(np.diff(grass_of_speed_m(speed_ft=[7, 9, 11, 13])) < 0)
