"""The first tables: frozen, never to be edited once released."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables of an empty database."""
    _fitting()
    _what_belongs_to_a_fitting()
    _build()
    _readings()
    _voiding()
    _decision_made()


def _texts(names: str, *, null: bool = False) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Text(), nullable=null) for name in names.split()]


def _numbers(names: str, *, null: bool = False) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Double(), nullable=null) for name in names.split()]


def _counts(names: str, *, null: bool = False) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Integer(), nullable=null) for name in names.split()]


def _flags(names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Boolean(), nullable=True) for name in names.split()]


def _instants(names: str, *, null: bool = False) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.DateTime(timezone=True), nullable=null) for name in names.split()]


def _json(name: str) -> sa.Column[Any]:
    return sa.Column(name, sa.JSON(), nullable=False)


def _key() -> sa.Column[Any]:
    return sa.Column("id", sa.Integer(), primary_key=True)


def _of_fitting() -> sa.Column[Any]:
    relation = sa.ForeignKey("fitting.id", ondelete="CASCADE")
    return sa.Column("fitting", sa.Integer(), relation, nullable=False)


def _reading_key(name: str = "reading", **options: Any) -> sa.Column[Any]:
    return sa.Column(name, sa.Integer(), sa.ForeignKey("reading.id", ondelete="CASCADE"), **options)


def _fitting() -> None:
    op.create_table(
        "fitting",
        _key(),
        *_texts("fitting_id entry_key date own_build golfer_alias golfer_handed"),
        *_numbers("golfer_stature_mm golfer_wrist_height_mm", null=True),
        *_numbers("golfer_shoulder_height_mm golfer_hip_height_mm", null=True),
        *_texts("golfer_eye_dominant", null=True),
        *_numbers("golfer_handicap", null=True),
        *_flags("golfer_minor"),
        _json("golfer_extra"),
        *_numbers("green_speed_ft"),
        *_numbers("green_slope_pct green_slope_towards_deg", null=True),
        _json("green_extra"),
        _json("extra"),
        *_texts("search_text"),
        *_counts("revision"),
        *_instants("created_at"),
        *_texts("created_by"),
        sa.UniqueConstraint("fitting_id"),
        sa.UniqueConstraint("entry_key"),
    )
    op.create_index("ix_fitting_created_at", "fitting", ["created_at"])


def _listed(name: str, *columns: sa.Column[Any]) -> None:
    position = sa.Column("position", sa.Integer(), nullable=False)
    unique = sa.UniqueConstraint("fitting", "position")
    op.create_table(name, _key(), _of_fitting(), position, *columns, _json("extra"), unique)


def _what_belongs_to_a_fitting() -> None:
    _listed("green", *_texts("name"), *_numbers("speed_ft share"), *_numbers("grass_mm", null=True))
    _listed("first_putt", *_numbers("distance_m per_round"))
    _listed(
        "instrument",
        *_texts("name quantity"),
        *_numbers("repeatability_sd"),
        *_numbers("resolution bias", null=True),
    )
    _listed(
        "rack_part",
        *_texts("part_id kind"),
        *_texts("label head_shape sight_line neck_style", null=True),
        *_numbers("offset_mm length_mm lie_deg loft_deg mass_g cg_from_axis_mm", null=True),
        *_numbers("cg_depth_mm moi_vertical_axis_g_cm2 toe_hang_deg", null=True),
        *_numbers("grip_diameter_mm", null=True),
        *_counts("stock", null=True),
        *_numbers("price loft_min_deg loft_max_deg lie_min_deg lie_max_deg", null=True),
        *_texts("fits", null=True),
    )


def _build() -> None:
    op.create_table(
        "build",
        _key(),
        _of_fitting(),
        *_counts("position"),
        *_texts("build_id"),
        *_numbers("length_mm lie_deg loft_deg"),
        *_texts("label head_id head_shape sight_line neck_id neck_style", null=True),
        *_numbers("offset_mm head_mass_g cg_from_axis_mm cg_depth_mm", null=True),
        *_numbers("moi_vertical_axis_g_cm2 toe_hang_deg", null=True),
        *_texts("grip_id", null=True),
        *_numbers("grip_diameter_mm grip_mass_g shaft_mass_g total_mass_g", null=True),
        *_numbers("balance_from_butt_mm price", null=True),
        _json("extra"),
        sa.UniqueConstraint("fitting", "build_id"),
        sa.UniqueConstraint("fitting", "position"),
    )


def _readings() -> None:
    op.create_table(
        "reading",
        _key(),
        *_counts("fitting"),
        *_texts("kind"),
        *_counts("seq"),
        *_texts("build_id entry_key"),
        _json("extra"),
        *_instants("recorded_at"),
        *_texts("recorded_by"),
        sa.ForeignKeyConstraint(
            ["fitting", "build_id"], ["build.fitting", "build.build_id"], ondelete="CASCADE"
        ),
        sa.UniqueConstraint("fitting", "kind", "seq"),
        sa.UniqueConstraint("fitting", "entry_key"),
    )
    op.create_table(
        "setup_reading",
        _reading_key(primary_key=True),
        *_numbers("eye_inside_mm eye_behind_mm hands_height_mm shaft_lean_deg", null=True),
        *_numbers("sole_tilt_deg ball_forward_mm", null=True),
        *_texts("posture_note", null=True),
    )
    op.create_table(
        "aim_reading",
        _reading_key(primary_key=True),
        *_numbers("board_distance_mm reading_mm"),
        *_flags("mirror"),
        *_counts("block", null=True),
        *_texts("instrument", null=True),
    )
    op.create_table(
        "putt",
        _reading_key(primary_key=True),
        *_numbers("distance_m"),
        *_counts("block", null=True),
        *_flags("holed"),
        *_numbers("stop_past_m stop_right_m ball_speed_mps launch_deg start_deg", null=True),
        *_numbers("spin_rpm skid_m roll_share_pct head_speed_mps face_deg path_deg", null=True),
        *_numbers("attack_deg dynamic_loft_deg shaft_lean_deg closure_deg_s", null=True),
        *_numbers("strike_toe_mm strike_high_mm backswing_s downswing_s", null=True),
        *_texts("instrument note", null=True),
    )


def _voiding() -> None:
    op.create_table(
        "voiding",
        _key(),
        _reading_key(nullable=False),
        _reading_key("replaced_by"),
        *_texts("why"),
        *_instants("voided_at"),
        *_texts("voided_by"),
        sa.UniqueConstraint("reading"),
    )


def _decision_made() -> None:
    op.create_table(
        "decision_made",
        _key(),
        _of_fitting(),
        *_texts("version"),
        *_counts("seed"),
        *_texts("inputs_sha256"),
        _json("decision"),
        *_counts("revision"),
        *_instants("made_at"),
        *_instants("issued_at", null=True),
        sa.UniqueConstraint("fitting", "inputs_sha256", "version", "seed"),
    )
