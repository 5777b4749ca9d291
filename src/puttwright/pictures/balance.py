"""Parts along a club: their masses, where it balances, and the scale's fulcrum."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from puttwright.pictures.annotation import dimension
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import measure
from puttwright.pictures.svg import Point

FULCRUM_MM: Final = 355.6
"""14 in from the butt."""
_BIGGEST: Final = 26.0


def balance(
    parts: Sequence[tuple[float, float]], *, balance_mm: float, ground: Ground,
    prefix: str = "balance", width: float = 620.0,
) -> str:  # fmt: skip
    """Draw parts as discs along the shaft, the area of a disc as its mass, lengths to scale.

    Parameters
    ----------
    parts
        Mass [g] and distance from the butt [mm] of each.
    balance_mm
        The balance point from the butt.
    ground, prefix, width
        As for every drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> "balances" in balance([(350, 850)], balance_mm=850, ground=PAPER)
    True
    """
    height = 178.0
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    far = max([FULCRUM_MM, balance_mm, *(place for _, place in parts)])
    scale = (width - 76) / far
    level = 66.0

    def at(place_mm: float) -> Point:
        return 30 + scale * place_mm, level

    sheet.line(at(0), at(far), weight="bold")
    sheet.line((at(0)[0], level - 9), (at(0)[0], level + 9))
    heaviest = max((mass for mass, _ in parts), default=1.0)
    for mass, place in parts:
        radius = max(_BIGGEST * math.sqrt(mass / heaviest), 3.0)
        sheet.circle(at(place), radius=radius, fill="paper")
        sheet.text((at(place)[0], level - radius - 5), measure(mass, "g"), size="small",
                   anchor="middle", halo=True)  # fmt: skip
    x = at(FULCRUM_MM)[0]
    wedge = [(x, level + 3), (x - 11, level + 25), (x + 11, level + 25)]
    sheet.hatch(wedge, gap=4)
    sheet.path(wedge, closed=True)
    sheet.text((x, level + 40), "scale", size="small", ink="muted", anchor="middle")
    foot = at(balance_mm)[0]
    sheet.line((foot, level - 30), (foot, level + 70), ink="accent", style="centre")
    ends = ((at(0)[0], level + 66), (foot, level + 66))
    dimension(sheet, ends, label=measure(balance_mm, "mm"), text_ink="accent", bold=True)
    sheet.text((30, height - 12), "balances here, from the butt", size="small", ink="muted")
    told = f"It balances {measure(balance_mm, 'mm')} from the butt."
    return sheet.svg(title="Parts and balance", description=told)
