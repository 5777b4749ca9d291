"""How far combinations of parts are from a putter that is wanted, counted in tolerances.

A figure off by its tolerance counts one, another shape of head four, a figure that is
wanted and that nobody measured one. All combinations of a head are judged at once.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from puttwright.club.along import Floats, head_below_m, total_and_balance
from puttwright.club.hang import hang_rad
from puttwright.club.metal import bend_limits, metal_of
from puttwright.club.targets import BEND_REFUSE_DEG, BY_FIELD
from puttwright.evidence import Build, Part

Axis = Sequence[Part | None]

_UNLIKE: Final = 4.0
"""Another shape of head or sight line, in tolerances; from judgement."""
_UNKNOWN: Final = 1.0
_OF_THE_NECK: Final = ("offset_mm", "toe_hang_deg")


def distances(head: Part, axes: Sequence[Axis], *, wanted: Build) -> Floats:
    """Of every combination with a head, shape (necks, shafts, grips, weights)."""
    necks, shafts, grips, _ = axes
    total = np.full([len(axis) for axis in axes], _of_the_head(head, wanted))
    total += along(0, [_of_the_neck(head, neck, wanted) for neck in necks])
    total += along(1, [_of_the_shaft(shaft, wanted) for shaft in shafts])
    total += along(2, [_off("grip_diameter_mm", value_of(grip, "grip_diameter_mm"), wanted)
                       for grip in grips])  # fmt: skip
    total += along(3, [_off("head_mass_g", each, wanted) for each in _heavy(head, axes)])
    return np.sqrt(total + _of_the_whole(head, axes, wanted))


def distance_of_built(putter: Part, wanted: Build) -> float:
    """Of a putter that stands there built, which can be bent and cut but nothing more."""
    uncut = putter.length_mm is None or putter.length_mm - wanted.length_mm < 1.0
    shares = [
        _of_the_head(putter, wanted),
        _of_the_neck(putter, None, wanted),
        _of_the_shaft(putter, wanted),
        _off("grip_diameter_mm", putter.grip_diameter_mm, wanted),
        _off("head_mass_g", None, wanted),
        _off("total_mass_g", putter.mass_g if uncut else None, wanted),
        _off("balance_from_butt_mm", putter.balance_from_butt_mm if uncut else None, wanted),
    ]
    return math.sqrt(sum(shares))


def along(axis: int, values: Sequence[float]) -> Floats:
    """Values laid along one axis of all combinations, so that they broadcast."""
    shape = [1, 1, 1, 1]
    shape[axis] = -1
    return np.asarray(values, dtype=float).reshape(shape)


def value_of(part: Part | None, name: str) -> float | None:
    """A figure of a part; ``None`` where there is no part."""
    return None if part is None else getattr(part, name)


def bent_deg(head: Part, name: str, *, wanted: Build) -> float | None:
    """The angle nearest to the wanted one that this head may be bent to."""
    supplied = getattr(head, f"{name}_deg")
    limits = bend_limits(head, name)
    if supplied is None or limits is None:
        return None if supplied is None else float(supplied)
    metal = metal_of(head)
    most = 2.0 * metal.usual_deg if metal.known else BEND_REFUSE_DEG
    low, high = max(limits[0], supplied - most), min(limits[1], supplied + most)
    return float(min(max(getattr(wanted, f"{name}_deg"), low), high))


def hang_deg(head: Part, neck: Part | None) -> float | None:
    """The hang with this neck: its own figure, else from where the centre of gravity lies.

    Without a neck of its own the head's measured hang wins over the computed one.
    """
    measured = head.toe_hang_deg if neck is None else neck.toe_hang_deg
    if measured is not None:
        return measured
    offset = offset_mm(head, neck)
    if head.cg_from_axis_mm is None or head.cg_depth_mm is None or offset is None:
        return head.toe_hang_deg
    found = hang_rad(
        cg_from_axis_m=1e-3 * head.cg_from_axis_mm,
        cg_behind_face_m=1e-3 * head.cg_depth_mm,
        offset_m=1e-3 * offset,
    )
    return round(math.degrees(found), 1)


def offset_mm(head: Part, neck: Part | None) -> float | None:
    """The neck's offset, else the head's own."""
    of_neck = value_of(neck, "offset_mm")
    return head.offset_mm if of_neck is None else of_neck


def style_of(head: Part, neck: Part | None) -> str | None:
    """The neck's style, else the head's own."""
    return (neck.neck_style if neck else None) or head.neck_style


def cut_mass_g(shaft: Part | None, wanted: Build) -> float | None:
    """What is left of the shaft's mass when it is cut, an even shaft assumed."""
    if shaft is None or shaft.mass_g is None or shaft.length_mm is None:
        return value_of(shaft, "mass_g")
    return shaft.mass_g * min(wanted.length_mm / shaft.length_mm, 1.0)


