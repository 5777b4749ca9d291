from __future__ import annotations

import dataclasses
from datetime import datetime

import pytest

from puttwright.errors import NotFound
from puttwright.evidence import Fitting, Part
from puttwright.store import Store, fittings, orders, rack
from puttwright.store.orders import CHECKED_IN, KeptCheck
from puttwright.store.revisions import key_of

HEAD = Part(part_id="H1", kind="head", mass_g=350, stock=2, price=190, extra={"bay": "3"})
GRIP = Part(part_id="G1", kind="grip", grip_diameter_mm=29)


def test_a_part_put_on_again_takes_the_place_of_the_old(store: Store, now: datetime) -> None:
    with store.writing() as connection:
        rack.put(connection, (GRIP, HEAD), now=now, who="fitter")
        fewer = dataclasses.replace(HEAD, stock=1)
        rack.put(connection, (fewer,), now=now, who="fitter")
    with store.reading() as connection:
        assert rack.load(connection) == (fewer, GRIP)
    with store.writing() as connection:
        rack.take_off(connection, "H1")
        with pytest.raises(NotFound):
            rack.take_off(connection, "H1")
    with store.reading() as connection:
        assert rack.load(connection) == (GRIP,)


@pytest.fixture
def order_id(store: Store, fitting: Fitting, now: datetime) -> str:
    with store.writing() as connection:
        fittings.start(connection, fitting, entry_key="k", now=now, who="fitter")
        key = key_of(connection, "F1")
        return orders.keep(
            connection, {"order_id": "F1-B", "n": 1}, key=key, entry_key="a", now=now, who="fitter"
        )


def test_an_order_is_kept_once_and_another_gets_a_number(
    store: Store, order_id: str, now: datetime
) -> None:
    with store.writing() as connection:
        settings = {"key": key_of(connection, "F1"), "now": now, "who": "fitter"}
        document = {"order_id": "F1-B", "n": 2}
        again = orders.keep(connection, document, entry_key="a", **settings)
        other = orders.keep(connection, document, entry_key="b", **settings)
    assert (order_id, again, other) == ("F1-B", "F1-B", "F1-B-2")
    with store.reading() as connection:
        assert orders.load(connection, "F1-B").document["n"] == 1
        assert orders.load(connection, "F1-B-2").document == {"order_id": "F1-B-2", "n": 2}
        found = orders.of_fitting(connection, key=key_of(connection, "F1"))
        assert [each.order_id for each in found] == ["F1-B-2", "F1-B"]
        with pytest.raises(NotFound):
            orders.load(connection, "nope")


def test_every_check_stays(store: Store, order_id: str, now: datetime) -> None:
    check = KeptCheck(
        kind=CHECKED_IN, verdict="rework", measured={"loft_deg": 3.5}, result={}, when=now, who="x"
    )
    passed = dataclasses.replace(check, verdict="pass")
    with store.writing() as connection:
        for entry_key, each in (("a", check), ("a", check), ("b", passed)):
            orders.keep_check(connection, each, order_id=order_id, entry_key=entry_key)
    with store.reading() as connection:
        assert orders.checks(connection, order_id) == [check, passed]
