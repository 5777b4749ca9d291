"""The golfer from down the line: a line figure on plumb lines, now and as it would be."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.address.pose import Pose, Where
from puttwright.evidence.records import LEFT
from puttwright.fitting.address_words import eyes_phrase, with_range
from puttwright.fitting.at_address import AtAddress
from puttwright.fitting.decision import Estimate
from puttwright.fitting.phrases import interval
from puttwright.pictures.annotation import Soft, measured_scale, plumb_line, spindle
from puttwright.pictures.builds import BALLOON, BuildMark, balloon
from puttwright.pictures.drafting import Sheet, Style, ellipse_points
from puttwright.pictures.grounds import Ground, Ink, Weight
from puttwright.pictures.hand import measure, spoken_unit
from puttwright.pictures.svg import Point
from puttwright.pictures.tables import Table
from puttwright.units import BALL_RADIUS_M

_TOP: Final = 24.0
_FIGURE: Final = 336.0
_ROW: Final = 34.0
_FOOT: Final = 54.0
_BEYOND_M, _INSIDE_M = 0.26, 0.92
"""How far the drawing reaches beyond the ball and toward the golfer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EyesRow:
    """Where the eyes are with one putter; without a ``mark`` it is the one wanted."""

    words: str
    eyes_mm: Estimate
    mark: BuildMark | None = None
    guess: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class AddressView:
    """What is drawn: the pose ``now``, the one ``wanted``, the window and a row a putter."""

    now: Pose
    wanted: Pose
    window_mm: tuple[float, float]
    rows: tuple[EyesRow, ...]
    handed: str


def address_view(found: AtAddress, marks: Sequence[BuildMark]) -> AddressView:
    """The view of a conclusion; ``marks`` in the order of its builds."""
    rows = [
        EyesRow(
            words="measured" if each.measured else "foretold",
            eyes_mm=each.eyes_mm,
            mark=mark,
            guess=not each.measured,
        )
        for each, mark in zip(found.builds, marks, strict=True)
        if not each.unlike
    ]
    made = EyesRow(words="made to measure", eyes_mm=found.wanted.eyes_mm)
    return AddressView(
        now=found.own.pose,
        wanted=found.wanted.pose,
        window_mm=found.window_mm,
        rows=(*rows, made),
        handed=found.handed,
    )


def address_drawing(
    view: AddressView, *, ground: Ground, prefix: str = "address", width: float = 620.0
) -> str:
    """Draw the golfer, seen from behind along the target line, over the scale of the eyes.

    Parameters
    ----------
    view
        What is drawn. The golfer with the own putter is faint, with the one wanted plain.
    ground, prefix, width
        The paper, the start of every id, drawing units from 320 up.

    Returns
    -------
    str
        An SVG drawing; a left-hander stands on the other side.
    """
    height = _TOP + _FIGURE + 40.0 + _ROW * len(view.rows) + _FOOT
    sheet = Sheet(
        width=width, height=height, ground=ground, prefix=prefix, mirrored=view.handed == LEFT
    )
    _golfers(sheet, view)
    _scale(sheet, view)
    return sheet.svg(title="At address, from down the line", description=_told(view))


def _golfers(sheet: Sheet, view: AddressView) -> None:
    floor = _TOP + _FIGURE
    scale = min(_FIGURE / 1.62, (sheet.width - 24.0) / (_BEYOND_M + _INSIDE_M))
    ball = 0.5 * (sheet.width + scale * (_INSIDE_M - _BEYOND_M))

    def at(where: Where) -> Point:
        return ball - scale * float(where[0]), floor - scale * float(where[1])

    sheet.line((16, floor), (sheet.width - 16, floor), ink="muted", weight="hair")
    _figure_of(sheet, view.now, at=at, scale=scale, ink="faint", weight="line", style="hidden")
    _figure_of(sheet, view.wanted, at=at, scale=scale, ink="ink", weight="line", style="solid")
    radius = scale * BALL_RADIUS_M
    sheet.circle((ball, floor - radius), radius=radius, fill="paper")
    for pose, ink in ((view.now, "own"), (view.wanted, "accent")):
        x, y = at(pose.eyes)
        _plumb(sheet, (x, y), floor=floor, ink=ink)  # type: ignore[arg-type]
    hands, shoulder = at(view.wanted.hands), at(view.wanted.shoulder)
    sheet.line(
        (shoulder[0], shoulder[1]), (shoulder[0], hands[1] + 26), ink="muted", weight="hair",
        style="centre",
    )  # fmt: skip
    eyes = at(view.wanted.eyes)
    sheet.text((eyes[0] + 16, eyes[1] + 4), "eyes", size="small", ink="accent")
    left = min(hands[0], at(view.now.hands)[0]) - 10
    sheet.text((left, hands[1] + 4), "hands", size="small", ink="muted", anchor="end", halo=True)
    sheet.text((ball + 12, floor - 8), "ball", size="small", ink="muted")
    toe = at(view.wanted.toe)
    sheet.text((toe[0] - 30, floor + 15), "feet", size="small", ink="muted", anchor="middle")


