"""Builds that were never in hand but could be made: what the levers say of them.

A trial putter may be bent or cut to what the rack allows. Such a variant keeps
its parent's own effect and moves with the levers as far as this golfer's
readings have taught how strong they are; everything else about it is guesswork,
is drawn as such and is worth a short confirming trial before it is ordered.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.belief.model import Draws
from puttwright.evidence import Build, Fitting, Part
from puttwright.fitting.believe import Belief
from puttwright.fitting.levers import expected_location, lever_covariance
from puttwright.fitting.priors import BY_NAME
from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]

LOFT_STEP_DEG: Final = 1.0
MOST_BEND_DEG: Final = 2.0
"""Beyond two degrees a club repair professional is asked first; a rule of this house."""
MOST_CUT_MM: Final = 50.8
_ALIKE_MM: Final = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A variant of build number ``parent`` with ``changes`` told in plain words."""

    build: Build
    parent: int
    changes: str


def candidates_of(fitting: Fitting, *, builds: Sequence[Build]) -> tuple[Candidate, ...]:
    """Variants of the builds that the rack's bend limits and shafts allow.

    Nothing is proposed for a head whose limits are not on the rack: what it is
    made of is not known, and metal that is not known is not bent.
    """
    heads = {part.part_id: part for part in fitting.rack if part.kind == "head"}
    shafts = [part for part in fitting.rack if part.kind == "shaft"]
    found: list[Candidate] = []
    for number, build in enumerate(builds):
        head = heads.get(build.head_id or "")
        found += [] if head is None else _bent(build, head, number)
        found += _other_lengths(build, shafts, number)
    return tuple(found)


def _bent(build: Build, head: Part, number: int) -> list[Candidate]:
    if head.loft_min_deg is None or head.loft_max_deg is None:
        return []
    low = max(head.loft_min_deg, build.loft_deg - MOST_BEND_DEG)
    high = min(head.loft_max_deg, build.loft_deg + MOST_BEND_DEG)
    lofts = build.loft_deg + LOFT_STEP_DEG * np.arange(-2, 3)
    return [
        Candidate(
            build=dataclasses.replace(build, loft_deg=float(loft)),
            parent=number,
            changes=f"bent from {build.loft_deg:.1f}° to {loft:.1f}° of loft",
        )
        for loft in lofts
        if low <= loft <= high and loft != build.loft_deg
    ]


def _other_lengths(build: Build, shafts: Sequence[Part], number: int) -> Iterator[Candidate]:
    lengths = {part.length_mm for part in shafts if part.length_mm and part.stock != 0}
    for length in sorted(lengths):
        if _ALIKE_MM < abs(length - build.length_mm) <= MOST_CUT_MM:
            yield Candidate(
                build=dataclasses.replace(build, length_mm=length),
                parent=number,
                changes=f"made {length:.0f} mm long instead of {build.length_mm:.0f} mm",
            )


def predict(
    belief: Belief, candidates: Sequence[Candidate], *, handed: str, draws: int, seed: int
) -> Pattern:
    """Patterns of builds never in hand, shape (draws, candidates).

    Parameters
    ----------
    belief
        What was learnt of the builds tried; the same draws are used, thinned.
    candidates
        What could be made of them.
    handed
        The golfer's side, for levers that mirror.
    draws, seed
        How many draws, and what makes the parts of them nobody has seen.
    """
    rng = np.random.default_rng(np.random.SeedSequence([seed, len(candidates)]))
    posterior = belief.posterior.draws
    total = posterior["start"].location.shape[0]
    keep = np.linspace(0, total - 1, draws).astype(int)
    krige = _Krige(belief=belief, candidates=tuple(candidates), handed=handed, keep=keep, rng=rng)
    parents = np.array([candidate.parent for candidate in candidates])
    start = krige.locations("start")
    if "aim" in posterior:
        start += posterior["start"].gamma[keep, None] * krige.locations("aim")
    return Pattern(
        start_sd_rad=np.radians(belief.spread_sd("start")[np.ix_(keep, parents)]),
        start_bias_rad=np.radians(start),
        pace_sd=belief.spread_sd("pace")[np.ix_(keep, parents)],
        pace_bias=np.maximum(krige.locations("pace"), -0.95),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Krige:
    """Locations of candidates given those of the builds tried, draw by draw."""

    belief: Belief
    candidates: tuple[Candidate, ...]
    handed: str
    keep: NDArray[np.intp]
    rng: np.random.Generator

    def locations(self, name: str) -> Floats:
        """A quantity's own part (without what it follows) for each candidate."""
        draws = self.belief.posterior.draws[name]
        tried = len(self.belief.builds)
        everything = (*self.belief.builds, *(c.build for c in self.candidates))
        mean = BY_NAME[name].usual + expected_location(
            everything, quantity=name, handed=self.handed
        )
        residual = self._own_part(name, draws) - mean[:tried]
        covariance = self._covariance(name, draws, everything)
        among = covariance[:, :tried, :tried]
        across = covariance[:, :tried, tried:]
        weights = np.linalg.solve(among, across)
        expected = np.einsum("dtc,dt->dc", weights, residual)
        own = np.diagonal(covariance[:, tried:, tried:], axis1=1, axis2=2)
        variance = own - np.einsum("dtc,dtc->dc", weights, across)
        noise = self.rng.standard_normal(expected.shape)
        return np.asarray(mean[tried:] + expected + np.sqrt(np.maximum(variance, 0.0)) * noise)

    def _own_part(self, name: str, draws: Draws) -> Floats:
        location = draws.location[self.keep]
        posterior = self.belief.posterior.draws
        if name == "start" and "aim" in posterior:
            followed = draws.gamma[self.keep, None] * posterior["aim"].location[self.keep]
            return np.asarray(location - followed)
        return location

    def _covariance(self, name: str, draws: Draws, everything: Sequence[Build]) -> Floats:
        """Prior covariance in each draw; a variant shares its parent's own effect."""
        parents = [*range(len(self.belief.builds)), *(c.parent for c in self.candidates)]
        shared = np.equal.outer(parents, parents).astype(float)
        levers = lever_covariance(everything, quantity=name)
        strength = draws.strength[self.keep, None, None]
        effect = draws.effect[self.keep, None, None]
        tiny = 1e-9 * np.eye(len(parents))
        return np.asarray(
            BY_NAME[name].common_sd ** 2 + strength**2 * levers + effect**2 * shared + tiny
        )
