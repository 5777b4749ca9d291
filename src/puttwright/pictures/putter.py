"""The putter drawn from its build: face, toe and plan in first-angle projection, to scale.

Drawn for a right-hander; for a left-hander the whole sheet is mirrored.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Protocol, TypedDict

from puttwright.evidence.records import LEFT, Build
from puttwright.fitting.phrases import THIN
from puttwright.pictures.annotation import angle_dimension, break_line, dimension
from puttwright.pictures.drafting import UNIT_MM, Sheet
from puttwright.pictures.grounds import Ground, Ink
from puttwright.pictures.hand import measure, putter_length
from puttwright.pictures.hang import draw_hang
from puttwright.pictures.putter_forms import (
    GRIP_BUTT_MM,
    NECK_HALF_MM,
    SHAFT_HALF_MM,
    HeadForm,
    NeckForm,
    head_form,
    neck_form,
    ribbon,
)
from puttwright.pictures.svg import Point
from puttwright.pictures.tables import Table

HALF_SIZE: Final = 0.5 / UNIT_MM
"""Units per millimetre of putter for a drawing at 1:2 on paper."""

_SHAFT_MM: Final = 84.0
_GAP_MM: Final = 9.0
_NARROW: Final = 560.0
Place = Callable[[float, float], Point]


class _Along(Protocol):
    """A point so far along the shaft axis from the sole, and aside of it [mm]."""

    def __call__(self, distance_mm: float, aside_mm: float = 0.0, /) -> Point: ...


class _Stress(TypedDict):
    text_ink: Ink
    bold: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    """What every view needs: the build, its forms and the scale [units/mm]."""

    build: Build
    head: HeadForm
    neck: NeckForm
    scale: float
    changed: frozenset[str] = frozenset()

    def stress(self, field: str) -> _Stress:
        """How the figure of a field is lettered: in accent and bold where it is to be worked."""
        worked = field in self.changed
        return {"text_ink": "accent" if worked else "ink", "bold": worked}

    def frame(self, origin: Point) -> Place:
        """A view's frame: millimetres, x right and y up from ``origin``, to the sheet."""
        return lambda x, y: (origin[0] + x * self.scale, origin[1] - y * self.scale)


def putter_drawing(
    build: Build, *, handed: str, ground: Ground, prefix: str = "putter",
    width: float = 680.0, scale: float | None = None, changed: frozenset[str] = frozenset(),
) -> str:  # fmt: skip
    """Draw a build from the front, from the toe and from above, with its dimensions.

    Parameters
    ----------
    build
        Length, lie, loft, and where recorded offset, hang and centre of gravity.
    handed
        ``"left"`` mirrors the drawing.
    ground, prefix, width
        As for every drawing. Below 560 the views stand under each other.
    scale
        Drawing units per millimetre of putter; :data:`HALF_SIZE` prints 1:2. When
        not given the views are as large as the width allows, at most 1:2.
    changed
        Names of fields whose figures are to be worked, lettered so that they stand out.

    Returns
    -------
    str
        An SVG drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> build = Build(build_id="b", length_mm=864, lie_deg=71, loft_deg=3)
    >>> "71.0°" in putter_drawing(build, handed="right", ground=PAPER)
    True
    """
    narrow = width < _NARROW
    fit = min(HALF_SIZE, (width - 60.0) / (190.0 if narrow else 318.0))
    job = _Job(
        build=build, head=head_form(build), neck=neck_form(build), scale=scale or fit,
        changed=changed,
    )  # fmt: skip
    front = (40.0 + job.head.length_mm / 2 * job.scale, 26.0 + _reach_mm(job) * job.scale)
    plan_top = front[1] + 34.0
    plan = (front[0], plan_top + job.head.depth_mm * job.scale)
    plan_foot = plan[1] + (max(build.offset_mm or 0.0, 0.0) + 16.0) * job.scale
    if narrow:
        side = (46.0 + job.head.depth_mm * job.scale, plan_foot + 46 + job.neck.top_mm * job.scale)
        side = (side[0], side[1] + 30.0 * job.scale)
        at_rest = (width - 88.0, side[1] - 34.0)
        height = side[1] + 70.0
    else:
        right = (front[0] + (job.head.length_mm / 2 + 62.0) * job.scale + width) / 2
        side = (right + 0.4 * job.head.depth_mm * job.scale, front[1])
        at_rest = (right, plan_top + 72.0)
        height = max(plan_foot + 6.0, plan_top + 172.0)
    sheet = Sheet(
        width=width, height=round(height), ground=ground, prefix=prefix, mirrored=handed == LEFT
    )
    _front(sheet, job, origin=front)
    _plan(sheet, job, origin=plan)
    _side(sheet, job, origin=side)
    draw_hang(sheet, build, centre=at_rest, room=72.0)
    if build.toe_hang_deg is not None:
        _words(sheet, "at rest, seen along the shaft", at=(at_rest[0], at_rest[1] + 86.0))
    if scale == HALF_SIZE:
        _check_bar(sheet)
    return sheet.svg(
        title=f"Drawing of {build.name}", description=said_putter(build, handed=handed)
    )