def _plumb(sheet: Sheet, top: Point, *, floor: float, ink: Ink) -> None:
    plumb_line(sheet, top, length=floor - top[1] - 4, ink=ink, weight="hair")


def _figure_of(
    sheet: Sheet, pose: Pose, *,
    at: Callable[[Where], Point], scale: float, ink: Ink, weight: Weight, style: Style,
) -> None:  # fmt: skip
    """Feet, legs, trunk, neck, head, arms and putter as one drawn line each."""
    how = {"ink": ink, "weight": weight, "style": style}
    hip, shoulder, hands = at(pose.hip), at(pose.shoulder), at(pose.hands)
    ankle, toe = at(pose.ankle), at(pose.toe)
    heel = (ankle[0] - 0.06 * scale, toe[1])
    sheet.path([heel, ankle, toe], closed=True, **how)  # type: ignore[arg-type]
    sheet.path([ankle, hip], **how)  # type: ignore[arg-type]
    head = _head_centre(pose)
    sheet.path(_back(hip, shoulder), **how)  # type: ignore[arg-type]
    sheet.path([shoulder, _toward(shoulder, at(head), share=0.5)], **how)  # type: ignore[arg-type]
    turn = math.degrees(float(pose.head_rad))
    outline = ellipse_points(
        at(head), radii=(0.098 * scale, 0.122 * scale), turn_deg=turn, count=48
    )
    sheet.path(outline, closed=True, **how)  # type: ignore[arg-type]
    sheet.path([shoulder, at(pose.elbow), hands], **how)  # type: ignore[arg-type]
    for joint in (hip, shoulder, at(pose.elbow)):
        sheet.circle(joint, radius=2.6, ink=ink, weight="hair", fill="paper")
    sole, butt = at(pose.sole), at(pose.butt)
    sheet.line(butt, sole, ink=ink, weight="bold" if style == "solid" else "line", style=style)
    sheet.circle(hands, radius=4.6, ink=ink, weight="line", fill="paper")
    sheet.circle(at(pose.eyes), radius=2.4, ink=ink, weight="hair", fill=ink)
    _head_of_putter(sheet, pose, at=at, scale=scale, ink=ink, weight=weight)


def _head_centre(pose: Pose) -> Where:
    """The middle of the head, behind the eyes as the head is turned."""
    turn = float(pose.head_rad)
    back, up = 0.085, 0.005
    return (  # type: ignore[return-value]
        float(pose.eyes[0]) + back * math.cos(turn) - up * math.sin(turn),
        float(pose.eyes[1]) + back * math.sin(turn) + up * math.cos(turn),
    )


def _back(hip: Point, shoulder: Point) -> list[Point]:
    """The line of the back, a little rounded."""
    dx, dy = shoulder[0] - hip[0], shoulder[1] - hip[1]
    bow = 0.07
    steps = [step / 8 for step in range(9)]
    return [
        (hip[0] + s * dx + bow * dy * 4 * s * (1 - s) * 0.5,
         hip[1] + s * dy - bow * dx * 4 * s * (1 - s) * 0.5)
        for s in steps
    ]  # fmt: skip


def _toward(start: Point, end: Point, *, share: float) -> Point:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _head_of_putter(
    sheet: Sheet, pose: Pose, *,
    at: Callable[[Where], Point], scale: float, ink: Ink, weight: Weight,
) -> None:  # fmt: skip
    """The head from behind: a low block from heel to toe, under the ball line."""
    x, floor = at(pose.sole)
    heel, toe = x - 0.018 * scale, x + 0.090 * scale
    top = floor - 0.024 * scale
    sheet.path(
        [(heel, floor), (toe, floor), (toe, top), (heel, top)],
        ink=ink, weight=weight, closed=True, fill="paper",
    )  # fmt: skip


