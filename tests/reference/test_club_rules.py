"""The limits of the equipment rules: each as printed, and the verdict on both sides of it."""

from __future__ import annotations

import math

from puttwright.club.rules import BEYOND, LOOK, WITHIN, rulings
from puttwright.club.rules_table import CLAUSES, SEEN

MM_IN_AN_INCH = 25.4
# Clauses without a printed figure of their own: they compare two measurements.
COMPARED = {"head_plan", "two_faces", "groove_shape"}
BESIDE = {
    "grip_gap": {"upper_grip_mm": 200.0},
    "upper_grip": {"grip_gap_mm": 50.0},
    "groove_width": {"groove_depth_mm": 0.6},
    "groove_depth": {"groove_width_mm": 1.5},
}


def _edges():
    """Each limit of a text that was seen, by the key of its row."""
    for clause in CLAUSES:
        if clause.status == SEEN and clause.key not in COMPARED:
            for end in ("low", "high"):
                limit = getattr(clause, end)
                if math.isfinite(limit):
                    yield f"{clause.key}_{end}", (clause, limit, -1.0 if end == "low" else 1.0)


EDGES = dict(_edges())


def _verdict(clause, value):
    measured = {clause.needs[0]: value, **BESIDE.get(clause.key, {})}
    return next(each.verdict for each in rulings(measured) if each.clause == clause.name)


def test_each_limit_is_the_printed_one(published, validate):
    for key, row in published("club_rules", keys=EDGES).items():
        ours = EDGES[key][1] / (MM_IN_AN_INCH if row["unit"] == "in" else 1.0)
        validate(ours=ours, **row)


def test_on_the_limit_is_within_and_a_hair_past_it_is_not():
    for key, (clause, limit, outward) in EDGES.items():
        step = 0.1 if abs(limit) > 1.6 else 0.001
        past = BEYOND if clause.beyond == BEYOND else LOOK
        seen = [_verdict(clause, limit + outward * d) for d in (-step, 0.0, step)]
        assert (key, *seen) == (key, WITHIN, WITHIN, past)
