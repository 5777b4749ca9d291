"""Files of readings: which were read into a fitting, and their rows that did not fit."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the tables; nothing that is there is touched."""
    op.create_table(
        "file_read",
        sa.Column("id", sa.Integer(), primary_key=True),
        _of_fitting(),
        *_texts("file header entry_key kind"),
        sa.Column("row_keys", sa.LargeBinary(), nullable=False),
        sa.Column("added", sa.Integer(), nullable=False),
        sa.Column("before", sa.Integer(), nullable=False),
        sa.Column("aside", sa.Integer(), nullable=False),
        sa.Column("read_at", sa.DateTime(timezone=True), nullable=False),
        *_texts("read_by"),
        sa.UniqueConstraint("fitting", "entry_key"),
    )
    op.create_index("ix_file_read_header", "file_read", ["header"])
    op.create_table(
        "row_aside",
        sa.Column("id", sa.Integer(), primary_key=True),
        _of_fitting(),
        *_texts("file header"),
        sa.Column("row", sa.Integer(), nullable=False),
        *_texts("why cells row_key"),
    )
    op.create_index("ix_row_aside_fitting", "row_aside", ["fitting"])


def _of_fitting() -> sa.Column[int]:
    return sa.Column(
        "fitting", sa.Integer(), sa.ForeignKey("fitting.id", ondelete="CASCADE"), nullable=False
    )


def _texts(names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.Text(), nullable=False) for name in names.split()]
