"""What golfers were told and agreed to, what was corrected of them, who did what."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the tables; nothing that is there is touched."""
    op.create_table(
        "golfer_note",
        sa.Column("id", sa.Integer(), primary_key=True),
        *_texts("golfer kind answer told"),
        sa.Column("noted_at", sa.DateTime(timezone=True), nullable=False),
        *_texts("noted_by"),
    )
    op.create_index("ix_golfer_note_golfer", "golfer_note", ["golfer"])
    op.create_table(
        "details_change",
        sa.Column("id", sa.Integer(), primary_key=True),
        _of_fitting(nullable=False),
        sa.Column("changes", sa.JSON(), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        *_texts("changed_by"),
    )
    op.create_index("ix_details_change_fitting", "details_change", ["fitting"])
    op.create_table(
        "trail",
        sa.Column("id", sa.Integer(), primary_key=True),
        _of_fitting(nullable=True),
        *_texts("deed about"),
        sa.Column("done_at", sa.DateTime(timezone=True), nullable=False),
        *_texts("done_by"),
    )
    op.create_index("ix_trail_fitting", "trail", ["fitting"])


def _of_fitting(*, nullable: bool) -> sa.Column[int]:
    key = sa.ForeignKey("fitting.id", ondelete="CASCADE")
    return sa.Column("fitting", sa.Integer(), key, nullable=nullable)


def _texts(names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.Text(), nullable=False) for name in names.split()]
