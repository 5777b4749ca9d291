"""Hand out what a fitting says, on paper or as a file; what was handed out is kept for good."""

from __future__ import annotations

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.make_order import make_order
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.fitting.wire import to_bytes


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
