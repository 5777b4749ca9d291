"""How the rules and plans did over many golfers: means, standard errors, and pairs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.stats import binomtest

from puttwright.study.calibration import LEVELS, OURS, Judged, Outcome
from puttwright.study.plans import FIXED, PlanOutcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Mean:
    """A mean over golfers with its standard error (0 for a single golfer)."""

    mean: float
    se: float

    @property
    def interval_95(self) -> tuple[float, float]:
        """Where the mean of endless golfers likely lies, by the normal distribution."""
        return self.mean - 1.96 * self.se, self.mean + 1.96 * self.se

    @property
    def clear(self) -> bool:
        """Whether it lies above nought by more than two standard errors."""
        return self.mean > 2.0 * self.se


def mean_of(values: Sequence[float]) -> Mean:
    """Mean and standard error of one figure a golfer.

    Examples
    --------
    >>> mean_of([1.0, 3.0])
    Mean(mean=2.0, se=1.0)
    """
    array = np.asarray(values, dtype=float)
    se = float(array.std(ddof=1) / np.sqrt(array.size)) if array.size > 1 else 0.0
    return Mean(mean=float(array.mean()), se=se)


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """How a rule did over many golfers; figures in putts a round.

    ``beyond_ours`` is its regret less ours, golfer by golfer. ``promised`` and
    ``delivered`` are of the golfers it would change.
    """

    rule: str
    regret: Mean
    beyond_ours: Mean
    promised: float
    delivered: float
    promised_over_delivered_se: float
    changes: int
    wrong_changes: float

    @property
    def promised_over_delivered(self) -> float:
        """What a change promises for each putt it delivers; 1 is honest."""
        return self.promised / self.delivered if self.delivered else float("nan")


def score(judged: Sequence[Judged]) -> dict[str, Score]:
    """Score of every rule, ours first."""
    rules = [outcome.rule for outcome in judged[0].outcomes]
    by_rule = {
        rule: [outcome for one in judged for outcome in one.outcomes if outcome.rule == rule]
        for rule in rules
    }
    return {rule: _score(outcomes, by_rule[OURS]) for rule, outcomes in by_rule.items()}


def _score(outcomes: Sequence[Outcome], ours: Sequence[Outcome]) -> Score:
    changed = [outcome for outcome in outcomes if outcome.changed]
    promised = np.array([outcome.promised for outcome in changed])
    delivered = np.array([outcome.delivered for outcome in changed])
    return Score(
        rule=outcomes[0].rule,
        regret=mean_of([outcome.regret for outcome in outcomes]),
        beyond_ours=mean_of(
            [theirs.regret - mine.regret for theirs, mine in zip(outcomes, ours, strict=True)]
        ),
        promised=float(promised.mean()) if changed else 0.0,
        delivered=float(delivered.mean()) if changed else 0.0,
        promised_over_delivered_se=_ratio_se(promised, delivered),
        changes=len(changed),
        wrong_changes=float((delivered < 0).mean()) if changed else 0.0,
    )


def _ratio_se(above: np.ndarray, below: np.ndarray) -> float:
    """Standard error of a ratio of two means over the same golfers, to first order."""
    if above.size < 2 or not below.mean():
        return float("nan")
    off = above - above.mean() / below.mean() * below
    return float(off.std(ddof=1) / np.sqrt(off.size) / abs(below.mean()))


def coverage(judged: Sequence[Judged]) -> dict[float, Mean]:
    """Share of intervals that held the truth, by level, golfers weighing alike."""
    return {
        level: mean_of([one.covered[number] for one in judged])
        for number, level in enumerate(LEVELS)
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """Of ``claims`` confident claims ``wrong`` were; ``interval_95`` of the share by Wilson."""

    claims: int
    wrong: int

    @property
    def share(self) -> float:
        """Share that was wrong, 0 when nothing was claimed."""
        return self.wrong / self.claims if self.claims else 0.0

    @property
    def interval_95(self) -> tuple[float, float]:
        """Where the share likely lies; all of 0 to 1 when nothing was claimed."""
        if not self.claims:
            return 0.0, 1.0
        found = binomtest(self.wrong, self.claims).proportion_ci(method="wilson")
        return float(found.low), float(found.high)


def wrong_among_confident(judged: Sequence[Judged]) -> Wrong:
    """How many confident claims were made, and how many of them were wrong."""
    claims = [right for one in judged for right in one.confident]
    return Wrong(claims=len(claims), wrong=claims.count(False))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanScore:
    """How a plan did over many golfers; ``beyond_fixed`` is against the whole fixed plan."""

    plan: str
    allowed: str
    share: float
    putts: float
    regret: Mean
    beyond_fixed: Mean


def score_plans(planned: Sequence[Sequence[PlanOutcome]]) -> list[PlanScore]:
    """Score of every plan at every share of the putts, in the order they were run."""
    whole = next(k for k, one in enumerate(planned[0]) if one.plan == FIXED and one.share == 1.0)
    return [
        PlanScore(
            plan=planned[0][k].plan,
            allowed=planned[0][k].allowed,
            share=planned[0][k].share,
            putts=float(np.mean([one[k].putts for one in planned])),
            regret=mean_of([one[k].regret for one in planned]),
            beyond_fixed=mean_of([one[k].regret - one[whole].regret for one in planned]),
        )
        for k in range(len(planned[0]))
    ]
