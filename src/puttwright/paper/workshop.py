"""What the workshop goes by: tolerances, the work a build needs, and where the work can hurt.

Tolerances and limits of bending are common practice without a source, bending
by alloy as relayed by trade articles; the person at the vice has the last word.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.evidence import Build, Fitting, Part
from puttwright.fitting.phrases import measure

BEND_ASK_DEG: Final = 2.0
"""Beyond this a club repair professional is asked first; common practice, no source."""
BEND_REFUSE_DEG: Final = 4.0
"""Beyond this it is not ordered; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """One figure to build to: its field, how it is written, how near the work must come."""

    field: str
    name: str
    unit: str
    digits: int
    tolerance: float


TARGETS: Final = (
    Target(field="length_mm", name="Length, butt to sole", unit="mm", digits=0, tolerance=3),
    Target(field="lie_deg", name="Lie", unit="°", digits=1, tolerance=0.5),
    Target(field="loft_deg", name="Loft", unit="°", digits=1, tolerance=0.5),
    Target(field="offset_mm", name="Offset", unit="mm", digits=0, tolerance=1),
    Target(field="toe_hang_deg", name="Hang", unit="°", digits=0, tolerance=4),
    Target(field="head_mass_g", name="Mass of head", unit="g", digits=0, tolerance=2),
    Target(field="total_mass_g", name="Mass of putter", unit="g", digits=0, tolerance=5),
    Target(field="balance_from_butt_mm", name="Balance, butt", unit="mm", digits=0, tolerance=5),
    Target(field="grip_diameter_mm", name="Diameter of grip", unit="mm", digits=0, tolerance=1),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """Loft or lie as supplied against as wanted, and what the head allows."""

    name: str
    field: str
    supplied_deg: float
    wanted_deg: float
    low_deg: float | None
    high_deg: float | None

    @property
    def by_deg(self) -> float:
        """How far to bend; positive adds loft or makes the lie more upright."""
        return self.wanted_deg - self.supplied_deg

    @property
    def outside(self) -> bool:
        """Whether the wanted angle lies outside what the head may be bent to."""
        low = self.low_deg if self.low_deg is not None else self.wanted_deg
        high = self.high_deg if self.high_deg is not None else self.wanted_deg
        return not low - 0.05 <= self.wanted_deg <= high + 0.05

    @property
    def words(self) -> str:
        """The work: "bend 1.0° weaker, from 3.5°"."""
        if abs(self.by_deg) < 0.05:
            return "as supplied"
        more, less = ("weaker", "stronger") if self.name == "loft" else ("upright", "flat")
        way = more if self.by_deg > 0 else less
        by = measure(abs(self.by_deg), "°", digits=1)
        return f"bend {by} {way}, from {measure(self.supplied_deg, '°', digits=1)}"


def parts_of(build: Build, *, rack: Sequence[Part]) -> dict[str, Part | None]:
    """The parts a build names, by kind; ``None`` where the rack does not hold it."""
    on_rack = {part.part_id: part for part in rack}
    named = {"head": build.head_id, "neck": build.neck_id, "grip": build.grip_id}
    return {kind: on_rack.get(part_id) for kind, part_id in named.items() if part_id}


def bends_of(build: Build, *, head: Part | None) -> tuple[Bend, ...]:
    """What has to be bent, as far as the rack tells how the head is supplied."""
    if head is None:
        return ()
    found = []
    if head.loft_deg is not None:
        found.append(
            Bend(name="loft", field="loft_deg", supplied_deg=head.loft_deg,
                 wanted_deg=build.loft_deg, low_deg=head.loft_min_deg, high_deg=head.loft_max_deg)
        )  # fmt: skip
    if head.lie_deg is not None:
        found.append(
            Bend(name="lie", field="lie_deg", supplied_deg=head.lie_deg,
                 wanted_deg=build.lie_deg, low_deg=head.lie_min_deg, high_deg=head.lie_max_deg)
        )  # fmt: skip
    return tuple(found)


def bend_warnings(bends: Sequence[Bend], /) -> tuple[str, ...]:
    """What stands against a bend: the head's own limits first, then the usual ones."""
    found = []
    for bend in bends:
        wanted = measure(bend.wanted_deg, "°", digits=1)
        if bend.outside:
            found.append(f"A {bend.name} of {wanted} lies outside what this head may be bent to.")
        if abs(bend.by_deg) > BEND_REFUSE_DEG + 0.05:
            found.append(f"Do not bend the {bend.name} this far: choose another head or neck.")
        elif abs(bend.by_deg) > BEND_ASK_DEG + 0.05:
            found.append(f"Ask a club repair professional before bending the {bend.name} this far.")
    return tuple(found)


BENDING: Final = (
    "Bending the neck",
    """Eye protection; clamp the head in padded jaws. Know the alloy first: zinc, aluminium and
    glued necks snap. Bend a little, measure loft and lie both, stop at any crack or whitening.""",
)
CUTTING: Final = (
    "Cutting and grinding",
    """Eye protection. Shaft dust, carbon above all, hurts eyes, skin and lungs: cut wet or with
    extraction, wear a particle mask, wipe up wet.""",
)
HEAT: Final = (
    "Heat",
    """Hot metal looks like cold metal. Heat a joint only as far as it needs, never a carbon
    shaft; keep grip solvent and its vapour away from flame and heat gun.""",
)
EPOXY: Final = (
    "Epoxy",
    """Gloves and fresh air; uncured resin on skin can make an allergy for life. Do not sand it
    half cured. Let it cure in full before anyone swings.""",
)
LEAD: Final = (
    "Lead tape",
    """Better tungsten or steel. Where it must be lead: gloves, no sanding, wash hands before
    eating, keep it from children and in pregnancy.""",
)


def cautions_of(fitting: Fitting, *, bends: Sequence[Bend]) -> tuple[tuple[str, str], ...]:
    """Where the work of this order can hurt; bending only where something is, or may be, bent."""
    to_bend = not bends or any(abs(bend.by_deg) >= 0.05 for bend in bends)
    weights = not fitting.rack or any(part.kind == "weight" for part in fitting.rack)
    told = [*[BENDING] * to_bend, CUTTING, HEAT, EPOXY, *[LEAD] * weights]
    return tuple((kind, " ".join(words.split())) for kind, words in told)
