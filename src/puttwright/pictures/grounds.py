"""The paper a drawing is made on: its colours and the weights of its lines.

One drawing, several papers. On a page the colours are CSS custom properties with
a fallback, so that the page's own style sheet may switch the ground without a new
drawing; for paper they are plain values, because a typesetter knows no variables.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Final, Literal

Ink = Literal["paper", "ink", "muted", "faint", "accent", "own"]
Weight = Literal["hair", "line", "bold"]

INKS: Final[tuple[Ink, ...]] = ("paper", "ink", "muted", "faint", "accent", "own")
WEIGHTS: Final[tuple[Weight, ...]] = ("hair", "line", "bold")


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """A ground: ``paper`` under ``ink``, ``muted`` words and ``faint`` construction lines.

    ``accent`` is the chalk for "this one" and "now", ``own`` the quiet colour of the
    golfer's own putter. ``hair``, ``line`` and ``bold`` are stroke widths in drawing
    units. A ``live`` ground writes custom properties (``--pw-ink`` …) that a page may set.
    """

    name: str
    paper: str
    ink: str
    muted: str
    faint: str
    accent: str
    own: str
    hair: float
    line: float
    bold: float
    live: bool = False

    def colour(self, ink: Ink) -> str:
        """The colour of an ink, as written into the drawing."""
        value: str = getattr(self, ink)
        return f"var(--pw-{ink}, {value})" if self.live else value

    def width(self, weight: Weight) -> str:
        """The width of a line, as written into the drawing."""
        value = f"{getattr(self, weight):g}"
        return f"var(--pw-{weight}, {value})" if self.live else value


PAPER: Final = Ground(
    name="paper",
    paper="#f7f2e7",
    ink="#2a2927",
    muted="#5e574b",
    faint="#aea593",
    accent="#bd3a1b",
    own="#17696a",
    hair=0.6,
    line=1.1,
    bold=2.0,
)
"""Warm paper, graphite, chalk red-orange."""

SUNLIGHT: Final = dataclasses.replace(
    PAPER,
    name="sunlight",
    paper="#fefefc",
    ink="#111111",
    muted="#3a3733",
    faint="#85807a",
    accent="#a82a0c",
    own="#0a5254",
    hair=0.9,
    line=1.6,
    bold=2.8,
)
"""Near white and heavier lines, for a tablet outdoors."""

BAY: Final = dataclasses.replace(
    PAPER,
    name="bay",
    paper="#232a2e",
    ink="#ede8dc",
    muted="#bdb8ab",
    faint="#66716f",
    accent="#ff9466",
    own="#86d3c8",
    hair=0.7,
    line=1.2,
    bold=2.1,
)
"""Dark slate and chalk lines, for an indoor bay."""

PRINT: Final = dataclasses.replace(
    PAPER, name="print", paper="#ffffff", ink="#1c1b1a", muted="#4c473f", faint="#9b9488"
)
"""White sheet. Accent and own come out alike in grey: form has to tell them apart."""

PAGE: Final = dataclasses.replace(PAPER, name="page", live=True)
"""For the pages: warm paper unless the page's style sheet says otherwise."""

GROUNDS: Final = {ground.name: ground for ground in (PAPER, SUNLIGHT, BAY, PRINT, PAGE)}


def css_properties(ground: Ground, /) -> dict[str, str]:
    """The custom properties that put a live drawing on ``ground``.

    Examples
    --------
    >>> css_properties(BAY)["--pw-paper"]
    '#232a2e'
    """
    colours = {f"--pw-{ink}": str(getattr(ground, ink)) for ink in INKS}
    return colours | {f"--pw-{weight}": f"{getattr(ground, weight):g}" for weight in WEIGHTS}
