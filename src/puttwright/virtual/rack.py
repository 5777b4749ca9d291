"""The invented trial heads an invented golfer is handed, and the rack behind them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from puttwright.evidence import Build, Part

_SHAPES = ("blade", "half_mallet", "mallet")
_LINES = ("none", "dot", "line", "multi")
_NECKS = ("straight into the heel", "stepped", "flowing", "double bend", "centre")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Typical:
    """Figures that go with a shape; head masses and inertias from memory, for invention only."""

    mass_g: float
    inertia_g_cm2: float
    depth_mm: float
    hang_deg: float


_TYPICAL = {
    "blade": _Typical(mass_g=345.0, inertia_g_cm2=4200.0, depth_mm=13.0, hang_deg=45.0),
    "half_mallet": _Typical(mass_g=352.0, inertia_g_cm2=5000.0, depth_mm=19.0, hang_deg=25.0),
    "mallet": _Typical(mass_g=360.0, inertia_g_cm2=6200.0, depth_mm=28.0, hang_deg=5.0),
}


def invent_build(build_id: str, *, label: str, rng: np.random.Generator) -> Build:
    """A plausible putter: shape first, the figures that go with it scattered about their usual."""
    shape = str(rng.choice(_SHAPES))
    typical = _TYPICAL[shape]
    return Build(
        build_id=build_id,
        label=label,
        head_id=f"head-{build_id}",
        head_shape=shape,
        sight_line=str(rng.choice(_LINES)),
        neck_style=str(rng.choice(_NECKS)),
        offset_mm=float(rng.choice([0.0, 5.0, 10.0, 20.0])),
        length_mm=round(25.4 * float(rng.choice([33.0, 34.0, 34.0, 34.5, 35.0])), 1),
        lie_deg=float(rng.choice([69.0, 70.0, 71.0, 72.0])),
        loft_deg=float(rng.choice([1.0, 2.0, 3.0, 3.0, 4.0])),
        head_mass_g=round(typical.mass_g + float(rng.normal(0, 6)), 0),
        cg_depth_mm=round(typical.depth_mm + float(rng.normal(0, 1.5)), 1),
        moi_vertical_axis_g_cm2=round(typical.inertia_g_cm2 + float(rng.normal(0, 200)), 0),
        toe_hang_deg=round(max(typical.hang_deg + float(rng.normal(0, 8)), 0.0), 0),
        grip_diameter_mm=float(rng.choice([27.0, 30.0, 34.0])),
    )


_SHAFTS_IN = (33, 34, 35)
_GRIPS = {"slim": (27.0, 62.0, 18.0), "middle": (30.0, 75.0, 24.0), "wide": (34.0, 92.0, 32.0)}
_WEIGHTS_G = (5, 10, 15)
_CAST_LOFT_DEG, _CAST_LIE_DEG = 3.0, 70.0
"""As every head of the invented shop comes; what was tried was bent from there."""


def invent_rack(builds: Sequence[Build], /) -> tuple[Part, ...]:
    """What an invented shop has to build from: the heads that were tried, and what goes on them.

    Parameters
    ----------
    builds
        The builds of an invented golfer, the own putter first; that one is not the shop's.

    Returns
    -------
    tuple
        Every head in carbon steel with one neck of its own, so that it may be bent; shafts,
        grips and weights; prices of nowhere.
    """
    heads = (_head(build, number=number) for number, build in enumerate(builds[1:]))
    return (*heads, *_shafts(), *_grips(), *_weights(), _BUILT)


def _head(build: Build, *, number: int) -> Part:
    return Part(
        part_id=build.head_id or build.build_id,
        kind="head",
        label=f"Head {build.build_id}, {(build.head_shape or '').replace('_', ' ')}",
        head_shape=build.head_shape,
        sight_line=build.sight_line,
        neck_style=build.neck_style,
        offset_mm=build.offset_mm,
        lie_deg=_CAST_LIE_DEG,
        loft_deg=_CAST_LOFT_DEG,
        mass_g=build.head_mass_g,
        cg_depth_mm=build.cg_depth_mm,
        moi_vertical_axis_g_cm2=build.moi_vertical_axis_g_cm2,
        toe_hang_deg=build.toe_hang_deg,
        stock=2,
        price=140.0 + 10.0 * number,
        alloy="carbon_steel",
        neck_joint="one_piece",
    )


def _shafts() -> list[Part]:
    return [
        Part(
            part_id=f"shaft-{inches}",
            kind="shaft",
            label=f"Steel, {inches} in",
            length_mm=round(25.4 * inches, 1),
            mass_g=3.25 * inches,
            stock=6,
            price=25.0,
        )
        for inches in _SHAFTS_IN
    ]


def _grips() -> list[Part]:
    return [
        Part(
            part_id=f"grip-{size}",
            kind="grip",
            label=f"{size.title()} grip",
            grip_diameter_mm=diameter,
            mass_g=mass,
            stock=4,
            price=price,
        )
        for size, (diameter, mass, price) in _GRIPS.items()
    ]


def _weights() -> list[Part]:
    return [
        Part(
            part_id=f"screw-{mass}", kind="weight", label=f"Screw, {mass} g", mass_g=float(mass),
            stock=4, price=6.0,
        )
        for mass in _WEIGHTS_G
    ]  # fmt: skip


_BUILT = Part(
    part_id="bay-1",
    kind="putter",
    label="Putter in the bay",
    head_shape="mallet",
    sight_line="line",
    neck_style="double bend",
    offset_mm=5.0,
    length_mm=863.6,
    lie_deg=70.0,
    loft_deg=3.0,
    mass_g=548.0,
    balance_from_butt_mm=672.0,
    toe_hang_deg=4.0,
    grip_diameter_mm=30.0,
    stock=1,
    price=260.0,
)
