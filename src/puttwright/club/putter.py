"""A putter put together from its parts, and every figure a workshop asks of it."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from puttwright.club.body import Body, FloatArray, box_tensor, joined, point_mass, tube
from puttwright.club.hang import hang_in_space_rad
from puttwright.club.limits import checked
from puttwright.club.parts import HEAD_HEIGHT_M, Grip, Head, Neck, Shaft, Weight
from puttwright.club.swing_weight import OFFICIAL_FULCRUM_M, letter, moment_in_oz
from puttwright.club.uncertainty import Quantity, Values, propagated
from puttwright.errors import UserError
from puttwright.units import INCH_M

NO_HANG: Final = 2.0
"""Nearer to the axis than so many standard deviations, the hang cannot be told."""


class ShaftTooShort(UserError):
    """A putter of {length_mm:.0f} mm needs {needed_mm:.0f} mm of shaft and this one has {have_mm:.0f}; it makes {most_mm:.0f} mm ({most_in:.2f} in) at most."""  # noqa: E501

    code = "shaft-too-short"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What a putter weighs, how it balances, turns and hangs, each with its uncertainty.

    ``balance_m`` is from the butt along the shaft; ``inertia_butt_kg_m2`` about the
    line through the butt that it swings about, square to the shaft; the upright axis
    goes through the putter's own centre of gravity, for ``head_inertia`` the head's.
    """

    total_kg: Quantity
    balance_m: Quantity
    swing_weight_in_oz: Quantity
    swing_weight_12_in_oz: Quantity
    inertia_butt_kg_m2: Quantity
    inertia_shaft_kg_m2: Quantity
    inertia_vertical_kg_m2: Quantity
    head_inertia_vertical_kg_m2: Quantity
    head_kg: Quantity
    hang_rad: Quantity
    cg_from_shaft_m: Quantity
    offset_m: Quantity
    loft_rad: Quantity
    notes: tuple[str, ...] = ()

    @property
    def swing_weight(self) -> str:
        """As the trade writes it: ``"D9.3"``."""
        return letter(self.swing_weight_in_oz.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Putter:
    """Parts put together at a length, a lie and a loft.

    Parameters
    ----------
    head, shaft, grip
        The shaft as it lies on the bench; it is cut at the butt to make the length.
    length_m, lie_rad, loft_rad
        Butt to sole along the shaft axis; shaft to ground; face to upright.
    neck, weights
        What was weighed apart from the head: a neck, screws, tape, plug, epoxy.
    """

    head: Head
    shaft: Shaft
    grip: Grip
    length_m: float
    lie_rad: float
    loft_rad: float
    neck: Neck | None = None
    weights: tuple[Weight, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a length the shaft cannot give."""
        checked(self.length_m, limit="length")
        checked(self.lie_rad, limit="lie")
        checked(self.loft_rad, limit="loft")
        if self.cut_m < -1e-9:
            most = self.shaft.length_m + self.head.tip_high_m + self.grip.cap_m
            raise ShaftTooShort(
                length_mm=1e3 * self.length_m,
                needed_mm=1e3 * (self.shaft.length_m - self.cut_m),
                have_mm=1e3 * self.shaft.length_m,
                most_mm=1e3 * most,
                most_in=most / INCH_M,
            )

    @property
    def cut_m(self) -> float:
        """How much comes off the butt end of the shaft."""
        needed = self.length_m - self.head.tip_high_m - self.grip.cap_m
        return self.shaft.length_m - needed

    @property
    def up(self) -> FloatArray:
        """Unit vector up the shaft (3,): target, toe, up."""
        return np.array([0.0, -math.cos(self.lie_rad), math.sin(self.lie_rad)])

    def bodies(self) -> list[Body]:
        """Every part where it sits in the putter, the head first."""
        up, grip, shaft = self.up, self.grip, self.shaft.cut(butt_m=max(self.cut_m, 0.0))
        butt = self.length_m * up
        found = [
            self._head(),
            tube(
                mass_kg=shaft.mass_kg, length_m=shaft.length_m, radius_m=shaft.radius_m,
                balance_m=shaft.balance_or_middle_m, top_m=butt - grip.cap_m * up, down=-up,
            ),
            tube(
                mass_kg=grip.mass_kg, length_m=grip.length_m, radius_m=grip.radius_m,
                balance_m=grip.balance_m or 0.5 * grip.length_m, top_m=butt, down=-up,
            ),
        ]  # fmt: skip
        if self.neck:
            neck = self.neck
            top = (neck.low_m + neck.length_m) * up
            middle = 0.5 * neck.length_m
            found.append(
                tube(mass_kg=neck.mass_kg, length_m=neck.length_m, radius_m=neck.radius_m,
                     balance_m=middle, top_m=top, down=-up)
            )  # fmt: skip
        return [*found, *map(self._weight, self.weights)]

    def _in_head(self, *, behind_face_m: float, from_axis_m: float, high_m: float) -> FloatArray:
        """A place in the head; ``from_axis_m`` is square to the shaft, toward the toe."""
        across = (from_axis_m - high_m * math.cos(self.lie_rad)) / math.sin(self.lie_rad)
        return np.array([-self.head.offset_m - behind_face_m, across, high_m])

    def _head(self) -> Body:
        head = self.head
        tensor = (
            np.array(head.tensor_kg_m2)
            if head.tensor_kg_m2
            else box_tensor(
                mass_kg=head.mass_kg,
                moi_vertical_kg_m2=head.moi_vertical_kg_m2,
                half_depth_m=head.cg_behind_face_m,
                height_m=HEAD_HEIGHT_M,
            )
        )
        cg = self._in_head(
            behind_face_m=head.cg_behind_face_m,
            from_axis_m=head.cg_from_axis_m,
            high_m=head.cg_high_m,
        )
        return Body(mass_kg=head.mass_kg, cg_m=cg, inertia_kg_m2=tensor)

    def _weight(self, weight: Weight) -> Body:
        if weight.from_butt_m is not None:
            return point_mass(weight.mass_kg, at_m=(self.length_m - weight.from_butt_m) * self.up)
        at = self._in_head(
            behind_face_m=weight.behind_face_m,
            from_axis_m=weight.from_axis_m,
            high_m=weight.high_m,
        )
        return point_mass(weight.mass_kg, at_m=at)

    def whole(self) -> Body:
        """All of it as one body."""
        return joined(self.bodies())

    def in_head(self) -> Body:
        """The head with the weights that sit in it, as one body."""
        inside = [self._weight(each) for each in self.weights if each.from_butt_m is None]
        return joined([self._head(), *inside])

    def values(self, *, lean_rad: float = 0.0) -> dict[str, float]:
        """The figures as plain numbers, named as in :class:`Figures`."""
        body, head, up = self.whole(), self.in_head(), self.up
        balance = self.length_m - float(body.cg_m @ up)
        swing_axis = np.array([0.0, math.sin(self.lie_rad), math.cos(self.lie_rad)])
        upright = np.array([0.0, 0.0, 1.0])
        off = body.cg_m - (body.cg_m @ up) * up
        moment = moment_in_oz(total_kg=body.mass_kg, balance_m=balance)
        official = moment_in_oz(
            total_kg=body.mass_kg, balance_m=balance, fulcrum_m=OFFICIAL_FULCRUM_M
        )
        return {
            "total_kg": body.mass_kg,
            "balance_m": balance,
            "swing_weight_in_oz": moment,
            "swing_weight_12_in_oz": official,
            "inertia_butt_kg_m2": body.inertia_about(
                point_m=self.length_m * up, direction=swing_axis
            ),
            "inertia_shaft_kg_m2": body.inertia_about(point_m=np.zeros(3), direction=up),
            "inertia_vertical_kg_m2": body.inertia_about(point_m=body.cg_m, direction=upright),
            "head_inertia_vertical_kg_m2": head.inertia_about(point_m=head.cg_m, direction=upright),
            "head_kg": head.mass_kg,
            "hang_rad": hang_in_space_rad(cg_from_shaft_m=body.cg_m, shaft=up),
            # What the head's own centre of gravity is off by; the rest lies on the axis.
            "cg_from_shaft_m": float(np.linalg.norm(off)) * body.mass_kg / head.mass_kg,
            "offset_m": self.head.offset_m,
            "loft_rad": self.loft_rad - lean_rad,
        }

    def figures(
        self, *, sds: Mapping[str, float] | None = None, lean_rad: float = 0.0,
        lean_sd_rad: float = 0.0,
    ) -> Figures:  # fmt: skip
        """Every figure, with the uncertainty of what goes into it.

        Parameters
        ----------
        sds
            Standard deviations by the name of what was measured, dots between:
            ``{"head.mass_kg": 0.001, "weights.0.mass_kg": 0.0005, "length_m": 0.001}``.
        lean_rad, lean_sd_rad
            How far the golfer leans the handle toward the target, and how sure that is;
            it takes loft off.

        Returns
        -------
        Figures
            The hang gets a note where the centre of gravity lies too near the axis.

        Examples
        --------
        >>> putter = Putter(
        ...     head=Head(mass_kg=0.35, cg_from_axis_m=0.02, cg_behind_face_m=0.02),
        ...     shaft=Shaft(mass_kg=0.12, length_m=0.9), grip=Grip(mass_kg=0.065),
        ...     length_m=0.8636, lie_rad=1.222, loft_rad=0.0524,
        ... )  # fmt: skip
        >>> found = putter.figures(sds={"head.mass_kg": 0.002})
        >>> round(found.hang_rad.value, 4), round(1e3 * found.total_kg.sd, 3)
        (0.7854, 2.0)
        """
        inputs = {path: Quantity(value=_at(self, path), sd=sd) for path, sd in (sds or {}).items()}
        lean = {"lean_rad": Quantity(value=lean_rad, sd=lean_sd_rad)}

        def model(values: Values) -> dict[str, float]:
            putter = self
            for path, value in values.items():
                putter = putter if path in lean else _with(putter, path, value)
            return putter.values(lean_rad=values["lean_rad"])

        return figures_from(propagated(model, {**inputs, **lean}))


def figures_from(found: Mapping[str, Quantity], /, *, notes: Sequence[str] = ()) -> Figures:
    """Quantities by name as :class:`Figures`, with a note where the hang cannot be told."""
    near = found["cg_from_shaft_m"]
    if near.value < NO_HANG * near.sd or near.value < 1e-6:
        notes = [*notes, "The centre of gravity lies too near the shaft axis to tell the hang."]
    return Figures(**found, notes=tuple(notes))


def _at(thing: Any, path: str) -> float:
    for step in path.split("."):
        thing = thing[int(step)] if step.isdigit() else getattr(thing, step)
    return float(thing)


def _with(thing: Any, path: str, value: float) -> Any:
    """The putter with one number changed, the number at the end of a dotted path."""
    step, _, rest = path.partition(".")
    if step.isdigit():
        place = int(step)
        changed = _with(thing[place], rest, value)
        return (*thing[:place], changed, *thing[place + 1 :])
    new = _with(getattr(thing, step), rest, value) if rest else value
    return dataclasses.replace(thing, **{step: new})
