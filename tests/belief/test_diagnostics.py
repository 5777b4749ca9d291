"""R-hat and effective size against the library whose import we spare the fitter."""

from __future__ import annotations

import numpy as np
import pytest
from arviz_stats.base import array_stats

from puttwright.belief.diagnostics import bulk_ess, rank_r_hat


def chains(correlation, shift=0.0):
    rng = np.random.default_rng(8)
    noise = rng.standard_normal((5, 4, 400))
    draws = noise.copy()
    for k in range(1, 400):
        draws[..., k] = (
            correlation * draws[..., k - 1] + np.sqrt(1 - correlation**2) * noise[..., k]
        )
    draws[:, 0] += shift
    return draws


@pytest.mark.parametrize("draws", [chains(0.0), chains(0.7), chains(0.3, shift=0.5)])
def test_they_are_the_librarys(draws):
    r_hat = array_stats.rhat(draws, chain_axis=1, draw_axis=2, method="rank")
    ess = array_stats.ess(draws, chain_axis=1, draw_axis=2, method="bulk")

    assert rank_r_hat(draws) == pytest.approx(r_hat, rel=1e-3)
    assert bulk_ess(draws) == pytest.approx(ess, rel=0.03)


def test_chains_that_disagree_are_told():
    assert (rank_r_hat(chains(0.0, shift=3.0)) > 1.1).all()
    assert (rank_r_hat(chains(0.0)) < 1.02).all()