def length_mm(shaft: Part | None, wanted: Build) -> float:
    """The length made: as wanted, or as far as the shaft goes."""
    longest = value_of(shaft, "length_mm")
    return wanted.length_mm if longest is None else min(longest, wanted.length_mm)


def whole_of(head: Part, axes: Sequence[Axis], *, wanted: Build) -> tuple[Floats, Floats]:
    """Mass [g] and balance from the butt [mm] of every combination; NaN where not weighed."""
    necks, shafts, grips, _ = axes
    lie = bent_deg(head, "lie", wanted=wanted)
    below = head_below_m(
        lie_rad=math.radians(wanted.lie_deg if lie is None else lie),
        cg_from_axis_m=None if head.cg_from_axis_mm is None else 1e-3 * head.cg_from_axis_mm,
    )
    total, balance = total_and_balance(
        length_m=1e-3 * along(1, [length_mm(shaft, wanted) for shaft in shafts]),
        head_kg=1e-3 * along(3, [_weighed(each) for each in _heavy(head, axes)]),
        neck_kg=1e-3 * along(0, [0.0 if n is None else _weighed(n.mass_g) for n in necks]),
        shaft_kg=1e-3 * along(1, [_weighed(cut_mass_g(shaft, wanted)) for shaft in shafts]),
        grip_kg=1e-3 * along(2, [_weighed(value_of(grip, "mass_g")) for grip in grips]),
        head_below_m=below,
    )
    return 1e3 * total, 1e3 * balance


def _heavy(head: Part, axes: Sequence[Axis]) -> list[float | None]:
    """The head's mass with each weight in it."""
    mass = head.mass_g
    return [None if mass is None else mass + (value_of(w, "mass_g") or 0.0) for w in axes[3]]


def _weighed(mass_g: float | None) -> float:
    return math.nan if mass_g is None else mass_g


def _off(field: str, value: float | None, wanted: Build) -> float:
    """A figure's share of the squared distance."""
    asked = getattr(wanted, field)
    if asked is None:
        return 0.0
    if value is None:
        return _UNKNOWN
    return float(((value - asked) / BY_FIELD[field].tolerance) ** 2)


def _of_the_head(head: Part, wanted: Build) -> float:
    unlike = [
        asked is not None and asked != getattr(head, name)
        for name, asked in (("head_shape", wanted.head_shape), ("sight_line", wanted.sight_line))
    ]
    angles = [
        _off(f"{name}_deg", bent_deg(head, name, wanted=wanted), wanted) for name in ("loft", "lie")
    ]
    return float(sum(unlike) * _UNLIKE**2 + sum(angles))


def _of_the_neck(head: Part, neck: Part | None, wanted: Build) -> float:
    unlike = wanted.neck_style is not None and style_of(head, neck) != wanted.neck_style
    figures = dict(zip(_OF_THE_NECK, (offset_mm(head, neck), hang_deg(head, neck)), strict=True))
    return sum(_off(name, value, wanted) for name, value in figures.items()) + unlike * _UNLIKE**2


def _of_the_shaft(shaft: Part | None, wanted: Build) -> float:
    known = value_of(shaft, "length_mm") is not None
    return _off("length_mm", length_mm(shaft, wanted) if known else None, wanted)


def _of_the_whole(head: Part, axes: Sequence[Axis], wanted: Build) -> Floats:
    """Mass and balance against those wanted; one tolerance where a part was never weighed."""
    asked = [name for name in _WHOLE if getattr(wanted, name) is not None]
    if not asked:
        return np.zeros((1, 1, 1, 1))
    found = dict(zip(_WHOLE, whole_of(head, axes, wanted=wanted), strict=True))
    shares = []
    for name in asked:
        off = ((found[name] - getattr(wanted, name)) / BY_FIELD[name].tolerance) ** 2
        shares.append(np.where(np.isnan(off), _UNKNOWN, off))
    return np.asarray(sum(shares))


_WHOLE: Final = ("total_mass_g", "balance_from_butt_mm")
