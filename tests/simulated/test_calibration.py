"""Invented golfers, decided and held against their truth: intervals cover, claims come true."""

from __future__ import annotations

import pytest

from puttwright.study.calibration import (
    OURS,
    coverage,
    judge_many,
    score,
    wrong_among_confident,
)

pytestmark = [pytest.mark.simulated, pytest.mark.slow]


@pytest.fixture(scope="module")
def judged():
    return judge_many(50, seed=2026)


def test_nine_intervals_in_ten_hold_the_truth(judged):
    assert 0.80 <= coverage(judged)[0.9] <= 0.97


def test_half_of_the_half_intervals_hold_the_truth(judged):
    assert 0.42 <= coverage(judged)[0.5] <= 0.68


def test_confident_claims_are_seldom_wrong(judged):
    wrong, claims = wrong_among_confident(judged)

    assert claims >= 10
    assert wrong <= 0.15


def test_we_promise_less_too_much_than_raw_averages_do(judged):
    scores = score(judged)

    assert scores[OURS].promised_over_delivered < 1.6
    assert scores["raw averages"].promised_over_delivered > scores[OURS].promised_over_delivered


def test_we_leave_less_on_the_table_than_keeping_or_counting_holed_putts(judged):
    scores = score(judged)

    assert scores[OURS].regret < scores["keep"].regret
    assert scores[OURS].regret < scores["most holed"].regret


def test_every_golfer_is_decided_and_every_chain_settled(judged):
    assert len(judged) == 50
    assert max(one.r_hat_max for one in judged) < 1.05
