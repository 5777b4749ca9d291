"""Zeros of a falling function, many at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from puttwright.ball.limits import FloatArray

_SECANTS: Final = 60


def falling_root(
    function: Callable[[FloatArray], FloatArray],
    *,
    low: FloatArray,
    high: FloatArray,
    digits: int = 14,
) -> FloatArray:
    """Zero between a positive and a negative end, by false position (Illinois).

    Ends when all values are zero to so many decimal digits.

    Examples
    --------
    >>> falling_root(lambda x: 2.0 - x * x, low=np.array([0.0]), high=np.array([3.0])).round(6)
    array([1.414214])
    """
    f_low, f_high = function(low), function(high)
    middle, side = low, np.zeros_like(low)
    for _ in range(_SECANTS):
        wide = np.where(f_low == f_high, 1.0, f_low - f_high)
        middle = np.clip((high * f_low - low * f_high) / wide, low, high)
        f_middle = function(middle)
        left = f_middle > 0.0
        # An end that stays twice running holds the line back: its value counts half.
        f_high = np.where(left, np.where(side > 0.0, 0.5 * f_high, f_high), f_middle)
        f_low = np.where(left, f_middle, np.where(side < 0.0, 0.5 * f_low, f_low))
        low, high = np.where(left, middle, low), np.where(left, high, middle)
        side = np.where(left, 1.0, -1.0)
        if np.all((np.abs(f_middle) < 10.0**-digits) | (high - low < 1e-15)):
            break
    return np.asarray(middle)
