"""The measures people speak here: the one place where a page turns ours into theirs.

Records, drawings to scale and paper stay as they are; a page says and reads the
same figure in inches and feet where the shop wants it so.
"""

from __future__ import annotations

from functools import cache
from typing import Final

from puttwright.deeds.keep_settings import IMPERIAL, METRIC
from puttwright.fitting import phrases
from puttwright.units import parse_quantity
from puttwright.web.manner import manner

_SAID: Final[dict[str, dict[str, str]]] = {
    METRIC: {"in": "mm"},
    IMPERIAL: {"mm": "in", "cm": "in", "m": "ft", "m/s": "mph"},
}
"""Degrees and per cent are the same everywhere, green speed is in feet everywhere, and heads are
weighed in grams everywhere."""

_FINER: Final = {("mm", "in"): 2, ("m", "ft"): -1, ("m/s", "mph"): -1, ("in", "mm"): -1}
"""So many more digits say as much; never more than two behind the point."""


def spoken_unit(unit: str) -> str:
    """The unit people speak here where a page would say ``unit``."""
    return _SAID.get(manner().measures, {}).get(unit, unit)


@cache
def factor(unit: str, spoken: str) -> float:
    """How many of the spoken unit one of ours is.

    Examples
    --------
    >>> round(factor("m", "ft"), 4)
    3.2808
    """
    return parse_quantity("1", default_unit=unit) / parse_quantity("1", default_unit=spoken)


def digits_for(unit: str, spoken: str, *, digits: int) -> int:
    """How many decimals say as much in the other unit.

    Examples
    --------
    >>> digits_for("mm", "in", digits=0), digits_for("m", "ft", digits=2)
    (2, 1)
    """
    if unit == spoken:
        return digits
    least = 0 if spoken == "mm" else 1
    return min(max(digits + _FINER.get((unit, spoken), 0), least), 2)


def measure(value: float, unit: str, /, *, digits: int = 0, sign: bool = False) -> str:
    """A figure and its unit as :func:`puttwright.fitting.phrases.measure` sets it, as spoken here.

    Examples
    --------
    >>> measure(25.4, "mm") == phrases.measure(25.4, "mm")
    True
    """
    spoken = spoken_unit(unit)
    if spoken == unit:
        return phrases.measure(value, unit, digits=digits, sign=sign)
    shown = digits_for(unit, spoken, digits=digits)
    return phrases.measure(value * factor(unit, spoken), spoken, digits=shown, sign=sign)
