"""Swing weight: the moment about a point 14 in (or 12 in) from the butt, and its letter.

One point is 1.75 in·oz, ten points a letter, A to G. That D0 stands at 213.5 in·oz
is from memory of the trade; the moment itself needs no such anchor.
"""

from __future__ import annotations

import math
import re
from typing import Final

from puttwright.errors import UserError
from puttwright.units import INCH_M, OUNCE_KG

FULCRUM_M: Final = 14.0 * INCH_M
OFFICIAL_FULCRUM_M: Final = 12.0 * INCH_M
"""The older scale, read in in·oz without letters."""

POINT_IN_OZ: Final = 1.75
A0_IN_OZ: Final = 161.0
"""D0 = 213.5 in·oz less thirty points; the anchor is from memory."""
_LETTERS: Final = "ABCDEFG"
IN_OZ: Final = INCH_M * OUNCE_KG
"""kg·m in an inch-ounce (of mass)."""


def moment_in_oz(*, total_kg: float, balance_m: float, fulcrum_m: float = FULCRUM_M) -> float:
    """Moment of a putter about a fulcrum.

    Parameters
    ----------
    total_kg, balance_m
        Mass, and balance point from the butt.
    fulcrum_m
        From the butt; 14 in unless said otherwise.

    Returns
    -------
    float
        Total mass times (balance point less fulcrum) [in·oz].

    Examples
    --------
    >>> round(moment_in_oz(total_kg=0.525, balance_m=26.410 * 0.0254), 1)
    229.8
    """
    return total_kg * (balance_m - fulcrum_m) / IN_OZ


def points(moment_in_oz: float, /) -> float:
    """Points above A0.

    Examples
    --------
    >>> points(213.5)
    30.0
    """
    return (moment_in_oz - A0_IN_OZ) / POINT_IN_OZ


def letter(moment_in_oz: float, /) -> str:
    """Swing weight as the trade writes it, to a tenth of a point.

    Off either end of the scale the count goes on in the last letter: ``"G14.0"``,
    ``"A-3.0"``.

    Examples
    --------
    >>> letter(213.5), letter(229.81), letter(213.49), letter(290.5)
    ('D0.0', 'D9.3', 'D0.0', 'G14.0')
    """
    # Tenths first: 29.96 points are D0.0, not C10.0.
    tenths = round(10.0 * points(moment_in_oz))
    which = min(max(math.floor(tenths / 100), 0), len(_LETTERS) - 1)
    return f"{_LETTERS[which]}{(tenths - 100 * which) / 10:.1f}"


class NotASwingWeight(UserError):
    """{text!r} is no swing weight; write a letter A to G and its points, as in D5, or in·oz, as in 222.5."""  # noqa: E501

    code = "not-a-swing-weight"


_WRITTEN: Final = re.compile(r"([A-Ga-g])\s*(\d{1,2}(?:[.,]\d+)?)")


def moment_of(text: str, /) -> float:
    """Moment [in·oz] of a swing weight as the trade writes it, or of a bare moment.

    Raises
    ------
    NotASwingWeight
        It is neither.

    Examples
    --------
    >>> moment_of("D5"), moment_of("d 6"), moment_of("222.25")
    (222.25, 224.0, 222.25)
    """
    plain = text.strip()
    found = _WRITTEN.fullmatch(plain)
    if found:
        tens = 10 * _LETTERS.index(found[1].upper())
        return A0_IN_OZ + POINT_IN_OZ * (tens + float(found[2].replace(",", ".")))
    try:
        moment = float(plain.replace(",", "."))
    except ValueError:
        raise NotASwingWeight(text=text[:40]) from None
    if not 0.0 < moment < _MOST_IN_OZ:
        raise NotASwingWeight(text=text[:40])
    return moment


_MOST_IN_OZ: Final = 1000.0


def on_scale(moment_in_oz: float, /) -> bool:
    """Whether the scale's letters reach so far."""
    return 0.0 <= points(moment_in_oz) < 10.0 * len(_LETTERS)
