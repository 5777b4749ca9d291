"""A study as it might come out, made up figure by figure so that nothing has to be sampled."""

from __future__ import annotations

import numpy as np
import pytest

from puttwright.study.calibration import LEVELS, OURS, Claim, Judged, Outcome
from puttwright.study.optimiser import OPTIMISERS
from puttwright.study.plans import ADAPTIVE, FIXED, UNTIL_TOLD, PlanOutcome

REGRETS = {OURS: 0.2, "raw averages": 0.5, "keep": 0.25} | dict.fromkeys(OPTIMISERS, 0.3)


def _judged(k, rng, rules):
    shared = rng.gamma(2.0, 0.1)
    return Judged(
        outcomes=tuple(
            Outcome(
                rule=rule,
                world=("drift", "heavy tails")[k % 2],
                changed=rule != "keep",
                promised=0.0 if rule == "keep" else 0.6,
                delivered=0.0 if rule == "keep" else 0.5 + 0.2 * rng.standard_normal(),
                regret=shared + REGRETS[rule] + 0.02 * rng.standard_normal(),
            )
            for rule in rules
        ),
        claims=tuple(
            Claim(claimed=claimed, true=claimed + 0.3 * rng.standard_normal(), chosen=b == 2)
            for b, claimed in enumerate(rng.normal(0.0, 0.6, 5))
        ),
        covered=tuple(min(level + 0.02 * rng.standard_normal(), 1.0) for level in LEVELS),
        confident=(True, k % 10 != 0),
        undecided=k == 3,
        r_hat_max=1.01,
    )


def _planned(k, rng):
    shared = rng.gamma(2.0, 0.1)
    of = [
        (FIXED, "4 a head", 1 / 3, 24, 0.15), (FIXED, "8 a head", 2 / 3, 48, 0.05),
        (FIXED, "12 a head", 1.0, 72, 0.0), (ADAPTIVE, "at most 40 %", 0.4, 28, 0.1),
        (ADAPTIVE, "at most 60 %", 0.6, 40, 0.01), (ADAPTIVE, "at most 80 %", 0.8, 56, 0.0),
        (ADAPTIVE, "at most 100 %", 1.0, 72, -0.02),
        (UNTIL_TOLD, "at most 12 a head", 1.0, 44, 0.0),
    ]  # fmt: skip
    return tuple(
        PlanOutcome(
            plan=plan, allowed=allowed, share=share, putts=putts + 4 * (k % 2),
            regret=shared + more + 0.03 * rng.standard_normal(),
        )
        for plan, allowed, share, putts, more in of
    )  # fmt: skip


@pytest.fixture(scope="session")
def judged():
    rng = np.random.default_rng(1)
    return [_judged(k, rng, list(REGRETS)) for k in range(40)]


@pytest.fixture(scope="session")
def judged_without_the_library():
    rng = np.random.default_rng(1)
    rules = [rule for rule in REGRETS if rule not in OPTIMISERS]
    return [_judged(k, rng, rules) for k in range(40)]


@pytest.fixture(scope="session")
def planned():
    rng = np.random.default_rng(2)
    return [_planned(k, rng) for k in range(40)]
