"""The questions about a part on the rack, and about a putter on the bench."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import Final

from puttwright.club.check_in import Ordered
from puttwright.club.targets import BY_FIELD
from puttwright.evidence import Build, Part, Putt
from puttwright.fitting.phrases import figure
from puttwright.web.forms.asking import Question, question
from puttwright.web.forms.bench_forms import metal_questions
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue

_PART: Final = (
    "length_mm", "lie_deg", "loft_deg", "loft_min_deg", "loft_max_deg", "lie_min_deg",
    "lie_max_deg", "offset_mm", "toe_hang_deg", "cg_from_axis_mm", "cg_depth_mm", "mass_g",
    "balance_from_butt_mm", "grip_diameter_mm", "stock", "price",
)  # fmt: skip


def part_questions() -> tuple[Question, ...]:
    """One part: what it is, what was measured of it, how many and how much."""
    return (
        question(Part, "part_id", label="rack.part_id", hint="rack.part_id_hint", needed=True),
        question(Part, "kind", label="rack.kind", needed=True, words="rack"),
        question(Part, "label", label="rack.label"),
        question(Part, "head_shape", label="build.head_shape", words="build"),
        question(Part, "sight_line", label="build.sight_line", words="build"),
        question(Part, "neck_style", label="rack.neck_style"),
        *metal_questions(),
        *(question(Part, name, label=f"rack.{name}") for name in _PART),
        question(Part, "fits", label="rack.fits", hint="rack.fits_hint"),
    )


def bench_questions(ordered: Sequence[Ordered]) -> tuple[Question, ...]:
    """A field for each figure of an order, what was ordered beside it."""
    text = catalogue()
    found = []
    for asked in ordered:
        target = BY_FIELD[asked.field]
        wanted = measure(asked.ordered, target.unit, digits=target.digits)
        tolerance = figure(asked.tolerance, digits=0 if asked.tolerance >= 1 else 1)
        hint = text("check.ordered", figure=wanted, tolerance=tolerance)
        plain = question(Build, asked.field, label="check.figure")
        found.append(dataclasses.replace(plain, label=target.name, hint=hint))
    return tuple(found)


def again_questions() -> tuple[Question, ...]:
    """After weeks: loft and lie, a few starts, a few aims."""
    return (
        question(Build, "loft_deg", prefix="again-", label="build.loft"),
        question(Build, "lie_deg", prefix="again-", label="build.lie"),
        question(
            Putt, "note", prefix="starts-", label="check.starts",
            hint="check.starts_hint",
        ),
        question(
            Putt, "note", prefix="aims-", label="check.aims", hint="check.aims_hint"
        ),
    )  # fmt: skip
