"""Belief against truth: an interval with soft ends, and a plumb bob at what is so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.decision import Estimate
from puttwright.fitting.phrases import figure, interval
from puttwright.pictures.annotation import Soft, scale_line, spindle, ticks
from puttwright.pictures.builds import BuildMark, balloon
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.tables import Table

_LANE: Final = 62.0
_TOP: Final = 14.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Believed:
    """One build: the strokes a round it was believed to save, and what it truly saves."""

    mark: BuildMark
    believed: Estimate | None
    truth: float

    @property
    def held(self) -> bool | None:
        """Whether the truth lies in the 90 % interval; none where nothing was believed."""
        if self.believed is None:
            return None
        low, high = self.believed.interval_90
        return low <= self.truth <= high


def belief_and_truth(
    rows: Sequence[Believed], *, ground: Ground, prefix: str = "truth", width: float = 620.0
) -> str:
    """Draw a lane a build: the spindle is what was believed, the chalk bob what is so.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> mark = BuildMark(letter="B", name="short", role="other", order=1)
    >>> row = Believed(mark=mark, believed=None, truth=0.3)
    >>> "+0.3" in belief_and_truth([row], ground=PAPER)
    True
    """
    height = _TOP + _LANE * len(rows) + 50
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    ends = [0.0, *(row.truth for row in rows)]
    for row in rows:
        ends += list(row.believed.interval_90) if row.believed else []
    low, high = min(ends) - 0.15, max(ends) + 0.15
    left, right = 24.0, width - 24.0

    def x(value: float) -> float:
        return left + (value - low) / (high - low) * (right - left)

    base = _TOP + _LANE * len(rows)
    sheet.line((x(0), 8), (x(0), base), ink="own", style="centre")
    for number, row in enumerate(rows):
        _lane(sheet, row, top=_TOP + _LANE * number, place=x)
    scale_line(sheet, ticks((low, high), about=max(3, round(width / 110))), place=x,
               level=base + 2, label=lambda v: figure(v, digits=1, sign=True))  # fmt: skip
    foot = (width - 14, base + 40)
    sheet.text(foot, "strokes saved a round", size="small", ink="muted", anchor="end")
    told = "; ".join(f"{row.mark.letter}: truly {figure(row.truth, sign=True)}" for row in rows)
    return sheet.svg(title="Belief and truth", description=f"{told}.")


def _lane(sheet: Sheet, row: Believed, *, top: float, place: object) -> None:
    x = place
    assert callable(x)
    level = top + 40
    balloon(sheet, (22, top + 12), mark=row.mark)
    sheet.text((40, top + 16), row.mark.name, size="small", room=0.5 * sheet.width,
               halo=True)  # fmt: skip
    if row.believed is not None:
        low, high = row.believed.interval_90
        inner = row.believed.interval_50 or (low, high)
        soft = Soft(low_90=x(low), low_50=x(inner[0]), middle=x(row.believed.mean),
                    high_50=x(inner[1]), high_90=x(high))  # fmt: skip
        spindle(sheet, soft, across=level)
    at = x(row.truth)
    sheet.line((at, level - 17), (at, level + 4), ink="accent", weight="bold")
    bob = [(at - 5, level + 4), (at + 5, level + 4), (at, level + 15)]
    sheet.solid(bob, ink="accent")
    words = figure(row.truth, sign=True)
    sheet.text((sheet.width - 14, top + 16), words, size="small", ink="accent", anchor="end",
               bold=True)  # fmt: skip


def truth_table(rows: Sequence[Believed]) -> Table:
    """The same as a table."""
    said = {True: "inside", False: "outside", None: "nothing believed"}
    return Table(
        caption="Strokes saved a round: believed, with its 90 % interval, and true",
        head=("Build", "Believed", "90 % interval", "True", "The truth lies"),
        rows=tuple(
            (
                row.mark.called,
                figure(row.believed.mean, sign=True) if row.believed else "–",
                interval(row.believed.interval_90) if row.believed else "–",
                figure(row.truth, sign=True),
                said[row.held],
            )
            for row in rows
        ),
    )
