"""Look at who did what to the records: deeds and ids, never what was written."""

from __future__ import annotations

from collections.abc import Sequence

from puttwright.deeds.bootstrap import Clock
from puttwright.store import Store, trail
from puttwright.store.trail import Deed, TrailLine


def look_at_trail(
    store: Store, about: str = "", *, limit: int = 100, skip: int = 0
) -> tuple[list[TrailLine], int]:
    """The last lines first, and how many there are; ``about`` is an id, a deed or a person."""
    with store.reading() as look:
        return trail.lines(look, about, limit=limit, skip=skip), trail.count(look, about)


def note_on_trail(store: Store, clock: Clock, *, deed: Deed, who: str, about: str = "") -> None:
    """Note a deed that changes nothing in the records, as a copy that was taken out."""
    with store.writing() as write:
        trail.note(write, deed, now=clock(), who=who, about=about)


def trail_lines(found: Sequence[TrailLine]) -> list[str]:
    """A line each, times in UTC."""
    return [
        "  ".join(filter(None, (f"{each.when:%Y-%m-%d %H:%M:%S}", each.who, each.deed,
                                each.fitting_id, each.about)))
        for each in found
    ]  # fmt: skip
