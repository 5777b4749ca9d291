"""Published models of putting, as published: what ours is held against.

Each is named by its authors and year. Distances in metres at the border; the
papers' own units stand inside.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit, ndtr

from puttwright.units import FOOT_M

Floats = NDArray[np.float64]

_BALL_FT: Final = 0.07
_HOLE_FT: Final = 0.177083


def make_gelman_nolan2002(*, distance_m: Floats, start_sd_rad: float) -> Floats:
    """Chance to hole when only the angle counts (Gelman & Nolan 2002, Teaching Statistics 24).

    The window is hole radius less ball radius, which makes its spread not
    comparable with one from another capture rule.

    Parameters
    ----------
    distance_m
        Ball to hole [m], above 0.
    start_sd_rad
        Spread of the start line [rad].

    Returns
    -------
    ndarray
        Probabilities.

    Examples
    --------
    >>> round(float(make_gelman_nolan2002(distance_m=15.24, start_sd_rad=0.026662)), 3)
    0.064
    """
    distance_ft = np.asarray(distance_m) / FOOT_M
    window = np.arcsin(np.minimum((_HOLE_FT - _BALL_FT) / distance_ft, 1.0))
    return np.asarray(2.0 * ndtr(window / start_sd_rad) - 1.0)


def make_broadie2018(*, distance_m: Floats, start_sd_rad: float, pace_sd: float) -> Floats:
    """Chance to hole by angle and distance, meant to end a foot past (Broadie 2018).

    The formula is that of Stan's golf case study: three feet long is too long.

    Parameters
    ----------
    distance_m
        Ball to hole [m], above 0.
    start_sd_rad
        Spread of the start line [rad].
    pace_sd
        Spread of the rolled length as a fraction of the length meant.

    Returns
    -------
    ndarray
        Probabilities.

    Examples
    --------
    >>> round(float(make_broadie2018(distance_m=2.4384, start_sd_rad=0.017807, pace_sd=0.08003)), 3)
    0.501
    """
    distance_ft = np.asarray(distance_m) / FOOT_M
    spread = (distance_ft + 1.0) * pace_sd
    reaches = ndtr(2.0 / spread) - ndtr(-1.0 / spread)
    angle = make_gelman_nolan2002(distance_m=distance_m, start_sd_rad=start_sd_rad)
    return np.asarray(angle * reaches)


def make_broadie2012(
    *, distance_m: Floats, start_sd_rad: float = math.radians(1.46), pace_sd: float = 0.057
) -> Floats:
    """Chance to hole by Broadie's one-putt formula of 2012 (Interfaces 42:146-155), second hand.

    Parameters
    ----------
    distance_m
        Ball to hole [m], above 0.
    start_sd_rad
        Spread of the start line [rad]; its window is the whole hole radius.
    pace_sd
        Spread of the rolled length as a fraction.

    Returns
    -------
    ndarray
        Probabilities.

    Examples
    --------
    >>> round(float(make_broadie2012(distance_m=2.4384)), 3)
    0.504
    """
    distance_yd = np.asarray(distance_m) / (3.0 * FOOT_M)
    past, spare, radius_yd = 0.5, 2.0 / 3.0, 2.125 / 36.0
    angle = 2.0 * ndtr(np.arctan(radius_yd / distance_yd) / start_sd_rad) - 1.0
    spread = pace_sd * (distance_yd + past)
    return np.asarray(angle * (ndtr((spare - past) / spread) - ndtr(-past / spread)))


def make_fearing2011(*, distance_m: Floats) -> Floats:
    """Tour chance to hole, a logit polynomial (Fearing, Acimovic & Graves 2011), second hand.

    Parameters
    ----------
    distance_m
        Ball to hole [m], 0.6 to 18.

    Returns
    -------
    ndarray
        Probabilities.

    Examples
    --------
    >>> round(float(make_fearing2011(distance_m=2.4384)), 2)
    0.5
    """
    d = np.asarray(distance_m) / FOOT_M
    logit = 7.31 - 5.58 * np.log(d) + 0.676 * d - 0.0197 * d**2 + 2.93e-4 * d**3 - 1.62e-6 * d**4
    return np.asarray(expit(logit))
