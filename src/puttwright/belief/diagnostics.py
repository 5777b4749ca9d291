"""Do the chains agree? Rank-normalised R-hat and effective sample size.

Vehtari, Gelman, Simpson, Carpenter & Bürkner 2021, Bayesian Analysis 16(2):
667-718. Ours because the library that has them takes three seconds to import;
the tests hold both functions against it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.fft import irfft, next_fast_len, rfft
from scipy.special import ndtri

from puttwright.cores import cores, on_all_cores

Floats = NDArray[np.float64]


def _split(draws: Floats) -> Floats:
    half = draws.shape[-1] // 2
    return np.concatenate([draws[..., :half], draws[..., -half:]], axis=-2)


def _rank_normal(draws: Floats) -> Floats:
    flat = draws.reshape(*draws.shape[:-2], -1)
    n = flat.shape[-1]
    scores = np.empty_like(flat)
    by_rank = np.broadcast_to(ndtri((np.arange(1.0, n + 1.0) - 0.375) / (n + 0.25)), flat.shape)
    np.put_along_axis(scores, flat.argsort(axis=-1), by_rank, axis=-1)
    return scores.reshape(draws.shape)


def _plain_r_hat(draws: Floats) -> Floats:
    n = draws.shape[-1]
    within = draws.var(axis=-1, ddof=1).mean(axis=-1)
    between = n * draws.mean(axis=-1).var(axis=-1, ddof=1)
    return np.asarray(np.sqrt((between / within + n - 1.0) / n))


def rank_r_hat(draws: Floats) -> Floats:
    """Rank-normalised split R-hat, the worse of bulk and folded.

    Parameters
    ----------
    draws
        Shape (..., chains, draws).

    Returns
    -------
    ndarray
        One figure per parameter; 1 when the chains cannot be told apart.
    """
    split = _split(draws)
    return _worse_r_hat(split, _rank_normal(split))


def _worse_r_hat(split: Floats, scores: Floats) -> Floats:
    folded = np.abs(split - np.median(split, axis=(-1, -2), keepdims=True))
    return np.maximum(_plain_r_hat(scores), _plain_r_hat(_rank_normal(folded)))


def bulk_ess(draws: Floats) -> Floats:
    """Effective number of independent draws, by Geyer's initial monotone sequence.

    Parameters
    ----------
    draws
        Shape (..., chains, draws).

    Returns
    -------
    ndarray
        One figure per parameter.
    """
    return _ess_of(_rank_normal(_split(draws)))


def agreement(draws: Floats) -> tuple[Floats, Floats]:
    """Both of the above for the price of little more than one, shared between the cores.

    Parameters
    ----------
    draws
        Shape (parameters, chains, draws).

    Returns
    -------
    tuple
        :func:`rank_r_hat` and :func:`bulk_ess`.
    """
    parts = np.array_split(draws, min(cores(), len(draws)))
    r_hat, ess = zip(*on_all_cores(_agreement, parts), strict=True)
    return np.concatenate(r_hat), np.concatenate(ess)


def _agreement(draws: Floats) -> tuple[Floats, Floats]:
    split = _split(draws)
    scores = _rank_normal(split)
    return _worse_r_hat(split, scores), _ess_of(scores)


def _ess_of(z: Floats) -> Floats:
    chains, n = z.shape[-2:]
    size = next_fast_len(2 * n, real=True)
    centred = z - z.mean(axis=-1, keepdims=True)
    spectrum = rfft(centred, size, axis=-1)
    power = spectrum.real**2 + spectrum.imag**2
    covariance = irfft(power.mean(axis=-2), size, axis=-1)[..., :n] / n
    within = covariance[..., 0] * n / (n - 1.0)
    variance = within * (n - 1.0) / n + z.mean(axis=-1).var(axis=-1, ddof=1)
    rho = 1.0 - (within[..., None] - covariance) / variance[..., None]
    rho[..., 0] = 1.0
    pairs = rho[..., 0 : 2 * (n // 2) : 2] + rho[..., 1 : 2 * (n // 2) : 2]
    alive = np.logical_and.accumulate(pairs > 0.0, axis=-1)
    falling = np.minimum.accumulate(np.where(alive, pairs, 0.0), axis=-1)
    tau = np.maximum(-1.0 + 2.0 * falling.sum(axis=-1), 1.0 / np.log10(chains * n))
    return np.asarray(chains * n / tau)
