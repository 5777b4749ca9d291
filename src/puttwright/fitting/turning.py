"""What would change the answer: which open figure, how far it would have to lie, how likely.

For each figure of each build, the worth of every build is regressed on it over the
posterior draws (as Strong, Oakley & Brennan 2014 do for the value of partial
information; from memory). Where another build becomes the best on that curve, the
answer turns; how many draws lie beyond is how likely that is. Green speeds and
lengths of first putts are no readings: the answer is asked again with others.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence import Build
from puttwright.fitting.choose import CHANGE_COST
from puttwright.fitting.extrapolate import Extrapolation
from puttwright.worth.pattern import Pattern

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed

Floats = NDArray[np.float64]

LEAST_LIKELY: Final = 0.03
"""What is less likely than this to turn the answer is not told."""
_GRID: Final = np.linspace(0.01, 0.99, 99)
_DEGREE: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One of the four numbers of a pattern: its quantity, and whether it is the spread."""

    quantity: str
    spread: bool
    of: Callable[[Pattern], Floats]


FIGURES: Final = (
    Figure(quantity="start", spread=False, of=lambda p: np.degrees(p.start_bias_rad)),
    Figure(quantity="start", spread=True, of=lambda p: np.degrees(p.start_sd_rad)),
    Figure(quantity="pace", spread=False, of=lambda p: 100.0 * p.pace_bias),
    Figure(quantity="pace", spread=True, of=lambda p: 100.0 * p.pace_sd),
)
"""In degrees and percent, right and long positive."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """All builds that compete, with what they are worth and which one stands.

    ``worth`` has shape (draws, builds), in strokes a round less what a change has to
    earn; ``pattern`` the same shape. The golfer's own putter is number 0.
    """

    builds: tuple[Build, ...]
    pattern: Pattern
    worth: Floats
    answer: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """If ``figure`` of ``build`` lies at ``threshold`` or beyond, ``answer`` would be right.

    ``upward`` says on which side; ``now`` is what it looks like; ``probability`` how
    likely it lies there.
    """

    figure: Figure
    build: int
    now: float
    threshold: float
    upward: bool
    answer: int
    probability: float


def standing_of(weighed: Weighed, beyond: Extrapolation | None = None) -> Standing:
    """The builds tried, and the one never in hand if it is proposed."""
    putts, pattern, builds = weighed.values.putts, weighed.pattern, weighed.builds
    cost = np.where(np.arange(len(builds)) > 0, CHANGE_COST, 0.0)
    chosen = weighed.choice.choice
    answer = chosen if isinstance(chosen, int) else 0
    if beyond is not None:
        cost = np.append(cost, cost[answer] + CHANGE_COST)
        answer = len(builds)
        putts = np.column_stack([putts, beyond.putts])
        pattern = _joined(pattern, beyond.pattern)
        builds = (*builds, beyond.candidate.build)
    return Standing(builds=builds, pattern=pattern, worth=-putts - cost, answer=answer)


def _joined(one: Pattern, other: Pattern) -> Pattern:
    def both(name: str) -> Floats:
        return np.column_stack([getattr(one, name), getattr(other, name)])

    return replace(
        one,
        **{name: both(name) for name in ("start_sd_rad", "start_bias_rad", "pace_sd", "pace_bias")},
    )


def turns(standing: Standing) -> tuple[Turn, ...]:
    """What could turn the answer, the likeliest first; none where no build clearly stands."""
    mean = standing.worth.mean(axis=0)
    if int(mean.argmax()) != standing.answer:
        return ()
    drawn = [figure.of(standing.pattern) for figure in FIGURES]
    grids = [np.quantile(x, _GRID, axis=0) for x in drawn]
    found = [
        turn
        for build in range(len(standing.builds))
        for figure, x, grid in zip(FIGURES, drawn, grids, strict=True)
        for turn in _turns(standing, build, figure, x=x[:, build], grid=grid[:, build])
    ]
    likely = (turn for turn in found if turn.probability >= LEAST_LIKELY)
    return tuple(sorted(likely, key=lambda turn: -turn.probability))


def _turns(
    standing: Standing, build: int, figure: Figure, *, x: Floats, grid: Floats
) -> Sequence[Turn]:
    """Where on the curve of one figure the answer turns, on either side of what it looks like.

    ``x`` are the figure's draws for the build and ``grid`` their quantiles at :data:`_GRID`.
    """
    now, scale = float(x.mean()), float(x.std())
    if scale < 1e-9:
        return ()
    terms = np.vander((x - now) / scale, _DEGREE + 1)
    # four columns of standardised powers: well conditioned, so no singular values are needed
    fit = np.linalg.solve(terms.T @ terms, terms.T @ standing.worth)
    best = (np.vander((grid - now) / scale, _DEGREE + 1) @ fit).argmax(axis=1)
    found = []
    for upward in (True, False):
        turned = _outermost(best != standing.answer, upward=upward) & ((grid > now) == upward)
        if turned.any():
            # The threshold is the point of the grid nearest to what it looks like.
            k = int(np.flatnonzero(turned)[0 if upward else -1])
            beyond = x >= grid[k] if upward else x <= grid[k]
            turn = Turn(
                figure=figure,
                build=build,
                now=now,
                threshold=float(grid[k]),
                upward=upward,
                answer=int(best[k]),
                probability=float(beyond.mean()),
            )
            found.append(turn)
    return found


def _outermost(other: NDArray[np.bool_], *, upward: bool) -> NDArray[np.bool_]:
    """The run of true values at one end: from there on outward, the answer is another one."""
    run = np.logical_and.accumulate(other[::-1] if upward else other)
    return run[::-1] if upward else run
