from __future__ import annotations

import dataclasses

import pytest

from puttwright.evidence import Part
from puttwright.fitting.order import Order, bends_of, metal_for, ordered_of, parts_of
from puttwright.paper.order_context import order_context
from puttwright.paper.workshop import bend_warnings, cautions_of


def _bends(samples, **head):
    part = dataclasses.replace(samples.RACK[0], **head)
    return bends_of(samples.FITTING.build("mallet-slant"), head=part)


def test_bends_are_from_supplied_to_wanted(samples):
    loft, lie = _bends(samples)
    assert (loft.by_deg, lie.by_deg) == (-1.0, -1.0)
    assert loft.words == "bend 1.0° stronger, from 3.5°"
    assert lie.words == "bend 1.0° flat, from 71.0°"


def test_more_loft_is_weaker_and_more_lie_upright(samples):
    loft, lie = _bends(samples, loft_deg=1.5, lie_deg=69.0)
    assert "weaker" in loft.words
    assert "upright" in lie.words
    assert _bends(samples, loft_deg=2.5)[0].words == "as supplied"


@pytest.mark.parametrize(
    ("supplied", "warned"),
    [(4.5, ""), (4.4, ""), (4.6, "Ask"), (6.5, "Ask"), (6.6, "Do not bend"), (-1.6, "Do not bend")],
)
def test_two_degrees_ask_and_four_refuse(supplied, warned, samples):
    loft = _bends(samples, loft_deg=supplied, loft_min_deg=None, loft_max_deg=None)[:1]
    assert " ".join(bend_warnings(loft)).startswith(warned)
    assert bool(bend_warnings(loft)) == bool(warned)


def test_the_heads_own_limits_come_first(samples):
    warnings = bend_warnings(_bends(samples, loft_min_deg=3.0))
    assert warnings == ("A loft of 2.5° lies outside what this head may be bent to.",)


def test_without_a_head_on_the_rack_nothing_is_claimed(samples):
    build = samples.FITTING.build("half-plumber")
    parts = parts_of(build, rack=samples.FITTING.rack)
    assert parts == {"head": None, "neck": None, "grip": None}
    assert bends_of(build, head=None) == ()
    assert "Bending the neck" in [kind for kind, _ in cautions_of((), weights=False)]


def test_no_bend_no_caution_of_bending(samples):
    bends = _bends(samples, loft_deg=2.5, lie_deg=70.0)
    assert "Bending the neck" not in [kind for kind, _ in cautions_of(bends, weights=True)]


@pytest.mark.parametrize(
    ("metal", "said"),
    [
        ({"alloy": "zinc"},
         "Never bend this head: zinc snaps. It gives a loft of 3.5° and a lie of"),
        ({"alloy": "stainless_17_4", "neck_joint": "one_piece"},
         "Beyond 1° for 17-4 stainless ask a club repair professional first."),
        ({"alloy": "17-4", "neck_joint": "one_piece", "bent_before_deg": 1.5},
         "Do not bend this head so far: 17-4 stainless is not bent beyond 2°. It gives a loft"),
        ({"alloy": "carbon steel", "neck_joint": "one_piece"}, ""),
        ({"alloy": "something else"}, ""),
    ],
)  # fmt: skip
def test_the_sheet_says_what_the_metal_forbids_and_what_would_be_possible(samples, metal, said):
    build = dataclasses.replace(samples.FITTING.build("mallet-slant"), loft_deg=2.2)
    part = Part(part_id="H3", kind="head", loft_deg=3.5, lie_deg=build.lie_deg, **metal)
    order = _order(build, part)
    told = " ".join(order_context(order).warnings)
    assert told.startswith(said)
    assert bool(told) == bool(said)


def _order(build, part):
    return Order(
        order_id="F-B", fitting_id="F", date="2026-05-14", alias="Robin", handed="left", letter="B",
        build=build, because="", ordered=ordered_of(build), bends=bends_of(build, head=part),
        metal=metal_for({"head": part}),
    )  # fmt: skip
