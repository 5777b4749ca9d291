"""Bending and hang in space, against scipy's rotations in a right-handed world of their own.

World axes are target, left, up for both hands; a right-hander's toe points right, which
is minus left. Nothing of ours is used for the other side: the gauge is found by search,
the hang by the least potential energy.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar
from scipy.spatial.transform import Rotation

from puttwright.club.bend import Set, Turns, bent
from puttwright.club.hang import hang_rad

ROTATIONS = "scipy.spatial.transform.Rotation, in a right-handed world"
ENERGY = "scipy.optimize: least potential energy of the hanging putter"
X, UP = np.array([1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0])
WAS = Set(
    loft_rad=math.radians(3.5), lie_rad=math.radians(70.5), offset_m=0.012, length_m=0.870,
    cg_from_axis_m=0.023, cg_behind_face_m=0.017, cg_high_m=0.011, bend_high_m=0.043,
)  # fmt: skip
BENDS = {
    "lie 1.7° upright": Turns(lie_rad=math.radians(1.7), loft_rad=0.0),
    "loft 1.9° weaker": Turns(lie_rad=0.0, loft_rad=math.radians(1.9)),
    "both, along the sole": Turns(lie_rad=math.radians(-1.2), loft_rad=math.radians(2.5)),
    "both, square to the shaft": Turns(
        lie_rad=math.radians(-1.2), loft_rad=math.radians(2.5), bar="shaft"
    ),
}
UNITS = {"loft": "°", "lie": "°", "hang": "°", "aim soled": "°", "aim held": "°", "toe up": "°"}


class World:
    """The putter of ``WAS`` as points and directions in the world."""

    def __init__(self, handed):
        self.toe = np.array([0.0, -1.0 if handed == "right" else 1.0, 0.0])
        self.shaft = -math.cos(WAS.lie_rad) * self.toe + math.sin(WAS.lie_rad) * UP
        self.flat = X
        self.face = math.cos(WAS.loft_rad) * X + math.sin(WAS.loft_rad) * UP
        self.edge = -WAS.offset_m * X
        self.gives = WAS.bend_high_m * self.shaft
        self.butt = WAS.length_m * self.shaft
        # The centre of gravity square to the shaft as measured, and at its height.
        across = WAS.cg_from_axis_m - WAS.cg_high_m * math.cos(WAS.lie_rad)
        self.cg = (
            -(WAS.offset_m + WAS.cg_behind_face_m) * X
            + across / math.sin(WAS.lie_rad) * self.toe
            + WAS.cg_high_m * UP
        )


def _theirs(turns, handed):
    """What gauge, rule and protractor would say after the bend."""
    world = World(handed)
    # Upright lifts the shaft off the golfer's side, over the ball: about the target line.
    rise = Rotation.from_rotvec(turns.lie_rad * np.cross(-world.toe, UP))
    shaft = rise.apply(world.shaft)
    about = np.cross(UP, X) if turns.bar == "sole" else np.cross(shaft, X)
    whole = Rotation.from_rotvec(turns.loft_rad * about) * rise
    shaft, flat = whole.apply(world.shaft), whole.apply(world.flat)
    butt = world.gives + whole.apply(world.butt - world.gives)

    def pitched(angle):
        return Rotation.from_euler("y", angle)

    back = pitched(brentq(lambda angle: pitched(angle).apply(shaft)[0], -0.5, 0.5, xtol=1e-15))
    face, shaft, flat = back.apply(world.face), back.apply(shaft), back.apply(flat)
    butt, cg = (back.apply(point - world.edge) for point in (butt, world.cg))
    held = whole.inv()
    return {
        "loft": math.degrees(math.asin(face[2])),
        "lie": math.degrees(math.asin(shaft[2])),
        "offset": 1e3 * butt[0],
        "length": 1e3 * butt[2] / shaft[2],
        "hang": math.degrees(_rest(shaft, cg - butt, world.toe)),
        # Seen from above, left positive; the face looks along x.
        "aim soled": math.degrees(math.atan2(flat[1], flat[0])),
        "aim held": -math.degrees(math.atan2(*held.apply(world.face)[[1, 0]])),
        "toe up": math.degrees(math.asin(held.apply(world.toe)[2])),
    }


def _rest(shaft, cg_from_shaft, toe):
    """Lay the shaft level and turn the putter about it until it lies lowest."""
    level = Rotation.align_vectors([X], [shaft])[0]
    cg, toe, ahead = (level.apply(vector) for vector in (cg_from_shaft, toe, X))

    def height(angle):
        return Rotation.from_rotvec(angle * X).apply(cg)[2]

    tries = np.linspace(-math.pi, math.pi, 73)
    low = tries[np.argmin([height(angle) for angle in tries])]
    found = minimize_scalar(height, bounds=(low - 0.1, low + 0.1), options={"xatol": 1e-12}).x
    rest = Rotation.from_rotvec(found * X)
    toe, ahead = rest.apply(toe), rest.apply(ahead)
    edge = np.array([0.0, *toe[1:]]) / np.linalg.norm(toe[1:])
    # How far the face's edge dips toward the toe; beyond 90 the face looks down.
    dip = math.asin(-edge[2])
    return dip if ahead[2] >= 0.0 else math.pi - dip


def _ours(turns, handed):
    done = bent(WAS, turns=turns, handed=handed)
    return {
        "loft": math.degrees(done.after.loft_rad),
        "lie": math.degrees(done.after.lie_rad),
        "offset": 1e3 * done.after.offset_m,
        "length": 1e3 * done.after.length_m,
        "hang": math.degrees(done.hang_rad),
        "aim soled": math.degrees(done.aim_soled_rad),
        "aim held": math.degrees(done.aim_held_rad),
        "toe up": math.degrees(done.toe_up_rad),
    }


@pytest.mark.parametrize("handed", ["right", "left"])
@pytest.mark.parametrize("name", BENDS)
def test_bend(name, handed, validate):
    theirs, ours = _theirs(BENDS[name], handed), _ours(BENDS[name], handed)
    for quantity, value in theirs.items():
        validate(
            f"{quantity} after {name}, {handed}-hander",
            source=ROTATIONS,
            evidence="independent library",
            ours=ours[quantity],
            theirs=value,
            atol=1e-4 if quantity == "hang" else 1e-7,
            unit=UNITS.get(quantity, "mm"),
        )


@pytest.mark.parametrize(
    ("toe_mm", "behind_mm"), [(20, 15), (-3, 30), (0, 25), (40, 2), (25, -8)], ids=str
)
def test_hang_is_where_the_putter_lies_lowest(toe_mm, behind_mm, validate):
    """Toe-down, a little heel-down, face up, toe at the ground, and a face that looks down."""
    lie = math.radians(70.0)
    for handed, side in (("right", -1.0), ("left", 1.0)):
        toe = np.array([0.0, side, 0.0])
        shaft = -math.cos(lie) * toe + math.sin(lie) * UP
        square = toe - (toe @ shaft) * shaft
        cg = 1e-3 * toe_mm * square / np.linalg.norm(square) - 1e-3 * behind_mm * X - 0.8 * shaft
        ours = hang_rad(
            cg_from_axis_m=1e-3 * toe_mm,
            cg_behind_face_m=0.02,
            offset_m=1e-3 * behind_mm - 0.02,
        )
        validate(
            f"hang with the CG {toe_mm} mm to the toe and {behind_mm} mm behind, {handed}-hander",
            source=ENERGY,
            evidence="independent computation",
            ours=math.degrees(ours),
            theirs=math.degrees(_rest(shaft, cg, toe)),
            atol=1e-4,
            unit="°",
        )
