"""A velocity that friction shortens and a slope pulls downhill, in closed form.

Both the sliding of the ball's lowest point and its true roll obey

    dv/dt = -A v/|v| + G (downhill),

the first with A = 7/2 mu g cos(theta), G = g sin(theta), the second with the
green's resistance and 5/7 g sin(theta). With phi the angle between velocity and
downhill, u = tan(phi/2) and k = A/G the velocity is v = C u^k (1 + u²)/(2u), and
time and place are sums of powers of u. Written here with u = u0 exp(-e p),
e = G/A and p from 0 to infinity, the level (e = 0) needs no special case and
nothing cancels:

    along   v0 exp(-p) (c² exp(e p) - s² exp(-e p)),  across  2 v0 exp(-p) c s

where c and s are cosine and sine of half the first angle. The end, p = infinity,
is reached after a finite time if e < 1: the ball stops. Otherwise it never does.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from puttwright.ball.limits import FloatArray

END = np.inf
"""The parameter p at which the motion has come to its end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Glide:
    """Where a glide is at some p, in axes along (downhill) and across (right of downhill)."""

    time_s: FloatArray
    along_m: FloatArray
    across_m: FloatArray
    path_m: FloatArray
    along_mps: FloatArray
    across_mps: FloatArray

    @property
    def speed_mps(self) -> FloatArray:
        """Length of the velocity."""
        return np.asarray(np.hypot(self.along_mps, self.across_mps))


def _decayed(rate: npt.ArrayLike, p: FloatArray) -> FloatArray:
    """Integral of exp(-rate q) over q from 0 to p, also where the rate is zero or negative."""
    rates, p = np.broadcast_arrays(np.asarray(rate, dtype=np.float64), p)
    safe = np.where(rates == 0.0, 1.0, rates)
    with np.errstate(over="ignore", invalid="ignore"):
        integral = -np.expm1(-p * safe) / safe
    return np.where(rates == 0.0, p, integral)


def glide(
    *,
    speed_mps: npt.ArrayLike,
    angle_rad: npt.ArrayLike,
    drag_mps2: npt.ArrayLike,
    pull_mps2: npt.ArrayLike,
    p: npt.ArrayLike = END,
) -> Glide:
    """State of the motion at parameter ``p``; at its end when ``p`` is left out.

    Parameters
    ----------
    speed_mps, angle_rad
        First speed, and its angle from downhill, right positive.
    drag_mps2, pull_mps2
        Friction against the motion (positive) and pull downhill (0 or more).
    p
        0 at the start, infinity at the end; on level ground speed falls as exp(-p).

    Returns
    -------
    Glide
        Time, place, path length and velocity. Where the pull is as strong as the
        drag the end is infinitely far, unless the motion is straight uphill.

    Examples
    --------
    >>> end = glide(speed_mps=2.0, angle_rad=0.0, drag_mps2=0.5, pull_mps2=0.0)
    >>> float(end.along_m), float(end.time_s)
    (4.0, 4.0)
    """
    speed, drag = np.asarray(speed_mps, dtype=np.float64), np.asarray(drag_mps2, dtype=np.float64)
    half = 0.5 * np.asarray(angle_rad, dtype=np.float64)
    c, s = np.cos(half), np.sin(half)
    ratio = np.asarray(pull_mps2, dtype=np.float64) / drag
    at = np.asarray(p, dtype=np.float64)
    length = speed * speed / drag
    down = _decayed(2.0 - 2.0 * ratio, at) * c**4
    up = _decayed(2.0 + 2.0 * ratio, at) * s**4
    side = c * c * _decayed(2.0 - ratio, at) + s * s * _decayed(2.0 + ratio, at)
    time = c * c * _decayed(1.0 - ratio, at) + s * s * _decayed(1.0 + ratio, at)
    fast, slow = np.exp(-at * (1.0 + ratio)), _grown(1.0 - ratio, at)
    return Glide(
        time_s=np.asarray(speed / drag * time),
        along_m=np.asarray(length * (down - up)),
        across_m=np.asarray(2.0 * length * c * s * side),
        path_m=np.asarray(length * (down + 2.0 * (c * s) ** 2 * _decayed(2.0, at) + up)),
        along_mps=np.asarray(speed * (c * c * slow - s * s * fast)),
        across_mps=np.asarray(2.0 * speed * c * s * np.exp(-at)),
    )


def _grown(rate: FloatArray, p: FloatArray) -> FloatArray:
    """exp(-rate p), with 0 x infinity read as standing still at rate 0."""
    with np.errstate(over="ignore", invalid="ignore"):
        return np.where(rate == 0.0, 1.0, np.exp(-p * np.where(rate == 0.0, 1.0, rate)))
