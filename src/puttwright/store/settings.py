"""What the shop has set, by name."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from sqlalchemy import Connection, insert, select, update

from puttwright.store import trail
from puttwright.store.tables import shop_setting
from puttwright.store.trail import Deed


def load(connection: Connection) -> dict[str, str]:
    """Everything that was ever set."""
    query = select(shop_setting.c.name, shop_setting.c.value)
    return {str(name): str(value) for name, value in connection.execute(query)}


def put(connection: Connection, values: Mapping[str, str], *, now: datetime, who: str) -> None:
    """Set some of it anew; the rest stays as it was."""
    known = load(connection)
    for name, value in values.items():
        if known.get(name) == value:
            continue
        row = {"value": value, "changed_at": now, "changed_by": who}
        if name in known:
            connection.execute(update(shop_setting).where(shop_setting.c.name == name).values(row))
        else:
            connection.execute(insert(shop_setting).values(name=name, **row))
        trail.note(connection, Deed.SETTING, now=now, who=who, about=name)
