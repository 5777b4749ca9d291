"""Single computations of worth, in the units people speak."""

from __future__ import annotations

import numpy as np

from puttwright.errors import OutOfRange
from puttwright.worth.holing import outcome
from puttwright.worth.noise import TOUR_READ_NOISE
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import deceleration_of

_RANGES = {
    "distance_m": (0.1, 40.0, "m"),
    "start_sd_deg": (0.0, 15.0, "deg"),
    "start_bias_deg": (-30.0, 30.0, "deg"),
    "pace_sd_pct": (0.0, 100.0, "%"),
    "pace_bias_pct": (-90.0, 200.0, "%"),
    "green_ft": (3.0, 16.0, "ft"),
}


def calc_holing(
    *,
    distance_m: float,
    start_sd_deg: float,
    start_bias_deg: float = 0.0,
    pace_sd_pct: float,
    pace_bias_pct: float = 0.0,
    green_ft: float,
) -> dict[str, float]:
    """Chance to hole one putt and expected putts from there.

    Parameters
    ----------
    distance_m
        Ball to hole [m], 0.1 to 40.
    start_sd_deg, start_bias_deg
        Spread of the stroke's start line, 0 to 15, and its mean, right positive [deg].
    pace_sd_pct, pace_bias_pct
        Spread of the rolled length and its mean against the intended, which
        ends 0.43 m past the hole [% of the intended].
    green_ft
        Green speed, 3 to 16 [ft].

    Returns
    -------
    dict
        ``make_pct`` and ``expected_putts``, with a tour player's read and green noise added.

    Raises
    ------
    OutOfRange
        A value outside its range.

    Examples
    --------
    >>> tour = calc_holing(distance_m=2.44, start_sd_deg=1.0, pace_sd_pct=6.3, green_ft=11.0)
    >>> round(tour["make_pct"]), round(tour["expected_putts"], 1)
    (50, 1.5)
    """
    values = {
        "distance_m": distance_m,
        "start_sd_deg": start_sd_deg,
        "start_bias_deg": start_bias_deg,
        "pace_sd_pct": pace_sd_pct,
        "pace_bias_pct": pace_bias_pct,
        "green_ft": green_ft,
    }
    for name, value in values.items():
        low, high, unit = _RANGES[name]
        if not low <= value <= high:
            raise OutOfRange(name=name, value=value, low=low, high=high, unit=unit)
    pattern = Pattern.of(
        start_sd_deg=start_sd_deg,
        start_bias_deg=start_bias_deg,
        pace_sd_pct=pace_sd_pct,
        pace_bias_pct=pace_bias_pct,
    )
    result = outcome(
        pattern,
        distance_m=np.array([distance_m]),
        deceleration_mps2=deceleration_of(speed_ft=green_ft),
        noise=TOUR_READ_NOISE,
    )
    return {
        "make_pct": 100.0 * float(result.make[0, 0]),
        "expected_putts": float(result.putts[0, 0]),
    }
