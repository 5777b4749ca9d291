"""Where ball speed and turning meet, read off the film without any law of friction."""

from __future__ import annotations

from typing import Final

import numpy as np

from puttwright.ball.limits import FloatArray

_FROM: Final = 0.60
_TO: Final = 0.08
_FEWEST: Final = 5
_LATE: Final = 14


def late_ratio(*, speed_mps: FloatArray, surface_mps: FloatArray) -> float:
    """Surface speed over ball speed in the last pictures: 1 in true roll, or nearly.

    Examples
    --------
    >>> late_ratio(speed_mps=np.full(20, 2.0), surface_mps=np.full(20, 1.96))
    0.98
    """
    speed, surface = speed_mps[-_LATE:], surface_mps[-_LATE:]
    return float(np.median(surface / np.maximum(speed, 1e-3)))


def meeting_s(
    *, since_s: FloatArray, speed_mps: FloatArray, surface_mps: FloatArray
) -> float | None:
    """When the slip has gone, from how it falls from six tenths to a twelfth of what it was.

    Parameters
    ----------
    since_s
        Times from the strike, rising, all after it.
    speed_mps, surface_mps
        Of the ball, and radius times spin.

    Returns
    -------
    float or None
        Seconds from the strike; ``None`` where too few pictures show the slip falling.

    Examples
    --------
    >>> t = np.linspace(0.0, 0.4, 97)
    >>> slip = np.maximum(2.0 - 10.0 * t, 0.0)
    >>> round(meeting_s(since_s=t, speed_mps=1.5 + slip, surface_mps=np.full(97, 1.5)), 3)
    0.2
    """
    ratio = late_ratio(speed_mps=speed_mps, surface_mps=surface_mps)
    slip = speed_mps - surface_mps / max(ratio, 0.5)
    whole = float(np.median(slip[:5]))
    below = np.flatnonzero(np.abs(slip) < _TO * abs(whole))
    if not len(below) or whole == 0.0:
        return None
    end = int(below[0])
    falls = np.flatnonzero(np.abs(slip[:end]) < _FROM * abs(whole))
    if len(falls) < _FEWEST:
        return None
    part = slice(int(falls[0]), end)
    line = np.polynomial.polynomial.polyfit(since_s[part], slip[part], 1)
    met = float(-line[0] / line[1])
    return met if 0.0 < met < float(since_s[-1]) else None
