"""Which build to hand over after which, so that what one leaves in the hands favours none.

What was in hand just before colours the first putts with the next putter. When
each build comes after each other equally often (Williams 1949), that colour is
the same for all and falls out of the comparison. The first round is a row of
such a design, the golfer's own putter first. Later rounds give the most
valuable builds more, so full balance cannot be had; then the order is taken
that comes nearest to it, given what came after what so far.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, permutations
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence import Build, Fitting
from puttwright.fitting.next_trial import BATCH, Allotment, allot

Floats = NDArray[np.float64]

AHEAD: Final = 5
"""Blocks planned ahead: what fits on one line; the rest is planned when readings are in."""
_NEARLY_AS_GOOD: Final = 0.5
"""The next block promises at least this share of the best one; balance chooses among such."""


def williams(builds: int) -> NDArray[np.int64]:
    """Orders of so many builds in which each follows each other equally often.

    Williams 1949: the zigzag 0, 1, n-1, 2, n-2, ... and its cyclic shifts; for an
    odd number the mirror images too.

    Parameters
    ----------
    builds
        How many, at least 1.

    Returns
    -------
    ndarray, shape (builds, builds) or (2 builds, builds)
        An order in each row; the first starts with build 0.

    Examples
    --------
    >>> williams(4).tolist()
    [[0, 1, 3, 2], [1, 2, 0, 3], [2, 3, 1, 0], [3, 0, 2, 1]]
    """
    steps = np.arange(1, builds)
    zigzag = np.concatenate([[0], np.cumsum(np.where(steps % 2, steps, -steps))])
    rows = (zigzag + np.arange(builds)[:, None]) % builds
    if builds % 2 and builds > 1:
        rows = np.concatenate([rows, rows[:, ::-1]])
    return rows.astype(np.int64)


def imbalance(order: Sequence[int], *, builds: int) -> float:
    """How far what came before each build is from a fair mix of the others.

    The squared differences, summed over pairs of builds, between how often one
    came right after the other and how often it would if the others had taken
    turns in proportion to their own blocks. A build after itself counts in full.

    Examples
    --------
    >>> imbalance([0, 1, 2, 0, 2, 1, 0], builds=3) < imbalance([0, 1, 2, 0, 1, 2, 0], builds=3)
    True
    """
    after = np.zeros((builds, builds))
    np.add.at(after, (list(order[:-1]), list(order[1:])), 1.0)
    blocks = np.bincount(list(order), minlength=builds).astype(float)
    others = np.maximum(blocks.sum() - blocks, 1.0)
    fair = np.outer(blocks, after.sum(axis=0) / others)
    np.fill_diagonal(fair, 0.0)
    return float(((after - fair) ** 2).sum())


@dataclass(frozen=True, slots=True, kw_only=True)
class SoFar:
    """What was handed over so far: builds in the order of their blocks, and the last block's putts.

    ``tried`` are the builds with at least one putt that counts.
    """

    order: tuple[int, ...]
    last_putts: int
    tried: frozenset[int]

    @property
    def unfinished(self) -> int:
        """Putts still to come in the block at hand."""
        return max(BATCH - self.last_putts, 0) if self.order else 0


def so_far(fitting: Fitting, *, builds: Sequence[Build]) -> SoFar:
    """Blocks of a fitting, read off its putts; voided ones were in hand all the same."""
    number = {build.build_id: index for index, build in enumerate(builds)}
    putts = sorted(fitting.putts, key=lambda putt: putt.seq)
    runs = [
        (number[build_id], sum(1 for _ in run))
        for build_id, run in groupby(putts, key=lambda putt: putt.build_id)
    ]
    return SoFar(
        order=tuple(build for build, _ in runs),
        last_putts=runs[-1][1] if runs else 0,
        tried=frozenset(number[putt.build_id] for putt in fitting.used_putts),
    )


def running_order(
    done: SoFar, putts: Floats, *, noise: Floats, ahead: int = AHEAD
) -> tuple[tuple[int, int], ...]:
    """What to hand over now and after, as (build, putts).

    A block that was begun is finished first. Builds nobody has putted with follow,
    in the order of a row of the design; then the blocks that are worth most.

    Parameters
    ----------
    done
        What was handed over so far.
    putts, noise
        Draws of putts a round, shape (draws, builds), and what one putt leaves of doubt.
    ahead
        Blocks to plan at least; every build not yet tried is in the plan.
    """
    first = [int(b) for b in williams(putts.shape[1])[0] if b not in done.tried]
    begun = done.order[-1:] if done.unfinished else ()
    fresh = [b for b in first if b not in begun]
    wanted = max(ahead - len(fresh) - len(begun), 0)
    worth = allot(putts, noise=noise, blocks=wanted, already=(*begun, *fresh))
    before = (*done.order, *fresh)
    order = (*fresh, *_arranged(before, worth, builds=putts.shape[1]))
    blocks = [(b, done.unfinished) for b in begun] + [(b, BATCH) for b in order]
    return tuple(
        (build, sum(putts for _, putts in run))
        for build, run in groupby(blocks, key=lambda block: block[0])
    )


def _arranged(before: Sequence[int], worth: Allotment, *, builds: int) -> tuple[int, ...]:
    """The blocks in the order nearest to balance; of equal ones the most valuable first."""
    promise = _promise(worth)
    hand = before[-1] if before else None
    best = max((promise[b] for b in promise if b != hand), default=0.0)
    heads = {b for b in promise if b != hand and promise[b] >= _NEARLY_AS_GOOD * best}

    def cost(order: tuple[int, ...]) -> tuple[float, float, tuple[int, ...]]:
        early = sum(promise[b] / (place + 1.0) for place, b in enumerate(order))
        return round(imbalance([*before, *order], builds=builds), 6), -early, order

    orders = {order for order in permutations(worth.builds) if not heads or order[0] in heads}
    return min(orders, key=cost, default=())


def _promise(worth: Allotment) -> dict[int, float]:
    """What the first block of each build promises."""
    promise: dict[int, float] = {}
    for b, gain in zip(worth.builds, worth.gains, strict=True):
        promise.setdefault(b, float(gain))
    return promise
