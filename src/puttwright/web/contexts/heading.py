"""The head of every page of one fitting: who, when, and the ways between its pages."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from urllib.parse import quote

from puttwright.evidence import Fitting
from puttwright.paper.figures import day_words
from puttwright.web.texts import catalogue

PAGES = ("green", "address", "decision", "workshop", "readings", "client")


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A link to a page of the fitting."""

    words: str
    address: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """Who is fitted, and where one can go."""

    fitting_id: str
    alias: str
    line: str
    address: str
    ways: tuple[Way, ...]


def heading(fitting: Fitting, *, here: str = "") -> Heading:
    """The head of a page of this fitting; ``here`` is one of :data:`PAGES`."""
    text = catalogue()
    address = address_of(fitting.fitting_id)
    hand = text(f"list.{fitting.golfer.handed}")
    return Heading(
        fitting_id=fitting.fitting_id,
        alias=fitting.golfer.alias,
        line=text("fitting.line", hand=hand, date=day_words(date.fromisoformat(fitting.date))),
        address=address,
        ways=tuple(
            Way(
                words=text(f"fitting.{page}"),
                address=address if page == "green" else f"{address}/{page}",
                here=page == here,
            )
            for page in PAGES
        ),
    )


def address_of(fitting_id: str) -> str:
    """The address of the fitting's own page."""
    return f"/fittings/{quoted(fitting_id)}"


def quoted(words: str) -> str:
    """Words as one step of an address."""
    return quote(words, safe="")
