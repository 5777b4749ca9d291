"""Is there a build worth making that nobody has held? Only if it clearly beats what was tried."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.fitting.candidates import Candidate, candidates_of
from puttwright.fitting.choose import CHANGE_COST, SURE_ENOUGH
from puttwright.fitting.predict import predict
from puttwright.fitting.value import course_of
from puttwright.worth.pattern import Pattern
from puttwright.worth.surface import putts_per_round_of_many

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed

Floats = NDArray[np.float64]

_DRAWS: Final = 250
"""Enough to rank candidates; the best one is then weighed with as many as the builds tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extrapolation:
    """The best build never in hand: what it is believed to do, and its putts a round.

    ``pattern`` has shape (draws, 1) and ``putts`` (draws,), draw by draw with the builds tried.
    """

    candidate: Candidate
    pattern: Pattern
    putts: Floats


def best_beyond(weighed: Weighed, *, seed: int) -> Extrapolation | None:
    """The build never in hand that promises most, if any could be made."""
    found = candidates_of(weighed.fitting, builds=weighed.builds)
    if not found:
        return None
    ranked = _weigh(weighed, found, draws=_DRAWS, seed=seed)
    best = found[int(ranked.putts.mean(axis=0).argmin())]
    alone = _weigh(weighed, (best,), draws=weighed.values.putts.shape[0], seed=seed)
    return Extrapolation(candidate=best, pattern=alone.pattern, putts=alone.putts[:, 0])


def worth_a_trial(weighed: Weighed, best: Extrapolation | None) -> Extrapolation | None:
    """The build never in hand if it is worth ordering on trial.

    It must promise :data:`~puttwright.fitting.choose.CHANGE_COST` more than the
    choice (or the own putter) and be likelier right than not by the same bar.
    """
    if best is None:
        return None
    standing = weighed.choice.choice if isinstance(weighed.choice.choice, int) else 0
    gain = weighed.values.putts[:, standing] - best.putts
    if float(gain.mean()) < CHANGE_COST or float((gain > 0.0).mean()) < SURE_ENOUGH:
        return None
    return best


@dataclass(frozen=True, slots=True, kw_only=True)
class _Worth:
    pattern: Pattern
    putts: Floats


def _weigh(weighed: Weighed, found: tuple[Candidate, ...], *, draws: int, seed: int) -> _Worth:
    handed = weighed.fitting.golfer.handed
    pattern = predict(weighed.belief, found, handed=handed, draws=draws, seed=seed)
    return _Worth(
        pattern=pattern, putts=putts_per_round_of_many(pattern, course=course_of(weighed.fitting))
    )
