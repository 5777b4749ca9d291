"""So many putts a head for everyone, or putts where they are worth most: plans on one golfer."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.decide import Weighed, weigh
from puttwright.fitting.running_order import williams
from puttwright.study.crowd import with_each
from puttwright.study.stopping import Look, looks
from puttwright.study.tape import Tape
from puttwright.virtual.golfers import AIMS_A_BUILD, BLOCK, PUTTS_A_BUILD, VirtualGolfer

FIXED: Final = "as many with each build"
ADAPTIVE: Final = "where they are worth most"
UNTIL_TOLD: Final = "until told to stop"
ADAPTIVE_SHARES: Final = (0.4, 0.6, 0.8, 1.0)
_WORTH_DRAWS: Final = 300


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanOutcome:
    """What a plan cost in putts and left on the table in putts a round.

    ``allowed`` says how many putts it might take, in words; ``share`` is that as a
    share of the whole fixed plan's.
    """

    plan: str
    allowed: str
    share: float
    putts: int
    regret: float


def run_plans(golfer: VirtualGolfer, seed: int) -> tuple[PlanOutcome, ...]:
    """Every plan on one golfer, the fixed ones first; ``seed`` makes the luck all plans share."""
    whole = PUTTS_A_BUILD * len(golfer.fitting.builds)
    seen = list(looks(golfer, seed=seed, most=whole))
    told = next((look for look in seen if look.enough), seen[-1])
    return (
        *fixed(golfer, seed=seed),
        *(_last_within(seen, whole=whole, share=share) for share in ADAPTIVE_SHARES),
        _outcome(told, plan=UNTIL_TOLD, allowed=f"at most {PUTTS_A_BUILD} a head", share=1.0),
    )


def plan_many(
    n: int, *, seed: int, progress: Callable[[int], None] | None = None
) -> list[tuple[PlanOutcome, ...]]:
    """Let ``n`` invented golfers putt by every plan, on all cores."""
    return with_each(run_plans, n, seed=seed, progress=progress)


def fixed(golfer: VirtualGolfer, *, seed: int) -> Iterator[PlanOutcome]:
    """As many with each build: round by round, decided after each, in a balanced order."""
    tape = Tape(session=golfer.session, seed=seed)
    orders = williams(len(golfer.fitting.builds))
    rounds = PUTTS_A_BUILD // BLOCK
    for done in range(rounds):
        for build in orders[done % len(orders)]:
            tape.take(int(build), putts=BLOCK, aims=AIMS_A_BUILD // rounds)
        weighed = weigh(tape.fitting(golfer.fitting), seed=1, worth_draws=_WORTH_DRAWS)
        yield PlanOutcome(
            plan=FIXED,
            allowed=f"{BLOCK * (done + 1)} a head",
            share=(done + 1) / rounds,
            putts=len(tape.putts),
            regret=_regret(golfer, weighed),
        )


def _last_within(seen: Sequence[Look], *, whole: int, share: float) -> PlanOutcome:
    """The adaptive plan when its next block would be beyond its share of the putts."""
    last = [look for look in seen if look.putts <= share * whole][-1]
    return _outcome(last, plan=ADAPTIVE, allowed=f"at most {100 * share:.0f} %", share=share)


def _outcome(look: Look, *, plan: str, allowed: str, share: float) -> PlanOutcome:
    return PlanOutcome(
        plan=plan, allowed=allowed, share=share, putts=look.putts, regret=look.regret
    )


def _regret(golfer: VirtualGolfer, weighed: Weighed) -> float:
    """Putts a round between the best build and the chosen one (the own putter unless changed)."""
    truth = [golfer.true_saved(build.build_id) for build in weighed.builds]
    chosen = weighed.choice.choice if isinstance(weighed.choice.choice, int) else 0
    return max(truth) - truth[chosen]
