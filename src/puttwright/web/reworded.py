"""What the pure rooms say, in another language: each sentence by its pattern.

Reasons, cautions and the lettering of drawings are made in English, where the
figures are, and a decision is kept with its sentences so that the same readings give
the same bytes. A page that speaks another language finds the pattern a sentence was
made by and says its translation with the same figures and names. What has no pattern
stays as it is.

In a pattern ``{n…}`` is a number, ``{size…}`` a figure with its unit, ``{name…}`` what
somebody wrote, ``{quoted…}`` the same in the quotation marks of English, which are left to the
other language, ``{who…}`` a name with what it is to the golfer, ``{letter…}`` the
letter of a build and ``{letters}`` some of them, ``{runs}`` row numbers, ``{scale…}`` a
swing weight; any other field is itself something that has a pattern.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from typing import Final

from puttwright.fitting.phrases import MINUS, THIN

_LONGEST: Final = 700
"""Nothing that we say is longer."""
_NUMBER: Final = rf"[{MINUS}+-]?\d+(?:\.\d+)?"
_UNIT: Final = rf"[ {THIN}]?(?:°|%|m/s²?|mm|cm|mph|ft|in|m|g)"
_NAMED: Final = r"(?:(?![.;] ).)+?"
_LETTERED: Final = r"[A-Z]{1,2}"
_KINDS: Final[tuple[tuple[str, str], ...]] = (
    ("size", rf"{_NUMBER}{_UNIT}"),
    ("name", _NAMED),
    ("who", _NAMED),
    ("n", _NUMBER),
    ("scale", r"[A-G]\d+(?:\.\d+)?"),
    ("runs", r"[\d–, ]+"),
    ("letter", _LETTERED),
    ("letters", rf"{_LETTERED}(?:, {_LETTERED})+"),
    ("quoted", r"'(?:[^'\\]|\\.)*'|\"(?:[^\"\\]|\\.)*\""),
)
_FIELD: Final = re.compile(r"\{(\w+)\}")
_SENTENCES: Final = re.compile(r"(?<=[.?;]) ")
_LETTER: Final = re.compile(r"[^\W\d_]{2}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """How one sentence is made in English, and how it is said."""

    literals: tuple[str, ...]
    shape: re.Pattern[str]
    told: str
    again: tuple[str, ...] = ()
    maybe: tuple[str, ...] = ()
    quoted: tuple[str, ...] = ()

    def may_be(self, text: str) -> bool:
        """Whether its literals stand in the text, in their order: quick, and mostly not."""
        place = 0
        for literal in self.literals:
            found = text.find(literal, place)
            if found < 0:
                return False
            place = found + len(literal)
        return True


def rewording(language: str, /) -> Rewording | None:
    """The sentences of a language; none for the one everything is made in."""
    return _rewording(language)


@cache
def _rewording(language: str) -> Rewording | None:
    sections = sections_of(f"sentences_{language}.toml")
    if not sections:
        return None
    return Rewording({said: told for each in sections.values() for said, told in each.items()})


def sections_of(name: str, /) -> Mapping[str, Mapping[str, str]]:
    """What stands in a file of sentences; nothing where a language has none."""
    file = resources.files("puttwright.web.texts").joinpath(name)
    return tomllib.loads(file.read_text(encoding="utf-8")) if file.is_file() else {}


class Rewording:
    """The sentences of one language; what is in none of them may be one of those ``beyond``."""

    def __init__(self, sentences: Mapping[str, str], *, beyond: Rewording | None = None) -> None:
        self._whole = {said: told for said, told in sentences.items() if not _FIELD.search(said)}
        self._patterns = tuple(
            _pattern(said, told) for said, told in sentences.items() if _FIELD.search(said)
        )
        self._beyond = beyond
        self.told = lru_cache(maxsize=8192)(self._told)

    def __call__(self, text: str, /) -> str:
        """The text in this language, as far as it is known."""
        if len(text) > _LONGEST or not _LETTER.search(text):
            return text
        return self.told(text) or text

    def _told(self, text: str) -> str | None:
        """The whole of it in this language, or nothing."""
        if not _LETTER.search(text) and text not in self._whole:
            return text
        said = self._one(text) or self._unpointed(text) or self._uncapped(text) or self._each(text)
        return said or (self._beyond.told(text) if self._beyond else None)

    def _one(self, text: str) -> str | None:
        if text in self._whole:
            return self._whole[text]
        for pattern in self._patterns:
            said = self.by_pattern(pattern, text)
            if said is not None:
                return said
        return None

    def by_pattern(self, pattern: Pattern, text: str, /) -> str | None:
        """The text as this pattern says it, or nothing where it is not made by it."""
        found = pattern.shape.fullmatch(text) if pattern.may_be(text) else None
        return self._filled(pattern, found.groupdict()) if found else None

    def _filled(self, pattern: Pattern, parts: dict[str, str]) -> str | None:
        for name in pattern.again:
            told = self.told(parts[name])
            if told is None:
                return None
            parts[name] = told
        parts |= {name: self.told(parts[name]) or parts[name] for name in pattern.maybe}
        parts |= {name: parts[name][1:-1] for name in pattern.quoted}
        return pattern.told.format_map(parts)

    def _unpointed(self, text: str) -> str | None:
        if not text.endswith((".", ";")):
            return None
        told = self.told(text[:-1])
        return None if told is None else told if told.endswith(text[-1]) else f"{told}{text[-1]}"

    def _uncapped(self, text: str) -> str | None:
        if not text[:1].isupper():
            return None
        told = self._one(text[0].lower() + text[1:])
        return None if told is None else told[0].upper() + told[1:]

    def _each(self, text: str) -> str | None:
        """Several sentences, one after the other."""
        for cut in reversed([found.start() for found in _SENTENCES.finditer(text)]):
            first = self._one(text[:cut]) or self._unpointed(text[:cut])
            first = first or self._uncapped(text[:cut])
            rest = self.told(text[cut + 1 :]) if first else None
            if first and rest:
                return f"{first} {rest}"
        return None


def _pattern(said: str, told: str) -> Pattern:
    pieces = _FIELD.split(said)
    names = pieces[1::2]
    shape = "".join(
        f"(?P<{piece}>{_kind(piece)[1]})" if place % 2 else re.escape(piece)
        for place, piece in enumerate(pieces)
    )
    return Pattern(
        literals=tuple(piece for piece in pieces[::2] if piece),
        shape=re.compile(shape),
        told=told,
        again=tuple(name for name in names if _kind(name)[0] == "again"),
        maybe=tuple(name for name in names if _kind(name)[0] == "who"),
        quoted=tuple(name for name in names if _kind(name)[0] == "quoted"),
    )


def _kind(name: str) -> tuple[str, str]:
    for start, shape in _KINDS:
        if name.rstrip("0123456789") == start:
            return start, shape
    return "again", r".+?"