def _reach_mm(job: _Job) -> float:
    """Height of what is shown of the putter above the ground."""
    along = _SHAFT_MM + _GAP_MM + GRIP_BUTT_MM
    return along * math.sin(math.radians(job.build.lie_deg)) + 6.0


def _words(sheet: Sheet, words: str, *, at: Point) -> None:
    sheet.text(at, words, size="small", ink="muted", anchor="middle")


def _check_bar(sheet: Sheet) -> None:
    """A bar to lay a ruler on, so that a sheet printed at another size is noticed."""
    x, y = sheet.width - 50.0 / UNIT_MM - 14.0, 16.0
    ends = ((x, y), (x + 50.0 / UNIT_MM, y))
    dimension(sheet, ends, label=f"1:2, this bar prints 50{THIN}mm")


def _ground_line(sheet: Sheet, start: Point, *, length: float) -> None:
    end = (start[0] + length, start[1])
    sheet.line(start, end, weight="line")
    sheet.hatch([start, end, (end[0], end[1] + 6), (start[0], start[1] + 6)], gap=5.0)


def _front(sheet: Sheet, job: _Job, *, origin: Point) -> None:
    """The face, seen from the target: the toe left, the shaft leaning to the golfer."""
    at = job.frame(origin)
    half, height = job.head.length_mm / 2, job.head.height_mm
    lie = math.radians(job.build.lie_deg)
    axis = job.neck.axis_from_middle_mm

    def along(distance_mm: float, aside_mm: float = 0.0) -> Point:
        x = axis + distance_mm * math.cos(lie) + aside_mm * math.sin(lie)
        return at(x, distance_mm * math.sin(lie) - aside_mm * math.cos(lie))

    _ground_line(sheet, at(-half - 8, 0), length=(half + max(half, axis + 46.0) + 14) * job.scale)
    _shaft_front(sheet, along, neck_mm=job.neck.top_mm)
    face = [
        (-half + 5, 0.0), (half - 4, 0.0), (half, 5.0), (half - 2, height - 6),
        (half - 7, height), (-half + 9, height), (-half + 2, height - 5), (-half, 7.0),
    ]  # fmt: skip
    sheet.path([at(*point) for point in face], weight="bold", closed=True, fill="paper")
    for level in (height * 0.28, height * 0.5, height * 0.72):
        sheet.line(at(-half + 14, level), at(half - 14, level), ink="faint", weight="hair")
    sheet.line(along(-6), along(_SHAFT_MM + _GAP_MM + GRIP_BUTT_MM + 5), ink="muted",
               weight="hair", style="centre")  # fmt: skip
    angle_dimension(
        sheet, along(0), radius=max(34.0, half - axis + 12.0) * job.scale, from_deg=0.0,
        to_deg=job.build.lie_deg, label=f"lie {measure(job.build.lie_deg, '°', digits=1)}",
        **job.stress("lie_deg"),
    )  # fmt: skip
    _words(sheet, "from the target", at=at(-half + 24, -9.5))
    _length(sheet, job, along=along)


def _shaft_front(sheet: Sheet, along: _Along, *, neck_mm: float) -> None:
    def rod(low: float, high: float, *, half: float) -> list[Point]:
        return [along(low, -half), along(high, -half), along(high, half), along(low, half)]

    sheet.path(rod(8.0, neck_mm, half=NECK_HALF_MM), closed=True, fill="paper")
    sheet.path(rod(neck_mm, _SHAFT_MM, half=SHAFT_HALF_MM), closed=True, fill="paper")
    grip = rod(_SHAFT_MM + _GAP_MM, _SHAFT_MM + _GAP_MM + GRIP_BUTT_MM, half=13.0)
    sheet.path(grip, closed=True, fill="paper")
    sheet.hatch(grip, gap=4.0)
    for level in (_SHAFT_MM, _SHAFT_MM + _GAP_MM):
        break_line(sheet, along(level, -17), end=along(level, 17), ink="ink")


