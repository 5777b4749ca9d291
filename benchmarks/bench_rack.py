"""A hundred thousand putters a rack can make, ranked, beside a plain loop over them."""

from __future__ import annotations

import itertools
import math
import time
from collections.abc import Iterator

from puttwright.evidence import Build, Part
from puttwright.fitting.rack import nearest

WANTED = Build(
    build_id="X", length_mm=864, lie_deg=70, loft_deg=2.5, head_mass_g=360, grip_diameter_mm=29
)
HEADS = [Part(part_id=f"H{n}", kind="head", mass_g=330.0 + n, loft_deg=3.0) for n in range(25)]
NECKS = [Part(part_id=f"N{n}", kind="neck", offset_mm=float(n)) for n in range(10)]
SHAFTS = [Part(part_id=f"S{n}", kind="shaft", length_mm=870.0 + n) for n in range(20)]
GRIPS = [Part(part_id=f"G{n}", kind="grip", grip_diameter_mm=25.0 + n) for n in range(20)]


def _loop() -> float:
    """The least distance, with a part of the figures only: a lower bound for a loop."""
    return min(
        math.hypot((head.mass_g - 360) / 2, (grip.grip_diameter_mm - 29) / 1)
        for head, _, _, grip in itertools.product(HEADS, NECKS, SHAFTS, GRIPS)
    )


def rows() -> Iterator[tuple[str, float, str, float]]:
    """The search."""
    started = time.perf_counter()
    found = nearest((*HEADS, *NECKS, *SHAFTS, *GRIPS), WANTED)
    ours = time.perf_counter() - started
    started = time.perf_counter()
    _loop()
    yield f"{found.combinations:,} putters of a rack", ours, "loop", time.perf_counter() - started
