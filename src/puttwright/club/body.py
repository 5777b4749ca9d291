"""Rigid bodies: mass, centre of gravity and inertia tensor, and how several make one.

Axes are the putter's: x to the target, y to the toe, z up; the origin is where the
shaft axis, drawn on, meets the ground. So a left-hander's putter has the same numbers
as a right-hander's: the frame is mirrored with the golfer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """Mass [kg], centre of gravity (3,) [m], inertia tensor (3, 3) about it [kg m²]."""

    mass_kg: float
    cg_m: FloatArray
    inertia_kg_m2: FloatArray

    def inertia_about(self, *, point_m: FloatArray, direction: FloatArray) -> float:
        """Moment of inertia about a line through a point (parallel-axis theorem) [kg m²]."""
        along = direction / np.linalg.norm(direction)
        arm = self.cg_m - point_m
        square = arm - (arm @ along) * along
        return float(along @ self.inertia_kg_m2 @ along + self.mass_kg * (square @ square))

    def turned(self, rotation: FloatArray, /, *, about_m: FloatArray) -> Body:
        """The body after a rotation (3, 3) about a point."""
        return Body(
            mass_kg=self.mass_kg,
            cg_m=about_m + rotation @ (self.cg_m - about_m),
            inertia_kg_m2=rotation @ self.inertia_kg_m2 @ rotation.T,
        )


def point_mass(mass_kg: float, *, at_m: FloatArray) -> Body:
    """A mass small enough to have no size."""
    return Body(mass_kg=mass_kg, cg_m=at_m, inertia_kg_m2=np.zeros((3, 3)))


def tube(
    *, mass_kg: float, length_m: float, radius_m: float, balance_m: float, top_m: FloatArray,
    down: FloatArray,
) -> Body:  # fmt: skip
    """A thin tube whose mass grows or falls evenly along it.

    Parameters
    ----------
    mass_kg, length_m, radius_m
        What it weighs and measures; a radius of 0 makes it a rod.
    balance_m
        Centre of gravity from the top, between a third and two thirds of the length:
        outside, no even taper balances so.
    top_m, down
        The top end (3,) and the unit vector (3,) from there along it.

    Returns
    -------
    Body
        Exact for a density that is linear along the tube.

    Examples
    --------
    >>> rod = tube(
    ...     mass_kg=0.12, length_m=1.0, radius_m=0.0, balance_m=0.5,
    ...     top_m=np.zeros(3), down=np.array([0.0, 0.0, -1.0]),
    ... )  # fmt: skip
    >>> round(float(rod.inertia_kg_m2[0, 0]), 6)
    0.01
    """
    # Density 1 + k(2s - 1) over 0 < s < 1: mean 1/2 + k/6, variance 1/12 - k²/36.
    taper = 6.0 * (balance_m / length_m - 0.5)
    across = mass_kg * (length_m**2 * (1.0 / 12.0 - taper**2 / 36.0) + 0.5 * radius_m**2)
    along = np.outer(down, down)
    return Body(
        mass_kg=mass_kg,
        cg_m=top_m + balance_m * down,
        inertia_kg_m2=across * (np.eye(3) - along) + mass_kg * radius_m**2 * along,
    )


def box_tensor(
    *, mass_kg: float, moi_vertical_kg_m2: float, half_depth_m: float, height_m: float
) -> FloatArray:
    """Inertia tensor of a box with a given inertia about its vertical axis.

    Parameters
    ----------
    mass_kg, moi_vertical_kg_m2
        As weighed and measured.
    half_depth_m, height_m
        Half of it from face to back, and from sole to top.

    Returns
    -------
    ndarray
        (3, 3), about target, toe and up; good to a third for the first two.

    Examples
    --------
    >>> tensor = box_tensor(
    ...     mass_kg=0.35, moi_vertical_kg_m2=5e-4, half_depth_m=0.02, height_m=0.025
    ... )
    >>> float(tensor[2, 2])
    0.0005
    """
    height = mass_kg * height_m**2 / 12.0
    # A box deeper than its vertical inertia allows would be no body at all.
    depth = min(mass_kg * (2.0 * half_depth_m) ** 2 / 12.0, 0.5 * moi_vertical_kg_m2)
    width = moi_vertical_kg_m2 - depth
    return np.diag([width + height, depth + height, moi_vertical_kg_m2])


def joined(bodies: Sequence[Body], /) -> Body:
    """Several bodies fixed to each other, as one."""
    mass = sum(body.mass_kg for body in bodies)
    cg = np.sum([body.mass_kg * body.cg_m for body in bodies], axis=0) / mass
    total = np.zeros((3, 3))
    for body in bodies:
        arm = body.cg_m - cg
        total += body.inertia_kg_m2 + body.mass_kg * (arm @ arm * np.eye(3) - np.outer(arm, arm))
    return Body(mass_kg=mass, cg_m=cg, inertia_kg_m2=total)
