"""The putter an address wants puts the eyes where they were wanted, flush, hands hanging."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from puttwright.address.posterior import learn
from puttwright.address.predict import predict
from puttwright.address.solve import wanted


@given(
    low_m=st.floats(-0.03, 0.04),
    eyes_m=st.floats(-0.02, 0.12),
    hands_m=st.floats(0.66, 0.79),
    tilt_rad=st.floats(-0.05, 0.05),
)
@settings(max_examples=25, deadline=None)
def test_with_it_in_hand_the_eyes_are_there_and_the_sole_lies_flush(
    low_m, eyes_m, hands_m, tilt_rad, heights, own, measured
):
    belief = learn(heights, [measured(eyes_m=eyes_m, hands_m=hands_m, tilt_rad=tilt_rad)])
    found = wanted(belief, window_m=(low_m, low_m + 0.03), held=own)
    then = found.hanging

    assert low_m <= found.eyes_m <= low_m + 0.03
    assert then.figure("eye_inside_m").mean == pytest.approx(found.eyes_m, abs=1e-5)
    assert then.figure("sole_tilt_rad").mean == pytest.approx(0.0, abs=1e-4)
    assert then.figure("hands_out_m").mean == pytest.approx(0.0, abs=1e-6)


def test_eyes_that_are_in_the_window_stay(golfer, own):
    now = predict(golfer, own).figure("eye_inside_m").mean
    found = wanted(golfer, window_m=(now - 0.01, now + 0.02), held=own)

    assert found.eyes_m == now
    assert found.in_window > 0.3


def test_told_to_let_the_arms_hang_is_surer_than_how_they_are_held(golfer, own):
    found = wanted(golfer, window_m=(0.0, 0.03), held=own)

    hanging, as_now = (each.figure("hands_out_m").sd for each in (found.hanging, found.as_now))
    assert hanging < 0.8 * as_now


def test_eyes_further_out_want_a_shorter_more_upright_putter(golfer, own):
    found = [wanted(golfer, window_m=(at, at + 0.01), held=own) for at in (0.07, 0.03, -0.01)]

    assert np.all(np.diff([each.length.mean for each in found]) < 0)
    assert np.all(np.diff([each.lie.mean for each in found]) > 0)


def test_lower_hands_want_a_flatter_lie(heights, own, measured):
    """Common practice, no source."""
    lies = [
        wanted(learn(heights, [measured(hands_m=hands)]), window_m=(0.0, 0.03), held=own).lie.mean
        for hands in (0.77, 0.735, 0.70)
    ]
    assert np.all(np.diff(lies) < 0)


def test_the_length_is_among_those_made(golfer, own):
    """Common practice, no source: made from 30 to 36 in, mostly 34 or 35."""
    found = wanted(golfer, window_m=(0.0, 0.05), held=own)

    assert 0.762 < found.length.mean < 0.914
    assert 68 < math.degrees(found.lie.mean) < 76


def test_more_addresses_narrow_it(heights, own, measured):
    once, often = (
        wanted(
            learn(heights, [measured(seq=seq) for seq in range(count)]),
            window_m=(0.0, 0.03),
            held=own,
        )
        for count in (1, 8)
    )
    assert often.length.sd < once.length.sd
    assert often.lie.sd < once.lie.sd


def test_an_offset_nobody_measured_widens_it(golfer, held):
    known, guessed = (
        wanted(golfer, window_m=(0.0, 0.03), held=held(axis_to_ball_m=axis)).lie.sd
        for axis in (0.03, None)
    )
    assert guessed > known
