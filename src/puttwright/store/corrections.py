"""What was put right in a golfer's details: what stood there before, when and by whom."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select

from puttwright.evidence import Golfer
from puttwright.store import trail
from puttwright.store.rows import row_of
from puttwright.store.tables import details_change, fitting
from puttwright.store.trail import Deed


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """One correction: by the names of the columns, what stood there and what stands there since."""

    fitting_id: str
    changes: Mapping[str, tuple[Any, Any]]
    when: datetime
    who: str


def note(
    connection: Connection, before: Golfer, *, now_known: Golfer, key: int, now: datetime, who: str
) -> None:
    """Write down what changed of a golfer, if anything did, and that details were changed."""
    trail.note(connection, Deed.DETAILS, now=now, who=who, key=key)
    old, new = row_of(before), row_of(now_known)
    changes = {name: [old[name], new[name]] for name in new if old[name] != new[name]}
    if changes:
        row = {"fitting": key, "changes": changes, "changed_at": now, "changed_by": who}
        connection.execute(insert(details_change).values(row))


def of_golfer(connection: Connection, golfer: str) -> list[Correction]:
    """Every correction of a golfer's details, the first first."""
    query = (
        select(details_change, fitting.c.fitting_id)
        .join(fitting, fitting.c.id == details_change.c.fitting)
        .where(fitting.c.golfer_key == golfer)
        .order_by(details_change.c.id)
    )
    return [
        Correction(
            fitting_id=row["fitting_id"], when=row["changed_at"], who=row["changed_by"],
            changes={name: (old, new) for name, (old, new) in row["changes"].items()},
        )
        for row in connection.execute(query).mappings()
    ]  # fmt: skip
