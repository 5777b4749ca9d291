"""What a draughtsman writes beside the lines: dimensions, soft intervals, scales, breaks."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.phrases import figure
from puttwright.pictures.drafting import Anchor, Sheet, Style
from puttwright.pictures.grounds import Ink, Weight
from puttwright.pictures.hand import in_spoken
from puttwright.pictures.lettering import SIZES, Size, width_of
from puttwright.pictures.svg import Point

ARROW: Final = 7.0


def _unit(start: Point, end: Point) -> tuple[float, float, float]:
    length = math.hypot(end[0] - start[0], end[1] - start[1])
    if length == 0.0:
        return 1.0, 0.0, 0.0
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length, length


def arrowhead(sheet: Sheet, tip: Point, *, towards: Point, ink: Ink = "muted") -> None:
    """A slim filled head at ``tip`` pointing along the direction ``towards``."""
    ux, uy, _ = _unit((0.0, 0.0), towards)
    back = (tip[0] - ux * ARROW, tip[1] - uy * ARROW)
    half = ARROW * 0.2
    sheet.solid(
        [
            tip,
            (back[0] - uy * half, back[1] + ux * half),
            (back[0] + uy * half, back[1] - ux * half),
        ],
        ink=ink,
    )


def dimension(
    sheet: Sheet, ends: tuple[Point, Point], *,
    label: str, offset: float = 0.0, ink: Ink = "muted", text_ink: Ink = "ink",
    size: Size = "small", bold: bool = False,
) -> None:  # fmt: skip
    """A dimension between two points, drawn ``offset`` to the right of the way between them.

    Extension lines lead there when the offset is not zero. Where the arrows do
    not fit between the ends they stand outside and point in.
    """
    start, end = ends
    ux, uy, length = _unit(start, end)
    away = (-uy * offset, ux * offset)
    a, b = ((at[0] + away[0], at[1] + away[1]) for at in (start, end))
    if offset:
        _extensions(sheet, (start, end), feet=(a, b))
    outside = length < 2.6 * ARROW
    reach = 2.0 * ARROW if outside else 0.0
    sheet.line(
        (a[0] - ux * reach, a[1] - uy * reach),
        (b[0] + ux * reach, b[1] + uy * reach),
        ink=ink,
        weight="hair",
    )
    way = -1.0 if outside else 1.0
    arrowhead(sheet, a, towards=(-ux * way, -uy * way), ink=ink)
    arrowhead(sheet, b, towards=(ux * way, uy * way), ink=ink)
    _dimension_label(sheet, (a, b), label=label, size=size, ink=text_ink, bold=bold)


def _extensions(sheet: Sheet, ends: tuple[Point, Point], *, feet: tuple[Point, Point]) -> None:
    for start, foot in zip(ends, feet, strict=True):
        ux, uy, length = _unit(start, foot)
        sheet.line(
            (start[0] + ux * 2.0, start[1] + uy * 2.0),
            (start[0] + ux * (length + 3.0), start[1] + uy * (length + 3.0)),
            ink="faint",
            weight="hair",
        )


def _dimension_label(
    sheet: Sheet, ends: tuple[Point, Point], *, label: str, size: Size, ink: Ink, bold: bool
) -> None:
    """Lettering along the dimension, readable from below or from the right."""
    (ax, ay), (bx, by) = ends
    turn = math.degrees(math.atan2(by - ay, bx - ax))
    if turn > 89.0:
        turn -= 180.0
    if turn <= -91.0:
        turn += 180.0
    lift = 4.0
    rad = math.radians(turn)
    at = ((ax + bx) / 2 + lift * math.sin(rad), (ay + by) / 2 - lift * math.cos(rad))
    sheet.text(at, label, size=size, ink=ink, anchor="middle", turn_deg=turn, halo=True, bold=bold)


def leader(sheet: Sheet, tip: Point, *, to: Point, words: str, ink: Ink = "muted") -> None:
    """A note with a thin line to what it is about; words stand away from the tip."""
    sheet.line(tip, to, ink="muted", weight="hair")
    sheet.circle(tip, radius=1.4, ink="muted", weight="hair", fill="muted")
    right = to[0] >= tip[0]
    sheet.text(
        (to[0] + (3 if right else -3), to[1] + 4),
        words,
        size="small",
        ink=ink,
        anchor="start" if right else "end",
        halo=True,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Soft:
    """A figure with its doubt, already in drawing units along one axis, low to high."""

    low_90: float
    low_50: float
    middle: float
    high_50: float
    high_90: float


def spindle(
    sheet: Sheet, soft: Soft, *, across: float, half: float = 6.0,
    ink: Ink = "ink", weight: Weight = "line", guess: bool = False, upright: bool = False,
) -> None:  # fmt: skip
    """An interval with soft ends: full over the middle half, thinning out to the 90 % ends.

    The middle is hatched; a guess is dashed and left open. ``across`` is where it
    lies on the other axis.
    """

    def at(along: float, aside: float) -> Point:
        return (across + aside, along) if upright else (along, across + aside)

    inner = [(soft.low_50, -half), (soft.high_50, -half), (soft.high_50, half), (soft.low_50, half)]
    outline = [at(soft.low_90, 0.0), *(at(*corner) for corner in inner[:2])]
    outline += [at(soft.high_90, 0.0), *(at(*corner) for corner in inner[2:])]
    style: Style = "hidden" if guess else "solid"
    if not guess:
        sheet.hatch([at(*corner) for corner in inner], ink=ink, gap=3.2)
    sheet.path(outline, ink=ink, weight="hair", style=style, closed=True)
    sheet.line(at(soft.middle, -half - 3), at(soft.middle, half + 3), ink=ink, weight="bold")
    if weight == "bold" and not guess:
        sheet.path([at(*corner) for corner in inner], ink=ink, weight="line", closed=True)


def nice_step(span: float, /, *, about: int = 6) -> float:
    """A step of 1, 2 or 5 times a power of ten that cuts ``span`` into about so many.

    Examples
    --------
    >>> nice_step(0.9), nice_step(260)
    (0.1, 50.0)
    """
    rough = max(span, 1e-9) / about
    power = 10.0 ** math.floor(math.log10(rough))
    return min((power * factor for factor in (1, 2, 5, 10)), key=lambda step: abs(step - rough))


def ticks(limits: tuple[float, float], *, about: int = 6) -> list[float]:
    """Round values within limits.

    Examples
    --------
    >>> ticks((-0.3, 0.9))
    [-0.2, 0.0, 0.2, 0.4, 0.6, 0.8]
    """
    low, high = limits
    step = nice_step(high - low, about=about)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(count * step, 10) + 0.0 for count in range(first, last + 1)]


def scale_line(
    sheet: Sheet, values: Sequence[float], *,
    place: Callable[[float], float], level: float, label: Callable[[float], str],
    below: bool = True,
) -> None:  # fmt: skip
    """A horizontal scale at ``level``: a rule with ticks and figures under (or over) it."""
    side = 1.0 if below else -1.0
    if not values:
        return
    sheet.line((place(values[0]), level), (place(values[-1]), level), ink="muted", weight="hair")
    for value in values:
        x = place(value)
        sheet.line((x, level), (x, level + 5 * side), ink="muted", weight="hair")
        drop = 7 + SIZES["small"] * 0.8 if below else -8
        sheet.text((x, level + drop), label(value), size="small", ink="muted", anchor="middle")


def measured_scale(
    sheet: Sheet, limits: tuple[float, float], *,
    unit: str, place: Callable[[float], float], level: float, about: int = 6,
) -> None:  # fmt: skip
    """A horizontal scale of round figures in the unit that is spoken here.

    ``limits`` and what ``place`` takes are in ``unit``; the figures stand without it.
    """
    times = in_spoken(unit)
    low, high = limits
    values = ticks((low * times, high * times), about=about)
    digits = digits_of(values)
    scale_line(
        sheet, values, place=lambda value: place(value / times), level=level,
        label=lambda value: figure(value, digits=digits),
    )  # fmt: skip


def digits_of(values: Sequence[float], /) -> int:
    """How many decimals round figures need, two at most.

    Examples
    --------
    >>> digits_of([0.0, 5.0, 10.0]), digits_of([0.0, 0.5, 1.0])
    (0, 1)
    """
    return next(
        (digits for digits in (0, 1) if all(abs(v - round(v, digits)) < 1e-9 for v in values)), 2
    )


def plumb_line(
    sheet: Sheet, top: Point, *, length: float, ink: Ink = "ink", weight: Weight = "line"
) -> None:
    """A plumb line with its bob, for a true zero."""
    x, y = top
    foot = y + length
    sheet.line((x - 5, y), (x + 5, y), ink=ink, weight="line")
    sheet.line((x, y), (x, foot - 14), ink=ink, weight=weight)
    bob = [(x - 4, foot - 14), (x + 4, foot - 14), (x + 4, foot - 9), (x, foot), (x - 4, foot - 9)]
    sheet.solid(bob, ink=ink)


def break_line(sheet: Sheet, start: Point, *, end: Point, ink: Ink = "muted") -> None:
    """A long-break line: straight with a zigzag in the middle, where a drawing is cut short."""
    ux, uy, length = _unit(start, end)
    middle, kick = length / 2, 4.0
    shape = [(0.0, 0.0), (middle - 5, 0.0), (middle - 2, -kick), (middle + 2, kick)]
    shape += [(middle + 5, 0.0), (length, 0.0)]
    sheet.path(
        [(start[0] + ux * s - uy * t, start[1] + uy * s + ux * t) for s, t in shape],
        ink=ink,
        weight="hair",
    )


def angle_dimension(
    sheet: Sheet, centre: Point, *, radius: float, from_deg: float, to_deg: float, label: str,
    ink: Ink = "muted", text_ink: Ink = "ink", label_out: float = 10.0, bold: bool = False,
) -> None:  # fmt: skip
    """An arc with arrow heads between two directions (counter-clockwise from the right)."""
    count = max(2, int(abs(to_deg - from_deg) / 3) + 2)
    span = (to_deg - from_deg) / (count - 1)
    angles = [math.radians(from_deg + span * step) for step in range(count)]
    arc = [(centre[0] + radius * math.cos(a), centre[1] - radius * math.sin(a)) for a in angles]
    sheet.path(arc, ink=ink, weight="hair")
    if abs(to_deg - from_deg) * math.pi / 180 * radius > 2.2 * ARROW:
        for tip, angle, way in ((arc[0], angles[0], -1.0), (arc[-1], angles[-1], 1.0)):
            turning = math.copysign(way, way * (to_deg - from_deg))
            arrowhead(
                sheet,
                tip,
                towards=(-math.sin(angle) * turning, -math.cos(angle) * turning),
                ink=ink,
            )
    middle = math.radians((from_deg + to_deg) / 2)
    out = radius + label_out
    at = (centre[0] + out * math.cos(middle), centre[1] - out * math.sin(middle) + 4)
    anchor: Anchor = "middle"
    if abs(math.cos(middle)) >= 0.35:
        anchor = "start" if math.cos(middle) > 0 else "end"
    sheet.text(at, label, size="small", ink=text_ink, anchor=anchor, halo=True, bold=bold)


def note_width(words: str, /) -> float:
    """Room a small note needs [units]."""
    return width_of(words, size="small")
