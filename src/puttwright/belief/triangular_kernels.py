"""Cholesky factors and what is solved by them, for a handful of groups: compiled, in place.

Other kernels call these, and the compiler's cache does not see that one in another
file has changed: after an edit here, save the files that call them too.
"""

from __future__ import annotations

import math

import numba

_jit = numba.njit(cache=True, nogil=True, error_model="numpy")


@_jit
def cholesky(matrix, lower):
    """Lower triangle of ``matrix`` into ``lower``; returns the log determinant."""
    n = matrix.shape[0]
    log_det = 0.0
    for i in range(n):
        for j in range(i + 1):
            total = matrix[i, j]
            for k in range(j):
                total -= lower[i, k] * lower[j, k]
            if i == j:
                total = math.sqrt(max(total, 1e-300))
                lower[i, i] = total
                log_det += 2.0 * math.log(total)
            else:
                lower[i, j] = total / lower[j, j]
    return log_det


@_jit
def solve_lower(lower, b, x):
    """``x`` such that ``lower @ x = b``."""
    for i in range(b.size):
        total = b[i]
        for k in range(i):
            total -= lower[i, k] * x[k]
        x[i] = total / lower[i, i]


@_jit
def solve_upper(lower, b, x):
    """``x`` such that ``lower.T @ x = b``."""
    for i in range(b.size - 1, -1, -1):
        total = b[i]
        for k in range(i + 1, b.size):
            total -= lower[k, i] * x[k]
        x[i] = total / lower[i, i]


@_jit
def inverse(lower, unit, half, result):
    """Inverse of the matrix that ``lower`` is the factor of; ``unit`` and ``half`` are scratch."""
    n = unit.size
    for j in range(n):
        unit[:] = 0.0
        unit[j] = 1.0
        solve_lower(lower, unit, half)
        solve_upper(lower, half, unit)
        for i in range(n):
            result[i, j] = unit[i]
