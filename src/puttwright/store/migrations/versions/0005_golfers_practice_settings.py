"""Which fittings are of one golfer and which are practice; what the shop has set."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """A golfer is named after their first fitting; until somebody says so, each fitting is one."""
    op.add_column("fitting", sa.Column("golfer_key", sa.Text(), nullable=True))
    op.add_column("fitting", sa.Column("practice", sa.Boolean(), nullable=True))
    op.execute("UPDATE fitting SET golfer_key = fitting_id, practice = FALSE")
    with op.batch_alter_table("fitting") as table:
        table.alter_column("golfer_key", existing_type=sa.Text(), nullable=False)
        table.alter_column("practice", existing_type=sa.Boolean(), nullable=False)
    # both lists are answered from an index alone: the rows themselves are wide
    op.create_index("ix_fitting_found", "fitting", ["practice", "created_at", "id", "search_text"])
    op.create_index(
        "ix_fitting_golfer", "fitting", ["practice", "golfer_key", "created_at", "search_text"]
    )
    op.create_table(
        "practice",
        _key(),
        sa.Column(
            "fitting", sa.Integer(), sa.ForeignKey("fitting.id", ondelete="CASCADE"), nullable=False
        ),
        sa.Column("golfer", sa.JSON(), nullable=False),
        sa.Column("shown_at", sa.DateTime(timezone=True), nullable=True),
        sa.UniqueConstraint("fitting"),
    )
    op.create_table(
        "shop_setting",
        _key(),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("changed_by", sa.Text(), nullable=False),
        sa.UniqueConstraint("name"),
    )


def _key() -> sa.Column[Any]:
    return sa.Column("id", sa.Integer(), primary_key=True)