def _length(sheet: Sheet, job: _Job, *, along: _Along) -> None:
    """Butt to sole along the axis, over the break."""
    butt = _SHAFT_MM + _GAP_MM + GRIP_BUTT_MM
    label = f"length {putter_length(job.build.length_mm)}"
    dimension(sheet, (along(0.0), along(butt)), label=label, offset=-34.0 * job.scale,
              **job.stress("length_mm"))  # fmt: skip


def _side(sheet: Sheet, job: _Job, *, origin: Point) -> None:
    """Seen from the toe: the target to the right, the face leaning back by the loft."""
    at = job.frame(origin)
    loft = math.radians(job.build.loft_deg)
    depth, height = job.head.depth_mm, job.head.height_mm
    lean = height * math.tan(loft)
    _ground_line(sheet, at(-depth - 12, 0), length=(depth + 46) * job.scale)
    back = min(0.55 * height, 12.0) if depth > 40 else 0.7 * height
    profile = [(-1.0, 0.0), (0.0, 1.0), (-lean, height), (-lean - 9, height),
               (-lean - 13, back + 2), (-depth + 3, back), (-depth, back - 3),
               (-depth, 4.0), (-depth + 5, 0.0)]  # fmt: skip
    neck = [at(*point) for point in ribbon(job.neck.side, half=NECK_HALF_MM)]
    ahead = job.build.offset_mm or 0.0
    top = job.neck.top_mm + 26.0
    shaft = ribbon([(ahead, job.neck.top_mm), (ahead, top)], half=SHAFT_HALF_MM)
    sheet.path([at(*point) for point in shaft], closed=True, fill="paper")
    break_line(sheet, at(ahead - 10, top), end=at(ahead + 10, top), ink="ink")
    sheet.path(neck, closed=True, fill="paper")
    sheet.path([at(*point) for point in profile], closed=True, weight="bold", fill="paper")
    sheet.line(
        at(ahead, height + 4), at(ahead, top + 6), ink="muted", weight="hair", style="centre"
    )
    _loft(sheet, job, at=at)
    if job.build.offset_mm is not None:
        _offset(sheet, job, at=at, level=top + 8.0)
    _words(sheet, "from the toe", at=at(-depth / 2, -9.5))


def _loft(sheet: Sheet, job: _Job, *, at: Place) -> None:
    """The face's lean against a plumb line through its foot."""
    loft = job.build.loft_deg
    reach = job.neck.top_mm + 4.0
    foot = at(0.0, 0.0)
    sheet.line(foot, at(0.0, reach), ink="muted", weight="hair")
    tip = at(-reach * math.tan(math.radians(loft)), reach)
    sheet.line(foot, tip, weight="line")
    label = f"loft {measure(loft, '°', digits=1)}"
    stress = job.stress("loft_deg")
    sheet.text(
        (foot[0] + 10, at(0.0, 11.0)[1]), label,
        size="small", ink=stress["text_ink"], bold=stress["bold"], halo=True,
    )  # fmt: skip


def _offset(sheet: Sheet, job: _Job, *, at: Place, level: float) -> None:
    """Shaft axis ahead of the leading edge."""
    ahead = job.build.offset_mm or 0.0
    for x in (0.0, ahead):
        sheet.line(at(x, level - 10), at(x, level + 3), ink="faint", weight="hair")
    dimension(sheet, (at(min(0.0, ahead), level), at(max(0.0, ahead), level)), label="")
    x, y = at(ahead / 2, level)
    stress = job.stress("offset_mm")
    sheet.text(
        (x, y - 8), f"offset {measure(ahead, 'mm')}",
        size="small", ink=stress["text_ink"], bold=stress["bold"], anchor="middle", halo=True,
    )  # fmt: skip


