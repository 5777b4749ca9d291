"""The head of every page of one fitting: who, when, and the ways between its pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final
from urllib.parse import quote

from puttwright.evidence import Fitting
from puttwright.store.fittings import PRACTICE
from puttwright.web.contexts.hour import COMPARE, DECIDE, INTERVIEW, ORDER, STEPS, place_of, taken
from puttwright.web.dates import iso_words
from puttwright.web.texts import catalogue

BESIDE: Final = ("hour", "readings", "client")
"""Pages that are no step of the hour."""
_UNCOUNTED: Final = frozenset({INTERVIEW, COMPARE, DECIDE, ORDER})


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A link to a page of the fitting."""

    words: str
    address: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A step on the path: ``mark`` is ``none``, ``some``, or ``plain`` where nothing is counted."""

    words: str
    address: str
    here: bool
    mark: str
    told: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """Who is fitted, and where one can go."""

    fitting_id: str
    alias: str
    line: str
    address: str
    path: tuple[Station, ...]
    ways: tuple[Way, ...]
    practice: bool = False

    @property
    def number(self) -> int:
        """The number of the step the page is; 0 when it is none."""
        return next((n for n, each in enumerate(self.path, start=1) if each.here), 0)

    @property
    def place(self) -> str:
        """What the page is called among the fitting's."""
        here = [each.words for each in self.path if each.here]
        here += [each.words for each in self.ways if each.here]
        return here[0] if here else catalogue()("hour.title")

    @property
    def before(self) -> Station | None:
        """The step before this one."""
        return self.path[self.number - 2] if self.number > 1 else None

    @property
    def after(self) -> Station | None:
        """The step after this one."""
        return self.path[self.number] if 0 < self.number < len(self.path) else None


def heading(fitting: Fitting, *, here: str = "") -> Heading:
    """The head of a page of this fitting; ``here`` is a step of the hour or one of `BESIDE`."""
    text = catalogue()
    address = address_of(fitting.fitting_id)
    hand = text(f"list.{fitting.golfer.handed}")
    return Heading(
        fitting_id=fitting.fitting_id,
        alias=fitting.golfer.alias,
        line=text("fitting.line", hand=hand, date=iso_words(fitting.date)),
        practice=fitting.extra.get(PRACTICE) is True,
        address=address,
        path=tuple(_station(fitting, step, here=step == here) for step in STEPS),
        ways=tuple(
            Way(words=text(f"fitting.{page}"), address=f"{address}/{page}", here=page == here)
            for page in BESIDE
        ),
    )


def _station(fitting: Fitting, step: str, *, here: bool) -> Station:
    text = catalogue()
    count = taken(fitting, step)
    counted = step not in _UNCOUNTED
    return Station(
        words=text(f"hour.{step}"),
        address=place_of(step, fitting_address=address_of(fitting.fitting_id)),
        here=here,
        mark=("some" if count else "none") if counted else "plain",
        told=text("hour.taken", count=count) if counted and count else "",
    )


def address_of(fitting_id: str) -> str:
    """The address of the fitting's own page."""
    return f"/fittings/{quoted(fitting_id)}"


def quoted(words: str) -> str:
    """Words as one step of an address."""
    return quote(words, safe="")
