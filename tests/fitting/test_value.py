"""Figures of draws: the quantiles are the library's."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from puttwright.fitting.value import estimate

DRAWS = arrays(np.float64, st.integers(1, 60), elements=st.floats(-1e6, 1e6))


@given(DRAWS)
def test_the_intervals_are_those_of_numpy(draws):
    found = estimate(draws, with_50=True)

    low, lower, upper, high = np.quantile(draws, (0.05, 0.25, 0.75, 0.95))
    assert found.interval_90 == pytest.approx((low, high), rel=1e-12, abs=1e-9)
    assert found.interval_50 == pytest.approx((lower, upper), rel=1e-12, abs=1e-9)


def test_a_single_draw_is_every_quantile():
    assert estimate(np.array([0.3])).interval_90 == (0.3, 0.3)
