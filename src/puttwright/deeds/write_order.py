"""Print the build order of a package, with its machine-readable copy beside it."""

from __future__ import annotations

import json
from pathlib import Path

from puttwright.deeds.make_order import Prices, make_order
from puttwright.deeds.write_whole import write_whole
from puttwright.errors import CannotWrite, NotFound
from puttwright.evidence import Fitting
from puttwright.fitting.decide import decide
from puttwright.fitting.order import Order
from puttwright.fitting.order_wire import SCHEMA, order_json
from puttwright.paper.order import render_order
from puttwright.paper.quote import render_quote
from puttwright.readers.package import read_package
from puttwright.readers.writing import json_bytes


def write_order(
    package: Path,
    *,
    out: Path,
    build_id: str | None = None,
    seed: int = 1,
    prices: Prices | None = None,
    page: str = "",
    quote_to: Path | None = None,
) -> Order:
    """Decide a package and write the order of what the decision, or the fitter, says to build.

    Parameters
    ----------
    package
        Folder or zip of the fitting.
    out
        The PDF; its copy as JSON gets the same name ending in ``.json``.
    build_id
        A build of the fitting to order instead of what the decision says.
    seed
        Of the decision.
    prices
        For the quote.
    page
        Address of the order's page, for the QR code; none without one.
    quote_to
        Where the quote for the client goes, if there shall be one.

    Returns
    -------
    Order
        What was ordered.

    Raises
    ------
    NotFound
        The fitting has no such build.
    NothingToQuote
        A quote is asked for and nothing has a price.
    PackageFaults, CannotWrite
        Nothing is written then.
    """
    copy = _copy_beside(out)
    fitting = read_package(package)
    if build_id is not None:
        _must_be_there(build_id, fitting)
    order = make_order(fitting, decide(fitting, seed=seed), build_id=build_id, prices=prices)
    quote_sheet = render_quote(order) if quote_to else b""
    write_whole(out, render_order(order, page=page))
    write_whole(copy, order_bytes(order))
    if quote_to:
        write_whole(quote_to, quote_sheet)
    return order


def order_bytes(order: Order, /) -> bytes:
    """The machine-readable copy, the same bytes for the same order."""
    return json_bytes(order_json(order))


def _copy_beside(out: Path) -> Path:
    """The name of the copy; a file of that name that is something else is left alone."""
    copy = out.with_suffix(".json")
    if not copy.exists():
        return copy
    try:
        ours = json.loads(copy.read_bytes()).get("schema") == SCHEMA
    except (OSError, ValueError, AttributeError):
        ours = False
    if not ours or copy == out:
        reason = "the order's copy would go there, and something else has that name"
        raise CannotWrite(path=copy, reason=reason)
    return copy


def _must_be_there(build_id: str, fitting: Fitting) -> None:
    known = [build.build_id for build in fitting.builds]
    if build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
