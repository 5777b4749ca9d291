"""Orders in the records, and what the bench found: written once, never changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final

from sqlalchemy import Connection, RowMapping, func, insert, select

from puttwright.errors import NotFound
from puttwright.store import trail
from puttwright.store.tables import bench_check, fitting, putter_order
from puttwright.store.trail import Deed

CHECKED_IN, CHECKED_AGAIN = "in", "again"
_IDS_TRIED: Final = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptOrder:
    """An order as the records hold it: its copy as JSON, when and by whom."""

    order_id: str
    fitting_id: str
    document: Mapping[str, Any]
    when: datetime
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptCheck:
    """One check at the bench: what was measured, what it says."""

    kind: str
    verdict: str
    measured: Mapping[str, Any]
    result: Mapping[str, Any]
    when: datetime
    who: str


def keep(
    connection: Connection, document: Mapping[str, Any], *, key: int, entry_key: str,
    now: datetime, who: str,
) -> str:  # fmt: skip
    """Write an order of a fitting; sent twice under one key it is kept once.

    Returns
    -------
    str
        The id it is kept under: that of the document, numbered when it is taken.
    """
    known = select(putter_order.c.order_id).where(
        putter_order.c.fitting == key, putter_order.c.entry_key == entry_key
    )
    already = connection.execute(known).scalar()
    if already is not None:
        return str(already)
    order_id = _free_id(connection, str(document["order_id"]))
    row = {
        "fitting": key, "order_id": order_id, "entry_key": entry_key,
        "document": dict(document) | {"order_id": order_id}, "made_at": now, "made_by": who,
    }  # fmt: skip
    connection.execute(insert(putter_order).values(row))
    trail.note(connection, Deed.ORDERED, now=now, who=who, about=order_id, key=key)
    return order_id


def _free_id(connection: Connection, wanted: str) -> str:
    taken = set(connection.execute(select(putter_order.c.order_id)).scalars())
    numbered = (f"{wanted}-{n}" for n in range(2, _IDS_TRIED))
    return next(each for each in (wanted, *numbered) if each not in taken)


def load(connection: Connection, order_id: str) -> KeptOrder:
    """One order.

    Raises
    ------
    NotFound
        There is none of that id.
    """
    return _order(_row(connection, order_id))


def of_fitting(connection: Connection, *, key: int) -> list[KeptOrder]:
    """The orders of a fitting, the newest first."""
    query = _joined().where(putter_order.c.fitting == key).order_by(putter_order.c.id.desc())
    return [_order(row) for row in connection.execute(query).mappings()]


def keep_check(connection: Connection, check: KeptCheck, *, order_id: str, entry_key: str) -> None:
    """Write what the bench found; sent twice under one key it is kept once.

    Raises
    ------
    NotFound
        There is no such order.
    """
    found = _row(connection, order_id)
    order = found["id"]
    same = select(func.count()).where(
        bench_check.c.putter_order == order, bench_check.c.entry_key == entry_key
    )
    if connection.execute(same).scalar_one():
        return
    row = {
        "putter_order": order, "kind": check.kind, "entry_key": entry_key,
        "verdict": check.verdict, "measured": dict(check.measured), "result": dict(check.result),
        "checked_at": check.when, "checked_by": check.who,
    }  # fmt: skip
    connection.execute(insert(bench_check).values(row))
    trail.note(
        connection, Deed.CHECKED, now=check.when, who=check.who, about=order_id,
        key=found["fitting"],
    )  # fmt: skip


def checks(connection: Connection, order_id: str) -> list[KeptCheck]:
    """Every check of an order, the first first."""
    order = _row(connection, order_id)["id"]
    query = select(bench_check).where(bench_check.c.putter_order == order)
    rows = connection.execute(query.order_by(bench_check.c.id)).mappings()
    return [
        KeptCheck(
            kind=row["kind"], verdict=row["verdict"], measured=row["measured"],
            result=row["result"], when=row["checked_at"], who=row["checked_by"],
        )
        for row in rows
    ]  # fmt: skip


def _joined() -> Any:
    return select(putter_order, fitting.c.fitting_id).join(
        fitting, fitting.c.id == putter_order.c.fitting
    )


def _row(connection: Connection, order_id: str) -> RowMapping:
    query = _joined().where(putter_order.c.order_id == order_id)
    row = connection.execute(query).mappings().first()
    if row is None:
        raise NotFound(what="order", name=order_id, known="")
    found: RowMapping = row
    return found


def _order(row: RowMapping) -> KeptOrder:
    return KeptOrder(
        order_id=row["order_id"], fitting_id=row["fitting_id"], document=row["document"],
        when=row["made_at"], who=row["made_by"],
    )  # fmt: skip
