"""Bending a neck, in space: what it does to loft, lie, offset, length, hang and aim.

The head stays where it is, sole flat; everything above the bend point turns. Loft and
lie are then read as a gauge reads them: sole flat heel to toe, shaft upright seen from
the toe, the head pivoting on the spot of its sole below the face's edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from puttwright.club.body import FloatArray
from puttwright.club.hang import TOE, hang_in_space_rad
from puttwright.club.limits import checked
from puttwright.club.putter import Putter
from puttwright.club.rotation import handle_forward, turn, upright
from puttwright.evidence.signs import toe_side

Bar = Literal["sole", "shaft"]
BARS: Final[tuple[Bar, ...]] = ("sole", "shaft")


@dataclass(frozen=True, slots=True, kw_only=True)
class Set:
    """How a putter is set: what a loft and lie gauge, a rule and the bench say of it.

    Places of the centre of gravity as in :class:`~puttwright.club.parts.Head`;
    ``bend_high_m`` is where the neck gives, from the sole up along the shaft axis.
    """

    loft_rad: float
    lie_rad: float
    offset_m: float = 0.0
    length_m: float = 0.8636
    cg_from_axis_m: float = 0.02
    cg_behind_face_m: float = 0.02
    cg_high_m: float = 0.012
    bend_high_m: float = 0.04

    def __post_init__(self) -> None:
        """Refuse what no putter is set to."""
        checked(self.loft_rad, limit="loft")
        checked(self.lie_rad, limit="lie")
        checked(self.offset_m, limit="offset")
        checked(self.length_m, limit="length")
        checked(self.cg_from_axis_m, limit="from axis")
        checked(self.cg_behind_face_m, limit="behind face")
        checked(self.bend_high_m, limit="bend height")

    @property
    def shaft(self) -> FloatArray:
        """Unit vector up the shaft (3,)."""
        return np.array([0.0, -math.cos(self.lie_rad), math.sin(self.lie_rad)])

    @property
    def cg_m(self) -> FloatArray:
        """Centre of gravity (3,) from where the shaft axis meets the ground."""
        across = self.cg_from_axis_m - self.cg_high_m * math.cos(self.lie_rad)
        behind = self.offset_m + self.cg_behind_face_m
        return np.array([-behind, across / math.sin(self.lie_rad), self.cg_high_m])

    @property
    def face(self) -> FloatArray:
        """Unit vector (3,) out of the face."""
        return np.array([math.cos(self.loft_rad), 0.0, math.sin(self.loft_rad)])

    @property
    def hang_rad(self) -> float:
        """How it hangs, from its centre of gravity."""
        return hang_in_space_rad(cg_from_shaft_m=self.cg_m, shaft=self.shaft)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turns:
    """What the bender does, in this order: the lie about the target line, then the loft.

    ``bar`` is the line the loft bend turns about: along the sole, heel to toe, or
    square to the shaft, as a bar hooked on the neck tends to.
    """

    lie_rad: float
    loft_rad: float
    bar: Bar = "sole"

    def rotation(self, was: Set, /) -> FloatArray:
        """What the shaft goes through against the head (3, 3)."""
        first = upright(self.lie_rad)
        if self.bar == "sole":
            return np.asarray(handle_forward(self.loft_rad) @ first)
        shaft = first @ was.shaft
        square = np.array([0.0, shaft[2], -shaft[1]])
        return np.asarray(turn(axis=square, angle_rad=self.loft_rad) @ first)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """A putter after a bend.

    ``after`` is what gauge and bench should say. ``bend_rad`` is the angle the neck
    turned through. ``aim_soled_rad`` is where the face looks when it is soled flush and
    the grip is square to the target; ``aim_held_rad`` and ``toe_up_rad`` where it looks,
    and how far its toe is up, when the hands stay where they were. Right positive.
    """

    was: Set
    after: Set
    turns: Turns
    bend_rad: float
    hang_rad: float
    aim_soled_rad: float
    aim_held_rad: float
    toe_up_rad: float


def turns_for(
    was: Set, /, *, add_loft_rad: float = 0.0, add_lie_rad: float = 0.0, bar: Bar = "sole"
) -> Turns:
    """How far to turn so that the gauge shows so much more loft and lie.

    Parameters
    ----------
    was
        As it is.
    add_loft_rad, add_lie_rad
        More loft; more upright.
    bar
        See :class:`Turns`.

    Returns
    -------
    Turns
        In closed form. Along the sole they are what is wanted; square to the shaft the
        bend is smaller than the loft it gives and lifts the lie by a hair, which is
        taken off beforehand.

    Examples
    --------
    >>> was = Set(loft_rad=0.05, lie_rad=1.22)
    >>> turns = turns_for(was, add_loft_rad=0.02, bar="shaft")
    >>> round(turns.loft_rad, 5), turns.lie_rad < 0.0
    (0.01878, True)
    """
    lie = was.lie_rad + add_lie_rad
    checked(lie, limit="lie", name="lie after the bend")
    checked(was.loft_rad + add_loft_rad, limit="loft", name="loft after the bend")
    if bar == "sole":
        return Turns(lie_rad=add_lie_rad, loft_rad=add_loft_rad, bar=bar)
    # With c the cosine of the lie before the loft bend, C that after: C² (1 + t² - c² t²) = c².
    square = math.tan(add_loft_rad) ** 2
    wanted = math.cos(lie) ** 2
    before = math.acos(math.sqrt(wanted * (1.0 + square) / (1.0 + wanted * square)))
    before = math.pi - before if lie > math.pi / 2 else before
    about = math.atan(math.sin(before) * math.tan(add_loft_rad))
    return Turns(lie_rad=before - was.lie_rad, loft_rad=about, bar=bar)


def bent(was: Set, /, *, turns: Turns, handed: str = "right") -> Bent:
    """The putter after these turns.

    Parameters
    ----------
    was, turns
        As it is, and what is done to it.
    handed
        Turns toe into right or left for the aim.

    Returns
    -------
    Bent
        Exact for a rigid head and shaft and a neck that gives at one point.

    Examples
    --------
    >>> was = Set(loft_rad=math.radians(3), lie_rad=math.radians(70))
    >>> done = bent(was, turns=turns_for(was, add_loft_rad=math.radians(1)))
    >>> round(math.degrees(done.after.loft_rad), 6), round(1e3 * done.after.offset_m, 2)
    (4.0, -0.66)
    """
    rotation = turns.rotation(was)
    shaft, flat = rotation @ was.shaft, rotation @ np.array([1.0, 0.0, 0.0])
    lean = math.atan2(shaft[0], shaft[2])
    back = handle_forward(-lean)
    # Places from the face's edge, below which the sole rests, once the shaft is upright again.
    edge = np.array([-was.offset_m, 0.0, 0.0])
    bend_at = back @ (was.bend_high_m * was.shaft - edge)
    cg = back @ (was.cg_m - edge)
    shaft, flat = back @ shaft, back @ flat
    ground = bend_at - bend_at[2] / shaft[2] * shaft
    off = cg - ground
    after = Set(
        loft_rad=was.loft_rad + lean,
        lie_rad=math.atan2(shaft[2], -shaft[1]),
        offset_m=float(ground[0]),
        length_m=was.length_m - was.bend_high_m + float(np.linalg.norm(bend_at - ground)),
        cg_from_axis_m=float(off[1] * shaft[2] - off[2] * shaft[1]),
        cg_behind_face_m=float(-cg[0]),
        cg_high_m=float(cg[2]),
        bend_high_m=float(np.linalg.norm(bend_at - ground)),
    )
    side = toe_side(handed)
    held = rotation.T @ was.face
    return Bent(
        was=was,
        after=after,
        turns=turns,
        bend_rad=math.acos(min(1.0, 0.5 * (float(np.trace(rotation)) - 1.0))),
        hang_rad=after.hang_rad,
        aim_soled_rad=-side * math.atan2(flat[1], flat[0]),
        aim_held_rad=side * math.atan2(held[1], held[0]),
        toe_up_rad=math.asin(float((rotation.T @ TOE)[2])),
    )


def set_of(putter: Putter, /, *, bend_high_m: float = 0.04) -> Set:
    """How a putter is set, for a bend at that height up its neck."""
    head = putter.head
    return Set(
        loft_rad=putter.loft_rad,
        lie_rad=putter.lie_rad,
        offset_m=head.offset_m,
        length_m=putter.length_m,
        cg_from_axis_m=head.cg_from_axis_m,
        cg_behind_face_m=head.cg_behind_face_m,
        cg_high_m=head.cg_high_m,
        bend_high_m=bend_high_m,
    )


def after_bend(putter: Putter, /, *, done: Bent) -> Putter:
    """The putter as bent; the head's inertia about the upright axis is kept (within 0.5 %)."""
    after = done.after
    head = replace(
        putter.head,
        offset_m=after.offset_m,
        cg_from_axis_m=after.cg_from_axis_m,
        cg_behind_face_m=after.cg_behind_face_m,
        cg_high_m=after.cg_high_m,
        tip_high_m=putter.head.tip_high_m + after.bend_high_m - done.was.bend_high_m,
    )
    return replace(
        putter,
        head=head,
        length_m=after.length_m,
        lie_rad=after.lie_rad,
        loft_rad=after.loft_rad,
    )
