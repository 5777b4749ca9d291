"""What the order warns of: bends that go too far, and where the work can hurt.

Limits of bending are common practice without a source, bending
by alloy as relayed by trade articles; the person at the vice has the last word.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from puttwright.club.alloys import ASK, REFUSE, Verdict
from puttwright.club.targets import BEND_ASK_DEG, BEND_REFUSE_DEG
from puttwright.fitting.order import Bend
from puttwright.fitting.phrases import measure


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


def metal_warnings(bends: Sequence[Bend], /, *, verdict: Verdict, known: bool) -> tuple[str, ...]:
    """What the metal says to the whole bend, and what would be possible instead."""
    if not known or verdict.verdict not in (ASK, REFUSE):
        return ()
    if verdict.verdict == ASK:
        return (f"{verdict.why[0].upper()}{verdict.why[1:]}.",)
    never = "Do not bend this head so far" if verdict.most_deg else "Never bend this head"
    possible = " and ".join(map(_possible, bends))
    return (f"{never}: {verdict.why}. It gives {possible}; for more, another head or neck.",)


def _possible(bend: Bend) -> str:
    low = bend.supplied_deg if bend.low_deg is None else bend.low_deg
    high = bend.supplied_deg if bend.high_deg is None else bend.high_deg
    said = measure(low, "°", digits=1)
    reach = f"{said} to {measure(high, '°', digits=1)}" if high - low >= 0.1 else said
    return f"a {bend.name} of {reach}"


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


def cautions_of(bends: Sequence[Bend], /, *, weights: bool) -> tuple[tuple[str, str], ...]:
    """Where the work of this order can hurt; bending only where something is, or may be, bent."""
    to_bend = not bends or any(abs(bend.by_deg) >= 0.05 for bend in bends)
    told = [*[BENDING] * to_bend, CUTTING, HEAT, EPOXY, *[LEAD] * weights]
    return tuple((kind, " ".join(words.split())) for kind, words in told)
