"""The equipment rules that touch a putter, as data: what is measured and where the limit lies.

Names are ours; the number beside each says where in the Equipment Rules of the
governing bodies (part 2) to read it. ``SEEN`` limits stand in a text that was
opened (``references/club_rules/SOURCE.md``); what is known ``FROM_MEMORY`` only
never says "beyond", it sends a person to look.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

SEEN: Final = "seen"
FROM_MEMORY: Final = "from memory"

Measured = Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause:
    """One limit: ``low`` and ``high`` in ``unit`` on a quantity made of the measurements ``needs``.

    ``combine`` makes the quantity where it is not the one measurement itself;
    ``only_with`` and ``not_with`` name measurements whose presence makes the
    clause apply or not; ``spares`` says why it does not apply. ``strict`` limits
    may not be touched. ``beyond`` is the verdict on the far side of the limit.
    """

    key: str
    name: str
    rule: str
    needs: tuple[str, ...]
    ask: str
    unit: str = "mm"
    low: float = -math.inf
    high: float = math.inf
    strict: bool = False
    combine: Callable[..., float] | None = None
    only_with: str = ""
    not_with: str = ""
    spares: Callable[[Measured], bool] | None = None
    beyond: str = "beyond"
    note: str = ""
    status: str = SEEN
    source: str = ""

    @property
    def limit(self) -> str:
        """The limit in words.

        Examples
        --------
        >>> CLAUSES[0].limit
        'at least 457.2 mm'
        """
        unit = "°" if self.unit == "deg" else f" {self.unit}".rstrip()
        low = f"more than {self.low:.4g}" if self.strict else f"at least {self.low:.4g}"
        if not math.isfinite(self.high):
            return (low + unit).replace("-", "−")
        high = f"at most {self.high:.4g}{unit}"
        if not math.isfinite(self.low):
            return high.replace("-", "−")
        return f"{self.low:.4g} to {self.high:.4g}{unit}".replace("-", "−")


def _shallow(measured: Measured) -> bool:
    """Grooves no wider than 0.9 mm or no deeper than 0.508 mm are not limited."""
    return (
        measured.get("groove_width_mm", math.inf) <= 0.9
        or measured.get("groove_depth_mm", math.inf) <= 0.508
    )


CLAUSES: Final = (
    Clause(key="length", name="Length, butt to sole along the shaft", rule="1c", low=457.2,
           needs=("length_mm",), ask="from the top of the grip to the sole along the shaft axis",
           note="A putter has no greatest length.", source="R7"),
    Clause(key="loft", name="Loft", rule="1a", unit="deg", low=-15, high=10, needs=("loft_deg",),
           ask="the face against vertical, the head in its address position",
           note="Below zero is allowed; below −15° is no longer customary.", source="R1"),
    Clause(key="lie", name="Shaft off vertical, seen along the line", rule="1d", unit="deg",
           high=80, needs=("lie_deg",), ask="the shaft to the ground, sole flat under the face",
           note="A lie of 65° or less may be asked for if the putter can be used upright.",
           source="R2"),
    Clause(key="shaft_lean", name="Shaft lean, seen facing the golfer; forward positive", rule="1d",
           unit="deg", low=-10, high=20, needs=("shaft_lean_deg",),
           ask="the straight part of the shaft against vertical, sole flat under the face",
           source="R2"),
    Clause(key="straight_shaft", name="Shaft straight down to", rule="2a", high=127,
           needs=("straight_above_sole_mm",),
           ask="from the sole to where the shaft is straight, along every bend", source="R3"),
    Clause(key="neck", name="Neck or socket above the sole", rule="2c", high=127,
           needs=("neck_length_mm",), ask="from the sole to the top of the neck, along its bends",
           source="R3"),
    Clause(key="grip_length", name="Length of the grip", rule="3a", low=177.8,
           needs=("grip_length_mm",), ask="the grip, end to end", not_with="grip_gap_mm",
           source="R4, R5"),
    Clause(key="grip_width", name="Widest section of the grip", rule="3a", high=44.45,
           needs=("grip_width_mm",), ask="the widest section anywhere along the grip", source="R4"),
    Clause(key="grip_gap", name="Gap between two grips", rule="3c", low=38.1,
           needs=("grip_gap_mm",), ask="between the two grips", only_with="grip_gap_mm",
           beyond="look", note="A smaller gap makes them one grip, to be judged as one.",
           source="R4, R6"),
    Clause(key="upper_grip", name="Length of the upper of two grips", rule="3c", low=127,
           needs=("upper_grip_mm",), ask="the upper grip, end to end", only_with="grip_gap_mm",
           source="R6"),
    Clause(key="head_plan", name="Head wider than deep, by", rule="4b", low=0, strict=True,
           needs=("head_width_mm", "head_depth_mm"),
           combine=lambda width_mm, depth_mm: width_mm - depth_mm,
           ask="the head heel to toe and face to back", source="R13"),
    Clause(key="head_width", name="Head, heel to toe", rule="4b", high=177.8, beyond="look",
           needs=("head_width_mm",), ask="the head heel to toe", status=FROM_MEMORY),
    Clause(key="head_height", name="Head, sole to top", rule="4b", high=63.5, beyond="look",
           needs=("head_height_mm",), ask="the head sole to top, with all that stands on it",
           status=FROM_MEMORY),
    Clause(key="face_against_depth", name="Face width over depth of head", rule="4b", unit="",
           low=2 / 3, beyond="look", needs=("face_width_mm", "head_depth_mm"),
           combine=lambda face_mm, depth_mm: face_mm / depth_mm,
           ask="the face heel to toe and the head face to back", status=FROM_MEMORY),
    Clause(key="face_against_width", name="Face width over width of head", rule="4b", unit="",
           low=0.5, beyond="look", needs=("face_width_mm", "head_width_mm"),
           combine=lambda face_mm, width_mm: face_mm / width_mm,
           ask="the face and the head heel to toe", status=FROM_MEMORY),
    Clause(key="two_faces", name="Second face against the first, loft", rule="4d", unit="deg",
           low=0, high=0, needs=("second_loft_deg", "loft_deg"),
           combine=lambda second_deg, first_deg: second_deg - first_deg,
           ask="the loft of the face at the back", only_with="second_loft_deg",
           note="Two faces must be alike and opposite each other.", source="R14"),
    Clause(key="face_hardness", name="Hardness of the face, Shore A", rule="5a", unit="", low=85,
           needs=("face_shore_a",), ask="the hardness of the face or insert", source="R15"),
    Clause(key="insert", name="Insert proud of the face; sunk negative", rule="5a", low=-0.1,
           high=0.15, needs=("insert_proud_mm",), ask="the insert against the face around it",
           only_with="insert_proud_mm", source="R15"),
    Clause(key="groove_width", name="Width of a groove", rule="5f", high=1.524,
           needs=("groove_width_mm",), ask="the width of a groove", only_with="groove_width_mm",
           spares=_shallow, note="In an older guide.", source="R17"),
    Clause(key="groove_depth", name="Depth of a groove", rule="5f", high=1.016,
           needs=("groove_depth_mm",), ask="the depth of a groove", only_with="groove_width_mm",
           spares=_shallow, note="In an older guide.", source="R17"),
    Clause(key="groove_shape", name="Groove wider than deep, by", rule="5f", low=0, strict=True,
           needs=("groove_width_mm", "groove_depth_mm"),
           combine=lambda width_mm, depth_mm: width_mm - depth_mm,
           ask="the width and depth of a groove", only_with="groove_width_mm", spares=_shallow,
           note="In an older guide.", source="R17"),
)  # fmt: skip

BY_EYE: Final = (
    ("Plain in shape", "4a", "no hole through the face, nothing ahead of it, no electronics",
     "R11, R12"),
    ("Nothing attached", "1a", "a laser, mirror or level is for practice only", "R11"),
    ("Adjustments", "1b", "firmly fixed, not by finger or coin; every setting must conform", "R18"),
    ("Marks on neck and face", "2c, 5a",
     "lines may be painted or engraved on an otherwise plain neck, not built into it", "R3b, R16"),
)  # fmt: skip
"""What no gauge can say: name, rule, what to look for, source."""

MEASURES: Final = tuple(dict.fromkeys(name for clause in CLAUSES for name in clause.needs))
"""Every measurement some clause asks for."""
