"""The model of :mod:`puttwright.belief.model` written once more, for PyMC's NUTS.

Not a peer of convenience: every term stands here, in the parameterisation NUTS likes (locations
and log spreads from standard normals). Readings seen as intervals are unknowns inside them. The
tail weight is summed out over its grid, since NUTS cannot move on one.
"""

from __future__ import annotations

import warnings
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from puttwright.belief.model import NU_GRID, Quantity

with warnings.catch_warnings():
    # The plotting library PyMC brings in announces its own next version when it is imported.
    warnings.simplefilter("ignore", FutureWarning)
    warnings.simplefilter("ignore", DeprecationWarning)
    import pymc as pm
    import pytensor.tensor as pt


def pymc_model(quantities: Sequence[Quantity]) -> Any:
    """All quantities in one PyMC model; variables are called ``<quantity>_<parameter>``."""
    with pm.Model() as model:
        locations: dict[str, Any] = {}
        for quantity in quantities:
            locations[quantity.name] = _add(quantity, locations)
    return model


def _add(quantity: Quantity, locations: dict[str, Any]) -> Any:
    """One quantity; returns its locations for those that follow it."""
    location = _location(quantity, locations)
    log_spread = _log_spread(quantity)
    readings, prior, name = quantity.readings, quantity.prior, quantity.name
    drift = pm.Normal(f"{name}_drift", 0.0, prior.drift_sd) if prior.drift_sd > 0 else 0.0
    group = readings.group
    fitted = location[group] + drift * readings.order
    sd = pt.sqrt(pt.exp(2.0 * log_spread[group]) + readings.instrument_sd**2)
    z = (_values(quantity) - fitted) / sd
    by_nu = [pt.sum(pm.logp(pm.StudentT.dist(nu=nu), z) - pt.log(sd)) for nu in NU_GRID]
    pm.Potential(f"{name}_readings", pt.logsumexp(pt.stack(by_nu)))
    return location


def _location(quantity: Quantity, locations: dict[str, Any]) -> Any:
    prior, name = quantity.prior, quantity.name
    effect = pm.HalfNormal(f"{name}_effect", prior.effect_sd)
    own = pm.Normal(f"{name}_own", shape=prior.groups)
    location = prior.mean + prior.common_sd * pm.Normal(f"{name}_common") + effect * own
    if prior.strength_sd > 0:
        strength = pm.HalfNormal(f"{name}_strength", prior.strength_sd)
        root = np.linalg.cholesky(prior.lever_covariance + 1e-12 * np.eye(prior.groups))
        location += strength * pt.dot(root, pm.Normal(f"{name}_levers", shape=prior.groups))
    if quantity.parent:
        gamma = pm.Normal(f"{name}_gamma", quantity.gamma_mean, quantity.gamma_sd)
        location += gamma * locations[quantity.parent]
    return pm.Deterministic(f"{name}_location", location)


def _log_spread(quantity: Quantity) -> Any:
    prior, name = quantity.prior, quantity.name
    centre = pm.Normal(f"{name}_centre", prior.log_spread_mean, prior.log_spread_sd)
    width = pm.HalfNormal(f"{name}_spread_effect", prior.spread_effect_sd)
    own = pm.Normal(f"{name}_own_spread", shape=prior.groups)
    return pm.Deterministic(f"{name}_log_spread", centre + prior.log_spread_offset + width * own)


def _values(quantity: Quantity) -> Any:
    """The readings, those seen as intervals being unknown inside them."""
    readings = quantity.readings
    seen = np.where(readings.censored, 0.0, readings.value)
    hidden = np.flatnonzero(readings.censored)
    if not hidden.size:
        return pt.as_tensor_variable(seen)
    inside = pm.Uniform(
        f"{quantity.name}_inside", readings.low[hidden], readings.high[hidden], shape=hidden.size
    )
    return pt.set_subtensor(pt.as_tensor_variable(seen)[hidden], inside)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """Draws by variable, shape (chains, draws, ...), and how long they took once compiled."""

    draws: dict[str, np.ndarray]
    sampling_s: float


def sample_nuts(
    quantities: Sequence[Quantity], *, seed: int, chains: int, tune: int, draws: int
) -> Trace:
    """Draws by PyMC's NUTS, one chain after the other."""
    with warnings.catch_warnings(), pymc_model(quantities):
        warnings.filterwarnings("ignore", message="PyTensor could not link to a BLAS")
        trace = pm.sample(
            draws=draws,
            tune=tune,
            chains=chains,
            cores=1,
            random_seed=seed,
            target_accept=0.95,
            progressbar=False,
            compute_convergence_checks=False,
        )
    names = [str(name) for name in trace.posterior.data_vars]
    return Trace(
        draws={name: trace.posterior[name].to_numpy() for name in names},
        sampling_s=float(trace.posterior.attrs["sampling_time"]),
    )
