from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest
from sqlalchemy import Column, MetaData, Table, create_engine, insert, select

from puttwright.store.instant import Instant

TABLE = Table("t", MetaData(), Column("at", Instant))


def _kept(value: datetime | None) -> datetime | None:
    engine = create_engine("sqlite://")
    with engine.begin() as connection:
        TABLE.metadata.create_all(connection)
        connection.execute(insert(TABLE).values(at=value))
        found = connection.execute(select(TABLE.c.at)).scalar_one()
    engine.dispose()
    return found


def test_an_instant_comes_back_as_the_same_instant_in_utc() -> None:
    noon_east = datetime(2026, 5, 1, 12, 0, tzinfo=timezone(timedelta(hours=2)))

    found = _kept(noon_east)

    assert found == noon_east
    assert found is not None
    assert found.tzinfo is UTC


def test_no_instant_stays_none() -> None:
    assert _kept(None) is None


def test_a_naive_datetime_is_refused() -> None:
    with pytest.raises(Exception, match="time zone"):
        _kept(datetime(2026, 5, 1, 12, 0))  # noqa: DTZ001