def _scale(sheet: Sheet, view: AddressView) -> None:
    """Eyes with each putter on a common scale, the window hatched, the ball line plumb."""
    top = _TOP + _FIGURE + 44.0
    foot = top + _ROW * len(view.rows)
    ends = [end for row in view.rows for end in row.eyes_mm.interval_90]
    low, high = min(-40.0, *view.window_mm, *ends), max(80.0, *view.window_mm, *ends)
    left, right = 30.0, sheet.width - 24.0 - 2 * BALLOON - 12.0

    def place(eyes_mm: float) -> float:
        # Toward the golfer is to the left, as in the figure.
        return right - (eyes_mm - low) / (high - low) * (right - left)

    window = [place(edge) for edge in view.window_mm]
    box = [(window[0], top - 8), (window[1], top - 8), (window[1], foot), (window[0], foot)]
    sheet.hatch(box, gap=6.0)
    sheet.text((0.5 * sum(window), top - 14), "wanted", size="small", ink="muted", anchor="middle")
    sheet.line((place(0.0), top - 8), (place(0.0), foot), ink="ink", style="centre", weight="hair")
    for count, row in enumerate(view.rows):
        _row(sheet, row, place=place, level=top + _ROW * (count + 0.5), right=right)
    measured_scale(sheet, (low, high), unit="mm", place=place, level=foot + 6, about=5)
    words = f"eyes inside the ball line, {spoken_unit('mm')}"
    sheet.text((0.5 * (left + right), foot + 44), words, size="small", ink="muted", anchor="middle")


def _row(
    sheet: Sheet, row: EyesRow, *, place: Callable[[float], float], level: float, right: float
) -> None:
    eyes = row.eyes_mm
    inner = eyes.interval_50 or eyes.interval_90
    ink: Ink = row.mark.ink if row.mark else "accent"
    soft = Soft(
        low_90=place(eyes.interval_90[1]), low_50=place(inner[1]), middle=place(eyes.mean),
        high_50=place(inner[0]), high_90=place(eyes.interval_90[0]),
    )  # fmt: skip
    spindle(sheet, soft, across=level + 3, half=4.5, ink=ink, guess=row.guess)
    x = right + 14.0 + BALLOON
    if row.mark:
        balloon(sheet, (x, level + 3), mark=row.mark)
    else:
        sheet.circle((x, level + 3), radius=BALLOON, ink="accent", weight="bold", style="hidden")
    sheet.text(
        (max(place(eyes.interval_90[0]) + 4, 0), level - 6), row.words, size="small", ink="muted",
        anchor="end", halo=True,
    )  # fmt: skip


def _told(view: AddressView) -> str:
    side = "left" if view.handed == LEFT else "right"
    said = [f"A {side}-hander seen from behind along the target line."]
    for row in view.rows:
        name = row.mark.said if row.mark else "The putter wanted"
        said.append(f"{name}: {eyes_phrase(row.eyes_mm)} ({row.words}).")
    said.append(f"Wanted are eyes {interval(view.window_mm, digits=0)} mm inside.")
    return " ".join(said)


def address_table(found: AtAddress, marks: Sequence[BuildMark], /) -> Table:
    """Every putter and what the address to it is, as a table."""
    want = found.wanted
    rows = [
        (
            mark.said,
            "measured" if each.measured else "foretold",
            with_range(each.eyes_mm, "mm"),
            with_range(each.hands_mm, "mm"),
            with_range(each.trunk_deg, "°"),
            with_range(each.sole_tilt_deg, "°", digits=1),
            with_range(each.flush_lie_deg, "°", digits=1),
        )
        for each, mark in zip(found.builds, marks, strict=True)
    ]
    made = (
        f"Wanted: {measure(want.length_mm.mean, 'mm')}, {measure(want.lie_deg.mean, '°')}",
        "arms hanging",
        with_range(want.eyes_mm, "mm"),
        measure(1e3 * float(want.pose.hands[1]), "mm"),
        with_range(want.trunk_deg, "°"),
        "flush",
        with_range(want.lie_deg, "°"),
    )
    return Table(
        caption="At address: eyes from the ball line, inside positive; 90 % intervals",
        head=("Putter", "How known", "Eyes", "Hands up", "Trunk bent", "Toe up", "Lie for flush"),
        rows=(*rows, made),
    )
