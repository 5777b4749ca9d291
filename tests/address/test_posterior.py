"""What is learnt is a posterior: it closes the chain, agrees with sampling, and sharpens."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from puttwright.address.linkage import GOLFER, GOLFER_SIZE, heights_m, outputs, posed
from puttwright.address.posterior import Heights, learn, residuals_of
from puttwright.address.predict import predict


def test_the_hands_meet_the_grip(golfer, own):
    met = golfer.mean[golfer.columns_of(own)]

    assert golfer.settled
    assert abs(float(posed(golfer.mean[:GOLFER_SIZE], met, held=own).misses_m)) < 0.002


def test_what_is_learnt_lies_between_the_usual_and_the_reading(heights, own, measured):
    usual = predict(learn(heights), own).figure("eye_inside_m")
    seen = predict(learn(heights, [measured(eyes_m=0.12)]), own).figure("eye_inside_m")

    assert usual.mean < seen.mean < 0.12
    assert 0.12 - seen.mean < 0.2 * (seen.mean - usual.mean)
    assert seen.sd < 0.35 * usual.sd


def test_more_addresses_know_more(heights, own, held, measured):
    sds = [
        predict(learn(heights, [measured(seq=k) for k in range(n)]), of).figure("eye_inside_m").sd
        for of in (own, held(length_m=0.84))
        for n in (0, 1, 3, 9)
    ]

    assert np.all(np.diff(sds[:4]) < 0)
    assert np.all(np.diff(sds[4:]) < 0)


def test_another_putter_in_hand_teaches_more_than_the_same_one_again(heights, held, measured):
    other = held(length_m=0.81, lie_rad=np.radians(69))
    asked = held(length_m=0.89, name="asked")
    again = learn(heights, [measured(), measured(seq=2)])
    both = learn(heights, [measured(), measured(of=other, eyes_m=0.05, hands_m=0.68, seq=2)])

    sds = [predict(belief, asked).figure("eye_inside_m").sd for belief in (again, both)]
    assert sds[1] < sds[0]


@pytest.mark.parametrize("told", [True, False])
def test_a_told_height_overstates_and_is_doubted(told):
    belief = learn(Heights(stature_m=1.80, told=told))
    height = heights_m(belief.mean[:GOLFER_SIZE])["barefoot"]
    sd = GOLFER[0].sd * float(np.sqrt(belief.covariance[0, 0]))

    assert float(height) == pytest.approx(1.7743 if told else 1.776, abs=0.003)
    assert sd == pytest.approx(0.0268 if told else 0.0094, abs=0.001)


def _walked(belief, *, chains, steps, seed):
    """Draws of the posterior itself: a random walk (Metropolis) of many chains side by side."""
    rng = np.random.default_rng(seed)
    root = 0.35 * np.linalg.cholesky(belief.covariance)
    residuals = residuals_of(belief.heights, belief.addresses, noise=belief.noise)
    at = belief.mean + 2.0 * rng.standard_normal((chains, belief.mean.size)) @ root.T
    height = -0.5 * np.sum(residuals(at) ** 2, axis=-1)
    kept = []
    for step in range(steps):
        to = at + rng.standard_normal(at.shape) @ root.T
        new = -0.5 * np.sum(residuals(to) ** 2, axis=-1)
        goes = np.log(rng.random(chains)) < new - height
        at, height = np.where(goes[:, None], to, at), np.where(goes, new, height)
        if step > steps // 3 and step % 10 == 0:
            kept.append(at)
    return np.concatenate(kept)


@pytest.mark.slow
def test_it_agrees_with_sampling_the_posterior(golfer, own):
    points = _walked(golfer, chains=200, steps=3000, seed=4)
    met = points[:, golfer.columns_of(own)]
    shown = outputs(points[:, :GOLFER_SIZE], met, held=own)
    ours = predict(golfer, own)
    sd = shown.std(axis=0)

    assert np.all(np.abs(ours.mean - shown.mean(axis=0)) < 0.2 * sd)
    np.testing.assert_allclose(np.sqrt(np.diag(ours.covariance)), sd, rtol=0.08)


@given(
    shift_m=st.floats(-0.05, 0.08),
    hands_m=st.floats(0.62, 0.80),
    stature_m=st.floats(1.45, 2.05),
)
@settings(max_examples=40, deadline=None)
def test_whatever_is_measured_there_is_an_answer(shift_m, hands_m, stature_m, own, measured):
    belief = learn(Heights(stature_m=stature_m), [measured(eyes_m=shift_m, hands_m=hands_m)])
    found = predict(belief, own)

    assert belief.settled
    assert np.all(np.isfinite(found.mean))
    assert np.all(np.linalg.eigvalsh(found.covariance) > 0)
    assert found.figure("hands_height_m").mean == pytest.approx(hands_m, abs=0.03)
