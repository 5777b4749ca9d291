from __future__ import annotations

import pytest

from puttwright.club.alloys import ASK, REFUSE, UNKNOWN, WITHIN
from puttwright.club.check_in import ASK as ASK_FIRST
from puttwright.club.check_in import NEVER, OUTSIDE, REWORK, TOO_FAR, Bendable, Ordered, check_in
from puttwright.club.check_in import REFUSE as REFUSED
from puttwright.club.metal import Metal, bend_limits, metal_of, neck_bend_deg
from puttwright.evidence import Part


def head(**what):
    return Part(part_id="H", kind="head", loft_deg=3.0, lie_deg=70.0, **what)


SOFT = {"alloy": "carbon_steel", "neck_joint": "one_piece"}


@pytest.mark.parametrize(
    ("said", "key"),
    [("17-4 stainless", "stainless_17_4"), ("Carbon Steel", "carbon_steel"),
     ("303", "stainless_304"), ("aluminum", "aluminium"), ("unobtainium", UNKNOWN),
     (None, UNKNOWN)],
)  # fmt: skip
def test_a_shops_own_words_for_a_metal_are_known_or_left_unknown(said, key):
    assert metal_of(head(alloy=said)).alloy == key


@pytest.mark.parametrize(
    ("what", "limits"),
    [
        ({}, None),
        ({"alloy": "carbon_steel"}, None),
        (SOFT, (1.0, 5.0)),
        (SOFT | {"bent_before_deg": 1.5}, (2.5, 3.5)),
        (SOFT | {"loft_min_deg": 2.0, "loft_max_deg": 3.5}, (2.0, 3.5)),
        ({"alloy": "zinc", "loft_min_deg": 1.0, "loft_max_deg": 5.0}, (3.0, 3.0)),
        ({"neck_joint": "glued"}, (3.0, 3.0)),
    ],
)
def test_the_racks_limits_come_first_but_what_is_never_bent_stays(what, limits):
    assert bend_limits(head(**what), "loft") == limits


def test_what_was_bent_before_counts_against_the_metal():
    soft = Metal(alloy="carbon_steel", joint="one_piece")
    bent = Metal(alloy="carbon_steel", joint="one_piece", before_deg=1.5)
    assert (soft.judge(bend_deg=2.0).verdict, bent.judge(bend_deg=2.0).verdict) == (WITHIN, ASK)
    assert bent.judge(bend_deg=3.0).verdict == REFUSE


def test_loft_and_lie_together_bend_the_neck_further_than_either():
    both = neck_bend_deg(loft_deg=3, lie_deg=70, add_loft_deg=1.5, add_lie_deg=-1.5)
    assert both == pytest.approx(1.5 * 2**0.5, rel=1e-3)
    assert Metal(alloy="brass", joint="welded").judge(bend_deg=both).verdict == REFUSE


def loft_off(metal, *, by_deg, supplied_deg=3.0, limits=(1.0, 5.0)):
    known = Bendable(
        field="loft_deg", supplied_deg=supplied_deg, low_deg=limits[0], high_deg=limits[1],
        metal=metal,
    )  # fmt: skip
    asked = Ordered(field="loft_deg", ordered=3.0, tolerance=0.5)
    return check_in([asked], {"loft_deg": 3.0 + by_deg}, bendable=[known]).findings[0]


@pytest.mark.parametrize(
    ("metal", "by_deg", "verdict", "mind"),
    [
        (Metal(alloy="carbon_steel", joint="one_piece"), 1.0, REWORK, ()),
        (Metal(alloy="stainless_17_4", joint="one_piece"), 1.0, REWORK, ()),
        (Metal(alloy="stainless_17_4", joint="one_piece"), -1.5, REWORK, (ASK_FIRST,)),
        (Metal(alloy="stainless_17_4", joint="one_piece"), 2.5, REFUSED, (TOO_FAR,)),
        (Metal(alloy="zinc"), 1.0, REFUSED, (NEVER,)),
        (Metal(joint="glued"), -1.0, REFUSED, (NEVER,)),
    ],
)
def test_the_metal_decides_at_check_in_what_may_be_bent(metal, by_deg, verdict, mind):
    found = loft_off(metal, by_deg=by_deg)
    assert (found.verdict, found.work.mind) == (verdict, mind)
    assert bool(found.work.why) == bool(mind)


def test_what_could_be_had_by_bending_is_said_with_the_refusal():
    metal = Metal(alloy="carbon_steel", joint="one_piece")
    found = loft_off(metal, by_deg=1.0, limits=(3.5, 5.0))
    assert (found.verdict, found.work.mind, found.work.possible) == (
        REFUSED,
        (OUTSIDE,),
        (3.5, 5.0),
    )
