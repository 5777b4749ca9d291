"""Small classical data sets against the restricted likelihood (REML) figures printed for them.

What differs: REML reports the top of a likelihood, we the draws of a posterior. With a flat prior
on a pooling scale and on the log spread, and the mean integrated out, the posterior is the
restricted likelihood itself, so the top of the scale's own density is compared with REML's, and
allowed is a stated share of the REML figure's standard error, worked out from the mean squares by
the delta method. Draws with the lightest tails (60 degrees of freedom, as good as normal) are
compared, for REML has normal errors. Balanced sets enter by their mean squares: readings made to
have exactly these say the same of every figure here as the data do.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.stats import gaussian_kde, norm

from puttwright.belief.model import NU_GRID, Prior, Quantity, Readings
from puttwright.belief.sample import sample_posterior

SEEN = "published, text seen"
LME4 = "lme4 (Bates, Mächler, Bolker & Walker 2015), printed REML fit"


def spaced(n, *, mean_square):
    """Readings about 0, spaced like a normal sample, with that mean square on n - 1."""
    scores = norm.ppf((np.arange(n) + 0.5) / n)
    return scores * math.sqrt(mean_square / scores.var(ddof=1))


def normal_draws(readings, *, scale, middle, levers=None, known_sd=False, draws=3000):
    """Posterior with priors far wider than the data, all groups sharing one normal error."""
    groups = int(readings.group.max()) + 1
    prior = Prior(
        mean=np.full(groups, middle),
        lever_covariance=np.zeros((groups, groups)) if levers is None else levers,
        strength_sd=0.0 if levers is None else 20.0 * scale,
        common_sd=50.0 * scale,
        effect_sd=20.0 * scale,
        log_spread_mean=math.log(1e-4 * scale if known_sd else scale),
        log_spread_sd=0.01 if known_sd else 5.0,
        log_spread_offset=np.zeros(groups),
        spread_effect_sd=1e-3,
    )
    quantity = Quantity(name="yield", readings=readings, prior=prior)
    posterior = sample_posterior([quantity], seed=11, draws=draws)
    assert not posterior.diagnostics.poor
    return posterior.draws["yield"], posterior.draws["yield"].nu == NU_GRID[-1]


def top(draws):
    """Where the density of a scale is highest; mirrored at 0, where it may be."""
    density = gaussian_kde(np.concatenate([draws, -draws]), bw_method=0.12)
    grid = np.linspace(0.0, np.quantile(draws, 0.95), 400)
    return float(grid[np.argmax(density(grid))])


def one_way(batch_means, *, within, each):
    """Balanced readings of batches with these means and this mean square within."""
    batches = len(batch_means)
    values = np.repeat(batch_means, each) + np.tile(spaced(each, mean_square=within), batches)
    return Readings.of(values, np.repeat(np.arange(batches), each))


def test_dyestuff(validate):
    # Batch means of Davies & Goldsmith 1972, from memory; their mean square, 11271.5, is asserted.
    means = np.array([1505.0, 1528.0, 1564.0, 1498.0, 1600.0, 1470.0])
    between, within = 5.0 * means.var(ddof=1), 2451.25
    assert between == pytest.approx(11271.5)
    draws, normal = normal_draws(one_way(means, within=within, each=5), scale=50.0, middle=1500.0)
    batch_sd = math.sqrt(1764.05)
    error = between * math.sqrt(2.0 / 5.0) / 5.0 / (2.0 * batch_sd)
    validate(
        "Dyestuff: mean yield",
        source=LME4,
        evidence=SEEN,
        ours=draws.location[normal].mean(),
        theirs=1527.5,
        atol=0.1 * 19.383,
        unit="g",
    )
    validate(
        "Dyestuff: standard deviation of batches (a quarter of its standard error)",
        source=LME4,
        evidence=SEEN,
        ours=top(draws.effect[normal]),
        theirs=batch_sd,
        atol=0.25 * error,
        unit="g",
    )
    validate(
        "Dyestuff: residual standard deviation (half its standard error)", source=LME4,
        evidence=SEEN, ours=float(np.median(draws.spread[normal])), theirs=math.sqrt(within),
        atol=0.5 * math.sqrt(within / 48.0), unit="g",
    )  # fmt: skip


def test_dyestuff2_at_the_boundary(validate):
    # Sums of squares 41.6816 (5) and 358.7014 (24) of Box & Tiao 1973, from memory; together they
    # give the 13.806 that lme4 prints, which is asserted.
    between, within = 41.6816 / 5.0, 358.7014 / 24.0
    total_ms = (41.6816 + 358.7014) / 29.0
    assert total_ms == pytest.approx(13.806, abs=5e-4)
    means = 5.6656 + spaced(6, mean_square=between / 5.0)
    draws, normal = normal_draws(one_way(means, within=within, each=5), scale=3.0, middle=5.0)

    assert np.isfinite(draws.location).all()
    assert np.isfinite(draws.effect).all()
    validate(
        "Dyestuff2: standard deviation of batches, on the boundary (half a batch mean's error)",
        source=LME4,
        evidence=SEEN,
        ours=top(draws.effect[normal]),
        theirs=0.0,
        atol=0.5 * math.sqrt(13.806 / 5.0),
        unit="",
    )
    validate(
        "Dyestuff2: residual standard deviation (half its standard error)", source=LME4,
        evidence=SEEN, ours=float(np.median(draws.spread[normal])), theirs=math.sqrt(13.806),
        atol=0.5 * math.sqrt(13.806 / 58.0), unit="",
    )  # fmt: skip


def test_pastes_casks_in_batches(validate):
    # 10 batches of 3 casks, 2 assays each, by the mean squares 27.48919, 17.54533 and 0.678. A
    # batch is a lever that its casks share; a cask is a group with its own effect.
    batch_ms, cask_ms, within = 27.48919, 17.54533, 0.678
    batches = spaced(10, mean_square=batch_ms / 6.0)
    casks = np.repeat(batches, 3) + np.tile(spaced(3, mean_square=cask_ms / 2.0), 10)
    batch = np.repeat(np.arange(10), 3)
    draws, normal = normal_draws(
        one_way(60.0533 + casks, within=within, each=2),
        scale=3.0,
        middle=60.0,
        levers=(batch[:, None] == batch).astype(float),
        draws=1500,
    )
    cask_sd, batch_sd = math.sqrt(8.43367), math.sqrt(1.65731)
    cask_error = cask_ms * math.sqrt(2.0 / 20.0) / 2.0 / (2.0 * cask_sd)
    batch_error = math.hypot(batch_ms * math.sqrt(2.0 / 9.0), cask_ms * math.sqrt(2.0 / 20.0))
    validate(
        "Pastes: mean strength",
        source=LME4,
        evidence=SEEN,
        ours=draws.location[normal].mean(),
        theirs=60.0533,
        atol=0.1 * 0.67687,
        unit="",
    )
    validate(
        "Pastes: standard deviation of casks in a batch (half its standard error)",
        source=LME4,
        evidence=SEEN,
        ours=top(draws.effect[normal]),
        theirs=cask_sd,
        atol=0.5 * cask_error,
    )
    validate(
        "Pastes: standard deviation of batches (half its standard error)",
        source=LME4,
        evidence=SEEN,
        ours=top(draws.strength[normal]),
        theirs=batch_sd,
        atol=0.5 * batch_error / 6.0 / (2.0 * batch_sd),
    )
    validate(
        "Pastes: residual standard deviation (half its standard error)", source=LME4,
        evidence=SEEN, ours=float(np.median(draws.spread[normal])), theirs=math.sqrt(within),
        atol=0.5 * math.sqrt(within / 60.0),
    )  # fmt: skip


# Least-squares slopes of reaction time on days without sleep, one a subject (Belenky et al. 2003),
# from memory; their mean and its standard error are asserted against the printed fit.
SLEEP_SLOPES = (
    21.765, 2.262, 6.115, 3.008, 5.266, 9.567, 9.142, 12.253, -2.881,
    19.026, 13.494, 19.504, 6.434, 13.567, 11.348, 18.056, 9.188, 11.298,
)  # fmt: skip


def test_sleepstudy_slopes_as_readings_with_known_error(validate):
    # One slope a subject, its standard error from the printed residual variance over the sum of
    # squares of days 0 to 9. Slope and intercept are all but uncorrelated (0.07), so slopes alone
    # say nearly what the whole fit says.
    slopes = np.array(SLEEP_SLOPES)
    known_sd = math.sqrt(654.94 / 82.5)
    assert slopes.mean() == pytest.approx(10.467, abs=5e-4)
    assert math.sqrt(slopes.var(ddof=1) / 18.0) == pytest.approx(1.546, abs=5e-4)
    draws, normal = normal_draws(
        Readings.of(slopes, np.arange(18), instrument_sd=known_sd),
        scale=6.0,
        middle=10.0,
        known_sd=True,
        draws=2000,
    )
    slope_sd = math.sqrt(35.07)
    error = slopes.var(ddof=1) * math.sqrt(2.0 / 17.0) / (2.0 * slope_sd)
    shrunk = 10.467 + 35.07 / (35.07 + known_sd**2) * (slopes - 10.467)
    validate(
        "sleepstudy: mean slope",
        source=LME4,
        evidence=SEEN,
        ours=draws.location[normal].mean(),
        theirs=10.467,
        atol=0.1 * 1.546,
        unit="ms/day",
    )
    validate(
        "sleepstudy: standard deviation of slopes (a quarter of its standard error)", source=LME4,
        evidence=SEEN, ours=top(draws.effect[normal]), theirs=slope_sd, atol=0.25 * error,
        unit="ms/day",
    )  # fmt: skip
    assert draws.location[normal].mean(axis=0) == pytest.approx(shrunk, abs=0.25 * known_sd)
