"""What is changed to: the best build, if it was putted with and is likely better."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from puttwright.fitting.choose import choose
from puttwright.fitting.decide import weigh
from puttwright.fitting.decision import KEEP, UNDECIDED
from puttwright.fitting.next_trial import FIRST_TRIAL
from puttwright.fitting.reasons import reasons
from puttwright.fitting.trial import next_trial_of
from puttwright.fitting.value import Values
from puttwright.virtual.golfers import invent
from puttwright.worth.pattern import Pattern


def between(*, gain, tried):
    """The choice between the own putter and one that saves so many putts, give or take 0.3."""
    rng = np.random.default_rng(1)
    putts = 30.0 + 0.3 * rng.standard_normal((500, 2)) - [0.0, gain]
    spread = np.abs(rng.normal(1.0, 0.05, (500, 2)))
    pattern = Pattern(
        start_sd_rad=0.02 * spread, start_bias_rad=0.003 * rng.standard_normal((500, 2)),
        pace_sd=0.08 * spread, pace_bias=0.01 * rng.standard_normal((500, 2)),
    )  # fmt: skip
    return choose(Values(putts=putts), pattern=pattern, tried=np.array([True, tried]))


def test_a_build_that_is_clearly_better_is_changed_to():
    found = between(gain=1.5, tried=True)

    assert (found.choice, found.untried, found.more_putts) == (1, None, None)


@pytest.mark.parametrize("gain", [0.3, 1.5])
def test_a_build_that_nobody_putted_with_is_tried_first_however_clear_it_looks(gain):
    found = between(gain=gain, tried=False)

    assert (found.choice, found.untried) == (UNDECIDED, 1)
    assert found.more_putts >= FIRST_TRIAL


def test_a_build_that_promises_nothing_need_not_be_tried():
    found = between(gain=-1.5, tried=False)

    assert (found.choice, found.untried) == (KEEP, None)


@pytest.fixture(scope="module")
def one_sided():
    """A fitting in which only the own putter was putted with, and another looks better."""
    fitting = invent(9, seed=31, putts=4, aims=0)[8].fitting
    own = tuple(putt for putt in fitting.putts if putt.build_id == fitting.own_build)
    weighed = weigh(dataclasses.replace(fitting, putts=own), seed=1, worth_draws=300)
    assert weighed.choice.untried is not None
    return weighed


def test_a_reason_says_that_nobody_putted_with_it(one_sided):
    name = one_sided.builds[one_sided.choice.untried].name

    assert one_sided.choice.choice == UNDECIDED
    assert any(f"Nobody has putted with {name}" in each.text for each in reasons(one_sided))


def test_where_no_further_putts_would_pay_it_is_handed_over_for_a_first_look(one_sided):
    enough = dataclasses.replace(one_sided.choice.outlook, putts=0)
    choice = dataclasses.replace(one_sided.choice, outlook=enough)
    weighed = dataclasses.replace(one_sided, choice=choice)

    trial = next_trial_of(weighed)

    assert trial is not None
    assert trial.build_id == one_sided.builds[choice.untried].build_id
    assert trial.putts == choice.more_putts == FIRST_TRIAL
    assert not any("Knowing all" in each.text for each in reasons(weighed))
