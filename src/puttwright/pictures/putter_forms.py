"""Outlines of heads and necks in millimetres: drawn so that the kind is known at a glance.

A head's true outline is not in the records, so these are forms of ours; only the
dimensions written on the drawing hold. ``x`` runs from the middle of the face
toward the heel, ``y`` from the face toward the target (plan) or up from the sole.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.evidence.records import Build
from puttwright.pictures.svg import Point

GRIP_BUTT_MM: Final = 26.0
SHAFT_HALF_MM: Final = 4.7
NECK_HALF_MM: Final = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadForm:
    """A kind of head: heel to toe, face to back, height of the face, and its plan."""

    length_mm: float
    depth_mm: float
    height_mm: float
    plan: tuple[Point, ...]
    cavity: tuple[Point, ...] = ()


def _rounded(corners: Sequence[tuple[float, float, float]], *, steps: int = 6) -> tuple[Point, ...]:
    """A closed outline whose corners (x, y, radius) are rounded."""
    points: list[Point] = []
    count = len(corners)
    for place, (x, y, radius) in enumerate(corners):
        before = corners[place - 1]
        after = corners[(place + 1) % count]
        ends = ((before[0], before[1]), (after[0], after[1]))
        points += _round_corner((x, y), ends, radius=radius, steps=steps)
    return tuple(points)


def _round_corner(
    corner: Point, neighbours: tuple[Point, Point], *, radius: float, steps: int
) -> list[Point]:
    if radius <= 0.0:
        return [corner]
    ends = []
    for other in neighbours:
        length = math.hypot(other[0] - corner[0], other[1] - corner[1])
        cut = min(radius, length / 2) / length
        ends.append(
            (corner[0] + cut * (other[0] - corner[0]), corner[1] + cut * (other[1] - corner[1]))
        )
    (ax, ay), (bx, by) = ends
    return [
        (
            (1 - t) ** 2 * ax + 2 * t * (1 - t) * corner[0] + t * t * bx,
            (1 - t) ** 2 * ay + 2 * t * (1 - t) * corner[1] + t * t * by,
        )
        for t in (step / steps for step in range(steps + 1))
    ]


_BLADE: Final = HeadForm(
    length_mm=114.0,
    depth_mm=27.0,
    height_mm=25.0,
    plan=_rounded(
        [(57, 0, 2), (57, -14, 5), (50, -27, 7), (26, -27, 5), (20, -20, 5),
         (-20, -20, 5), (-26, -27, 5), (-50, -27, 7), (-57, -14, 5), (-57, 0, 2)]
    ),
    cavity=((26.0, -7.0), (-26.0, -7.0)),
)  # fmt: skip
_HALF_MALLET: Final = HeadForm(
    length_mm=110.0,
    depth_mm=56.0,
    height_mm=25.0,
    plan=_rounded(
        [(55, 0, 2), (55, -16, 10), (46, -42, 22), (22, -56, 24), (-22, -56, 24),
         (-46, -42, 22), (-55, -16, 10), (-55, 0, 2)]
    ),
)  # fmt: skip
_MALLET: Final = HeadForm(
    length_mm=104.0,
    depth_mm=88.0,
    height_mm=26.0,
    plan=_rounded(
        [(52, 0, 2), (52, -30, 8), (47, -82, 12), (34, -88, 6), (24, -84, 6), (20, -52, 10),
         (-20, -52, 10), (-24, -84, 6), (-34, -88, 6), (-47, -82, 12), (-52, -30, 8), (-52, 0, 2)]
    ),
)  # fmt: skip
_FORMS: Final = {"blade": _BLADE, "half_mallet": _HALF_MALLET, "mallet": _MALLET}


def head_form(build: Build, /) -> HeadForm:
    """The form of a build's head; a half mallet's where the shape is not recorded."""
    return _FORMS.get(build.head_shape or "", _HALF_MALLET)


@dataclass(frozen=True, slots=True, kw_only=True)
class NeckForm:
    """How the shaft gets to the head: where it stands and the bend seen from the toe."""

    axis_from_middle_mm: float
    side: tuple[Point, ...]
    top_mm: float


def neck_form(build: Build, /) -> NeckForm:
    """The neck a build has, told from the words of its style.

    The shaft axis stands where the recorded centre of gravity puts it, taken to be
    in the middle of the head; without that, where the style usually has it.
    """
    head = head_form(build)
    style = (build.neck_style or "").lower()
    centred = "cent" in style and ("shaft" in style or "neck" in style or style.startswith("cent"))
    usual = 0.0 if centred else 0.33 * head.length_mm
    axis = build.cg_from_axis_mm if build.cg_from_axis_mm is not None else usual
    limit = head.length_mm / 2 - 9.0
    axis = min(max(axis, -limit), limit)
    ahead = build.offset_mm or 0.0
    top = head.height_mm
    base = -9.0
    if centred or "spud" in style or "short" in style:
        return NeckForm(
            axis_from_middle_mm=axis,
            side=((min(ahead, base), top), (ahead, top + 10), (ahead, top + 24)),
            top_mm=top + 24,
        )
    if "bend" in style or "bent" in style or "slant" in style or "flow" in style:
        rise = 40.0 if "ben" in style else 26.0
        side = ((base, top), (base, top + 5), (ahead, top + rise), (ahead, top + rise + 10))
        return NeckForm(axis_from_middle_mm=axis, side=side, top_mm=top + rise + 10)
    side = ((base, top), (base, top + 15), (ahead, top + 15), (ahead, top + 46))
    return NeckForm(axis_from_middle_mm=axis, side=side, top_mm=top + 46)


def ribbon(course: Sequence[Point], *, half: float) -> list[Point]:
    """The outline of a rod of half width ``half`` along a course of points."""
    points = [at for place, at in enumerate(course) if place == 0 or at != course[place - 1]]
    left, right = [], []
    for place, (x, y) in enumerate(points):
        nx, ny = _normal(points, place)
        left.append((x + nx * half, y + ny * half))
        right.append((x - nx * half, y - ny * half))
    return [*left, *reversed(right)]


def _normal(points: Sequence[Point], place: int) -> Point:
    """Normal at a joint, lengthened so that both legs keep their width (a mitre)."""
    normals = []
    for start, end in ((place - 1, place), (place, place + 1)):
        if start < 0 or end >= len(points):
            continue
        dx, dy = points[end][0] - points[start][0], points[end][1] - points[start][1]
        length = math.hypot(dx, dy)
        normals.append((-dy / length, dx / length))
    nx = sum(n[0] for n in normals) / len(normals)
    ny = sum(n[1] for n in normals) / len(normals)
    stretch = max(nx * nx + ny * ny, 0.25)
    return nx / stretch, ny / stretch
