"""What is changed to: the best build, if it was putted with and is likely better."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from puttwright.fitting.choose import SURE_ENOUGH, choose
from puttwright.fitting.decide import weigh
from puttwright.fitting.decision import KEEP, UNDECIDED
from puttwright.fitting.value import Values
from puttwright.virtual.golfers import invent
from puttwright.worth.pattern import Pattern


def chosen(*, gain, tried):
    """The choice between the own putter and one that saves so many putts, give or take 0.3."""
    rng = np.random.default_rng(1)
    putts = 30.0 + 0.3 * rng.standard_normal((500, 2)) - [0.0, gain]
    spread = np.abs(rng.normal(1.0, 0.05, (500, 2)))
    pattern = Pattern(
        start_sd_rad=0.02 * spread, start_bias_rad=0.003 * rng.standard_normal((500, 2)),
        pace_sd=0.08 * spread, pace_bias=0.01 * rng.standard_normal((500, 2)),
    )  # fmt: skip
    return choose(Values(putts=putts), pattern=pattern, tried=np.array([True, tried])).choice


def test_a_build_that_is_clearly_better_is_changed_to():
    assert chosen(gain=1.5, tried=True) == 1


@pytest.mark.parametrize("gain", [0.3, 1.5])
def test_a_build_that_nobody_putted_with_is_not(gain):
    assert chosen(gain=gain, tried=False) in {KEEP, UNDECIDED}


def test_nor_in_a_fitting_where_only_the_own_putter_was_putted_with():
    fitting = invent(9, seed=31, putts=4, aims=0)[8].fitting
    own = tuple(putt for putt in fitting.putts if putt.build_id == fitting.own_build)

    weighed = weigh(dataclasses.replace(fitting, putts=own), seed=1, worth_draws=300)

    assert (weighed.values.saved > 0.0).mean(axis=0).max() > SURE_ENOUGH
    assert weighed.choice.choice == UNDECIDED
