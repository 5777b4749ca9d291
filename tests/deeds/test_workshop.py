"""Rack, order and bench of a shop."""

from __future__ import annotations

import dataclasses

import pytest

from puttwright.club.check_in import NothingMeasured
from puttwright.deeds.check_order_again import ShortTest
from puttwright.deeds.keep_order import (
    keep_check_again,
    keep_check_in,
    keep_order,
    open_order,
    orders_of,
)
from puttwright.deeds.keep_rack import look_at_rack, put_on_rack, rack_table, take_in_rack
from puttwright.deeds.make_order import NothingToBuild, Prices
from puttwright.errors import PackageFaults
from puttwright.evidence import Part
from puttwright.store import Store

HEAD = Part(part_id="H1", kind="head", loft_deg=3, lie_deg=70, loft_min_deg=1, loft_max_deg=5)


def order(shop, fitting_id, *, key="a", build_id="B"):
    return keep_order(
        shop, fitting_id=fitting_id, build_id=build_id, prices=Prices(), entry_key=key, who="x"
    )


def test_a_degree_off_and_back_stays_in_the_records(shop, fitting_id):
    order_id = order(shop, fitting_id)
    good = {"length_mm": 838.0, "lie_deg": 71.0, "loft_deg": 2.0}
    ways = {"order_id": order_id, "who": "x"}
    off = keep_check_in(
        shop.store, shop.clock, measured=good | {"loft_deg": 3.0}, entry_key="1", **ways
    )
    back = keep_check_in(shop.store, shop.clock, measured=good, entry_key="2", **ways)
    assert (off.verdict, back.verdict) == ("rework", "pass")
    opened = open_order(shop.store, order_id)
    assert [check.verdict for check in opened.checks] == ["rework", "pass"]
    assert opened.handed_over == good

    test = ShortTest(angles={"loft_deg": 3.0})
    again = keep_check_again(shop.store, shop.clock, test=test, entry_key="3", **ways)
    assert again.drifts[0].then == 2.0
    assert len(open_order(shop.store, order_id).checks) == 3


def test_what_cannot_be_judged_is_not_kept(shop, fitting_id):
    order_id = order(shop, fitting_id)
    with pytest.raises(NothingMeasured):
        keep_check_in(
            shop.store, shop.clock, order_id=order_id, measured={}, entry_key="1", who="x"
        )
    assert open_order(shop.store, order_id).checks == ()


def test_the_same_order_sent_twice_is_kept_once(shop, fitting_id):
    ids = [order(shop, fitting_id, key=key) for key in ("a", "a", "b")]
    assert ids[0] == ids[1] != ids[2]
    assert [each.order_id for each in orders_of(shop.store, fitting_id)] == [ids[2], ids[0]]


def test_nothing_is_ordered_while_nothing_is_decided(shop, fitting_id):
    with pytest.raises(NothingToBuild):
        order(shop, fitting_id, build_id=None)
    assert orders_of(shop.store, fitting_id) == ()


def test_a_table_of_parts_goes_in_whole_or_not_at_all(shop):
    store: Store = shop.store
    put_on_rack(store, shop.clock, parts=[HEAD], who="x")
    for workbook in (False, True):
        data = rack_table(store, workbook=workbook)
        assert take_in_rack(store, shop.clock, data=data, name="rack", who="x") == 1
    assert look_at_rack(store) == (HEAD,)
    bad = b"part_id,kind,mass_g\nG1,grip,60\nG2,grip,-1\n"
    with pytest.raises(PackageFaults, match="row 3, mass_g"):
        take_in_rack(store, shop.clock, data=bad, name="rack.csv", who="x")
    upside_down = dataclasses.replace(HEAD, loft_min_deg=6)
    with pytest.raises(PackageFaults, match="more than the other end"):
        put_on_rack(store, shop.clock, parts=[upside_down], who="x")
    assert look_at_rack(store) == (HEAD,)
