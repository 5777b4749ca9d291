"""Find fittings by the golfer's name, the date or the id."""

from __future__ import annotations

from puttwright.store import Store, fittings
from puttwright.store.fittings import FittingLine


def find_fittings(store: Store, words: str = "", *, limit: int = 50) -> list[FittingLine]:
    """The newest fittings that hold every word; all of them when there is none."""
    with store.reading() as look:
        return fittings.search(look, words, limit=limit)
