from __future__ import annotations

import copy
import json

import pytest

from puttwright.evidence import Build
from puttwright.fitting.order import Bend, Order, OrderPart, Promise, ordered_of
from puttwright.fitting.order_wire import SCHEMA, NotAnOrder, order_from, order_json
from puttwright.fitting.quote import QuoteLine, quote

BUILD = Build(
    build_id="B", label="Mallet", head_id="H3", length_mm=864, lie_deg=70, loft_deg=2.5,
    head_mass_g=358, grip_diameter_mm=29,
)  # fmt: skip


@pytest.fixture
def order():
    return Order(
        order_id="F-1-B", fitting_id="F-1", date="2026-05-14", alias="Robin", handed="left",
        letter="B", build=BUILD, because="the fitting's choice", ordered=ordered_of(BUILD),
        bends=(Bend(name="loft", field="loft_deg", supplied_deg=3.5, wanted_deg=2.5, low_deg=1.5,
                    high_deg=None),),
        parts=(OrderPart(kind="head", part_id="H3", label="Mallet", price=190.0),),
        weights=False, promised={"start_bias_deg": Promise(mean=-0.25, sd=0.5)},
        quote=quote([QuoteLine(what="work", price=40.0)], tax_pct=19, currency="EUR"),
        version="0.1.0", seed=1, inputs_sha256="ab" * 32,
    )  # fmt: skip


def test_there_and_back_is_the_same_order(order):
    assert order_from(json.loads(json.dumps(order_json(order)))) == order


def test_keys_nobody_knows_are_left_aside(order):
    document = order_json(order) | {"new": 1}
    assert order_from(document) == order


WRONG = {
    "no object": [],
    "another schema": {"schema": "other/1"},
    "no hand": {"handed": "both"},
    "an impossible loft": {"build": {"loft_deg": 40}},
    "a loft in words": {"build": {"loft_deg": "three"}},
    "an unknown target": {"ordered": [{"column": "colour", "ordered": 1, "tolerance": 1}]},
    "no tolerance": {"ordered": [{"column": "loft_deg", "ordered": 1, "tolerance": 0}]},
    "no list": {"bends": "none"},
    "a text for a number": {"model": {"seed": "one"}},
}


@pytest.mark.parametrize("change", WRONG.values(), ids=WRONG)
def test_what_is_no_order_is_told_in_a_sentence(order, change):
    document = copy.deepcopy(order_json(order))
    if isinstance(change, dict):
        for name, value in change.items():
            old = document[name]
            document[name] = old | value if isinstance(value, dict) else value
    else:
        document = change
    with pytest.raises(NotAnOrder) as caught:
        order_from(document)
    assert str(caught.value).endswith(".")


def test_the_copy_says_what_it_is_and_what_the_rules_say(order):
    document = order_json(order)
    assert document["schema"] == SCHEMA
    assert {each["verdict"] for each in document["rules"]} >= {"within", "look"}
