"""Two readings of the ramp on a slope, and the roll they mean on the level."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.pictures.annotation import dimension
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground, Ink
from puttwright.pictures.hand import measure

_LANE: Final = 74.0
_RAMP: Final = 46.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rolled:
    """A roll off the ramp: ``rise`` is 1 uphill, -1 downhill, 0 on the level."""

    name: str
    length_ft: float
    rise: float
    ink: Ink = "ink"


def ramp_rolls(
    rolls: Sequence[Rolled], *, ground: Ground, prefix: str = "ramp", width: float = 620.0
) -> str:
    """Draw each roll from the side, their lengths to one scale.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> "9.0" in ramp_rolls([Rolled(name="up", length_ft=9, rise=1)], ground=PAPER)
    True
    """
    height = _LANE * len(rolls) + 14
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    longest = max((each.length_ft for each in rolls), default=1.0)
    scale = (width - _RAMP - 40) / longest
    for number, each in enumerate(rolls):
        _lane(sheet, each, base=_LANE * (number + 1) - 16, scale=scale)
    told = "; ".join(f"{each.name} {measure(each.length_ft, 'ft', digits=1)}" for each in rolls)
    return sheet.svg(title="Rolls off the ramp", description=f"{told}.")


def _lane(sheet: Sheet, each: Rolled, *, base: float, scale: float) -> None:
    start, end = _RAMP, _RAMP + each.length_ft * scale
    tilt = -9.0 * each.rise
    first, last = base - tilt / 2, base + tilt / 2
    sheet.line((start - 30, first), (end + 20, last), weight="bold")
    sheet.line((start - 34, first - 22), (start, first - 1), ink="muted")
    sheet.circle((end, last - 7), radius=6, ink=each.ink, fill="paper")
    sheet.text((8, first - 28), each.name, size="small", ink="muted")
    ends = ((start, base - 20), (end, base - 20))
    dimension(sheet, ends, label=measure(each.length_ft, "ft", digits=1), text_ink=each.ink,
              bold=each.ink == "accent")  # fmt: skip
