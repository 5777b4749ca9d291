"""The quote: one page for the client, the shop's prices and tax."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Final

from puttwright.errors import NotAllowed
from puttwright.fitting.order import Order
from puttwright.fitting.phrases import measure
from puttwright.fitting.quote import Quote
from puttwright.paper.figures import day_words, shortened
from puttwright.paper.typesetting import Sheet, day_of, typeset
from puttwright.pictures.grounds import PRINT
from puttwright.pictures.mark import mark

_MOST_LINES: Final = 20


class NothingToQuote(NotAllowed):
    """The order has no price; give one with --price work=40, or put prices on the rack."""

    code = "nothing-to-quote"


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteSaid:
    """The quote as it is printed."""

    rows: tuple[tuple[str, str], ...]
    net: str
    tax_name: str
    tax: str
    total: str


def quote_said(told: Quote, /) -> QuoteSaid:
    """The quote in the shop's currency; the many lines of a long one are counted together."""

    def money(amount: float) -> str:
        return f"{amount:,.2f} {told.currency}".rstrip()

    shown, rest = told.lines[:_MOST_LINES], told.lines[_MOST_LINES:]
    rows = [(shortened(line.what, most=60), money(line.price)) for line in shown]
    if rest:
        rows.append((f"{len(rest)} more", money(sum(line.price for line in rest))))
    kind = "of it tax" if told.tax_included else "tax"
    return QuoteSaid(
        rows=tuple(rows),
        net=money(told.net),
        tax_name=f"{kind}, {told.tax_pct:g} %",
        tax=money(told.tax),
        total=money(told.total),
    )


def render_quote(order: Order, *, sheet: Sheet = "a4") -> bytes:
    """Set the quote of an order.

    Parameters
    ----------
    order
        What is to be made, with its quote.
    sheet
        ``a4`` or ``us-letter``.

    Returns
    -------
    bytes
        A PDF of one page, the same for the same input.

    Raises
    ------
    NothingToQuote
        The order has no prices.
    """
    if order.quote is None:
        raise NothingToQuote
    build = order.build
    length = measure(build.length_mm, "mm")
    lie, loft = (measure(angle, "°", digits=1) for angle in (build.lie_deg, build.loft_deg))
    data = {
        **dataclasses.asdict(quote_said(order.quote)),
        "order_id": order.order_id,
        "alias": order.alias,
        "day": day_words(day_of(order.date)),
        "name": shortened(build.name, most=48),
        "letter": order.letter,
        "spec": f"{order.handed}-handed, {length} long, lie {lie}, loft {loft}",
        "mark": mark(ground=PRINT),
    }
    return typeset("quote", data, day=day_of(order.date), sheet=sheet)
