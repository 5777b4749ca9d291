"""What was claimed against what is true, with means of claims alike and their doubt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.phrases import figure
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.frame import Frame, doubt, draw_frame
from puttwright.pictures.grounds import Ground, Ink
from puttwright.pictures.lettering import width_of

_MIDDLE_SHARE: Final = 0.98


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimDot:
    """One claim: strokes a round claimed and true; ``chosen`` if it was acted upon."""

    claimed: float
    true: float
    chosen: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimMean:
    """Claims alike: their mean, and the mean of the truth with what it may lie between."""

    claimed: float
    true: float
    low: float
    high: float


def claimed_against_true(
    dots: Sequence[ClaimDot], *, means: Sequence[ClaimMean], ground: Ground,
    prefix: str = "claims", width: float = 720.0, height: float = 460.0,
) -> str:  # fmt: skip
    """Draw every claim as a dot, claims alike as a mean, and the line where claims come true.

    Parameters
    ----------
    dots
        Drawn as far as the middle 98 in 100 reach; the rest lie on the edge.
    means
        Of neighbouring claims, each with its interval.
    ground, prefix, width, height
        As for every drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> claimed_against_true([], means=[], ground=PAPER).startswith("<svg")
    True
    """
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    low, high = _limits(dots)
    frame = Frame(
        across=(low, high), up=(low, high), left=60, right=width - 20, top=58, base=height - 52
    )
    draw_frame(
        sheet,
        frame,
        names=("saved a round, as claimed", "saved a round, in truth"),
        label=(_figure, _figure),
    )
    ends = frame.at(across=low, up=low), frame.at(across=high, up=high)
    sheet.line(*ends, ink="own", weight="line", style="centre")
    for dot in sorted(dots, key=lambda one: one.chosen):
        claimed, true = (min(max(value, low), high) for value in (dot.claimed, dot.true))
        ink: Ink = "accent" if dot.chosen else "faint"
        radius = 2.6 if dot.chosen else 1.6
        sheet.circle(
            frame.at(across=claimed, up=true), radius=radius, ink=ink, weight="hair", kind="claim"
        )
    for one in means:
        x = frame.x(one.claimed)
        doubt(sheet, ((x, frame.y(max(one.low, low))), (x, frame.y(min(one.high, high)))))
        mean = frame.at(across=one.claimed, up=one.true)
        sheet.circle(mean, radius=4.5, weight="bold", fill="paper", kind="mean")
    _key(sheet)
    return sheet.svg(title="Claimed and true", description=_told(means), backed=True)


def _figure(value: float) -> str:
    return figure(value, digits=1, sign=True)


def _limits(dots: Sequence[ClaimDot]) -> tuple[float, float]:
    values = sorted(value for dot in dots for value in (dot.claimed, dot.true))
    if not values:
        return -1.0, 1.0
    spare = round((1.0 - _MIDDLE_SHARE) / 2.0 * (len(values) - 1))
    low, high = values[spare], values[-1 - spare]
    margin = 0.05 * max(high - low, 0.2)
    return low - margin, high + margin


def _key(sheet: Sheet) -> None:
    """What the marks mean, over the frame, in a second line where the first is full."""
    marks: tuple[tuple[str, Ink, float], ...] = (
        ("a build", "faint", 1.6), ("a build recommended", "accent", 2.6),
        ("mean of claims alike", "ink", 4.5), ("claims come true", "own", 0.0),
    )  # fmt: skip
    x, y = 20.0, 14.0
    for words, ink, radius in marks:
        room = 40.0 + width_of(words, size="small")
        if x + room > sheet.width:
            x, y = 20.0, y + 15.0
        if radius:
            sheet.circle((x, y - 4), radius=radius, ink=ink, weight="line")
        else:
            sheet.line((x - 8, y - 4), (x + 14, y - 4), ink=ink, weight="line", style="centre")
        sheet.text((x + (10 if radius else 20), y), words, size="small", ink="muted")
        x += room


def _told(means: Sequence[ClaimMean]) -> str:
    return "Strokes saved a round. " + "; ".join(
        f"claimed {_figure(one.claimed)}, true {_figure(one.true)}, likely {_figure(one.low)} "
        f"to {_figure(one.high)}"
        for one in means
    )
