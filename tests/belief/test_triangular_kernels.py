"""Factors and solutions against NumPy's."""

from __future__ import annotations

import numpy as np
import pytest

from puttwright.belief.triangular_kernels import cholesky, inverse, solve_lower, solve_upper


@pytest.fixture
def matrix():
    root = np.random.default_rng(3).standard_normal((6, 9))
    return root @ root.T


@pytest.fixture
def lower(matrix):
    into = np.zeros_like(matrix)
    cholesky(matrix, into)
    return into


def test_the_factor_and_the_determinant_are_numpys(matrix):
    lower = np.zeros_like(matrix)
    log_det = cholesky(matrix, lower)

    assert np.allclose(lower, np.linalg.cholesky(matrix))
    assert log_det == pytest.approx(np.linalg.slogdet(matrix)[1])


def test_both_solutions_solve(lower):
    b, x = np.arange(6.0), np.empty(6)

    solve_lower(lower, b, x)
    assert np.allclose(lower @ x, b)
    solve_upper(lower, b, x)
    assert np.allclose(lower.T @ x, b)


def test_the_inverse_is_numpys(matrix, lower):
    result = np.empty_like(matrix)
    inverse(lower, np.empty(6), np.empty(6), result)

    assert np.allclose(result, np.linalg.inv(matrix))
