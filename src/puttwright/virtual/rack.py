"""The invented trial heads an invented golfer is handed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from puttwright.evidence import Build

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
