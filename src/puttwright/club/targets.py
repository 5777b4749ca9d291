"""The figures a putter is built to: how near the work must come, how well a bench measures them.

Tolerances are common practice without a source; so are the errors, for a loft and
lie gauge, a steel rule, a balance rail and kitchen-grade scales. A shop that
studied its gauges gives its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """One figure to build to: its column, how it is written, how near the work must come.

    ``error`` is the expanded uncertainty (k = 2) of one reading at the bench, in ``unit``.
    """

    field: str
    name: str
    unit: str
    digits: int
    tolerance: float
    error: float


TARGETS: Final = (
    Target(field="length_mm", name="Length, butt to sole", unit="mm", digits=0, tolerance=3,
           error=1),
    Target(field="lie_deg", name="Lie", unit="°", digits=1, tolerance=0.5, error=0.3),
    Target(field="loft_deg", name="Loft", unit="°", digits=1, tolerance=0.5, error=0.3),
    Target(field="offset_mm", name="Offset", unit="mm", digits=0, tolerance=1, error=0.3),
    Target(field="toe_hang_deg", name="Hang", unit="°", digits=0, tolerance=4, error=2),
    Target(field="head_mass_g", name="Mass of head", unit="g", digits=0, tolerance=2, error=0.5),
    Target(field="total_mass_g", name="Mass of putter", unit="g", digits=0, tolerance=5, error=1),
    Target(field="balance_from_butt_mm", name="Balance, butt", unit="mm", digits=0, tolerance=5,
           error=2),
    Target(field="grip_diameter_mm", name="Diameter of grip", unit="mm", digits=0, tolerance=1,
           error=0.3),
)  # fmt: skip
BY_FIELD: Final = {target.field: target for target in TARGETS}
NEEDED: Final = ("length_mm", "lie_deg", "loft_deg")
"""What has to be measured before a putter can pass."""

BEND_ASK_DEG: Final = 2.0
"""Beyond this a club repair professional is asked first; common practice, no source."""
BEND_REFUSE_DEG: Final = 4.0
"""Beyond this it is not done; common practice, no source."""
