"""Looking after every block and stopping when told is as honest as a fixed number of putts."""

from __future__ import annotations

import pytest

from puttwright.study.stopping import LONGEST, stop_many, tally
from puttwright.virtual.golfers import PUTTS_A_BUILD

pytestmark = [pytest.mark.simulated, pytest.mark.slow]


@pytest.fixture(scope="module")
def stopped():
    return stop_many(20, seed=2027)


@pytest.fixture(scope="module")
def told(stopped):
    return tally([one.told for one in stopped])


@pytest.fixture(scope="module")
def fixed(stopped):
    return tally([one.fixed for one in stopped])


def test_intervals_hold_the_truth_when_one_stops(told, fixed):
    assert told.covered >= 0.80
    assert told.covered >= fixed.covered - 0.08


def test_claims_are_not_blown_up_by_looking_often(told, fixed):
    assert told.promised_over_delivered <= max(1.5, fixed.promised_over_delivered + 0.2)
    assert told.wrong <= 0.2


def test_some_stop_early_and_nobody_putts_for_ever(stopped):
    putts = [one.told.putts for one in stopped]

    assert min(putts) < min(one.fixed.putts for one in stopped)
    assert max(putts) <= LONGEST * PUTTS_A_BUILD * 7
    assert any(one.told.enough for one in stopped)


def test_stopping_costs_no_more_than_it_is_meant_to(told, fixed):
    assert told.regret <= fixed.regret + 0.15
