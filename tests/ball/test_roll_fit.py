"""From places, heights and angles back to the putt, with intervals that know what they don't."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from puttwright.ball.roll_fit import fit_roll
from puttwright.ball.roll_meets import meeting_s
from puttwright.ball.roll_model import Filmed
from puttwright.ball.side_view import SideStrike, side_view

PLACE_M, TURN_M = 5e-5, 8e-5


def _film(strike, *, seed=1, scale=1.0, until_m=1.0):
    rng = np.random.default_rng(seed)
    time_s = np.arange(240) / 240.0
    seen = side_view(strike, time_s=time_s - 0.1013)
    there = seen.along_m < until_m
    count = int(there.sum())
    return Filmed(
        time_s=time_s[there], along_m=scale * seen.along_m[there] + rng.normal(0, PLACE_M, count),
        up_m=scale * seen.up_m[there] + rng.normal(0, PLACE_M, count),
        turned_m=seen.turned_m[there] + rng.normal(0, TURN_M, count),
        along_sd_m=np.full(count, PLACE_M), up_sd_m=np.full(count, PLACE_M),
        turned_sd_m=np.full(count, TURN_M), strike_s=0.1025,
    )  # fmt: skip


def _strike(frictions=(0.4,), *, launch_deg=2.0, **more):
    speed, launch = 2.0, math.radians(launch_deg)
    return SideStrike(
        along_mps=speed * math.cos(launch), rise_mps=speed * math.sin(launch),
        surface_mps=0.15, frictions=frictions, deceleration_mps2=0.55, **more,
    )  # fmt: skip


def _holds(draws, truth):
    return np.quantile(draws, 0.02) <= truth <= np.quantile(draws, 0.98)


@pytest.mark.slow
def test_the_putt_comes_back_from_its_film_at_a_wrong_scale():
    strike = _strike()
    truth = side_view(strike, time_s=np.zeros(1))
    fit = fit_roll(_film(strike, scale=1.006))
    assert np.median(fit.skid_m) == pytest.approx(truth.skid_m, abs=0.002)
    assert np.median(fit.ball_speed_mps) == pytest.approx(2.0, rel=0.005)
    assert np.degrees(np.median(fit.launch_rad)) == pytest.approx(2.0, abs=0.4)
    assert np.median(fit.spin_radps) * 0.021336 == pytest.approx(0.15, abs=0.01)
    assert fit.scale == pytest.approx(1.006, abs=0.004)
    assert fit.loose < 0.05
    for draws, value in (
        (fit.skid_m, truth.skid_m), (fit.skid_s, truth.skid_s), (fit.ball_speed_mps, 2.0),
    ):  # fmt: skip
        assert _holds(draws, value)


@pytest.mark.slow
@pytest.mark.parametrize(("launch_deg", "even", "seed"), [(2.05, True, 5), (1.3, False, 2)])
def test_a_hop_that_ends_within_a_picture_makes_no_launch_certain(launch_deg, even, seed):
    turf = {} if even else {"slide_resistance_mps2": 0.4}
    frictions = (0.4,) if even else (0.55, 0.45, 0.3, 0.5, 0.22)
    strike = _strike(frictions, launch_deg=launch_deg, **turf)
    fit = fit_roll(_film(strike, seed=seed))
    low, high = np.quantile(np.degrees(fit.launch_rad), [0.05, 0.95])
    assert low < launch_deg < high
    assert high - low < 4.0


@pytest.mark.slow
def test_turf_that_breaks_the_law_widens_the_intervals_and_they_hold():
    even, broken = _strike(), _strike((0.55, 0.45, 0.3, 0.5, 0.22), slide_resistance_mps2=0.4)
    truth = side_view(broken, time_s=np.zeros(1))
    plain, fit = fit_roll(_film(even)), fit_roll(_film(broken))
    assert fit.loose > 0.05 > plain.loose
    assert np.ptp(np.quantile(fit.skid_m, [0.05, 0.95])) > 2.0 * np.ptp(
        np.quantile(plain.skid_m, [0.05, 0.95])
    )
    assert np.median(fit.skid_m) == pytest.approx(truth.skid_m, abs=0.02)
    assert _holds(fit.skid_m, truth.skid_m)


@pytest.mark.slow
def test_the_same_film_and_seed_give_the_same_draws():
    film = _film(_strike())
    one, other = fit_roll(film, seed=3), fit_roll(film, seed=3)
    assert np.array_equal(one.skid_m, other.skid_m)


def test_the_meeting_is_told_without_a_law_and_not_where_it_is_not_seen():
    strike = _strike((0.3, 0.5))
    times = np.linspace(0.001, 0.4, 96)
    seen = side_view(strike, time_s=times)
    met = meeting_s(since_s=times, speed_mps=seen.speed_mps, surface_mps=seen.surface_mps)
    assert met == pytest.approx(seen.skid_s, rel=0.1)
    flat = np.full(96, 1.5)
    assert meeting_s(since_s=times, speed_mps=flat, surface_mps=flat) is None


@pytest.mark.slow
@pytest.mark.parametrize("launch_deg", [1.4, 2.4, 3.4, 4.4])
def test_a_launch_is_found_in_whichever_picture_the_ball_lands(launch_deg):
    launch, speed = math.radians(launch_deg), 1.6
    strike = SideStrike(
        along_mps=speed * math.cos(launch), rise_mps=speed * math.sin(launch), surface_mps=0.25,
        frictions=(0.45,), deceleration_mps2=0.6,
    )  # fmt: skip
    fit = fit_roll(_film(strike, seed=6))
    assert np.degrees(np.median(fit.launch_rad)) == pytest.approx(launch_deg, abs=0.35)
    assert np.median(fit.spin_radps) * 0.021336 == pytest.approx(0.25, abs=0.012)


@pytest.mark.slow
def test_a_fast_looking_start_does_not_hold_the_fit_far_from_the_putt():
    launch, speed = math.radians(3.27), 1.62
    strike = SideStrike(
        along_mps=speed * math.cos(launch), rise_mps=speed * math.sin(launch),
        surface_mps=0.021336 * 11.9, frictions=(0.36,), deceleration_mps2=0.66,
    )  # fmt: skip
    fit = fit_roll(_film(strike, seed=4))
    assert np.median(fit.spin_radps) == pytest.approx(11.9, abs=2.0 * math.pi * 0.05)
    assert np.degrees(np.median(fit.launch_rad)) == pytest.approx(3.27, abs=0.2)


@pytest.mark.slow
def test_no_launch_goes_down_into_the_turf():
    fit = fit_roll(_film(_strike(launch_deg=0.3), seed=7))
    assert fit.launch_rad.min() >= 0.0
    assert np.quantile(np.degrees(fit.launch_rad), 0.05) < 0.3


@pytest.mark.slow
def test_turf_that_changes_on_the_way_moves_no_figure_off_its_middle():
    broken = _strike((0.2, 0.5, 0.3, 0.6, 0.35), slide_resistance_mps2=0.4)
    truth = side_view(broken, time_s=np.zeros(1))
    fit = fit_roll(_film(broken, seed=8))
    assert np.median(fit.skid_m) == pytest.approx(truth.skid_m, abs=0.004)
    assert _holds(fit.skid_m, truth.skid_m)
    assert np.ptp(np.quantile(fit.skid_m, [0.05, 0.95])) < 0.03


@pytest.mark.slow
def test_what_fits_no_putt_tells_nothing(monkeypatch):
    film = _film(_strike())
    lost = replace(film, turned_m=film.turned_m + 0.004 * np.sin(25.0 * film.time_s))
    told = fit_roll(lost)
    assert told.misfit > 3.2
    monkeypatch.setattr("puttwright.ball.roll_fit._NO_PUTT", math.inf)
    before = fit_roll(lost)
    for name in ("skid_m", "spin_radps"):
        wide, narrow = (
            float(np.ptp(np.quantile(getattr(each, name), [0.05, 0.95]))) for each in (told, before)
        )
        assert wide > 4.0 * narrow
