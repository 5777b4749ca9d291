"""Does what we claim come true? Many invented golfers, decided and held against their truth."""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.fitting.decide import weigh
from puttwright.study.rules import RULES, Pick
from puttwright.virtual.golfers import VirtualGolfer, invent

LEVELS: Final = (0.5, 0.8, 0.9, 0.95)
CONFIDENT: Final = 0.9
OURS: Final = "puttwright"
_WORTH_DRAWS: Final = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One rule on one golfer: strokes a round promised, delivered, and left on the table."""

    rule: str
    world: str
    changed: bool
    promised: float
    delivered: float
    regret: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One golfer: every rule's outcome, and how our intervals and claims fared.

    ``covered`` is, by level, the share of builds whose interval held the truth;
    ``confident`` holds, for each build we called better with probability 0.9, whether it was.
    """

    outcomes: tuple[Outcome, ...]
    covered: tuple[float, ...]
    confident: tuple[bool, ...]
    undecided: bool
    r_hat_max: float


def judge(golfer: VirtualGolfer) -> Judged:
    """Decide one golfer by every rule and compare with the truth."""
    weighed = weigh(golfer.fitting, seed=1, worth_draws=_WORTH_DRAWS)
    saved = weighed.values.saved
    truth = np.array([golfer.true_saved(build.build_id) for build in weighed.builds])
    chosen = weighed.choice.choice if isinstance(weighed.choice.choice, int) else 0
    ours = Pick(build=chosen, promised=float(saved[:, chosen].mean()))
    picks = {OURS: ours, **{name: rule(golfer.fitting) for name, rule in RULES.items()}}
    better = weighed.choice.probability_better
    return Judged(
        outcomes=tuple(
            Outcome(
                rule=name,
                world=golfer.world,
                changed=pick.build != 0,
                promised=pick.promised,
                delivered=float(truth[pick.build]),
                regret=float(truth.max() - truth[pick.build]),
            )
            for name, pick in picks.items()
        ),
        covered=tuple(_covered(saved, truth, level) for level in LEVELS),
        confident=tuple(bool(truth[b] > 0) for b in range(1, truth.size) if better[b] >= CONFIDENT),
        undecided=weighed.choice.choice == "undecided",
        r_hat_max=weighed.belief.posterior.diagnostics.r_hat_max,
    )


def _covered(saved: np.ndarray, truth: np.ndarray, level: float) -> float:
    tail = 0.5 * (1.0 - level)
    low, high = np.quantile(saved[:, 1:], (tail, 1.0 - tail), axis=0)
    return float(((low <= truth[1:]) & (truth[1:] <= high)).mean())


def judge_many(n: int, *, seed: int, progress: Callable[[int], None] | None = None) -> list[Judged]:
    """Invent and judge ``n`` golfers, on all cores; ``progress`` is told how many are done."""
    golfers = invent(n, seed=seed)
    spawn = multiprocessing.get_context("spawn")
    judged = []
    with ProcessPoolExecutor(os.cpu_count() or 1, mp_context=spawn) as pool:
        for one in pool.map(judge, golfers, chunksize=4):
            judged.append(one)
            if progress:
                progress(len(judged))
    return judged


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """How a rule did over many golfers; figures in putts a round."""

    rule: str
    regret: float
    regret_se: float
    promised: float
    delivered: float
    changes: int
    wrong_changes: float

    @property
    def promised_over_delivered(self) -> float:
        """What a change promises for each putt it delivers; 1 is honest."""
        return self.promised / self.delivered if self.delivered else float("nan")


def score(judged: Sequence[Judged]) -> dict[str, Score]:
    """Score of every rule, ours first."""
    rules = [outcome.rule for outcome in judged[0].outcomes]
    return {
        rule: _score(
            rule, [outcome for one in judged for outcome in one.outcomes if outcome.rule == rule]
        )
        for rule in rules
    }


def _score(rule: str, outcomes: Sequence[Outcome]) -> Score:
    regret = np.array([outcome.regret for outcome in outcomes])
    changed = [outcome for outcome in outcomes if outcome.changed]
    return Score(
        rule=rule,
        regret=float(regret.mean()),
        regret_se=float(regret.std(ddof=1) / np.sqrt(regret.size)) if regret.size > 1 else 0.0,
        promised=float(np.mean([o.promised for o in changed])) if changed else 0.0,
        delivered=float(np.mean([o.delivered for o in changed])) if changed else 0.0,
        changes=len(changed),
        wrong_changes=float(np.mean([o.delivered < 0 for o in changed])) if changed else 0.0,
    )


def coverage(judged: Sequence[Judged]) -> dict[float, float]:
    """Share of intervals that held the truth, by level, golfers weighing alike."""
    covered = np.array([one.covered for one in judged]).mean(axis=0)
    return {level: float(share) for level, share in zip(LEVELS, covered, strict=True)}


def wrong_among_confident(judged: Sequence[Judged]) -> tuple[float, int]:
    """Share of confident claims that were wrong, and how many were made."""
    claims = [right for one in judged for right in one.confident]
    return (float(np.mean([not right for right in claims])) if claims else 0.0), len(claims)
