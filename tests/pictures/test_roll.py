from __future__ import annotations

import math

import pytest

from puttwright.pictures.grounds import PAPER
from puttwright.pictures.of_putt import roll_track, usual_roll
from puttwright.pictures.roll import roll_table, skid_and_roll


@pytest.mark.parametrize("spin_rpm", [-120.0, 0.0, 300.0, 1500.0])
@pytest.mark.parametrize("ball_speed_mps", [0.4, 2.0, 5.0])
def test_speed_and_turning_meet_where_roll_begins(ball_speed_mps, spin_rpm):
    track = roll_track(
        ball_speed_mps=ball_speed_mps, launch_deg=2.0, spin_rpm=spin_rpm, green_ft=10.0
    )
    places = list(zip(track.distance_m, track.speed_mps, track.surface_mps, strict=True))
    rolling = [(v, w) for x, v, w in places if x >= track.skid_m - 1e-9]
    assert all(v == pytest.approx(w, abs=1e-9) for v, w in rolling)
    assert list(track.distance_m) == sorted(track.distance_m)
    assert track.speed_mps[-1] == 0.0


def test_a_ball_without_spin_rolls_at_five_sevenths():
    """5/7 of the speed at first roll: Daish 1972, by the law of angular momentum."""
    track = roll_track(ball_speed_mps=2.1, launch_deg=0.0, spin_rpm=0.0, green_ft=10.0)
    at_roll = track.speed_mps[track.distance_m.index(track.skid_m)]
    assert at_roll == pytest.approx(2.1 * 5 / 7, rel=1e-6)
    assert track.speed_mps[1] == pytest.approx(2.1, rel=1e-6)
    assert track.surface_mps[1] == pytest.approx(0.0, abs=1e-6)


def test_the_drawing_names_the_three_stages(parsed):
    track = roll_track(ball_speed_mps=2.5, launch_deg=3.0, spin_rpm=0.0, green_ft=10.0)
    words = " ".join(filter(None, parsed(skid_and_roll(track, ground=PAPER)).words))
    assert "skid" in words
    assert "true roll" in words
    assert "rolls from here" in words


def test_the_usual_putt_is_the_middle_one(samples):
    fitting = samples.FITTING
    track = usual_roll(fitting, build_id="own", distance_m=3.0)
    speeds = sorted(
        p.ball_speed_mps for p in fitting.used_putts if p.build_id == "own" and p.distance_m == 3.0
    )
    level = speeds[len(speeds) // 2]
    assert track.speed_mps[0] == pytest.approx(level * math.cos(math.radians(1.8)), rel=0.02)


def test_without_a_sensor_there_is_nothing_to_draw(samples):
    assert usual_roll(samples.FITTING, build_id="own", distance_m=1.23) is None


def test_the_table_is_short():
    track = roll_track(ball_speed_mps=2.5, launch_deg=3.0, spin_rpm=0.0, green_ft=10.0)
    assert 8 <= len(roll_table(track).rows) <= 16
