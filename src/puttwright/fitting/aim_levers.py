"""Which lever turns this golfer's aim, how far, and how sure that is.

The belief about the builds holds how far levers count for this golfer and where each
build aims. Given one draw of these the effect of a lever is normal, as the builds'
own locations are: its part of what the draw puts down to levers. Effects are drawn
from that, draw by draw, so that all of what is not known is in the interval.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.belief.model import Draws
from puttwright.evidence import Build
from puttwright.evidence.signs import side_word, toe_side
from puttwright.fitting.believe import Belief
from puttwright.fitting.decision import Estimate, Reason, RestsOn
from puttwright.fitting.levers import LEVERS, Lever, steps_from_first
from puttwright.fitting.phrases import interval, measure
from puttwright.fitting.priors import prior_of
from puttwright.fitting.value import estimate

Floats = NDArray[np.float64]

QUANTITY: Final = "aim"
SURE: Final = 0.9
"""A lever is named when its effect lies to one side with at least this probability."""

_STEPS: Final = {
    "offset_mm": "10 mm more offset",
    "loft_deg": "1° more loft",
    "length_mm": "an inch more length",
    "lie_deg": "2° more upright a lie",
}
_KINDS: Final = {
    "head_shape": "head", "sight_line": "sight line", "head_id": "head", "neck_style": "neck",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverEffect:
    """What one step of a lever does to where this golfer's face looks [°], right positive.

    ``step`` is it in words; between two kinds of a named lever, from ``kinds[0]`` to ``kinds[1]``.
    ``prior`` is what was believed beforehand, its sign for this hand; ``probability_right`` the
    chance that it turns the aim right; ``tried`` whether the builds aimed with differ by it.
    """

    lever: str
    step: str
    kinds: tuple[str, str] | None
    effect: Estimate
    prior: Estimate
    probability_right: float
    tried: bool
    source: str

    @property
    def learnt(self) -> bool:
        """Whether the readings say it, and not only what was believed beforehand."""
        by_readings = self.effect.mean - self.prior.mean
        return by_readings * self.effect.mean > 0.0 and abs(by_readings) > abs(self.prior.mean)

    @property
    def sure(self) -> bool:
        """Whether it lies to one side clearly enough to be named of this golfer."""
        clear = max(self.probability_right, 1.0 - self.probability_right) >= SURE
        return self.tried and self.learnt and clear


def aim_levers(belief: Belief, *, handed: str, seed: int = 1) -> tuple[LeverEffect, ...]:
    """Posterior effect of every lever of the table on where this golfer aims.

    Parameters
    ----------
    belief
        Of the fitting; without aim readings there is nothing to tell.
    handed
        The golfer's side, for the sign of levers that mirror.
    seed
        Makes the draws; same belief and seed, same effects.

    Returns
    -------
    tuple of LeverEffect
        Numeric levers per step, named ones for every two kinds among the builds.
    """
    if QUANTITY not in belief.posterior.draws:
        return ()
    drawing = _drawing(belief, handed=handed)
    rng = np.random.default_rng(np.random.SeedSequence([seed, 6]))
    aimed = {row.build_id for row in belief.gathered.rows[QUANTITY]}
    levers = [lever for lever in LEVERS if lever.quantity == QUANTITY]
    contrasts = [each for lever in levers for each in _contrasts(lever, belief.builds)]
    seen = np.array([build.build_id in aimed for build in belief.builds])
    return tuple(drawing.effects(contrasts, rng=rng, seen=seen))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Contrast:
    """A step of a lever: how much of it is in each build, and its variance in table units."""

    lever: Lever
    in_builds: Floats
    size: float
    step: str
    kinds: tuple[str, str] | None = None


def _contrasts(lever: Lever, builds: tuple[Build, ...]) -> list[_Contrast]:
    if lever.per:
        steps = steps_from_first(builds, lever)
        return [_Contrast(lever=lever, in_builds=steps, size=1.0, step=_STEPS[lever.lever])]
    kinds = [getattr(build, lever.lever) for build in builds]
    known = [kind for kind in dict.fromkeys(kinds) if kind is not None]
    return [
        _Contrast(
            lever=lever,
            in_builds=np.array([float(kind == new) - float(kind == old) for kind in kinds]),
            size=2.0,
            step=f"{_KINDS[lever.lever]} {_said(new)} instead of {_said(old)}",
            kinds=(old, new),
        )
        for old, new in combinations(known, 2)
    ]


def _said(kind: str) -> str:
    return kind.replace("_", " ")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawing:
    """Draws of an effect given the draws of the belief: what its levers leave to be explained.

    ``precision`` (draws, builds, builds) is that of the builds' aims, ``pull`` (draws, builds)
    the same times how far they lie from what was expected.
    """

    draws: Draws
    precision: Floats
    pull: Floats
    handed: str

    def effects(
        self, contrasts: Sequence[_Contrast], *, rng: np.random.Generator, seen: NDArray[np.bool_]
    ) -> Iterator[LeverEffect]:
        """The posterior of every contrast, by conditioning normals draw by draw."""
        steps = np.array([each.in_builds for each in contrasts])
        weighted = np.einsum("kc,dbc->kdb", steps, self.precision, optimize=True)
        inner = np.einsum("kdb,kb->kd", weighted, steps)
        pulled = steps @ self.pull.T
        noise = rng.standard_normal(inner.shape)
        for k, contrast in enumerate(contrasts):
            strength2 = (self.draws.strength * contrast.lever.sd) ** 2
            variance = strength2 * (contrast.size - strength2 * inner[k])
            spread = noise[k] * np.sqrt(np.maximum(variance, 0.0))
            tried = bool(np.ptp(contrast.in_builds[seen]) > 0.0) if seen.any() else False
            yield self._effect(contrast, strength2 * pulled[k] + spread, tried=tried)

    def _effect(self, contrast: _Contrast, turned: Floats, *, tried: bool) -> LeverEffect:
        """A contrast in figures; ``turned`` are draws of it beyond what was expected."""
        lever = contrast.lever
        sign = toe_side(self.handed) if lever.mirrors else 1
        expected = sign * lever.expected
        effect = expected + turned
        before = float(np.sqrt(contrast.size) * lever.sd)
        return LeverEffect(
            lever=lever.lever,
            step=contrast.step,
            kinds=contrast.kinds,
            effect=estimate(effect),
            prior=Estimate(
                mean=expected,
                sd=before,
                interval_90=(expected - 1.645 * before, expected + 1.645 * before),
            ),
            probability_right=float((effect > 0).mean()),
            tried=tried,
            source=lever.source,
        )


def _drawing(belief: Belief, *, handed: str) -> _Drawing:
    draws = belief.posterior.draws[QUANTITY]
    prior = prior_of(QUANTITY, builds=belief.builds, handed=handed)
    own = (draws.effect**2 + 1e-9)[:, None, None] * np.eye(len(belief.builds))
    levers = (draws.strength**2)[:, None, None] * prior.lever_covariance
    precision = np.asarray(np.linalg.inv(prior.common_sd**2 + levers + own), dtype=np.float64)
    pull = np.einsum("dbc,dc->db", precision, draws.location - prior.mean)
    return _Drawing(draws=draws, precision=precision, pull=pull, handed=handed)


def lever_reasons(belief: Belief, *, handed: str, seed: int = 1) -> tuple[Reason, ...]:
    """The levers that clearly turn this golfer's aim, the largest first, in words."""
    found = [each for each in aim_levers(belief, handed=handed, seed=seed) if each.sure]
    found.sort(key=lambda each: -abs(each.effect.mean))
    seqs = tuple(sorted(row.seq for row in belief.gathered.rows[QUANTITY])) if found else ()
    rests_on = (RestsOn(table="aims", seq=seqs),)
    return tuple(Reason(text=effect_words(each), rests_on=rests_on) for each in found)


def effect_words(each: LeverEffect, /) -> str:
    """One effect as a sentence, the interval beside it, and whether it was to be expected."""
    effect = each.effect
    size = measure(abs(effect.mean), "°", digits=1)
    low, high = effect.interval_90
    ends = (low, high) if effect.mean > 0 else (-high, -low)
    words = (
        f"{each.step[:1].upper()}{each.step[1:]} turns this golfer's aim {size} "
        f"{side_word(effect.mean)} ({interval(ends)}°)"
    )
    if each.prior.mean and each.prior.mean * effect.mean < 0.0:
        words += ", against common practice"
    return words + "."
