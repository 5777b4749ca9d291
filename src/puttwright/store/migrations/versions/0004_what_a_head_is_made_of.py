"""What a head is made of, how its neck is joined and was bent; where a built putter balances."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the columns, empty; nothing that is there is touched."""
    for table in ("shop_part", "rack_part"):
        for name in ("alloy", "neck_joint"):
            op.add_column(table, sa.Column(name, sa.Text(), nullable=True))
        for name in ("balance_from_butt_mm", "bent_before_deg"):
            op.add_column(table, sa.Column(name, sa.Double(), nullable=True))
