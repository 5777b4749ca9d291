"""The build order: one page the workshop works from."""

from __future__ import annotations

import dataclasses
from typing import Final

from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.paper.order_context import changed_fields, order_context, ordered_build
from puttwright.paper.typesetting import Sheet, day_of, typeset
from puttwright.pictures.drafting import UNIT_MM
from puttwright.pictures.grounds import PRINT
from puttwright.pictures.mark import mark
from puttwright.pictures.putter import HALF_SIZE, putter_drawing, said_putter

_WIDTH: Final = 680.0


def render_order(
    fitting: Fitting, decision: Decision, *, build_id: str | None = None, sheet: Sheet = "a4"
) -> bytes:
    """Set the build order.

    Parameters
    ----------
    fitting, decision
        What was seen and what it says.
    build_id
        A build to order whatever the decision says.
    sheet
        ``a4`` or ``us-letter``; both hold it, the drawing at 1:2 on either.

    Returns
    -------
    bytes
        A PDF of one page, the same for the same input.

    Raises
    ------
    NotAllowed
        The decision is to keep the own putter or to wait, and no build was named.
    NotFound
        There is no build of that id.
    """
    build = ordered_build(fitting, decision, build_id=build_id)
    handed = fitting.golfer.handed
    drawing = putter_drawing(
        build, handed=handed, ground=PRINT, width=_WIDTH, scale=HALF_SIZE,
        changed=changed_fields(build, fitting=fitting),
    )  # fmt: skip
    data = {
        **dataclasses.asdict(order_context(fitting, decision, build=build)),
        "drawing": drawing,
        "drawing_mm": _WIDTH * UNIT_MM,
        "drawing_words": said_putter(build, handed=handed),
        "mark": mark(ground=PRINT),
    }
    return typeset("order", data, day=day_of(fitting.date), sheet=sheet)
