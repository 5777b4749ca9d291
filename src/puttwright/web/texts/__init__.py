"""The words of the pages, in one catalogue a language."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import resources
from typing import Any, Final

from puttwright.web.manner import manner


class Texts:
    """A catalogue: ``texts("bench.undo")`` is the words under that key, its fields filled."""

    def __init__(self, words: Mapping[str, str]) -> None:
        self._words = words

    def __call__(self, key: str, /, **data: object) -> str:
        """The words; a key that is not there is a bug and raises ``KeyError``."""
        return self._words[key].format_map(data)

    @property
    def keys(self) -> frozenset[str]:
        """Every key there is."""
        return frozenset(self._words)


FIRST: Final = "en"
"""The language everything is written in first."""
LANGUAGES: Final[Mapping[str, str]] = {"en": "English", "de": "Deutsch"}
"""Each by its own name; each has a file here."""


def catalogue(language: str = "") -> Texts:
    """The catalogue of a language; of the one spoken here when none is named.

    Examples
    --------
    >>> catalogue()("site.name")
    'puttwright'
    """
    return _catalogue(language or manner().language)


@cache
def _catalogue(language: str) -> Texts:
    """A language's own words; what it does not have yet is said in English."""
    return Texts(words_of(FIRST) | words_of(language))


@cache
def words_of(language: str) -> dict[str, str]:
    """What stands in the file of a language."""
    file = resources.files("puttwright.web.texts").joinpath(f"{language}.toml")
    return dict(_flat(tomllib.loads(file.read_text(encoding="utf-8"))))


def _flat(tree: Mapping[str, Any], prefix: str = "") -> Iterator[tuple[str, str]]:
    for name, value in tree.items():
        if isinstance(value, str):
            yield prefix + name, value
        else:
            yield from _flat(value, f"{prefix}{name}.")
