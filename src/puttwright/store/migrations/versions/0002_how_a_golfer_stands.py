"""Whether a height was told or measured, and how the putter is held."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Two columns that may be empty."""
    op.add_column("fitting", sa.Column("golfer_stature_told", sa.Boolean(), nullable=True))
    op.add_column("setup_reading", sa.Column("grip_style", sa.Text(), nullable=True))
