"""The chain of putts: against a fine quadrature, its symmetries and its limits."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import simpson
from scipy.stats import norm

from puttwright.ball.hole import effective_half_width_m, fastest_capture_mps
from puttwright.evidence import FirstPutt, Green
from puttwright.worth.holing import chance_to_hole, outcome
from puttwright.worth.noise import TOUR_READ_NOISE
from puttwright.worth.pattern import NO_READ_NOISE, PLANNED_PAST_M, Pattern
from puttwright.worth.rounds import (
    Course,
    deceleration_of,
    putts_per_round,
    putts_per_round_on,
)

GREEN = deceleration_of(speed_ft=10.0)


def pattern(start_sd=1.2, start_bias=0.0, pace_sd=8.0, pace_bias=0.0):
    return Pattern.of(
        start_sd_deg=start_sd,
        start_bias_deg=start_bias,
        pace_sd_pct=pace_sd,
        pace_bias_pct=pace_bias,
    )


def solved(of, *distances, noise=TOUR_READ_NOISE, green=GREEN):
    return outcome(of, distance_m=np.array(distances), deceleration_mps2=green, noise=noise)


def make_by_quadrature(of, distance, noise):
    """The same chance to hole by SciPy's Simpson rule over a fine grid of paces."""
    line = math.hypot(
        of.start_sd_rad[0],
        math.hypot(noise.line_rad, noise.line_growth_rad_per_sqrt_m * math.sqrt(distance)),
    )
    meant = distance + PLANNED_PAST_M
    roll_sd = math.hypot(of.pace_sd[0], noise.pace) * meant
    mean = meant * (1.0 + of.pace_bias[0])
    longest = distance + fastest_capture_mps() ** 2 / (2.0 * GREEN)

    def density(roll):
        speed = math.sqrt(2.0 * GREEN * max(roll - distance, 0.0))
        width = float(effective_half_width_m(speed_mps=np.array([speed]))[0])
        window = math.asin(min(width / distance, 1.0))
        bias = of.start_bias_rad[0]
        on_line = norm.cdf((window - bias) / line) - norm.cdf((-window - bias) / line)
        return on_line * norm.pdf(roll, mean, roll_sd)

    low, high = max(distance, mean - 8 * roll_sd), min(longest, mean + 8 * roll_sd)
    if low >= high:
        return 0.0
    rolls = np.linspace(low, high, 4001)
    return simpson([density(roll) for roll in rolls], x=rolls)


@pytest.mark.parametrize("distance", [0.5, 1.2, 2.4, 6.0, 15.0])
@pytest.mark.parametrize(
    "of",
    [
        pattern(),
        pattern(start_bias=1.5, pace_bias=-6.0),
        pattern(start_sd=3.0, pace_sd=20.0),
        pattern(pace_bias=12.0),
    ],
)
def test_chance_to_hole_agrees_with_a_fine_quadrature(of, distance):
    ours = solved(of, distance).make[0, 0]

    assert ours == pytest.approx(make_by_quadrature(of, distance, TOUR_READ_NOISE), abs=5e-4)


@given(
    bias=st.floats(0.0, 4.0),
    sd=st.floats(0.4, 3.0),
    pace_bias=st.floats(-20.0, 20.0),
    distance=st.floats(0.3, 15.0),
)
def test_right_and_left_are_worth_the_same(bias, sd, pace_bias, distance):
    right = solved(pattern(start_sd=sd, start_bias=bias, pace_bias=pace_bias), distance)
    left = solved(pattern(start_sd=sd, start_bias=-bias, pace_bias=pace_bias), distance)

    assert right.make[0, 0] == pytest.approx(left.make[0, 0], abs=1e-9)
    assert right.putts[0, 0] == pytest.approx(left.putts[0, 0], abs=1e-9)


def test_nobody_misses_without_error():
    perfect = pattern(start_sd=0.0, pace_sd=0.0)

    result = solved(perfect, 0.5, 3.0, 10.0, noise=NO_READ_NOISE)

    assert result.make[0] == pytest.approx([1.0, 1.0, 1.0], abs=2e-5)
    assert result.putts[0] == pytest.approx([1.0, 1.0, 1.0], abs=2e-5)


def test_wider_is_worse_and_further_is_harder():
    spreads = [solved(pattern(start_sd=sd), 3.0).make[0, 0] for sd in (0.5, 1.0, 2.0, 4.0)]
    far = solved(pattern(), 0.5, 1.0, 2.0, 4.0, 8.0, 16.0)

    assert all(np.diff(spreads) < 0)
    assert all(np.diff(far.make[0]) < 0)
    assert all(np.diff(far.putts[0]) > 0)


