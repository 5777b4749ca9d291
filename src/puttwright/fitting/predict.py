"""What is believed of builds nobody has held: the levers carry over what the tried ones taught.

A bent or lengthened build keeps its kin's own effect and moves with the levers as
far as this golfer's readings have taught how strong they are. A head that was
never in hand has an effect of its own, about which nothing is known. All that is
guesswork is drawn as such, so the intervals are as wide as they should be.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from puttwright.belief.model import Draws
from puttwright.evidence import Build
from puttwright.fitting.believe import Belief, normal_equivalent
from puttwright.fitting.candidates import Candidate
from puttwright.fitting.levers import expected_location, lever_covariance
from puttwright.fitting.priors import BY_NAME
from puttwright.fitting.strike_spread import log_spread_offset
from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]


def predict(
    belief: Belief, candidates: Sequence[Candidate], *, handed: str, draws: int, seed: int
) -> Pattern:
    """Patterns of builds never in hand, shape (draws, candidates).

    Parameters
    ----------
    belief
        What was learnt of the builds tried; the same draws are used, thinned.
    candidates
        What could be made.
    handed
        The golfer's side, for levers that mirror.
    draws, seed
        How many draws, and what makes the parts of them nobody has seen.
    """
    rng = np.random.default_rng(np.random.SeedSequence([seed, len(candidates)]))
    beyond = _Beyond(
        belief=belief, candidates=tuple(candidates), handed=handed, keep=belief.kept(draws), rng=rng
    )
    start = beyond.locations("start")
    posterior = belief.posterior.draws
    if "aim" in posterior:
        start += posterior["start"].gamma[beyond.keep, None] * beyond.locations("aim")
    return Pattern(
        start_sd_rad=np.radians(beyond.spreads_sd("start")),
        start_bias_rad=np.radians(start),
        pace_sd=beyond.spreads_sd("pace"),
        pace_bias=np.maximum(beyond.locations("pace"), -0.95),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Beyond:
    """Locations and spreads of candidates given those of the builds tried, draw by draw."""

    belief: Belief
    candidates: tuple[Candidate, ...]
    handed: str
    keep: NDArray[np.intp]
    rng: np.random.Generator

    @property
    def everything(self) -> tuple[Build, ...]:
        """The builds tried, then the candidates."""
        return (*self.belief.builds, *(candidate.build for candidate in self.candidates))

    @property
    def kin(self) -> NDArray[np.intp]:
        """Whose own effect each of :attr:`everything` has."""
        tried = range(len(self.belief.builds))
        return np.array([*tried, *(candidate.kin for candidate in self.candidates)])

    def locations(self, name: str) -> Floats:
        """A quantity's own part (without what it follows) for each candidate."""
        draws = self.belief.posterior.draws[name]
        tried = len(self.belief.builds)
        mean = BY_NAME[name].usual + expected_location(
            self.everything, quantity=name, handed=self.handed
        )
        residual = self._own_part(name, draws) - mean[:tried]
        prior = self._prior(name, draws)
        weights = np.linalg.solve(prior.among, prior.across)
        expected = np.einsum("dtc,dt->dc", weights, residual)
        variance = prior.own - np.einsum("dtc,dtc->dc", weights, prior.across)
        noise = self.rng.standard_normal(expected.shape)
        return np.asarray(mean[tried:] + expected + np.sqrt(np.maximum(variance, 0.0)) * noise)

    def spreads_sd(self, name: str) -> Floats:
        """Spread of each candidate: its kin's, or what the pool says of a head nobody held."""
        draws = self.belief.posterior.draws[name]
        tried = len(self.belief.builds)
        offset = log_spread_offset(
            name, builds=self.everything, strike_sd_mm=self.belief.strike_sd_mm
        )
        columns = [
            np.log(draws.spread[self.keep, candidate.kin])
            if candidate.kin < tried
            else self._unknown_log_spread(draws) + offset[tried + k] - offset[:tried].mean()
            for k, candidate in enumerate(self.candidates)
        ]
        scale = np.exp(np.stack(columns, axis=1))
        return np.asarray(scale * normal_equivalent(draws.nu[self.keep])[:, None])

    def _unknown_log_spread(self, draws: Draws) -> Floats:
        effect = draws.spread_effect[self.keep]
        noise = self.rng.standard_normal(self.keep.size)
        return np.asarray(draws.spread_centre[self.keep] + effect * noise)

    def _own_part(self, name: str, draws: Draws) -> Floats:
        location = draws.location[self.keep]
        posterior = self.belief.posterior.draws
        if name == "start" and "aim" in posterior:
            followed = draws.gamma[self.keep, None] * posterior["aim"].location[self.keep]
            return np.asarray(location - followed)
        return location

    def _prior(self, name: str, draws: Draws) -> _PriorBlocks:
        """Prior covariance in each draw, in the blocks that are needed."""
        tried = len(self.belief.builds)
        shared = np.equal.outer(self.kin, self.kin[:tried]).astype(float)
        levers = lever_covariance(self.everything, quantity=name)
        strength = draws.strength[self.keep] ** 2
        effect = draws.effect[self.keep] ** 2
        common = BY_NAME[name].common_sd ** 2
        block = (
            common + strength[:, None, None] * levers[:, :tried] + effect[:, None, None] * shared
        )
        tiny = 1e-9
        own = common + strength[:, None] * np.diag(levers)[tried:] + effect[:, None] + tiny
        return _PriorBlocks(
            among=block[:, :tried] + tiny * np.eye(tried),
            across=np.swapaxes(block[:, tried:], 1, 2),
            own=own,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _PriorBlocks:
    """Covariance among the builds tried, across to the candidates, and the candidates' own."""

    among: Floats
    across: Floats
    own: Floats
