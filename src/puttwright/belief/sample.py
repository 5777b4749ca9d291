"""Posterior of a set of quantities: chains run side by side and checked."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from puttwright.belief.arrays import Given, State
from puttwright.belief.diagnostics import agreement
from puttwright.belief.model import NU_GRID, Diagnostics, Draws, Posterior, Quantity, Readings
from puttwright.cores import on_all_cores

Floats = NDArray[np.float64]

CHAINS = 4
WARM_UP = 100
DRAWS = 300
_MOST_RERUNS = 2
_HYPER = 7


def sample_posterior(
    quantities: Sequence[Quantity],
    *,
    seed: int,
    chains: int = CHAINS,
    warm_up: int = WARM_UP,
    draws: int = DRAWS,
) -> Posterior:
    """Draw from the posterior of quantities over the same groups.

    Parameters
    ----------
    quantities
        Any number; one that follows another (``parent``) names it.
    seed
        Makes the draws; same seed and readings, same draws.
    chains, warm_up, draws
        Number of chains, sweeps thrown away and sweeps kept in each.

    Returns
    -------
    Posterior
        Chains that disagree are run again four times as long, at most twice;
        if they still do, ``diagnostics.poor`` says so.
    """
    names = [quantity.name for quantity in quantities]
    for rerun in range(_MOST_RERUNS + 1):
        longer = 4**rerun
        parts = _run_chains(
            quantities, seed=seed, chains=chains, warm_up=warm_up * longer, draws=draws * longer
        )
        posterior = Posterior(
            draws={name: _draws(parts, q) for q, name in enumerate(names)},
            diagnostics=_diagnose(parts, quantities),
            chains=chains,
            reruns=rerun,
        )
        if not posterior.diagnostics.poor:
            break
    return posterior


def _run_chains(
    quantities: Sequence[Quantity], *, seed: int, chains: int, warm_up: int, draws: int
) -> tuple[Floats, Floats, Floats]:
    """Location, spread and hyperparameters, each with leading axes (chain, draw, quantity)."""
    from puttwright.belief.kernels import run_chain  # noqa: PLC0415 - the compiler loads late

    q, groups = len(quantities), quantities[0].prior.groups
    location = np.empty((chains, draws, q, groups))
    spread = np.empty((chains, draws, q, groups))
    hyper = np.empty((chains, draws, q, _HYPER))
    given = _given(quantities)
    seeds = np.random.SeedSequence(seed).spawn(chains)

    def run(chain: int) -> None:
        rng = np.random.Generator(np.random.PCG64(seeds[chain]))
        state = _starting_point(quantities, rng)
        run_chain(rng, warm_up, given, state, location[chain], spread[chain], hyper[chain])

    on_all_cores(run, range(chains))
    return location, spread, hyper


def _given(quantities: Sequence[Quantity]) -> Given:
    """The arrays all chains read: structure, priors and readings."""
    names = [quantity.name for quantity in quantities]
    readings = [_by_group(quantity.readings) for quantity in quantities]
    priors = [quantity.prior for quantity in quantities]
    return Given(
        nu_grid=NU_GRID,
        bounds=_bounds(readings, groups=priors[0].groups),
        parent=np.array(
            [names.index(x.parent) if x.parent else -1 for x in quantities], dtype=np.int64
        ),
        scales=np.array([_scales(quantity) for quantity in quantities]),
        mean=np.array([prior.mean for prior in priors], dtype=float),
        levers=np.array([prior.lever_covariance for prior in priors], dtype=float),
        offset=np.array([prior.log_spread_offset for prior in priors], dtype=float),
        low=np.concatenate([r.low for r in readings]),
        high=np.concatenate([r.high for r in readings]),
        censored=np.concatenate([r.censored for r in readings]),
        partner=_partners(np.concatenate([r.pair for r in readings])),
        group=np.concatenate([r.group for r in readings]),
        order=np.concatenate([r.order for r in readings]),
        instrument_var=np.concatenate([r.instrument_sd for r in readings]) ** 2,
    )


def _by_group(readings: Readings) -> Readings:
    """The readings with those of each group side by side."""
    order = np.argsort(readings.group, kind="stable")
    return Readings(
        value=readings.value[order],
        group=readings.group[order],
        instrument_sd=readings.instrument_sd[order],
        order=readings.order[order],
        low=readings.low[order],
        high=readings.high[order],
        pair=readings.pair[order],
    )


def _partners(pair: NDArray[np.int64]) -> NDArray[np.int64]:
    """The other reading of each pair, by its place among all readings; -1 for none."""
    partner = np.full(pair.size, -1)
    first: dict[int, int] = {}
    for place, number in enumerate(pair.tolist()):
        if number >= 0 and number in first:
            partner[place], partner[first[number]] = first[number], place
        elif number >= 0:
            first[number] = place
    return partner


def _bounds(readings: Sequence[Readings], *, groups: int) -> NDArray[np.int64]:
    """Where each group's readings begin and end in the concatenated arrays, (Q, B + 1)."""
    bounds, offset = [], 0
    for one in readings:
        bounds.append(offset + np.searchsorted(one.group, np.arange(groups + 1)))
        offset += one.value.size
    return np.array(bounds, dtype=np.int64)


