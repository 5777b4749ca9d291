"""The tables of a shop's records.

What a column of a reading or a build may hold is said once, in
``puttwright.evidence``; the tables here follow it. Readings are written once
and never changed: a row of ``voiding`` says who took one back, when and why.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from sqlalchemy import (
    JSON,
    Boolean,
    Column,
    Double,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)

from puttwright.evidence import (
    AimReading,
    Build,
    FirstPutt,
    FittingGreen,
    Golfer,
    Green,
    Instrument,
    Part,
    Putt,
    SetupReading,
    columns_of,
)
from puttwright.store.instant import Instant

NAMES: Final = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}
metadata: Final = MetaData(naming_convention=NAMES)

_TYPES: Final[dict[str, Any]] = {
    "text": Text,
    "number": Double,
    "count": Integer,
    "yes_no": Boolean,
}
COMMON: Final = frozenset({"seq", "build_id", "void", "extra"})
"""Fields of a reading that stand in ``reading`` or ``voiding``, not in its own table."""


def _measured(
    record: type, *, prefix: str = "", but: frozenset[str] = frozenset()
) -> Iterator[Column[Any]]:
    for column in columns_of(record):
        if column.name not in but:
            nullable = not column.required
            yield Column(prefix + column.name, _TYPES[column.kind](), nullable=nullable)


def _key() -> Column[int]:
    return Column("id", Integer, primary_key=True)


def _of_fitting() -> Column[int]:
    return Column("fitting", ForeignKey("fitting.id", ondelete="CASCADE"), nullable=False)


def _extra(name: str = "extra") -> Column[Any]:
    return Column(name, JSON, nullable=False)


def _position() -> Column[int]:
    return Column("position", Integer, nullable=False)


fitting: Final = Table(
    "fitting",
    metadata,
    _key(),
    Column("fitting_id", Text, nullable=False, unique=True),
    Column("entry_key", Text, nullable=False, unique=True),
    Column("date", Text, nullable=False),
    Column("own_build", Text, nullable=False),
    *_measured(Golfer, prefix="golfer_"),
    _extra("golfer_extra"),
    *_measured(FittingGreen, prefix="green_"),
    _extra("green_extra"),
    _extra(),
    Column("search_text", Text, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("created_at", Instant, nullable=False),
    Column("created_by", Text, nullable=False),
    Column("golfer_key", Text, nullable=False),
    Column("practice", Boolean, nullable=False),
    Index("ix_fitting_created_at", "created_at"),
    Index("ix_fitting_found", "practice", "created_at", "id", "search_text"),
    Index("ix_fitting_golfer", "practice", "golfer_key", "created_at", "search_text"),
)
green: Final = Table(
    "green", metadata, _key(), _of_fitting(), _position(), *_measured(Green), _extra(),
    UniqueConstraint("fitting", "position"),
)  # fmt: skip
first_putt: Final = Table(
    "first_putt", metadata, _key(), _of_fitting(), _position(), *_measured(FirstPutt), _extra(),
    UniqueConstraint("fitting", "position"),
)  # fmt: skip
instrument: Final = Table(
    "instrument", metadata, _key(), _of_fitting(), _position(), *_measured(Instrument), _extra(),
    UniqueConstraint("fitting", "position"),
)  # fmt: skip
rack_part: Final = Table(
    "rack_part", metadata, _key(), _of_fitting(), _position(), *_measured(Part), _extra(),
    UniqueConstraint("fitting", "position"),
)  # fmt: skip
build: Final = Table(
    "build",
    metadata,
    _key(),
    _of_fitting(),
    _position(),
    *_measured(Build),
    _extra(),
    UniqueConstraint("fitting", "build_id"),
    UniqueConstraint("fitting", "position"),
)
reading: Final = Table(
    "reading",
    metadata,
    _key(),
    Column("fitting", Integer, nullable=False),
    Column("kind", Text, nullable=False),
    Column("seq", Integer, nullable=False),
    Column("build_id", Text, nullable=False),
    Column("entry_key", Text, nullable=False),
    _extra(),
    Column("recorded_at", Instant, nullable=False),
    Column("recorded_by", Text, nullable=False),
    Column("fingerprint", Text),
    ForeignKeyConstraint(
        ["fitting", "build_id"], ["build.fitting", "build.build_id"], ondelete="CASCADE"
    ),
    UniqueConstraint("fitting", "kind", "seq"),
    UniqueConstraint("fitting", "entry_key"),
)


def _details(name: str, record: type) -> Table:
    own_key: Column[int] = Column(
        "reading", ForeignKey("reading.id", ondelete="CASCADE"), primary_key=True
    )
    return Table(name, metadata, own_key, *_measured(record, but=COMMON))


setup_reading: Final = _details("setup_reading", SetupReading)
aim_reading: Final = _details("aim_reading", AimReading)
putt: Final = _details("putt", Putt)

voiding: Final = Table(
    "voiding",
    metadata,
    _key(),
    Column("reading", ForeignKey("reading.id", ondelete="CASCADE"), nullable=False, unique=True),
    Column("replaced_by", ForeignKey("reading.id", ondelete="CASCADE")),
    Column("why", Text, nullable=False),
    Column("voided_at", Instant, nullable=False),
    Column("voided_by", Text, nullable=False),
)
file_read: Final = Table(
    "file_read",
    metadata,
    _key(),
    _of_fitting(),
    Column("file", Text, nullable=False),
    Column("header", Text, nullable=False),
    Column("entry_key", Text, nullable=False),
    Column("kind", Text, nullable=False),
    Column("row_keys", LargeBinary, nullable=False),
    Column("added", Integer, nullable=False),
    Column("before", Integer, nullable=False),
    Column("aside", Integer, nullable=False),
    Column("read_at", Instant, nullable=False),
    Column("read_by", Text, nullable=False),
    UniqueConstraint("fitting", "entry_key"),
    Index("ix_file_read_header", "header"),
)
row_aside: Final = Table(
    "row_aside",
    metadata,
    _key(),
    _of_fitting(),
    Column("file", Text, nullable=False),
    Column("header", Text, nullable=False),
    Column("row", Integer, nullable=False),
    Column("why", Text, nullable=False),
    Column("cells", Text, nullable=False),
    Column("row_key", Text, nullable=False),
    Index("ix_row_aside_fitting", "fitting"),
)
decision_made: Final = Table(
    "decision_made",
    metadata,
    _key(),
    _of_fitting(),
    Column("version", Text, nullable=False),
    Column("seed", Integer, nullable=False),
    Column("inputs_sha256", Text, nullable=False),
    Column("decision", JSON, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("made_at", Instant, nullable=False),
    Column("issued_at", Instant),
    UniqueConstraint("fitting", "inputs_sha256", "version", "seed"),
)

shop_part: Final = Table(
    "shop_part",
    metadata,
    _key(),
    *_measured(Part),
    _extra(),
    Column("changed_at", Instant, nullable=False),
    Column("changed_by", Text, nullable=False),
    UniqueConstraint("part_id"),
)
putter_order: Final = Table(
    "putter_order",
    metadata,
    _key(),
    _of_fitting(),
    Column("order_id", Text, nullable=False),
    Column("entry_key", Text, nullable=False),
    Column("document", JSON, nullable=False),
    Column("made_at", Instant, nullable=False),
    Column("made_by", Text, nullable=False),
    UniqueConstraint("order_id"),
    UniqueConstraint("fitting", "entry_key"),
)
bench_check: Final = Table(
    "bench_check",
    metadata,
    _key(),
    Column("putter_order", ForeignKey("putter_order.id", ondelete="CASCADE"), nullable=False),
    Column("kind", Text, nullable=False),
    Column("entry_key", Text, nullable=False),
    Column("verdict", Text, nullable=False),
    Column("measured", JSON, nullable=False),
    Column("result", JSON, nullable=False),
    Column("checked_at", Instant, nullable=False),
    Column("checked_by", Text, nullable=False),
    UniqueConstraint("putter_order", "entry_key"),
)
practice: Final = Table(
    "practice",
    metadata,
    _key(),
    _of_fitting(),
    Column("golfer", JSON, nullable=False),
    Column("shown_at", Instant),
    UniqueConstraint("fitting"),
)
shop_setting: Final = Table(
    "shop_setting",
    metadata,
    _key(),
    Column("name", Text, nullable=False),
    Column("value", Text, nullable=False),
    Column("changed_at", Instant, nullable=False),
    Column("changed_by", Text, nullable=False),
    UniqueConstraint("name"),
)
golfer_note: Final = Table(
    "golfer_note",
    metadata,
    _key(),
    Column("golfer", Text, nullable=False),
    Column("kind", Text, nullable=False),
    Column("answer", Text, nullable=False),
    Column("told", Text, nullable=False),
    Column("noted_at", Instant, nullable=False),
    Column("noted_by", Text, nullable=False),
    Index("ix_golfer_note_golfer", "golfer"),
)
details_change: Final = Table(
    "details_change",
    metadata,
    _key(),
    _of_fitting(),
    Column("changes", JSON, nullable=False),
    Column("changed_at", Instant, nullable=False),
    Column("changed_by", Text, nullable=False),
    Index("ix_details_change_fitting", "fitting"),
)
trail: Final = Table(
    "trail",
    metadata,
    _key(),
    Column("fitting", ForeignKey("fitting.id", ondelete="CASCADE")),
    Column("deed", Text, nullable=False),
    Column("about", Text, nullable=False),
    Column("done_at", Instant, nullable=False),
    Column("done_by", Text, nullable=False),
    Index("ix_trail_fitting", "fitting"),
)
