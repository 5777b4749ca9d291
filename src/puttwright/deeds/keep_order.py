"""Orders of a shop: make one and keep it, look at it, print it, check its putter in and again."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from puttwright.club.check_in import CheckIn, check_in
from puttwright.deeds.bootstrap import Clock, Shop
from puttwright.deeds.check_order_again import CheckAgain, ShortTest, check_order_again
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.make_order import Prices, make_order
from puttwright.deeds.say_check_again import check_again_json
from puttwright.deeds.say_check_in import check_in_json
from puttwright.deeds.search_rack import rack_behind
from puttwright.fitting.order import Order
from puttwright.fitting.order_wire import order_from, order_json
from puttwright.store import Store, orders, rack
from puttwright.store.orders import CHECKED_AGAIN, CHECKED_IN, KeptCheck, KeptOrder
from puttwright.store.revisions import key_of, key_to_write

PASSED: Final = "pass"


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenOrder:
    """An order with every check of its putter, the first first."""

    order: Order
    kept: KeptOrder
    checks: tuple[KeptCheck, ...]

    @property
    def handed_over(self) -> Mapping[str, float]:
        """The figures with which the putter last passed; as ordered before that."""
        passed = [each for each in self.checks if each.verdict == PASSED]
        return passed[-1].measured if passed else {}


def keep_order(
    shop: Shop, *, fitting_id: str, build_id: str | None, prices: Prices, entry_key: str, who: str
) -> str:
    """Make the order of what the fitting decided, or of a build, and keep it for good.

    The shop's rack stands behind that of the fitting, so that a head's bend
    limits, stock and price are known.

    Returns
    -------
    str
        The order's id.

    Raises
    ------
    NotFound, NothingToBuild, OutOfRange
        There is no such fitting or build; nothing to build; an impossible price.
    """
    fitting, decision = decide_fitting(
        shop.store, shop.clock, fitting_id=fitting_id, decide=shop.decide, issue=True
    )
    with shop.store.reading() as look:
        on_rack = rack.load(look)
    whole = dataclasses.replace(fitting, rack=rack_behind(fitting, on_rack))
    order = make_order(whole, decision, build_id=build_id or None, prices=prices)
    with shop.store.writing() as transaction:
        return orders.keep(
            transaction, order_json(order), key=key_to_write(transaction, fitting_id),
            entry_key=entry_key, now=shop.clock(), who=who,
        )  # fmt: skip


def open_order(store: Store, order_id: str) -> OpenOrder:
    """One order as it stands.

    Raises
    ------
    NotFound
        There is none of that id.
    """
    with store.reading() as look:
        kept = orders.load(look, order_id)
        checks = tuple(orders.checks(look, order_id))
    return OpenOrder(order=order_from(kept.document), kept=kept, checks=checks)


def orders_of(store: Store, fitting_id: str) -> tuple[KeptOrder, ...]:
    """The orders of a fitting, the newest first.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        return tuple(orders.of_fitting(look, key=key_of(look, fitting_id)))


def keep_check_in(
    store: Store, clock: Clock, *, order_id: str, measured: Mapping[str, float], entry_key: str,
    who: str,
) -> CheckIn:  # fmt: skip
    """Judge what the bench measured and keep it.

    Raises
    ------
    NotFound, NothingMeasured, NotOnThisOrder, OutOfRange
        Nothing is kept then.
    """
    order = open_order(store, order_id).order
    result = check_in(order.ordered, measured, bendable=order.bendable)
    kept = KeptCheck(
        kind=CHECKED_IN, verdict=result.verdict, measured=measured,
        result=check_in_json(result), when=clock(), who=who,
    )  # fmt: skip
    with store.writing() as transaction:
        orders.keep_check(transaction, kept, order_id=order_id, entry_key=entry_key)
    return result


def keep_check_again(
    store: Store, clock: Clock, *, order_id: str, test: ShortTest, entry_key: str, who: str
) -> CheckAgain:
    """Judge a short test after weeks and keep it.

    Raises
    ------
    NotFound, NothingCheckedAgain, TooFewToTell, NotPromised, OutOfRange
        Nothing is kept then.
    """
    opened = open_order(store, order_id)
    result = check_order_again(opened.order, test, handed_over=opened.handed_over)
    told = check_again_json(result)
    measured = {**test.angles, "starts_deg": list(test.starts_deg), "aims_mm": list(test.aims_mm)}
    kept = KeptCheck(
        kind=CHECKED_AGAIN, verdict=str(told["says"]), measured=measured, result=told,
        when=clock(), who=who,
    )  # fmt: skip
    with store.writing() as transaction:
        orders.keep_check(transaction, kept, order_id=order_id, entry_key=entry_key)
    return result
