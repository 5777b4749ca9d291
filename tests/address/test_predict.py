"""Another putter in the same hands: what the trade knows, and intervals that cover."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from puttwright.address.linkage import GOLFER_SIZE, MET_SIZE, outputs, posed
from puttwright.address.posterior import Address, Heights, learn, slopes
from puttwright.address.predict import predict
from puttwright.address.usual import CLOSES_TO_M


@given(
    stature_m=st.floats(1.50, 2.00),
    lie_deg=st.floats(66, 74),
    length_m=st.floats(0.79, 0.92),
    shorter_m=st.floats(0.005, 0.04),
)
@settings(max_examples=60, deadline=None)
def test_a_shorter_putter_bends_the_golfer_and_brings_the_eyes_out(
    stature_m, lie_deg, length_m, shorter_m, held
):
    """Common practice, no source: shorter bends over more and brings the eyes out over the ball,
    longer the reverse.
    """
    belief = learn(Heights(stature_m=stature_m))
    long = predict(belief, held(length_m=length_m, lie_rad=math.radians(lie_deg)))
    short = predict(belief, held(length_m=length_m - shorter_m, lie_rad=math.radians(lie_deg)))

    assert short.figure("eye_inside_m").mean < long.figure("eye_inside_m").mean
    assert short.figure("trunk_rad").mean > long.figure("trunk_rad").mean
    assert short.figure("hands_height_m").mean < long.figure("hands_height_m").mean


def test_a_flatter_putter_sends_the_eyes_inside(golfer, held):
    """Common practice, no source: flat makes stand away, upright brings in."""
    lies = np.radians([67, 69, 71, 73, 75])
    eyes = [predict(golfer, held(lie_rad=lie)).figure("eye_inside_m").mean for lie in lies]

    assert np.all(np.diff(eyes) < 0)


def test_a_lie_too_upright_for_the_hands_lifts_the_toe(golfer, held):
    tilts = [
        predict(golfer, held(lie_rad=math.radians(lie))).figure("sole_tilt_rad").mean
        for lie in (68, 70, 72, 74)
    ]
    assert np.all(np.diff(tilts) > 0)


def test_flush_is_the_shaft_left_where_the_hands_hold_it(golfer, own):
    found = predict(golfer, own)
    wanted = found.flush_lie.mean

    assert wanted == pytest.approx(own.lie_rad - found.figure("sole_tilt_rad").mean)
    assert wanted < own.lie_rad


def test_a_putter_like_the_own_is_met_like_it(golfer, own, held):
    twin = predict(golfer, held(length_m=own.length_m))
    own = predict(golfer, own)

    assert own.measured
    assert not twin.measured
    assert twin.figure("eye_inside_m").sd > own.figure("eye_inside_m").sd
    assert abs(twin.figure("hands_height_m").mean - own.figure("hands_height_m").mean) < 0.01


def test_far_from_what_was_held_is_called_a_guess(golfer, held):
    assert not predict(golfer, held(length_m=0.84)).guess
    assert predict(golfer, held(length_m=0.74)).guess


@pytest.mark.parametrize(
    ("style", "lower_m"), [("cross_handed", 0.0), ("claw", 0.015), ("split", 0.055)]
)
def test_grip_styles_move_the_hands_down_the_shaft(golfer, style, lower_m, own, held):
    usual, other = (predict(golfer, held(length_m=0.87, style=each)) for each in (None, style))
    lower = usual.figure("hands_height_m").mean - other.figure("hands_height_m").mean

    assert lower == pytest.approx(lower_m * math.sin(own.lie_rad), abs=0.006)


def _truth(rng, own_putter, new):
    """An invented golfer who holds the own putter, and how that and a new one are met."""
    holding = learn(Heights(), [Address(held=own_putter)])
    point = rng.multivariate_normal(holding.mean, holding.covariance)
    golfer = point[:GOLFER_SIZE]
    own = _met(golfer, own_putter, start=point[GOLFER_SIZE:], noise=point[GOLFER_SIZE:])
    zero, noise = np.zeros(MET_SIZE), rng.standard_normal(MET_SIZE)
    return golfer, (own, _met(golfer, new, start=zero, noise=noise))


def _met(golfer, one, *, start, noise):
    """The way to meet a putter that closes the chain, nearest to a random one."""
    met = start
    for _ in range(12):
        gap = float(posed(golfer, met, held=one).misses_m)
        slope = slopes(lambda at: posed(golfer, at, held=one).misses_m[..., None], met)[0]
        gives = slope / (CLOSES_TO_M**2 + slope @ slope)
        free = noise - gives * (slope @ noise)
        met = free - gives * (gap - slope @ met)
    return met


def _read(golfer, met, one, rng, belief_noise):
    shown = outputs(golfer, met, held=one)[:4] + belief_noise * rng.standard_normal(4)
    return Address(
        held=one, eye_inside_m=shown[0], eye_behind_m=shown[1], hands_height_m=shown[2],
        sole_tilt_rad=shown[3],
    )  # fmt: skip


def _inside(rng, own_putter, new):
    """Whether the truth lay in the 90 % intervals, for the putter held and one never held."""
    golfer, (own_met, new_met) = _truth(rng, own_putter, new)
    stature = 1.692 + 0.092 * golfer[0] + 0.0175 + 0.028 * rng.standard_normal()
    heights = Heights(stature_m=stature, told=True)
    reading = _read(golfer, own_met, own_putter, rng, learn(heights).noise)
    belief = learn(heights, [reading])
    inside = []
    for one, met in ((own_putter, own_met), (new, new_met)):
        found, true = predict(belief, one), outputs(golfer, met, held=one)
        wrong = np.abs(true - found.mean) / np.sqrt(np.diag(found.covariance))
        inside.append(wrong[[0, 2, 3, 4]] < 1.6449)
    return np.array(inside)


@pytest.mark.slow
@pytest.mark.simulated
def test_intervals_cover_invented_golfers(own, held):
    rng, new = np.random.default_rng(20), held(length_m=0.84, lie_rad=math.radians(72))
    covered = np.mean([_inside(rng, own, new) for _ in range(150)], axis=0)

    # 150 golfers: 0.90 give or take three standard errors of 0.0245.
    assert np.all(covered > 0.826), covered
    assert np.all(covered < 0.974), covered
