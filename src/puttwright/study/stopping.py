"""Is it honest to look after every block and stop when told? Invented golfers putt until told.

The same golfers putt block by block, are decided after each block and stop when
no further putts are worth taking; and they putt a fixed number. Looking often
and stopping early must not make claims grow: intervals at the moment of
stopping have to hold the truth as often as those after a fixed number.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.evidence import Fitting
from puttwright.fitting.choose import costed
from puttwright.fitting.decide import Weighed, weigh
from puttwright.fitting.next_trial import BATCH, BATCH_AIMS, putt_noise
from puttwright.fitting.readings import gather
from puttwright.fitting.running_order import running_order, so_far, williams
from puttwright.fitting.where_to_putt import where_to_putt
from puttwright.study.calibration import CONFIDENT
from puttwright.study.crowd import with_each
from puttwright.study.tape import Tape
from puttwright.virtual.golfers import PUTTS_A_BUILD, VirtualGolfer

_WORTH_DRAWS: Final = 300
_LEVEL: Final = 0.9
_HEAD: Final = (
    "| plan | putts | intervals that hold the truth | claims | wrong claims | changes "
    "| promised/delivered | regret |"
)
LONGEST: Final = 2.0
"""A golfer who is not told to stop putts at most this many times the fixed number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What was said after so many putts, and how it compares with the truth.

    ``promised`` and ``delivered`` are strokes a round of the chosen build, ``covered``
    the share of builds whose 90 % interval held the truth, ``confident`` whether each
    build called better with probability 0.9 was.
    """

    putts: int
    enough: bool
    changed: bool
    promised: float
    delivered: float
    regret: float
    covered: float
    confident: tuple[bool, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stopped:
    """One golfer: the look at which they were told to stop, and the look after a fixed number."""

    world: str
    told: Look
    fixed: Look


def stop_when_told(golfer: VirtualGolfer, seed: int) -> Stopped:
    """Let a golfer putt until told to stop, and on (or less) to the fixed number.

    Both are looks at one and the same run, so that they differ in when one stops and
    in nothing else.
    """
    fixed_putts = PUTTS_A_BUILD * len(golfer.fitting.builds)
    told = fixed = None
    for look in looks(golfer, seed=seed, most=int(LONGEST * fixed_putts)):
        told = told or (look if look.enough else None)
        fixed = fixed or (look if look.putts >= fixed_putts else None)
        if told and fixed:
            break
    assert fixed is not None
    return Stopped(world=golfer.world, told=told or look, fixed=fixed)


def looks(golfer: VirtualGolfer, *, seed: int, most: int) -> Iterator[Look]:
    """Decide after every block of the running order, from the first round on.

    Parameters
    ----------
    golfer
        Who putts; the readings in ``golfer.fitting`` are not used.
    seed
        Makes the putts.
    most
        No block is begun that would go beyond so many putts.
    """
    tape = Tape(session=golfer.session, seed=seed)
    where = _from_where(tape.fitting(golfer.fitting))
    for build in williams(len(golfer.fitting.builds))[0]:
        tape.take(int(build), putts=BATCH, aims=BATCH_AIMS, distance_m=where)
    while True:
        weighed = weigh(tape.fitting(golfer.fitting), seed=1, worth_draws=_WORTH_DRAWS)
        yield _look(golfer, weighed)
        if len(tape.putts) + BATCH > most:
            return
        where = _from_where(weighed.fitting)
        tape.take(_hand_over(weighed), putts=BATCH, aims=BATCH_AIMS, distance_m=where)


def _from_where(fitting: Fitting) -> float:
    return where_to_putt(fitting, gather(fitting)).distance_m


def _hand_over(weighed: Weighed) -> int:
    """The build the running order hands over next."""
    noise = putt_noise(weighed.values.putts, pattern=weighed.pattern)
    done = so_far(weighed.fitting, builds=weighed.builds)
    return running_order(done, costed(weighed.values.putts), noise=noise)[0][0]


def _look(golfer: VirtualGolfer, weighed: Weighed) -> Look:
    truth = np.array([golfer.true_saved(build.build_id) for build in weighed.builds])
    saved, better = weighed.values.saved, weighed.choice.probability_better
    chosen = weighed.choice.choice if isinstance(weighed.choice.choice, int) else 0
    low, high = np.quantile(saved[:, 1:], (0.5 - _LEVEL / 2, 0.5 + _LEVEL / 2), axis=0)
    return Look(
        putts=len(weighed.fitting.putts),
        enough=weighed.choice.outlook.enough,
        changed=chosen != 0,
        promised=float(saved[:, chosen].mean()),
        delivered=float(truth[chosen]),
        regret=float(truth.max() - truth[chosen]),
        covered=float(((low <= truth[1:]) & (truth[1:] <= high)).mean()),
        confident=tuple(bool(truth[b] > 0) for b in range(1, truth.size) if better[b] >= CONFIDENT),
    )


def stop_many(n: int, *, seed: int, progress: Callable[[int], None] | None = None) -> list[Stopped]:
    """Invent ``n`` golfers and let each putt until told; ``progress`` is told how many are done."""
    return with_each(stop_when_told, n, seed=seed, progress=progress)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """How looks at many golfers fared; figures in putts a round.

    ``covered`` is the share of 90 % intervals that held the truth, ``wrong`` that of the
    ``claims`` made with probability 0.9 which were false, ``promised_over_delivered``
    over the changes, 1 being honest.
    """

    putts: float
    covered: float
    claims: int
    wrong: float
    changes: int
    promised_over_delivered: float
    regret: float
    regret_se: float


def tally(looks: Sequence[Look]) -> Tally:
    """Count up looks, one a golfer."""
    claims = [right for look in looks for right in look.confident]
    changed = [look for look in looks if look.changed]
    delivered = sum(look.delivered for look in changed)
    regret = np.array([look.regret for look in looks])
    return Tally(
        putts=float(np.mean([look.putts for look in looks])),
        covered=float(np.mean([look.covered for look in looks])),
        claims=len(claims),
        wrong=1.0 - float(np.mean(claims)) if claims else 0.0,
        changes=len(changed),
        promised_over_delivered=(
            sum(look.promised for look in changed) / delivered if delivered > 0 else float("nan")
        ),
        regret=float(regret.mean()),
        regret_se=float(regret.std(ddof=1) / np.sqrt(regret.size)) if regret.size > 1 else 0.0,
    )


def stopping_lines(stopped: Sequence[Stopped], *, seed: int) -> list[str]:
    """The study in Markdown, line by line; figures in putts a round."""
    rows = {
        "stops when told": tally([one.told for one in stopped]),
        f"{PUTTS_A_BUILD} a build": tally([one.fixed for one in stopped]),
    }
    return [
        f"{len(stopped)} invented golfers of mixed worlds, seed {seed}, who look after every block",
        f"of {BATCH} putts and stop when told, against the same golfers after a fixed number.",
        "",
        _HEAD,
        "| --- | --- | --- | --- | --- | --- | --- | --- |",
        *(
            f"| {name} | {row.putts:.0f} | {100 * row.covered:.1f} % | {row.claims} "
            f"| {100 * row.wrong:.1f} % | {row.changes} | {row.promised_over_delivered:.2f} "
            f"| {row.regret:.2f} ± {row.regret_se:.2f} |"
            for name, row in rows.items()
        ),
    ]
