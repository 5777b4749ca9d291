"""Take a whole shop out as one zip of open files, and take such a zip in."""

from __future__ import annotations

import io
import json
import tempfile
import zipfile
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.carry_golfers import carried_golfers, take_in_golfers
from puttwright.deeds.export_package import export_package
from puttwright.deeds.import_package import import_package
from puttwright.deeds.keep_rack import rack_table, take_in_rack
from puttwright.errors import CannotRead, Fault, NotAllowed, NotFound, PackageFaults
from puttwright.store import Store, fittings, orders
from puttwright.store.orders import KeptCheck, KeptOrder
from puttwright.store.revisions import key_of, key_to_write

_RACK: Final = "rack.csv"
_GOLFERS: Final = "golfers.json"
_STAMP: Final = (1980, 1, 1, 0, 0, 0)
"""Of every member, so that the same shop gives the same bytes."""
_MOST_BYTES: Final = 128 * 1024 * 1024
_EVERY: Final = 10**9


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """How much was taken in."""

    fittings: int
    orders: int
    parts: int


def export_shop(store: Store) -> bytes:
    """A zip: a package a fitting, a file an order with its checks, the golfers, the rack.

    The same shop gives the same bytes. What was taken back is in the packages
    as far as they can say so; who, when and why stay in the records and their
    backups.
    """
    with store.reading() as look:
        ids = sorted(
            each.fitting_id
            for practice in (False, True)
            for each in fittings.search(look, limit=_EVERY, practice=practice)
        )
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as shop:
        for number, fitting_id in enumerate(ids, 1):
            _add(shop, f"fittings/{number:06d}.zip", data=export_package(store, fitting_id))
        for order in _orders(store, ids):
            _add(shop, f"orders/{len(shop.namelist()):06d}.json", data=order)
        _add(shop, _GOLFERS, data=carried_golfers(store, ids))
        _add(shop, _RACK, data=rack_table(store, workbook=False))
    return packed.getvalue()


def import_shop(store: Store, clock: Clock, *, file: Path, who: str) -> Carried:
    """Take in what :func:`export_shop` gave; what is there already is left as it is.

    Raises
    ------
    CannotRead, PackageFaults, NotAllowed
        The file is no such zip; a package in it cannot be used, with its faults;
        the records hold another fitting under an id. What came before it is kept,
        and the same file can be taken in again.
    """
    try:
        with zipfile.ZipFile(file) as shop:
            names = sorted(shop.namelist())
            if _RACK not in names:
                raise CannotRead(path=file, reason="it is no shop: there is no rack.csv in it")
            packages = [name for name in names if name.startswith("fittings/")]
            for name in packages:
                _take_in_package(store, clock, data=_member(shop, name), name=name, who=who)
            if _GOLFERS in names:
                take_in_golfers(store, json.loads(_member(shop, _GOLFERS)))
            documents = [name for name in names if name.startswith("orders/")]
            for name in documents:
                _take_in_order(store, json.loads(_member(shop, name)))
            parts = take_in_rack(store, clock, data=_member(shop, _RACK), name=_RACK, who=who)
    except (OSError, zipfile.BadZipFile, KeyError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "it is not what an export of a shop holds"
        raise CannotRead(path=file, reason=reason.lower()) from error
    return Carried(fittings=len(packages), orders=len(documents), parts=parts)


def _add(shop: zipfile.ZipFile, name: str, *, data: bytes) -> None:
    shop.writestr(zipfile.ZipInfo(name, date_time=_STAMP), data, zipfile.ZIP_DEFLATED)


def _member(shop: zipfile.ZipFile, name: str) -> bytes:
    if shop.getinfo(name).file_size > _MOST_BYTES:
        raise NotAllowed(what=f"{name} is larger than a fitting can be")
    return shop.read(name)


def _take_in_package(store: Store, clock: Clock, *, data: bytes, name: str, who: str) -> None:
    with tempfile.TemporaryDirectory() as folder:
        package = Path(folder) / Path(name).name
        package.write_bytes(data)
        try:
            import_package(store, clock, package=package, who=who)
        except PackageFaults as trouble:
            named = [
                Fault(f"{name}: {each.table}", each.row, each.column, each.message)
                for each in trouble.faults
            ]
            raise PackageFaults(faults=named) from trouble


def _orders(store: Store, ids: list[str]) -> list[bytes]:
    found = []
    with store.reading() as look:
        for fitting_id in ids:
            for order in reversed(orders.of_fitting(look, key=key_of(look, fitting_id))):
                checks = orders.checks(look, order.order_id)
                found.append(_document(order, checks))
    return found


def _document(order: KeptOrder, checks: list[KeptCheck]) -> bytes:
    whole = {
        "fitting_id": order.fitting_id,
        "order": dict(order.document),
        "made_at": order.when.isoformat(),
        "made_by": order.who,
        "checks": [
            {
                "kind": each.kind, "verdict": each.verdict, "measured": dict(each.measured),
                "result": dict(each.result), "checked_at": each.when.isoformat(),
                "checked_by": each.who,
            }
            for each in checks
        ],
    }  # fmt: skip
    return json.dumps(whole, indent=2, sort_keys=True, ensure_ascii=False).encode()


def _take_in_order(store: Store, whole: dict[str, Any]) -> None:
    with store.writing() as transaction:
        order_id = _kept(transaction, whole)
        there = {(each.kind, each.when) for each in orders.checks(transaction, order_id)}
        for each in whole["checks"]:
            check = KeptCheck(
                kind=each["kind"], verdict=each["verdict"], measured=each["measured"],
                result=each["result"], when=datetime.fromisoformat(each["checked_at"]),
                who=each["checked_by"],
            )  # fmt: skip
            if (check.kind, check.when) not in there:
                key = f"shop:{each['checked_at']}"
                orders.keep_check(transaction, check, order_id=order_id, entry_key=key)


def _kept(transaction: Connection, whole: dict[str, Any]) -> str:
    """The order's id here: it may be here already, or another may have its id."""
    order_id = str(whole["order"]["order_id"])
    try:
        there = orders.load(transaction, order_id)
    except NotFound:
        there = None
    if there is not None and dict(there.document) == whole["order"]:
        return order_id
    return orders.keep(
        transaction, whole["order"], key=key_to_write(transaction, whole["fitting_id"]),
        entry_key=f"shop:{order_id}", now=datetime.fromisoformat(whole["made_at"]),
        who=whole["made_by"],
    )  # fmt: skip
