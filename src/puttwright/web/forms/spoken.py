"""Numbers as people say them: "34 in", "5 ft 10 in", "2,5", in the unit that is meant there."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from puttwright.errors import NotANumber, UnknownUnit
from puttwright.evidence import Column
from puttwright.fitting.phrases import MINUS
from puttwright.units import parse_quantity
from puttwright.web.texts import catalogue

_FEET_AND_INCHES: Final = re.compile(
    r"""^\s*(\d+)\s*(?:ft|feet|['′])\s*(\d+(?:\.\d+)?)\s*(?:in|inch|inches|["″])?\s*$"""
)
_CONVERTED: Final = frozenset(
    {"m", "cm", "mm", "in", "ft", "deg", "kg", "g", "m/s", "mph", "ft/s", "s"}
)
_BESIDE_DEGREES: Final = "°"


@dataclass(frozen=True, slots=True)
class Wrong(Exception):
    """Why what was typed cannot be taken, as a sentence to stand beside it."""

    sentence: str


def spoken_number(text: str, column: Column, *, said_in: str = "") -> float:
    """A number in the unit of its column.

    Parameters
    ----------
    text
        As typed: a decimal comma is a decimal point, a unit may follow.
    column
        What it may hold.
    said_in
        The unit meant when none is written; the column's own when empty.

    Raises
    ------
    Wrong
        It is no number, has another kind of unit, or lies outside.

    Examples
    --------
    >>> length = Column("length_mm", "number", "", unit="mm", low=457.2, high=1600)
    >>> round(spoken_number("34", length, said_in="in"), 1)
    863.6
    >>> round(spoken_number("5 ft 10 in", Column("h_mm", "number", "", unit="mm")))
    1778
    """
    unit = said_in or column.unit
    value = _parsed(_one_way_of_writing(text), column=column, unit=unit)
    _check(value, column, unit=unit)
    return value


def shown_number(value: float | None, column: Column, *, said_in: str = "") -> str:
    """The same backwards, as short as it can be said: 863.6 mm in inches is "34".

    Examples
    --------
    >>> shown_number(863.6, Column("length_mm", "number", "", unit="mm"), said_in="in")
    '34'
    """
    if value is None:
        return ""
    return f"{round(value / _factor(column, said_in or column.unit), 3):g}"


def _one_way_of_writing(text: str) -> str:
    plain = text.strip().replace(MINUS, "-")
    both = _FEET_AND_INCHES.match(plain)
    if both:
        return f"{int(both[1]) * 12 + float(both[2])} in"
    comma = plain.count(",") == 1 and "." not in plain
    return plain.replace(",", ".") if comma else plain


def _parsed(text: str, *, column: Column, unit: str) -> float:
    if "," in text:
        raise Wrong(_no_number(text, unit))
    if unit not in _CONVERTED or column.unit not in _CONVERTED:
        number = _plain(text.removesuffix(unit).strip(), unit=unit)
        return number * _factor(column, unit)
    try:
        return parse_quantity(text, default_unit=unit) / _si(column.unit)
    except UnknownUnit as error:
        known = str(error.data["known"])
        raise Wrong(catalogue()("form.unit", text=text, units=known)) from error
    except NotANumber as error:
        raise Wrong(_no_number(text, unit)) from error


def _plain(text: str, *, unit: str) -> float:
    try:
        return float(text)
    except ValueError as error:
        raise Wrong(_no_number(text, unit)) from error


def _no_number(text: str, unit: str) -> str:
    example = {"in": "34.5", "ft": "9.5", "mm": "12", "m": "3.0"}.get(unit, "2.5")
    return catalogue()("form.not_a_number", text=text[:40], example=example)


def _si(unit: str) -> float:
    return parse_quantity("1", default_unit=unit)


def _factor(column: Column, unit: str) -> float:
    """How many of the column's units one of the spoken ones is."""
    if unit == "%" and column.unit != "%":
        return 0.01
    if unit not in _CONVERTED or column.unit not in _CONVERTED:
        return 1.0
    return _si(unit) / _si(column.unit)


def _check(value: float, column: Column, *, unit: str) -> None:
    low, high = column.low, column.high
    text = catalogue()
    if not abs(value) < 1e300:  # also NaN
        raise Wrong(_no_number(str(value), unit))

    def said(bound: float) -> str:
        sign = _BESIDE_DEGREES if unit == "deg" else f" {unit}" if unit else ""
        shown = shown_number(bound, column, said_in=unit)
        return f"{shown.replace('-', MINUS)}{sign}"

    if low is not None and value < low and high is None:
        raise Wrong(text("form.outside_low", value=said(value), low=said(low)))
    if (low is not None and value < low) or (high is not None and value > high):
        shown_low, shown_high = said(low or 0.0), said(high or 0.0)
        raise Wrong(text("form.outside", value=said(value), low=shown_low, high=shown_high))
