"""Who did what, as a page shows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from puttwright.store.trail import Deed, TrailLine
from puttwright.web.contexts.heading import address_of
from puttwright.web.contexts.paging import Paging
from puttwright.web.dates import moment_words
from puttwright.web.texts import catalogue

AT = "/trail"


@dataclass(frozen=True, slots=True, kw_only=True)
class TrailRow:
    """One line; ``address`` leads to the fitting, if it is about one."""

    when: str
    who: str
    deed: str
    fitting_id: str
    address: str
    about: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TrailPage:
    """The lines found, the last first."""

    words: str
    rows: tuple[TrailRow, ...]
    paging: Paging | None


def trail_rows(found: Sequence[TrailLine]) -> tuple[TrailRow, ...]:
    """The lines in the words of the page."""
    return tuple(
        TrailRow(
            when=moment_words(each.when),
            who=each.who,
            deed=deed_words(each.deed),
            fitting_id=each.fitting_id,
            address=address_of(each.fitting_id) if each.fitting_id else "",
            about=each.about,
        )
        for each in found
    )


def deed_words(deed: str) -> str:
    """A deed in words; one of a later version as it is called there."""
    return catalogue()(f"trail.{deed.replace('-', '_')}") if deed in set(Deed) else deed
