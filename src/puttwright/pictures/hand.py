"""The hand that letters a drawing: in whose words and in which measures it writes.

Drawings are made in English and metric, as the records are. Whoever shows them may
want another hand for a while: the pages, for a shop that speaks otherwise. Nothing
but lettering follows it; where the lines fall is the same for everybody.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from functools import cache
from typing import Final

from puttwright.fitting import phrases
from puttwright.units import inches, parse_quantity


def _as_it_is(words: str) -> str:
    return words


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """How it is lettered.

    ``words`` turns what we say into what is said here, ``figures`` the figures within a
    sentence; ``units`` names the units spoken here by ours.
    """

    words: Callable[[str], str] = _as_it_is
    figures: Callable[[str], str] = _as_it_is
    units: Mapping[str, str] = field(default_factory=dict)


PLAIN: Final = Hand(units={"in": "mm"})
"""In English, in the units of the records."""

_NOW: ContextVar[Hand] = ContextVar("hand", default=PLAIN)

_FINER: Final = {("mm", "in"): 2, ("m", "ft"): -1, ("m/s", "mph"): -1, ("in", "mm"): -1}
"""So many more digits say as much; never more than two behind the point."""


@contextmanager
def lettered_by(wanted: Hand) -> Iterator[None]:
    """Letter like this for a while."""
    before = _NOW.set(wanted)
    try:
        yield
    finally:
        _NOW.reset(before)


@contextmanager
def in_english() -> Iterator[None]:
    """Letter in English for a while, in the measures spoken here: for sheets on paper."""
    with lettered_by(dataclasses.replace(_NOW.get(), words=_as_it_is)):
        yield


@contextmanager
def as_recorded() -> Iterator[None]:
    """Letter as the records are, whoever asks: for sheets that somebody works from."""
    with lettered_by(PLAIN):
        yield


def worded(words: str, /) -> str:
    """The words as they are lettered now.

    Examples
    --------
    >>> with lettered_by(Hand(words=str.upper)):
    ...     worded("hole")
    'HOLE'
    """
    now = _NOW.get()
    return now.words(now.figures(words))


def putter_length(length_mm: float, /) -> str:
    """How long a putter is, which most of the trade says in inches whatever else it measures in.

    Examples
    --------
    >>> putter_length(863.6) == phrases.measure(864, "mm")
    True
    """
    return measure(inches(length_mm / 1000.0), "in", digits=1)


def spoken_unit(unit: str, /) -> str:
    """The unit people speak here where we would say ``unit``."""
    return _NOW.get().units.get(unit, unit)


@cache
def factor(unit: str, spoken: str) -> float:
    """How many of the spoken unit one of ours is.

    Examples
    --------
    >>> round(factor("m", "ft"), 4)
    3.2808
    """
    return parse_quantity("1", default_unit=unit) / parse_quantity("1", default_unit=spoken)


def in_spoken(unit: str, /) -> float:
    """How many of the unit spoken here one of ours is, for a scale.

    Examples
    --------
    >>> in_spoken("mm")
    1.0
    """
    spoken = spoken_unit(unit)
    return 1.0 if spoken == unit else factor(unit, spoken)


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
    >>> with lettered_by(Hand(units={"mm": "in"})):
    ...     measure(25.4, "mm") == phrases.measure(1.0, "in", digits=2)
    True
    """
    spoken = spoken_unit(unit)
    if spoken == unit:
        return phrases.measure(value, unit, digits=digits, sign=sign)
    shown = digits_for(unit, spoken, digits=digits)
    return phrases.measure(value * factor(unit, spoken), spoken, digits=shown, sign=sign)
