"""Is there a build worth making that nobody has held? Only if it clearly beats what was tried."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from puttwright.fitting.candidates import Candidate, candidates_of, predict
from puttwright.fitting.choose import CHANGE_COST, SURE_ENOUGH
from puttwright.fitting.decision import Estimate
from puttwright.fitting.value import course_of, estimate
from puttwright.worth.rounds import putts_per_round

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed

_DRAWS: Final = 250


@dataclass(frozen=True, slots=True, kw_only=True)
class Extrapolation:
    """The best build never in hand, what it would save and how likely it beats the choice."""

    candidate: Candidate
    saved: Estimate
    beats_choice: float


def extrapolate(weighed: Weighed, *, seed: int) -> Extrapolation | None:
    """The build never in hand that is worth ordering on trial, if there is one.

    It must promise :data:`~puttwright.fitting.choose.CHANGE_COST` more than the
    choice (or the own putter) and be likelier right than not by the same bar.
    """
    found = candidates_of(weighed.fitting, builds=weighed.builds)
    if not found:
        return None
    handed = weighed.fitting.golfer.handed
    pattern = predict(weighed.belief, found, handed=handed, draws=_DRAWS, seed=seed)
    putts = putts_per_round(pattern, course=course_of(weighed.fitting))
    tried = putts_per_round(weighed.belief.pattern(draws=_DRAWS), course=course_of(weighed.fitting))
    saved = tried[:, :1] - putts
    best = int(saved.mean(axis=0).argmax())
    standing = weighed.choice.choice if isinstance(weighed.choice.choice, int) else 0
    gain = tried[:, standing] - putts[:, best]
    beats = float((gain > 0.0).mean())
    if float(gain.mean()) < CHANGE_COST or beats < SURE_ENOUGH:
        return None
    return Extrapolation(candidate=found[best], saved=estimate(saved[:, best]), beats_choice=beats)
