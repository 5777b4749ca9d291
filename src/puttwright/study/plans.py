"""Twelve putts a head for everyone, or putts where they are worth most: two plans on one golfer."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.evidence import AimReading, Fitting, Putt
from puttwright.fitting.decide import Weighed, weigh
from puttwright.fitting.next_trial import knowledge_gradient, putt_noise
from puttwright.virtual.golfers import VirtualGolfer
from puttwright.virtual.putting import Session

FIRST_PUTTS: Final = 4
FIRST_AIMS: Final = 3
BATCH: Final = 4
BATCH_AIMS: Final = 2
_DISTANCES_M: Final = (2.4, 3.6, 6.0)
_WORTH_DRAWS: Final = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanOutcome:
    """What a plan cost in putts and left on the table in putts a round."""

    putts: int
    regret: float


def adaptive(golfer: VirtualGolfer, *, share: float, seed: int) -> PlanOutcome:
    """A few putts with every build, then batches where the knowledge gradient points.

    Parameters
    ----------
    golfer
        Who putts; the readings in ``golfer.fitting`` are not used.
    share
        Of the putts the fixed plan took, how many may be spent.
    seed
        Makes the putts.
    """
    rng = np.random.default_rng(seed)
    budget = int(share * len(golfer.fitting.putts))
    tape = _Tape(session=golfer.session, rng=rng)
    builds = range(len(golfer.fitting.builds))
    for build in rng.permutation(len(builds)):
        tape.take(int(build), putts=FIRST_PUTTS, aims=FIRST_AIMS)
    weighed = weigh(tape.fitting(golfer.fitting), seed=1, worth_draws=_WORTH_DRAWS)
    while len(tape.putts) + BATCH <= budget:
        tape.take(_worth_most(weighed, golfer.fitting), putts=BATCH, aims=BATCH_AIMS)
        weighed = weigh(tape.fitting(golfer.fitting), seed=1, worth_draws=_WORTH_DRAWS)
    return PlanOutcome(putts=len(tape.putts), regret=regret_of(golfer, weighed))


def fixed(golfer: VirtualGolfer) -> PlanOutcome:
    """The readings the golfer came with: so many a head, in blocks."""
    weighed = weigh(golfer.fitting, seed=1, worth_draws=_WORTH_DRAWS)
    return PlanOutcome(putts=len(golfer.fitting.putts), regret=regret_of(golfer, weighed))


def regret_of(golfer: VirtualGolfer, weighed: Weighed) -> float:
    """Putts a round between the best build and the chosen one (the own putter unless changed)."""
    truth = [golfer.true_saved(build.build_id) for build in weighed.builds]
    chosen = weighed.choice.choice if isinstance(weighed.choice.choice, int) else 0
    return max(truth) - truth[chosen]


def _worth_most(weighed: Weighed, fitting: Fitting) -> int:
    """Number, in the fitting's own order, of the build whose next batch is worth most."""
    noise = putt_noise(weighed.values.putts, pattern=weighed.pattern)
    gains = knowledge_gradient(weighed.values.putts, noise=noise, more=BATCH)
    ids = [build.build_id for build in fitting.builds]
    return ids.index(weighed.builds[gains.best].build_id)


class _Tape:
    """Readings as they are taken."""

    def __init__(self, *, session: Session, rng: np.random.Generator) -> None:
        self.session = session
        self.rng = rng
        self.putts: list[Putt] = []
        self.aims: list[AimReading] = []

    def take(self, build: int, *, putts: int, aims: int) -> None:
        """Let the golfer putt and aim with a build."""
        for _ in range(putts):
            seq = len(self.putts) + 1
            distance = _DISTANCES_M[seq % len(_DISTANCES_M)]
            self.putts.append(
                self.session.putt(seq=seq, build=build, distance_m=distance, rng=self.rng)
            )
        for _ in range(aims):
            seq = len(self.aims) + 1
            self.aims.append(self.session.aim(seq=seq, build=build, rng=self.rng))

    def fitting(self, like: Fitting) -> Fitting:
        """A fitting with the readings so far."""
        return dataclasses.replace(like, putts=tuple(self.putts), aims=tuple(self.aims))
