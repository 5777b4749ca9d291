"""Instants in the database: always UTC, always aware, whichever database it is."""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import DateTime, Dialect
from sqlalchemy.types import TypeDecorator


class Instant(TypeDecorator[datetime]):
    """An aware datetime kept in UTC; SQLite would silently drop the offset of any other."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """Refuse a naive datetime, turn any other into UTC."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"an instant needs its time zone: {value!r}")
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:  # noqa: ARG002
        """Give back the aware instant."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)
