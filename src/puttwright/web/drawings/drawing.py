"""A drawing as a page shows it: for a narrow and a wide column, and as a table to read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from puttwright.pictures.tables import Table

NARROW: Final = 356.0
WIDE: Final = 620.0
"""Drawing widths; the style sheet shows the one that fits its column."""

Draw = Callable[[float, str], str]
"""Draws at a width, with a prefix for its ids."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Two widths of one drawing and its table."""

    narrow: Markup
    wide: Markup
    table: Table | None = None


def drawing(draw: Draw, *, prefix: str, table: Table | None = None) -> Drawing:
    """Draw for both widths."""
    return Drawing(
        narrow=Markup(draw(NARROW, f"{prefix}-narrow")),  # noqa: S704 - our own drawing
        wide=Markup(draw(WIDE, f"{prefix}-wide")),  # noqa: S704 - our own drawing
        table=table,
    )
