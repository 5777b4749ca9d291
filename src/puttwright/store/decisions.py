"""Decisions in the records: the newest one, and every one that was handed out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    and_,
    bindparam,
    delete,
    func,
    insert,
    select,
    update,
)

from puttwright.errors import NotFound
from puttwright.store import tables

_TABLE = tables.decision_made
_LATEST = (
    select(_TABLE)
    .where(_TABLE.c.fitting == bindparam("of"))
    .order_by(_TABLE.c.revision.desc(), _TABLE.c.id.desc())
    .limit(1)
)
_REACHED = select(
    tables.fitting.c.revision,
    select(func.max(_TABLE.c.revision))
    .where(_TABLE.c.fitting == tables.fitting.c.id)
    .scalar_subquery()
    .label("decided"),
).where(tables.fitting.c.fitting_id == bindparam("called"))


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptDecision:
    """A decision as the records hold it: ``decision.json`` and what made it.

    ``revision`` is that of the fitting it was made from; when the fitting's own
    is higher, readings came in since.
    """

    version: str
    seed: int
    inputs_sha256: str
    decision: Mapping[str, Any]
    revision: int
    when: datetime
    issued: datetime | None = None


def keep(connection: Connection, decided: KeptDecision, *, key: int) -> None:
    """Write a decision and let go of older ones that nobody was ever handed.

    The same readings, version and seed make the same decision: it is kept once.
    """
    again = update(_TABLE).where(_same(decided, key=key)).values(revision=decided.revision)
    if connection.execute(again).rowcount == 0:
        connection.execute(insert(_TABLE).values(_row(decided, key=key)))
    of_fitting = and_(_TABLE.c.fitting == key, _TABLE.c.issued_at.is_(None))
    connection.execute(delete(_TABLE).where(of_fitting, ~_same(decided, key=key)))


def latest(connection: Connection, *, key: int) -> KeptDecision | None:
    """The decision that rests on the most readings, if any was made."""
    row = connection.execute(_LATEST, {"of": key}).mappings().first()
    if row is None:
        return None
    return KeptDecision(
        version=row["version"],
        seed=row["seed"],
        inputs_sha256=row["inputs_sha256"],
        decision=row["decision"],
        revision=row["revision"],
        when=row["made_at"],
        issued=row["issued_at"],
    )


def reached(connection: Connection, fitting_id: str) -> tuple[int, int]:
    """The revision of a fitting, and that of its newest decision, 0 without one.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    row = connection.execute(_REACHED, {"called": fitting_id}).first()
    if row is None:
        raise NotFound(what="fitting", name=fitting_id, known="")
    return int(row.revision), int(row.decided or 0)


def issue(connection: Connection, decided: KeptDecision, *, key: int, now: datetime) -> None:
    """Note that this decision was handed out (a report, an order): it is kept for good."""
    first_time = and_(_same(decided, key=key), _TABLE.c.issued_at.is_(None))
    connection.execute(update(_TABLE).where(first_time).values(issued_at=now))


def _same(decided: KeptDecision, *, key: int) -> ColumnElement[bool]:
    return and_(
        _TABLE.c.fitting == key,
        _TABLE.c.inputs_sha256 == decided.inputs_sha256,
        _TABLE.c.version == decided.version,
        _TABLE.c.seed == decided.seed,
    )


def _row(decided: KeptDecision, *, key: int) -> dict[str, Any]:
    return {
        "fitting": key,
        "version": decided.version,
        "seed": decided.seed,
        "inputs_sha256": decided.inputs_sha256,
        "decision": dict(decided.decision),
        "revision": decided.revision,
        "made_at": decided.when,
    }
