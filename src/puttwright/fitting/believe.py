"""Belief about a fitting: a posterior of every quantity that was read, build by build."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri, stdtrit

from puttwright.belief.model import Posterior, Quantity
from puttwright.belief.sample import sample_posterior
from puttwright.evidence import Build, Fitting
from puttwright.fitting.priors import FOLLOW_MEAN, FOLLOW_SD, prior_of
from puttwright.fitting.readings import Gathered, gather
from puttwright.fitting.strike_spread import log_spread_offset, strike_sd_mm_of
from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]

ALWAYS = ("start", "pace")
"""Worth rests on these; without readings their posterior is the prior, wide and honest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """Posterior of a fitting: ``builds`` in the order of the arrays, the golfer's own first."""

    builds: tuple[Build, ...]
    gathered: Gathered
    posterior: Posterior

    def pattern(self, *, draws: int | None = None) -> Pattern:
        """Patterns of putts, shape (draws, builds); evenly thinned when fewer are asked for."""
        start, pace = self.posterior.draws["start"], self.posterior.draws["pace"]
        keep = self.kept(draws)
        return Pattern(
            start_sd_rad=np.radians(self.spread_sd("start")[keep]),
            start_bias_rad=np.radians(start.location[keep]),
            pace_sd=self.spread_sd("pace")[keep],
            pace_bias=np.maximum(pace.location[keep], -0.95),
        )

    def kept(self, draws: int | None) -> NDArray[np.intp]:
        """Numbers of the draws that are used when so many are asked for, evenly thinned."""
        total = self.posterior.draws["start"].location.shape[0]
        return np.arange(total) if draws is None else np.linspace(0, total - 1, draws).astype(int)

    @property
    def tried(self) -> NDArray[np.bool_]:
        """Which builds were putted with, shape (builds,)."""
        putted = {row.build_id for name in ALWAYS for row in self.gathered.rows[name]}
        return np.array([build.build_id in putted for build in self.builds])

    @property
    def strike_sd_mm(self) -> float:
        """Spread of the golfer's strikes along the face, pooled with what is usual [mm]."""
        return _strike_sd_mm(self.gathered, builds=[build.build_id for build in self.builds])

    def spread_sd(self, quantity: str) -> Floats:
        """Spread of a quantity as the normal spread with the same middle nine tenths."""
        draws = self.posterior.draws[quantity]
        return draws.spread * normal_equivalent(draws.nu)[:, None]


def _strike_sd_mm(gathered: Gathered, *, builds: list[str]) -> float:
    strikes = gathered.readings("strike", builds=builds)
    return strike_sd_mm_of(strikes.value, strikes.group)


def normal_equivalent(nu: Floats) -> Floats:
    """Factor from the scale of a t distribution to a normal's holding the same 90 %."""
    few, which = np.unique(nu, return_inverse=True)
    return np.asarray((stdtrit(few, 0.95) / ndtri(0.95))[which])


def own_first(fitting: Fitting) -> tuple[Build, ...]:
    """The builds with the golfer's own putter first, which the others are held against."""
    own = fitting.build(fitting.own_build)
    return (own, *(build for build in fitting.builds if build.build_id != own.build_id))


def believe(fitting: Fitting, *, seed: int) -> Belief:
    """Posterior of all that was read at a fitting.

    Parameters
    ----------
    fitting
        The evidence; builds without readings get what the levers and the prior say.
    seed
        Makes the draws.
    """
    builds = own_first(fitting)
    gathered = gather(fitting)
    ids = [build.build_id for build in builds]
    strike_sd_mm = _strike_sd_mm(gathered, builds=ids)
    names = [name for name in ("aim", *ALWAYS) if name in ALWAYS or gathered.rows[name]]
    names += [
        name for name in gathered.rows if name not in ("aim", *ALWAYS) and gathered.rows[name]
    ]
    quantities = [
        Quantity(
            name=name,
            readings=gathered.readings(name, builds=ids),
            prior=prior_of(
                name,
                builds=builds,
                handed=fitting.golfer.handed,
                log_spread_offset=log_spread_offset(name, builds=builds, strike_sd_mm=strike_sd_mm),
            ),
            parent="aim" if name == "start" and "aim" in names else None,
            gamma_mean=FOLLOW_MEAN,
            gamma_sd=FOLLOW_SD,
        )
        for name in names
    ]
    posterior = sample_posterior(quantities, seed=seed)
    return Belief(builds=builds, gathered=gathered, posterior=posterior)
