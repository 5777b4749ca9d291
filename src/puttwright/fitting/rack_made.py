"""A combination of parts, or a putter that stands there built, as a build with its figures."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from dataclasses import dataclass

from puttwright.evidence import Build, Part
from puttwright.fitting.rack_distance import (
    bent_deg,
    cut_mass_g,
    hang_deg,
    length_mm,
    offset_mm,
    style_of,
    value_of,
    whole_of,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One combination: its parts, the build it gives, how far that is from what is wanted.

    ``distance`` counts tolerances; ``price`` sums what has one, ``unpriced`` the
    parts that have none. ``built`` says that it stands there and can be tried.
    """

    parts: tuple[Part, ...]
    build: Build
    distance: float
    price: float
    unpriced: tuple[str, ...] = ()
    built: bool = False


def made_of(parts: Sequence[Part | None], wanted: Build, *, distance: float) -> Made:
    """The build that a head, neck, shaft, grip and weight give.

    Mass and balance are computed where every part was weighed, the hang where the
    centre of gravity was measured.
    """
    head, neck, shaft, grip, weight = parts
    assert head is not None
    taken = tuple(part for part in parts if part is not None)
    extra = value_of(weight, "mass_g") or 0.0
    whole = whole_of(head, [[neck], [shaft], [grip], [weight]], wanted=wanted)
    total, balance = (float(each.ravel()[0]) for each in whole)
    build = dataclasses.replace(
        _as_wanted(head, wanted),
        build_id="+".join(part.part_id for part in taken)[:64],
        head_id=head.part_id,
        neck_id=None if neck is None else neck.part_id,
        neck_style=style_of(head, neck),
        offset_mm=offset_mm(head, neck),
        length_mm=length_mm(shaft, wanted),
        head_mass_g=None if head.mass_g is None else head.mass_g + extra,
        toe_hang_deg=hang_deg(head, neck),
        grip_id=None if grip is None else grip.part_id,
        grip_diameter_mm=value_of(grip, "grip_diameter_mm"),
        grip_mass_g=value_of(grip, "mass_g"),
        shaft_mass_g=cut_mass_g(shaft, wanted),
        total_mass_g=_measured(total),
        balance_from_butt_mm=_measured(balance),
    )
    return _priced(taken, build, distance=distance, built=False)


def built(putter: Part, wanted: Build, *, distance: float) -> Made:
    """A putter that stands there, bent and cut as far as it may be."""
    length = length_mm(putter, wanted)
    cut = putter.length_mm is not None and putter.length_mm - length >= 1.0
    build = dataclasses.replace(
        _as_wanted(putter, wanted),
        build_id=putter.part_id,
        label=putter.label,
        head_id=putter.part_id,
        neck_id=None,
        neck_style=putter.neck_style,
        offset_mm=putter.offset_mm,
        length_mm=length,
        head_mass_g=None,
        toe_hang_deg=hang_deg(putter, None),
        grip_id=None,
        grip_diameter_mm=putter.grip_diameter_mm,
        grip_mass_g=None,
        shaft_mass_g=None,
        total_mass_g=None if cut else putter.mass_g,
        balance_from_butt_mm=None if cut else putter.balance_from_butt_mm,
    )
    return _priced((putter,), build, distance=distance, built=True)


def _as_wanted(head: Part, wanted: Build) -> Build:
    """What the head decides, the rest as wanted."""
    loft, lie = (bent_deg(head, name, wanted=wanted) for name in ("loft", "lie"))
    return dataclasses.replace(
        wanted,
        label=None,
        head_shape=head.head_shape,
        sight_line=head.sight_line,
        lie_deg=wanted.lie_deg if lie is None else lie,
        loft_deg=wanted.loft_deg if loft is None else loft,
        cg_from_axis_mm=head.cg_from_axis_mm,
        cg_depth_mm=head.cg_depth_mm,
        moi_vertical_axis_g_cm2=head.moi_vertical_axis_g_cm2,
        price=None,
        extra={},
    )


def _priced(taken: tuple[Part, ...], build: Build, *, distance: float, built: bool) -> Made:
    return Made(
        parts=taken,
        build=build,
        distance=distance,
        price=float(sum(part.price or 0.0 for part in taken)),
        unpriced=tuple(part.part_id for part in taken if part.price is None),
        built=built,
    )


def _measured(value: float) -> float | None:
    return None if math.isnan(value) else round(value, 1)
