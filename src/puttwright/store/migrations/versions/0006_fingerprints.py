"""Every reading's fingerprint, so that a figure that changed by itself is noticed."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Final

import sqlalchemy as sa
from alembic import op

from puttwright.store.fingerprints import reading_fingerprint

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

_DETAILS: Final = {"setups": "setup_reading", "aims": "aim_reading", "putts": "putt"}


def upgrade() -> None:
    """Add the column and fill it from what every reading says today."""
    op.add_column("reading", sa.Column("fingerprint", sa.Text(), nullable=True))
    connection = op.get_bind()
    found = sa.MetaData()
    reading = sa.Table("reading", found, autoload_with=connection)
    for kind, name in _DETAILS.items():
        details = sa.Table(name, found, autoload_with=connection)
        joined = reading.join(details, details.c.reading == reading.c.id)
        query = sa.select(reading, *[c for c in details.c if c.name != "reading"])
        rows = connection.execute(query.select_from(joined).where(reading.c.kind == kind))
        for row in rows.mappings().all():
            _fill(connection, reading, row=row)


def _fill(connection: sa.Connection, reading: sa.Table, *, row: sa.RowMapping) -> None:
    said = dict(row)
    details = {name: value for name, value in said.items() if name not in reading.c}
    written = reading_fingerprint(said, details, recorded_at=_aware(row["recorded_at"]))
    connection.execute(
        sa.update(reading).where(reading.c.id == row["id"]).values(fingerprint=written)
    )


def _aware(when: datetime) -> datetime:
    return when.replace(tzinfo=UTC) if when.tzinfo is None else when
