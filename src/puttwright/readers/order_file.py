"""An order's machine-readable copy, read back from its file."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from puttwright.errors import CannotRead
from puttwright.fitting.order import Order
from puttwright.fitting.order_wire import NotAnOrder, order_from
from puttwright.readers.files import Unreadable
from puttwright.readers.head import load_json
from puttwright.readers.text import text_of

LARGEST_BYTES: Final = 4 * 1024 * 1024


def read_order(path: Path) -> Order:
    """Read and judge an order.

    Raises
    ------
    CannotRead
        It is not there, or is no JSON.
    NotAnOrder
        It is JSON, but not the order of a putter.
    """
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise CannotRead(path=path, reason="is larger than 4 MB; an order is a small file")
        document = load_json(text_of(path.read_bytes()))
    except OSError as trouble:
        reason = (
            "there is no such file" if not path.exists() else (trouble.strerror or "unreadable")
        )
        raise CannotRead(path=path, reason=reason) from trouble
    except Unreadable as trouble:
        hint = "; give the .json that lies beside the order's sheet"
        raise CannotRead(path=path, reason=f"{trouble}{hint}") from trouble
    try:
        return order_from(document)
    except NotAnOrder as trouble:
        where = f"{path}: {trouble.data['place']}"
        raise NotAnOrder(place=where, trouble=trouble.data["trouble"]) from trouble