def _plan(sheet: Sheet, job: _Job, *, origin: Point) -> None:
    """From above: the face at the foot of the view, the toe left."""
    at = job.frame(origin)

    def flat(x: float, y: float) -> Point:
        return at(x, -y)  # plan y runs to the target, which is down the sheet

    half = job.head.length_mm / 2
    axis, ahead = job.neck.axis_from_middle_mm, job.build.offset_mm or 0.0
    sheet.path([flat(*point) for point in job.head.plan], closed=True, fill="paper")
    if job.head.cavity:
        (x1, y), (x2, _) = job.head.cavity
        sheet.line(flat(x1, y), flat(x2, y), weight="hair")
    sheet.line(flat(-half, 0), flat(half, 0), weight="bold")
    _sight_line(sheet, job, flat=flat)
    neck = ribbon([(axis, -9.0), (axis + 0.001, ahead)], half=NECK_HALF_MM)
    sheet.path([flat(*point) for point in neck], weight="hair", closed=True, fill="paper")
    tip = axis + 48.0
    shaft = ribbon([(axis, ahead), (tip, ahead)], half=SHAFT_HALF_MM)
    sheet.path([flat(*point) for point in shaft], closed=True, fill="paper")
    break_line(sheet, flat(tip, ahead - 9), end=flat(tip, ahead + 9), ink="ink")
    sheet.circle(flat(axis, ahead), radius=SHAFT_HALF_MM * job.scale, fill="paper", weight="hair")
    _balance_point(sheet, job, flat=flat)
    _words(sheet, "from above", at=flat(-half + 18, 9.5))


def _sight_line(sheet: Sheet, job: _Job, *, flat: Place) -> None:
    mark = job.build.sight_line
    back = -(job.head.depth_mm if job.head.depth_mm < 60 else 50.0) + 4.0
    if mark == "dot":
        sheet.circle(flat(0, -5), radius=2.2, fill="ink")
    elif mark in {"line", "multi"}:
        for x in (0.0,) if mark == "line" else (-9.0, 0.0, 9.0):
            sheet.line(flat(x, -3), flat(x, back), weight="bold" if x == 0 else "line")


def _balance_point(sheet: Sheet, job: _Job, *, flat: Place) -> None:
    """The centre of gravity as a quartered circle, where it was recorded, with its two figures."""
    depth, from_axis = job.build.cg_depth_mm, job.build.cg_from_axis_mm
    if depth is None or from_axis is None:
        return
    x, y = flat(job.neck.axis_from_middle_mm - from_axis, -depth)
    radius = 5.0
    sheet.circle((x, y), radius=radius, weight="hair", fill="paper")
    for start in (0.0, 180.0):
        arc = [math.radians(start + 15.0 * step) for step in range(7)]
        wedge = [(x + radius * math.cos(a), y + radius * math.sin(a)) for a in arc]
        sheet.solid([(x, y), *wedge])
    half = job.head.length_mm / 2
    foot = flat(-half - 8, 0.0)
    sheet.line((x - radius, y), (foot[0] - 3, y), ink="faint", weight="hair")
    sheet.line(flat(-half, 0.0), (foot[0] - 3, foot[1]), ink="faint", weight="hair")
    dimension(sheet, (foot, (foot[0], y)), label=measure(depth, "mm"))


def said_putter(build: Build, *, handed: str) -> str:
    """The drawing in words."""
    shape = (build.head_shape or "head").replace("_", " ")
    told = [
        f"{shape}, {handed}-handed, length {putter_length(build.length_mm)}",
        f"lie {measure(build.lie_deg, '°', digits=1)}",
        f"loft {measure(build.loft_deg, '°', digits=1)}",
    ]
    if build.offset_mm is not None:
        told.append(f"offset {measure(build.offset_mm, 'mm')}")
    if build.toe_hang_deg is not None:
        told.append(f"hang {measure(build.toe_hang_deg, '°')}")
    return ", ".join(told) + ". Head outline not to shape; the figures hold."


def putter_table(build: Build, *, handed: str) -> Table:
    """The dimensions on the drawing, as a table."""
    rows = [
        ("Length, butt to sole along the shaft axis", putter_length(build.length_mm)),
        ("Lie", measure(build.lie_deg, "°", digits=1)),
        ("Loft", measure(build.loft_deg, "°", digits=1)),
    ]
    optional = (
        ("Offset, shaft axis ahead of the face", build.offset_mm, "mm"),
        ("Hang", build.toe_hang_deg, "°"),
        ("Centre of gravity from the shaft axis, toe positive", build.cg_from_axis_mm, "mm"),
        ("Centre of gravity behind the face", build.cg_depth_mm, "mm"),
        ("Mass of head", build.head_mass_g, "g"),
    )
    rows += [(name, measure(value, unit)) for name, value, unit in optional if value is not None]
    return Table(
        caption=f"Dimensions of {build.name}, {handed}-handed",
        head=("Dimension", "Figure"),
        rows=tuple(rows),
    )
