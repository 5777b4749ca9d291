"""Does what we claim come true? Many invented golfers, decided and held against their truth."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.fitting.decide import weigh
from puttwright.study.crowd import with_each
from puttwright.study.optimiser import OPTIMISERS, installed, optimise
from puttwright.study.rules import RULES, Pick
from puttwright.virtual.golfers import VirtualGolfer

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
class Claim:
    """What we claimed of a build not the golfer's own, in putts a round saved, and what is true."""

    claimed: float
    true: float
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One golfer: every rule's outcome, and how our intervals and claims fared.

    ``covered`` is, by level, the share of builds whose interval held the truth;
    ``confident`` holds, for each build we called better with probability 0.9, whether it was.
    """

    outcomes: tuple[Outcome, ...]
    claims: tuple[Claim, ...]
    covered: tuple[float, ...]
    confident: tuple[bool, ...]
    undecided: bool
    r_hat_max: float


def judge(golfer: VirtualGolfer, seed: int) -> Judged:
    """Decide one golfer by every rule and compare with the truth; ``seed`` is the optimiser's."""
    weighed = weigh(golfer.fitting, seed=1, worth_draws=_WORTH_DRAWS)
    saved = weighed.values.saved
    truth = np.array([golfer.true_saved(build.build_id) for build in weighed.builds])
    chosen = weighed.choice.choice if isinstance(weighed.choice.choice, int) else 0
    picks = {
        OURS: Pick(build=chosen, promised=float(saved[:, chosen].mean())),
        **{name: rule(golfer.fitting) for name, rule in RULES.items()},
        **_optimised(golfer, seed=seed),
    }
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
        claims=tuple(
            Claim(claimed=float(saved[:, b].mean()), true=float(truth[b]), chosen=b == chosen)
            for b in range(1, truth.size)
        ),
        covered=tuple(_covered(saved, truth, level) for level in LEVELS),
        confident=tuple(bool(truth[b] > 0) for b in range(1, truth.size) if better[b] >= CONFIDENT),
        undecided=weighed.choice.choice == "undecided",
        r_hat_max=weighed.belief.posterior.diagnostics.r_hat_max,
    )


def _optimised(golfer: VirtualGolfer, *, seed: int) -> dict[str, Pick]:
    """The optimisers' picks, none where their library is not installed."""
    if not installed():
        return {}
    return {
        name: optimise(golfer, seed=seed, score=score_of) for name, score_of in OPTIMISERS.items()
    }


def _covered(saved: np.ndarray, truth: np.ndarray, level: float) -> float:
    tail = 0.5 * (1.0 - level)
    low, high = np.quantile(saved[:, 1:], (tail, 1.0 - tail), axis=0)
    return float(((low <= truth[1:]) & (truth[1:] <= high)).mean())


def judge_many(n: int, *, seed: int, progress: Callable[[int], None] | None = None) -> list[Judged]:
    """Invent and judge ``n`` golfers, on all cores; ``progress`` is told how many are done."""
    return with_each(judge, n, seed=seed, progress=progress)