def test_a_putt_is_holed_or_costs_more():
    result = solved(pattern(start_bias=2.0), 1.0, 4.0, 12.0)

    assert (result.putts >= 2.0 - result.make - 1e-9).all()


def test_many_patterns_are_the_same_as_one_at_a_time():
    many = Pattern(
        start_sd_rad=np.radians([[0.8, 1.4], [1.0, 2.0]]),
        start_bias_rad=np.radians([[0.0, 1.0], [-1.0, 0.3]]),
        pace_sd=np.array([[0.06, 0.09], [0.1, 0.12]]),
        pace_bias=np.array([[0.0, 0.1], [-0.1, 0.02]]),
    )

    together = solved(many, 2.0, 5.0)
    alone = solved(pattern(start_sd=2.0, start_bias=0.3, pace_sd=12.0, pace_bias=2.0), 2.0, 5.0)

    assert together.make.shape == (2, 2, 2)
    assert together.putts[1, 1] == pytest.approx(alone.putts[0], abs=1e-12)


def test_expected_putts_agree_with_a_simulated_golfer():
    """The chain against throwing putts until the ball is in."""
    of, noise = pattern(start_bias=0.8, pace_bias=5.0), TOUR_READ_NOISE
    rng = np.random.default_rng(5)
    left = np.full(40_000, 6.0)
    taken = np.zeros(left.size)
    for _ in range(12):
        playing = left > 0.0
        taken[playing] += 1.0
        left[playing] = _putt_from(left[playing], of, noise, rng)
    ours = solved(of, 6.0).putts[0, 0]

    assert ours == pytest.approx(taken.mean(), abs=4.0 * taken.std() / math.sqrt(left.size) + 0.005)


def _putt_from(distance, of, noise, rng):
    n = distance.size
    read = noise.line_sd_rad(distance_m=distance)
    line = of.start_bias_rad[0] + np.hypot(of.start_sd_rad[0], read) * rng.standard_normal(n)
    meant = distance + PLANNED_PAST_M
    pace_sd = math.hypot(of.pace_sd[0], noise.pace)
    roll = np.maximum(
        meant * (1.0 + of.pace_bias[0] + pace_sd * rng.standard_normal(n)), 0.02 * distance
    )
    speed = np.sqrt(2.0 * GREEN * np.clip(roll - distance, 0.0, None))
    width = effective_half_width_m(speed_mps=np.minimum(speed, fastest_capture_mps()))
    holed = (roll > distance) & (speed < fastest_capture_mps())
    holed &= np.abs(distance * np.sin(line)) < width
    leave = np.hypot(roll * np.cos(line) - distance, roll * np.sin(line))
    return np.where(holed, 0.0, np.maximum(leave, 0.02))


def several(n):
    """From steady to wild, from left and short to right and long."""
    return Pattern(
        start_sd_rad=np.radians(np.linspace(0.3, 3.0, n)),
        start_bias_rad=np.radians(np.linspace(-2.0, 2.0, n)),
        pace_sd=np.linspace(0.01, 0.2, n),
        pace_bias=np.linspace(-0.1, 0.1, n),
    )


def test_the_chance_alone_is_the_chance_of_the_whole_chain():
    many = several(40)
    asked = {"deceleration_mps2": GREEN, "noise": TOUR_READ_NOISE}
    distances = np.array([0.5, 1.2, 4.6, 12.0])

    alone = chance_to_hole(many, distance_m=distances, **asked)

    assert np.array_equal(alone, outcome(many, distance_m=distances, **asked).make)
    assert np.ptp(alone) > 0.8


def test_courses_asked_together_are_as_when_asked_apart():
    greens = [Green(name=f"{speed:g}", speed_ft=speed, share=1.0) for speed in (8.0, 10.0, 12.0)]
    short, long = (
        tuple(FirstPutt(distance_m=m, per_round=n) for m, n in told)
        for told in (((1.0, 9.0), (5.0, 9.0)), ((5.0, 4.0), (1.0, 3.0), (15.0, 11.0)))
    )
    courses = [
        Course(greens=(greens[0], greens[1]), first_putts=short, noise=TOUR_READ_NOISE),
        Course(greens=(greens[1], greens[2]), first_putts=long, noise=TOUR_READ_NOISE),
        Course(greens=(greens[1],), first_putts=long, noise=NO_READ_NOISE),
    ]
    many = several(9)

    together = putts_per_round_on(many, courses=courses)

    for course, putts in zip(courses, together, strict=True):
        assert np.allclose(putts, putts_per_round(many, course=course), rtol=1e-14)
