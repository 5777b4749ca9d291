"""What the usual changes would do to a build: a weight, another length, another grip."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from puttwright.club.of_build import effect_of, recorded
from puttwright.club.parts import Grip, Weight
from puttwright.club.uncertainty import Quantity
from puttwright.evidence import Build
from puttwright.units import INCH_M

_HEAD_KG, _BUTT_KG, _GRIP_KG = 0.010, 0.025, 0.020
_BUTT_PLACE_M: Final = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change and what it does to each figure, new less old [SI]."""

    what: str
    effect: Mapping[str, Quantity]


def usual_changes(build: Build, /) -> tuple[Change, ...]:
    """Ten grams in the head, 25 in the butt, an inch longer, a grip heavier by 20 grams.

    Examples
    --------
    >>> build = Build(build_id="a", length_mm=864, lie_deg=70, loft_deg=3)
    >>> round(usual_changes(build)[0].effect["swing_weight_in_oz"].value / 1.75, 1)
    4.0
    """
    putter = recorded(build).putter()
    head, grip = putter.head, putter.grip
    in_head = Weight(
        mass_kg=_HEAD_KG,
        behind_face_m=head.cg_behind_face_m,
        from_axis_m=head.cg_from_axis_m,
        high_m=head.cg_high_m,
    )
    in_butt = Weight(mass_kg=_BUTT_KG, from_butt_m=_BUTT_PLACE_M)
    heavier = Grip(
        mass_kg=grip.mass_kg + _GRIP_KG, length_m=grip.length_m, balance_m=grip.balance_m,
        cap_m=grip.cap_m,
    )  # fmt: skip
    return (
        Change(what="10 g more in the head", effect=effect_of(build, weights=[in_head])),
        Change(what="25 g in the butt", effect=effect_of(build, weights=[in_butt])),
        Change(what="one inch longer", effect=effect_of(build, length_m=putter.length_m + INCH_M)),
        Change(what="a grip heavier by 20 g", effect=effect_of(build, grip=heavier)),
    )
