"""The workshop: the shop's rack, orders and what the bench found."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the tables; nothing that is there is touched."""
    op.create_table(
        "shop_part",
        _key(),
        *_texts("part_id kind"),
        *_texts("label head_shape sight_line neck_style", null=True),
        *_numbers("offset_mm length_mm lie_deg loft_deg mass_g cg_from_axis_mm cg_depth_mm"),
        *_numbers("moi_vertical_axis_g_cm2 toe_hang_deg grip_diameter_mm"),
        sa.Column("stock", sa.Integer(), nullable=True),
        *_numbers("price loft_min_deg loft_max_deg lie_min_deg lie_max_deg"),
        *_texts("fits", null=True),
        _json("extra"),
        *_when("changed"),
        sa.UniqueConstraint("part_id"),
    )
    op.create_table(
        "putter_order",
        _key(),
        sa.Column(
            "fitting", sa.Integer(), sa.ForeignKey("fitting.id", ondelete="CASCADE"), nullable=False
        ),
        *_texts("order_id entry_key"),
        _json("document"),
        *_when("made"),
        sa.UniqueConstraint("order_id"),
        sa.UniqueConstraint("fitting", "entry_key"),
    )
    op.create_table(
        "bench_check",
        _key(),
        sa.Column(
            "putter_order",
            sa.Integer(),
            sa.ForeignKey("putter_order.id", ondelete="CASCADE"),
            nullable=False,
        ),
        *_texts("kind entry_key verdict"),
        _json("measured"),
        _json("result"),
        *_when("checked"),
        sa.UniqueConstraint("putter_order", "entry_key"),
    )


def _key() -> sa.Column[Any]:
    return sa.Column("id", sa.Integer(), primary_key=True)


def _texts(names: str, *, null: bool = False) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Text(), nullable=null) for name in names.split()]


def _numbers(names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Double(), nullable=True) for name in names.split()]


def _json(name: str) -> sa.Column[Any]:
    return sa.Column(name, sa.JSON(), nullable=False)


def _when(name: str) -> list[sa.Column[Any]]:
    return [
        sa.Column(f"{name}_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column(f"{name}_by", sa.Text(), nullable=False),
    ]
