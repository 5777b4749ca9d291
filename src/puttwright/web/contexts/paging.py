"""A long list a page at a time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final
from urllib.parse import urlencode

from puttwright.web.texts import catalogue

ON_A_PAGE: Final = 50
_MOST: Final = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Paging:
    """Where one is in a list, and the ways to its other pages; empty where there are none."""

    words: str
    before: str
    after: str


def page_number(text: str) -> int:
    """The page an address asks for; the first when it says no number.

    Examples
    --------
    >>> page_number("3"), page_number("x"), page_number("-1")
    (3, 1, 1)
    """
    plain = text.isascii() and text.isdigit() and len(text) < 7
    return min(max(int(text), 1), _MOST) if plain else 1


def paging(number: int, *, total: int, at: str, words: str) -> Paging | None:
    """The ways; nothing when everything fits on one page."""
    if total <= ON_A_PAGE:
        return None
    first = (number - 1) * ON_A_PAGE + 1
    last = min(number * ON_A_PAGE, total)

    def way(to: int) -> str:
        said = ({"q": words} if words else {}) | ({"page": str(to)} if to > 1 else {})
        return f"{at}?{urlencode(said)}" if said else at

    return Paging(
        words=catalogue()("paging.of", first=min(first, last), last=last, total=total),
        before=way(number - 1) if number > 1 else "",
        after=way(number + 1) if last < total else "",
    )
