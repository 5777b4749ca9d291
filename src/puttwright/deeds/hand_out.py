"""Hand out what a fitting says, on paper or as a file; what was handed out is kept for good."""

from __future__ import annotations

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.keep_order import PASSED, open_order
from puttwright.deeds.make_order import make_order
from puttwright.deeds.remind import reminders
from puttwright.errors import NotAllowed
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.fitting.wire import to_bytes
from puttwright.store import Store


def golfers_sheet(shop: Shop, fitting_id: str) -> bytes:
    """The golfer's sheet, a PDF.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    from puttwright.paper.report import render_report  # noqa: PLC0415 - the typesetter is heavy

    fitting, decision = _decided(shop, fitting_id)
    return render_report(fitting, decision)


def build_order(shop: Shop, fitting_id: str) -> bytes:
    """The build order for the workshop, a PDF.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    from puttwright.paper.order import render_order  # noqa: PLC0415 - the typesetter is heavy

    fitting, decision = _decided(shop, fitting_id)
    return render_order(make_order(fitting, decision))


def decision_file(shop: Shop, fitting_id: str) -> bytes:
    """The bytes of ``decision.json``.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    return to_bytes(_decided(shop, fitting_id)[1])


def _decided(shop: Shop, fitting_id: str) -> tuple[Fitting, Decision]:
    return decide_fitting(
        shop.store, shop.clock, fitting_id=fitting_id, decide=shop.decide, issue=True
    )


def order_sheet(store: Store, order_id: str, *, page: str) -> bytes:
    """The sheet of an order that was kept, its page's address as a code on it.

    Raises
    ------
    NotFound
        There is no such order.
    """
    from puttwright.paper.order import render_order  # noqa: PLC0415 - the typesetter is heavy

    return render_order(open_order(store, order_id).order, page=page)


def quote_sheet(store: Store, order_id: str) -> bytes:
    """The quote of an order that was kept.

    Raises
    ------
    NotFound, NothingToQuote
        There is no such order; it has no prices.
    """
    from puttwright.paper.quote import render_quote  # noqa: PLC0415 - the typesetter is heavy

    return render_quote(open_order(store, order_id).order)


def reminders_of(store: Store, order_id: str, *, page: str) -> bytes:
    """Reminders to check a putter again, from the day it passed.

    Raises
    ------
    NotFound, NotAllowed
        There is no such order; its putter did not pass yet.
    """
    opened = open_order(store, order_id)
    passed = [each.when for each in opened.checks if each.verdict == PASSED]
    if not passed:
        raise NotAllowed(what="The putter of this order has not passed its check-in yet.")
    return reminders(opened.order, handed_over=passed[-1].date(), page=page)
