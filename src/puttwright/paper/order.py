"""The build order: one page the workshop works from."""

from __future__ import annotations

import dataclasses
from typing import Final

from puttwright.fitting.order import Order
from puttwright.paper.order_context import order_context
from puttwright.paper.qr import qr_svg
from puttwright.paper.typesetting import Sheet, day_of, typeset
from puttwright.pictures.drafting import UNIT_MM
from puttwright.pictures.grounds import PRINT
from puttwright.pictures.hand import as_recorded
from puttwright.pictures.mark import mark
from puttwright.pictures.putter import HALF_SIZE, putter_drawing, said_putter

_WIDTH: Final = 680.0


def render_order(order: Order, *, page: str = "", sheet: Sheet = "a4") -> bytes:
    """Set the build order.

    Parameters
    ----------
    order
        What is to be made.
    page
        Address of the order's own page; it stands on the sheet as a QR code.
    sheet
        ``a4`` or ``us-letter``; both hold it, the drawing at 1:2 on either.

    Returns
    -------
    bytes
        A PDF of one page, the same for the same input.
    """
    with as_recorded():
        drawing = putter_drawing(
            order.build, handed=order.handed, ground=PRINT, width=_WIDTH, scale=HALF_SIZE,
            changed=order.changed,
        )  # fmt: skip
        words = said_putter(order.build, handed=order.handed)
    data = {
        **dataclasses.asdict(order_context(order)),
        "drawing": drawing,
        "drawing_mm": _WIDTH * UNIT_MM,
        "drawing_words": words,
        "mark": mark(ground=PRINT),
        "qr": qr_svg(page) if page else "",
        "page": page,
    }
    return typeset("order", data, day=day_of(order.date), sheet=sheet)
