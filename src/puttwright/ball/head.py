"""The putter head as impact sees it: mass, centre of gravity behind the face, inertia."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.ball.limits import FloatArray, checked

FACE_HEIGHT_M: Final = 0.025
"""Height of a head taken for the inertias nobody measures; from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A rigid head; free in the air during the half millisecond of impact, as is usual.

    Parameters
    ----------
    mass_kg
        0.20 to 0.70 kg.
    moi_vertical_kg_m2
        About the vertical axis through its centre of gravity, 1e-4 to 2e-3.
    cg_depth_m
        Centre of gravity behind the face, 0 to 0.10 m.
    moi_heel_toe_kg_m2, moi_target_kg_m2
        About the heel-toe and the target axis. Left out they are those of a box
        as heavy and as wide, twice the depth of the centre of gravity from face to
        back and 25 mm high: good to a third, and they matter for high and low
        strikes only.

    Examples
    --------
    >>> round(float(1e4 * Head().inertia()[1, 1]), 2)
    0.65
    """

    mass_kg: float = 0.350
    moi_vertical_kg_m2: float = 5.0e-4
    cg_depth_m: float = 0.020
    moi_heel_toe_kg_m2: float | None = None
    moi_target_kg_m2: float | None = None

    def __post_init__(self) -> None:
        """Refuse what is no putter head."""
        checked(limit="head_mass_kg", value=self.mass_kg)
        checked(limit="moi_kg_m2", value=self.moi_vertical_kg_m2)
        checked(limit="cg_depth_m", value=self.cg_depth_m)

    def inertia(self) -> FloatArray:
        """Inertia tensor (3, 3) in axes target, heel-toe, up, about the centre of gravity."""
        per_square = self.mass_kg / 12.0
        height = per_square * FACE_HEIGHT_M**2
        # A box deeper than its vertical inertia allows would be no body at all.
        depth = min(per_square * (2.0 * self.cg_depth_m) ** 2, 0.5 * self.moi_vertical_kg_m2)
        heel_toe = self.moi_heel_toe_kg_m2 or depth + height
        box = self.moi_vertical_kg_m2 - depth + height
        return np.diag([self.moi_target_kg_m2 or box, heel_toe, self.moi_vertical_kg_m2])
