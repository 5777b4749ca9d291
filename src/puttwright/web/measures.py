"""The measures people speak here: the one place where a page turns ours into theirs.

Records and files stay as they are; a page says and reads the same figure in inches
and feet where the shop wants it so, and so do the drawings on it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from puttwright.deeds.keep_settings import IMPERIAL, METRIC
from puttwright.fitting.phrases import MINUS, THIN
from puttwright.pictures.hand import digits_for, factor, measure, spoken_unit

__all__ = [
    "UNITS",
    "digits_for",
    "factor",
    "handicap_words",
    "in_measures",
    "measure",
    "spoken_unit",
]

UNITS: Final[Mapping[str, Mapping[str, str]]] = {
    METRIC: {"in": "mm"},
    IMPERIAL: {"mm": "in", "cm": "in", "m": "ft", "m/s": "mph"},
}
"""Degrees and per cent are the same everywhere, green speed is in feet everywhere, and heads are
weighed in grams everywhere."""

_NUMBER: Final = rf"[{MINUS}+-]?\d+(?:\.\d+)?"
_SAID: Final = re.compile(
    rf"(?P<low>(?:{_NUMBER} to )?)(?P<high>{_NUMBER})"
    rf"(?:{THIN}(?P<unit>m/s|mm|cm|m|in)| (?P<plain>mm|m))(?![\w/])"
    rf"(?P<within>(?: \({_NUMBER} to {_NUMBER}\))?)"
)
_ROUGH_MM: Final = 100.0
"""A length told in whole millimetres that is longer than this says a tenth of an inch."""


def handicap_words(handicap: float, /) -> str:
    """A handicap index as golfers write it: what is better than scratch with a plus.

    Examples
    --------
    >>> handicap_words(-2.1), handicap_words(12.4)
    ('+2.1', '12.4')
    """
    return f"+{-handicap:g}" if handicap < 0 else f"{handicap:g}"


def in_measures(sentence: str, /) -> str:
    """A sentence whose figures were set in our units, with the same figures as spoken here.

    Examples
    --------
    >>> from puttwright.pictures.hand import Hand, lettered_by
    >>> with lettered_by(Hand(units=UNITS[IMPERIAL])):
    ...     in_measures("3 putts from 3 m, made 864 mm long").replace(THIN, " ")
    '3 putts from 9.8 ft, made 34.0 in long'
    >>> with lettered_by(Hand(units=UNITS[IMPERIAL])):
    ...     in_measures("664 mm (627 to 701)").replace(THIN, " ")
    '26.1 in (24.7 to 27.6)'
    """
    return _SAID.sub(_respoken, sentence)


def _respoken(found: re.Match[str]) -> str:
    unit = found["unit"] or found["plain"]
    spoken = spoken_unit(unit)
    if spoken == unit:
        return found[0]
    high = found["high"]
    digits = digits_for(unit, spoken, digits=len(high.partition(".")[2]))
    if unit == "mm" and abs(_value(high)) >= _ROUGH_MM:
        digits = min(digits, 1)
    times = factor(unit, spoken)
    low = f"{_again(found['low'][: -len(' to ')], times, digits)} to " if found["low"] else ""
    within = re.sub(_NUMBER, lambda each: _again(each[0], times, digits), found["within"])
    return f"{low}{_again(high, times, digits)}{THIN}{spoken}{within}"


def _value(number: str) -> float:
    return float(number.replace(MINUS, "-"))


def _again(number: str, times: float, digits: int) -> str:
    text = f"{abs(_value(number)) * times:.{digits}f}"
    sign = number[0].replace("-", MINUS) if number[0] in f"{MINUS}+-" else ""
    return f"{sign if float(text) else ''}{text}"
