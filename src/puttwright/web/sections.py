"""What stands at the top of every page: the sections, and the page of the guide that helps."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from puttwright.web.texts import catalogue

_SECTIONS: Final = {
    "fittings": "/",
    "golfers": "/golfers",
    "rack": "/rack",
    "calculators": "/calculators",
    "practice": "/practice",
    "guide": "/guide",
    "settings": "/settings",
}
_BELONGS: Final = {
    "orders": "rack", "devices": "settings", "backups": "settings", "trail": "settings",
}  # fmt: skip

_HELP: Final = (
    (r"/fittings/[^/]+/board-photos", "aim-board"),
    (r"/fittings/[^/]+/address-photo", "posture-photo"),
    (r"/fittings/[^/]+/films", "filming"),
    (r"/fittings/[^/]+/tables", "tables"),
    (r"/fittings/[^/]+/workshop|/orders|/rack", "workshop"),
    (r"/fittings/[^/]+/instruments", "gauge-study"),
    (r"/fittings/[^/]+/client", "client-screen"),
    (r"/away", "without-connection"),
    (r"/fittings/new|/import", "first-fitting"),
    (r"/fittings/", "the-hour"),
    (r"/golfers", "golfers"),
    (r"/calculators", "calculators"),
    (r"/practice", "practice"),
    (r"/backups|/trail", "records"),
    (r"/devices", "sharing"),
    (r"/settings", "settings"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A way to a section; ``here`` when the page belongs to it."""

    words: str
    address: str
    here: bool


def sections(path: str) -> tuple[Section, ...]:
    """All of them, as seen from a page."""
    text = catalogue()
    here = section_of(path)
    return tuple(
        Section(words=text(f"sections.{name}"), address=address, here=name == here)
        for name, address in _SECTIONS.items()
    )


def section_of(path: str) -> str:
    """The section a page belongs to.

    Examples
    --------
    >>> section_of("/fittings/F1/decision"), section_of("/rack"), section_of("/")
    ('fittings', 'rack', 'fittings')
    """
    first = path.strip("/").split("/")[0]
    return first if first in _SECTIONS else _BELONGS.get(first, "fittings")


def help_for(path: str) -> str:
    """The page of the guide that tells of a page.

    Examples
    --------
    >>> help_for("/fittings/F1/board-photos"), help_for("/guide/tables")
    ('/guide/aim-board', '/guide')
    """
    for pattern, page in _HELP:
        if re.match(pattern, path):
            return f"/guide/{page}"
    return "/guide" if path.startswith("/guide") else "/guide/first-fitting"
