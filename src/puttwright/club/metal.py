"""What a head on the rack is made of, and how far that lets its neck be bent.

The rack's own words are free text, so that a shop's table is never refused for them; a
metal or a joint we do not know counts as unknown, and then no bend is recommended.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from puttwright.club.alloys import ALLOYS, NECKS, UNKNOWN, Verdict, judge_bend
from puttwright.club.bend import Set, bent, turns_for
from puttwright.evidence import Part

Limits = tuple[float, float]
_ALSO: Final = {
    "aluminum": "aluminium",
    "bronze": "brass",
    "composite": "plastic",
    "carbon_composite": "plastic",
    "mild_steel": "carbon_steel",
    **dict.fromkeys(("303", "304", "stainless_303", "303_stainless"), "stainless_304"),
    **dict.fromkeys(("304_stainless",), "stainless_304"),
    **dict.fromkeys(("431", "431_stainless"), "stainless_431"),
    **dict.fromkeys(("17_4", "17_4_stainless", "630"), "stainless_17_4"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """Keys of :data:`ALLOYS` and :data:`NECKS` or "unknown", and all the neck was bent before."""

    alloy: str = UNKNOWN
    joint: str = UNKNOWN
    before_deg: float = 0.0

    @property
    def known(self) -> bool:
        """Whether it decides what may be bent: both are known, or one forbids it."""
        both = self.alloy in ALLOYS and self.joint in NECKS
        return both or self._never

    @property
    def _never(self) -> bool:
        metal = ALLOYS.get(self.alloy)
        return bool((metal and metal.never) or NECKS.get(self.joint))

    def judge(self, *, bend_deg: float) -> Verdict:
        """Whether the neck may be bent by so much, on top of what it was bent before."""
        return judge_bend(
            bend_rad=math.radians(bend_deg),
            alloy=self.alloy,
            neck=self.joint,
            before_rad=math.radians(self.before_deg),
        )

    @property
    def usual_deg(self) -> float:
        """How far it may still be bent without asking."""
        if self._never or not self.known:
            return 0.0
        return max(ALLOYS[self.alloy].cap_deg - self.before_deg, 0.0)


def metal_of(part: Part | None, /) -> Metal:
    """What the rack says a head is made of; unknown where it says nothing we know.

    Examples
    --------
    >>> metal_of(Part(part_id="H", kind="head", alloy="17-4 stainless", neck_joint="welded")).alloy
    'stainless_17_4'
    """
    if part is None:
        return UNKNOWN_METAL
    return Metal(
        alloy=_key(part.alloy, known=ALLOYS),
        joint=_key(part.neck_joint, known=NECKS),
        before_deg=part.bent_before_deg or 0.0,
    )


UNKNOWN_METAL: Final = Metal()


def _key(said: str | None, *, known: object) -> str:
    plain = "_".join((said or "").casefold().replace("-", " ").replace("_", " ").split())
    plain = _ALSO.get(plain, plain)
    return plain if plain in known else UNKNOWN  # type: ignore[operator]  # a mapping


def bend_limits(part: Part, name: str, /) -> Limits | None:
    """Least and most loft or lie a head may be bent to [deg]; ``None`` where nobody knows.

    Parameters
    ----------
    part
        A head, or a built putter.
    name
        "loft" or "lie".

    Returns
    -------
    tuple or None
        The rack's own limits first. What is never bent stays as supplied whatever the
        limits say; without limits the metal gives them.

    Examples
    --------
    >>> head = Part(part_id="H", kind="head", loft_deg=3, alloy="zinc", loft_max_deg=5)
    >>> bend_limits(head, "loft")
    (3, 3)
    >>> head = Part(part_id="H", kind="head", loft_deg=3, alloy="brass", neck_joint="one_piece")
    >>> bend_limits(head, "loft")
    (2.0, 4.0)
    """
    metal = metal_of(part)
    supplied = getattr(part, f"{name}_deg")
    low, high = getattr(part, f"{name}_min_deg"), getattr(part, f"{name}_max_deg")
    if supplied is not None and metal.known and not metal.usual_deg:
        return supplied, supplied
    if low is not None and high is not None:
        return low, high
    if supplied is None or not metal.known:
        return None
    return supplied - metal.usual_deg, supplied + metal.usual_deg


def neck_bend_deg(
    *, loft_deg: float, lie_deg: float, add_loft_deg: float, add_lie_deg: float
) -> float:
    """Angle the neck turns through when loft and lie are both changed.

    Parameters
    ----------
    loft_deg, lie_deg
        As they are.
    add_loft_deg, add_lie_deg
        More loft; more upright.

    Returns
    -------
    float
        0 or more.

    Examples
    --------
    >>> round(neck_bend_deg(loft_deg=3, lie_deg=70, add_loft_deg=3, add_lie_deg=4), 2)
    5.0
    """
    was = Set(loft_rad=math.radians(loft_deg), lie_rad=math.radians(lie_deg))
    turns = turns_for(
        was, add_loft_rad=math.radians(add_loft_deg), add_lie_rad=math.radians(add_lie_deg)
    )
    return math.degrees(bent(was, turns=turns).bend_rad)