def _scales(quantity: Quantity) -> list[float]:
    prior = quantity.prior
    return [
        prior.common_sd,
        prior.effect_sd,
        prior.strength_sd,
        prior.log_spread_mean,
        prior.log_spread_sd,
        prior.spread_effect_sd,
        prior.drift_sd,
        quantity.gamma_mean,
        quantity.gamma_sd,
    ]


def _starting_point(quantities: Sequence[Quantity], rng: np.random.Generator) -> State:
    """A dispersed start; intervals are put in their middle, unread ones of a pair below theirs."""
    starts = [_start_of(quantity, rng) for quantity in quantities]
    value = np.concatenate([start[0] for start in starts])
    q, groups = len(quantities), quantities[0].prior.groups
    return State(
        value=value,
        location=np.array([start[1] for start in starts]),
        log_spread=np.array([start[2] for start in starts]),
        hyper=np.array([start[3] for start in starts]),
        precision=np.ones(value.size),
        fitted=np.zeros(value.size),
        steps=np.full((q, 3 + groups), 0.5),
        data_precision=np.zeros((groups, groups)),
        data_pull=np.zeros(groups),
        matrices=np.zeros((6, groups, groups)),
        vectors=np.zeros((8, groups)),
    )


def _start_of(
    quantity: Quantity, rng: np.random.Generator
) -> tuple[Floats, Floats, Floats, list[float]]:
    """Readings, locations, log spreads and hyperparameters of one quantity to start from."""
    prior, readings = quantity.prior, _by_group(quantity.readings)
    low, high = np.nan_to_num(readings.low), np.nan_to_num(readings.high)
    inside = np.where(readings.pair < 0, 0.5 * (low + high), low - 0.1 * (high - low))
    value = np.where(readings.censored, inside, readings.value)
    typical = float(np.median(value)) if value.size else float(prior.mean.mean())
    location = typical + 0.5 * prior.effect_sd * rng.standard_normal(prior.groups)
    centre = prior.log_spread_mean + 0.3 * prior.log_spread_sd * rng.standard_normal()
    log_spread = centre + prior.log_spread_offset + 0.1 * rng.standard_normal(prior.groups)
    strength = prior.strength_sd * rng.uniform(0.3, 1.0) if prior.strength_sd > 0 else 1e-12
    hyper = [
        prior.effect_sd * rng.uniform(0.3, 1.0),
        strength,
        centre,
        prior.spread_effect_sd * rng.uniform(0.3, 1.0),
        0.0,
        quantity.gamma_mean if quantity.parent else 0.0,
        float(rng.integers(NU_GRID.size)),
    ]
    return value, location, log_spread, hyper


def _draws(parts: tuple[Floats, Floats, Floats], q: int) -> Draws:
    location, spread, hyper = (part[:, :, q].reshape(-1, part.shape[-1]) for part in parts)
    return Draws(
        location=location,
        spread=spread,
        effect=hyper[:, 0],
        strength=hyper[:, 1],
        spread_centre=hyper[:, 2],
        spread_effect=hyper[:, 3],
        drift=hyper[:, 4],
        gamma=hyper[:, 5],
        nu=NU_GRID[hyper[:, 6].astype(int)],
    )


def _diagnose(parts: tuple[Floats, Floats, Floats], quantities: Sequence[Quantity]) -> Diagnostics:
    """R-hat and ESS of everything reported: locations, spreads and pooling scales."""
    location, spread, hyper = parts
    by_parameter, names = [], []
    for q, quantity in enumerate(quantities):
        moving = _moving(quantity)
        by_parameter += [location[:, :, q], np.log(spread[:, :, q]), hyper[:, :, q][..., moving]]
        groups = range(quantity.prior.groups)
        names += [f"location of {quantity.name} {b}" for b in groups]
        names += [f"spread of {quantity.name} {b}" for b in groups]
        names += [f"pooling of {quantity.name} {k}" for k in moving]
    draws = np.moveaxis(np.concatenate(by_parameter, axis=-1), -1, 0)
    r_hat, ess = agreement(draws)
    return Diagnostics(
        r_hat_max=float(r_hat.max()), ess_min=float(ess.min()), worst=names[int(r_hat.argmax())]
    )


def _moving(quantity: Quantity) -> list[int]:
    """Columns of the hyperparameters that are not held fixed (the tail weight is on a grid)."""
    moving = [0, 2, 3]
    if quantity.prior.strength_sd > 0:
        moving.append(1)
    if quantity.prior.drift_sd > 0:
        moving.append(4)
    if quantity.parent:
        moving.append(5)
    return moving
