"""The trade's words for columns, units and sides (``words.toml``), ready to be looked up."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache, lru_cache
from importlib import resources
from typing import Any, Final

_BETWEEN: Final = re.compile(r"(?<=[a-z0-9])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])")
_IN_BRACKETS: Final = re.compile(r"[\[({<]\s*([^\])}>]*?)\s*[\])}>]")
_NO_WORD: Final = re.compile(r"[^\w%°º/+.]+")
_STOP_WORDS: Final = frozenset({"the", "of", "at", "to", "in", "a", "my", "avg", "value"})


@cache
def words() -> Mapping[str, Any]:
    """All of ``words.toml``."""
    place = resources.files("puttwright.readers.tables").joinpath("words.toml")
    return tomllib.loads(place.read_text(encoding="utf-8"))


@cache
def _written(section: str) -> Mapping[str, str]:
    """What a cell may say, to what is meant, of units or sides."""
    return {each: name for name, many in words()[section].items() for each in many}


def unit_of(text: str) -> str | None:
    """The unit a text writes, brackets or not.

    Examples
    --------
    >>> unit_of("[m/sec]"), unit_of("Inches"), unit_of("Anna")
    ('m/s', 'in', None)
    """
    plain = text.strip().strip("[](){}<>").strip().lower()
    return _written("units").get(plain) or _written("units").get(plain.rstrip("."))


def side_of(text: str) -> str | None:
    """The side a text writes.

    Examples
    --------
    >>> side_of("R"), side_of("short"), side_of("7")
    ('right', 'short', None)
    """
    return _written("sides").get(text.strip().lower().rstrip("."))


def units_written() -> Mapping[str, str]:
    """Each way of writing a unit, in lower case, to the unit."""
    return _written("units")


def sides_written() -> Mapping[str, str]:
    """Each way of writing a side, in lower case, to the side."""
    return _written("sides")


class Header:
    """A header taken apart: its words, its unit, the side it says is positive.

    Examples
    --------
    >>> read = Header("BallSpeed (mph)")
    >>> read.words, read.unit
    (('ball', 'speed'), 'mph')
    >>> Header("start direction [deg, right +]").positive
    'right'
    """

    def __init__(self, text: str) -> None:
        self.text = text
        inside = " ".join(_IN_BRACKETS.findall(text))
        outside = _IN_BRACKETS.sub(" ", text)
        self.unit = self._unit_inside(inside)
        tokens = _tokens(outside)
        if not self.unit:
            self.unit, tokens = _unit_at_the_end(tokens)
        self.positive = _positive(f"{inside} {outside}")
        self.words = tuple(token.strip("+-./") for token in tokens if token.strip("+-./"))

    @staticmethod
    def _unit_inside(inside: str) -> str | None:
        whole = unit_of(inside)
        parts = (unit_of(part) for part in re.split(r"[,;\s]+", inside) if part)
        return whole or next((unit for unit in parts if unit), None)


def _tokens(text: str) -> list[str]:
    apart = _BETWEEN.sub(" ", text).replace("_", " ")
    return [each for each in _NO_WORD.split(apart.lower()) if each]


def _unit_at_the_end(tokens: list[str]) -> tuple[str | None, list[str]]:
    for length in (2, 1):
        unit = unit_of(" ".join(tokens[-length:])) if len(tokens) > length else None
        if unit and tokens[-1] not in _NEVER_UNITS:
            return unit, tokens[:-length]
    return None, tokens


_NEVER_UNITS: Final = frozenset({"in", "ratio", "share", "fraction"})
"""At the end of a header these are words of the trade sooner than units."""


def _positive(text: str) -> str | None:
    """The side that a header says is positive: "right +", "+ = right", "right positive", "+R"."""
    found = re.search(
        r"([A-Za-z]+)\s*(?:\+|=\s*\+|(?:is\s+)?positive|pos\b)|\+\s*=?\s*([A-Za-z]+)", text
    )
    return side_of(found[1] or found[2]) if found else None


def closeness(header: Header, phrase: str) -> float:
    """How near a header is to a phrase of the trade, 1 for the same words.

    Examples
    --------
    >>> closeness(Header("Speed of ball"), "ball speed"), closeness(Header("temp"), "ball speed")
    (1.0, 0.0)
    """
    return _alike(header.words, phrase)


@lru_cache(maxsize=65536)
def nearest(said: tuple[str, ...], *, table: str, column: str) -> float:
    """How near a header's words are to what the trade calls a column of one of our tables.

    Examples
    --------
    >>> nearest(Header("Ball speed").words, table="putts", column="ball_speed_mps")
    1.0
    """
    return max((_alike(said, phrase) for phrase in words()[table].get(column, ())), default=0.0)


def _alike(said: tuple[str, ...], phrase: str) -> float:
    ours, theirs = _telling(tuple(phrase.split())), _telling(said)
    if ours == theirs:
        return 1.0
    return 0.95 * len(ours & theirs) / len(ours | theirs)


@lru_cache(maxsize=4096)
def _telling(said: tuple[str, ...]) -> frozenset[str]:
    """Words less those that tell nothing."""
    return frozenset(said) - _STOP_WORDS or frozenset(said)
