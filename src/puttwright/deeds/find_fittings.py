"""Find fittings by the golfer's name, the date or the id."""

from __future__ import annotations

from puttwright.store import Store, fittings
from puttwright.store.fittings import FittingLine


def find_fittings(
    store: Store, words: str = "", *, limit: int = 50, skip: int = 0, practice: bool = False
) -> list[FittingLine]:
    """The newest fittings that hold every word, after leaving out ``skip`` of them.

    Practice is found only when it is asked for, and then nothing else.
    """
    with store.reading() as look:
        return fittings.search(look, words, limit=limit, skip=skip, practice=practice)


def count_fittings(store: Store, words: str = "") -> int:
    """How many fittings hold every word."""
    with store.reading() as look:
        return fittings.count(look, words)
