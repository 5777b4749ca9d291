"""What was measured against its limits: a rule a clause, what is allowed hatched."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import worded
from puttwright.pictures.lettering import width_of

_LANE: Final = 46.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Limited:
    """A measured figure with its limits; an open side is infinite. ``words`` as they are said."""

    name: str
    value: float
    low: float
    high: float
    words: str
    within: bool


def against_limits(
    clauses: Sequence[Limited], *, ground: Ground, prefix: str = "limits", width: float = 620.0
) -> str:
    """Draw each figure on a rule of its own; the rules have no common scale.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> one = Limited(name="Loft", value=3, low=-15, high=10, words="3.0°", within=True)
    >>> "Loft" in against_limits([one], ground=PAPER)
    True
    """
    sheet = Sheet(width=width, height=max(_LANE * len(clauses), 40.0) + 8, ground=ground,
                  prefix=prefix)  # fmt: skip
    for number, each in enumerate(clauses):
        _lane(sheet, each, level=_LANE * (number + 1) - 12)
    if not clauses:
        sheet.text((8, 26), "nothing measured yet", size="small", ink="muted")
    told = "; ".join(f"{each.name}: {each.words}" for each in clauses) or "Nothing measured yet"
    return sheet.svg(title="Measured against the limits", description=f"{told}.")


def _lane(sheet: Sheet, each: Limited, *, level: float) -> None:
    ends = [each.value, *(end for end in (each.low, each.high) if math.isfinite(end))]
    low, high = min(ends), max(ends)
    room = max(0.25 * (high - low), 0.05 * max(abs(high), abs(low)), 0.5)
    low, high = low - room, high + room
    left, right = 12.0, sheet.width - 12.0

    def x(value: float) -> float:
        return left + (min(max(value, low), high) - low) / (high - low) * (right - left)

    a, b = x(each.low), x(each.high)
    band = [(a, level - 6), (b, level - 6), (b, level + 6), (a, level + 6)]
    sheet.hatch(band, gap=5)
    sheet.line((left, level), (right, level), ink="muted", weight="hair")
    for end in (each.low, each.high):
        if math.isfinite(end):
            sheet.line((x(end), level - 9), (x(end), level + 9), weight="bold")
    at = (x(each.value), level)
    sheet.circle(at, radius=5, ink="ink" if each.within else "accent",
                 fill="paper" if each.within else "accent")  # fmt: skip
    room = right - left - width_of(worded(each.words), size="small") - 14.0
    sheet.text((left, level - 14), each.name, size="small", room=room)
    sheet.text((right, level - 14), each.words, size="small", anchor="end", bold=not each.within)
