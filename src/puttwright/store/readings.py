"""Readings in the records: written once, in order, each under the key its sender gave it."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from typing import Any, Final

from sqlalchemy import Connection, RowMapping, Table, bindparam, func, insert, select

from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import AimReading, Fitting, Putt, SetupReading
from puttwright.store import tables, trail
from puttwright.store.fingerprints import reading_fingerprint
from puttwright.store.revisions import touch
from puttwright.store.rows import record_from, row_of
from puttwright.store.trail import Deed

Reading = SetupReading | AimReading | Putt

SETUPS, AIMS, PUTTS = "setups", "aims", "putts"
TABLES: Final[dict[str, tuple[Table, type]]] = {
    SETUPS: (tables.setup_reading, SetupReading),
    AIMS: (tables.aim_reading, AimReading),
    PUTTS: (tables.putt, Putt),
}
_KIND_OF: Final = {record: kind for kind, (_, record) in TABLES.items()}
_AT_ONCE: Final = 500
"""Keys in one question; databases take some thousands."""
IN_PACKAGE: Final = "void in the fitting package it came with"


@dataclass(frozen=True, slots=True, kw_only=True)
class Void:
    """Who took a reading back, when and why."""

    why: str
    who: str
    when: datetime
    replaced_by: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A reading as the records hold it."""

    kind: str
    reading: Reading
    entry_key: str
    who: str
    when: datetime
    void: Void | None = None

    @property
    def seq(self) -> int:
        """Its place in the fitting."""
        return self.reading.seq


def record(
    connection: Connection, reading: Reading, *, key: int, entry_key: str, now: datetime, who: str
) -> Kept:
    """Write a reading at the end of the fitting; its own ``seq`` does not matter.

    The same ``entry_key`` sent again gives back what was written the first time.

    Raises
    ------
    NotFound
        The fitting has no such build.
    """
    already = _by_entry(connection, key=key, entry_key=entry_key)
    if already is not None:
        return already
    _check_build(connection, key=key, build_id=reading.build_id)
    placed = dataclasses.replace(reading, seq=_next_seq(connection, key=key))
    _keep(connection, placed, key=key, entry_key=entry_key, now=now, who=who)
    touch(connection, key)
    kind = _KIND_OF[type(reading)]
    about = f"{kind} {placed.seq}"
    trail.note(connection, Deed.READING, now=now, who=who, about=about, key=key)
    return Kept(kind=kind, reading=placed, entry_key=entry_key, who=who, when=now)


def void(
    connection: Connection,
    *,
    key: int,
    kind: str,
    seq: int,
    why: str,
    now: datetime,
    who: str,
    replaced_by: int | None = None,
) -> Kept:
    """Take a reading back: it stays in the records with who, when and why.

    For the same reason twice (a double tap) is once.

    Raises
    ------
    NotFound, NotAllowed
        There is no such reading; it was taken back before for another reason.
    """
    if replaced_by == seq:  # what takes its place was written just now: there was none before
        raise NotFound(what=f"reading in {kind}", name=str(seq), known="")
    row = _row(connection, key=key, kind=kind, seq=seq)
    if row["void_why"] == why and replaced_by in {None, row["void_replaced_by"]}:
        return _kept(row)
    if row["void_why"] is not None:
        raise NotAllowed(what=f"{kind} {seq} was taken back before: {row['void_why']}")
    values = {"reading": row["id"], "why": why, "voided_at": now, "voided_by": who}
    if replaced_by is not None:
        values["replaced_by"] = _row(connection, key=key, kind=kind, seq=replaced_by)["id"]
    connection.execute(insert(tables.voiding).values(values))
    touch(connection, key)
    trail.note(connection, Deed.TAKEN_BACK, now=now, who=who, about=f"{kind} {seq}", key=key)
    return _kept(_row(connection, key=key, kind=kind, seq=seq))


def history(connection: Connection, *, key: int, known: Iterable[Kept] = ()) -> list[Kept]:
    """Every reading of the fitting, taken back or not, in the order they were written.

    Parameters
    ----------
    connection
        A transaction.
    key
        The fitting's.
    known
        Its history as it was before: a reading is never changed, so only those written or taken
        back since are looked up.
    """
    before = {(each.entry_key, each.void is not None): each for each in known}
    if not before:
        rows = [
            row
            for kind in TABLES
            for row in connection.execute(_all_of_fitting(kind), {"of": key}).mappings()
        ]
        return [_kept(row) for row in sorted(rows, key=lambda row: (row["seq"], row["id"]))]
    states = connection.execute(_states(), {"of": key}).all()
    unknown = [each.id for each in states if (each.entry_key, bool(each.void)) not in before]
    found = _kept_by_id(connection, unknown)
    return [found.get(each.id) or before[each.entry_key, bool(each.void)] for each in states]


def changed(connection: Connection, *, key: int) -> list[tuple[str, int]]:
    """Kind and number of every reading that is not what was written; empty when all is well."""
    wrong = []
    for kind in TABLES:
        details = [c.name for c in TABLES[kind][0].c if c.name != "reading"]
        for row in connection.execute(_query(kind).where(_of(key))).mappings():
            said = {name: row[name] for name in details}
            if (
                reading_fingerprint(dict(row), said, recorded_at=row["recorded_at"])
                != row["fingerprint"]
            ):
                wrong.append((kind, row["seq"]))
    return wrong


def as_evidence(history: Iterable[Kept]) -> dict[str, tuple[Reading, ...]]:
    """The readings of a fitting's history by table, as the fitting package shows them.

    A record type that can say ``void`` keeps what was taken back, marked; of
    the others, and of what was replaced by a better reading, nothing is seen.
    """
    by_kind: dict[str, list[Reading]] = {kind: [] for kind in TABLES}
    for kept in history:
        reading = _as_evidence(kept)
        if reading is not None:
            by_kind[kept.kind].append(reading)
    return {kind: tuple(of_kind) for kind, of_kind in by_kind.items()}


def keep_all(
    connection: Connection, fitting: Fitting, *, key: int, now: datetime, who: str
) -> None:
    """Write the readings a fitting came with, under their own numbers."""
    for kind in TABLES:
        for reading in getattr(fitting, kind):
            entry_key = f"package:{kind}:{reading.seq}"
            _keep(connection, reading, key=key, entry_key=entry_key, now=now, who=who)
            if getattr(reading, "void", False):
                seq = reading.seq
                void(connection, key=key, kind=kind, seq=seq, why=IN_PACKAGE, now=now, who=who)


def _keep(
    connection: Connection, reading: Reading, *, key: int, entry_key: str, now: datetime, who: str
) -> None:
    kind = _KIND_OF[type(reading)]
    common: dict[str, Any] = {
        "fitting": key,
        "kind": kind,
        "seq": reading.seq,
        "build_id": reading.build_id,
        "entry_key": entry_key,
        "extra": dict(reading.extra),
        "recorded_at": now,
        "recorded_by": who,
    }
    details = {name: value for name, value in row_of(reading).items() if name not in tables.COMMON}
    common["fingerprint"] = reading_fingerprint(common, details, recorded_at=now)
    written = insert(tables.reading).values(common).returning(tables.reading.c.id)
    own_key = connection.execute(written).scalar_one()
    connection.execute(insert(TABLES[kind][0]).values(reading=own_key, **details))


@cache
def _query(kind: str) -> Any:
    table, voiding = tables.reading, tables.voiding
    details = TABLES[kind][0]
    replacing = table.alias("replacing")
    joined = (
        table.join(details, details.c.reading == table.c.id)
        .outerjoin(voiding, voiding.c.reading == table.c.id)
        .outerjoin(replacing, replacing.c.id == voiding.c.replaced_by)
    )
    return select(
        table,
        *[column for column in details.c if column.name != "reading"],
        voiding.c.why.label("void_why"),
        voiding.c.voided_by.label("void_who"),
        voiding.c.voided_at.label("void_when"),
        replacing.c.seq.label("void_replaced_by"),
    ).select_from(joined)


@cache
def _all_of_fitting(kind: str) -> Any:
    return _query(kind).where(tables.reading.c.fitting == bindparam("of"))


@cache
def _states() -> Any:
    """Every reading of a fitting in order: its key, its sender's, and whether it was taken back."""
    table, voiding = tables.reading, tables.voiding
    joined = table.outerjoin(voiding, voiding.c.reading == table.c.id)
    void_ = voiding.c.reading.is_not(None).label("void")
    query = select(table.c.id, table.c.entry_key, void_).select_from(joined)
    return query.where(table.c.fitting == bindparam("of")).order_by(table.c.seq, table.c.id)


@cache
def _all_with_ids(kind: str) -> Any:
    return _query(kind).where(tables.reading.c.id.in_(bindparam("ids", expanding=True)))


def _kept_by_id(connection: Connection, ids: Sequence[int]) -> dict[int, Kept]:
    """Readings by their keys, a few hundred to a question."""
    found: dict[int, Kept] = {}
    for first in range(0, len(ids), _AT_ONCE):
        some = list(ids[first : first + _AT_ONCE])
        for kind in TABLES:
            rows = connection.execute(_all_with_ids(kind), {"ids": some}).mappings()
            found |= {row["id"]: _kept(row) for row in rows}
    return found


def _of(key: int) -> Any:
    return tables.reading.c.fitting == key


def _row(connection: Connection, *, key: int, kind: str, seq: int) -> RowMapping:
    if kind not in TABLES:
        raise NotFound(what="table of readings", name=kind, known="")
    query = _query(kind).where(_of(key), tables.reading.c.seq == seq)
    row = connection.execute(query).mappings().first()
    if row is None:
        raise NotFound(what=f"reading in {kind}", name=str(seq), known="")
    return row


def _by_entry(connection: Connection, *, key: int, entry_key: str) -> Kept | None:
    table = tables.reading
    query = select(table.c.kind, table.c.seq).where(_of(key), table.c.entry_key == entry_key)
    found = connection.execute(query).first()
    if found is None:
        return None
    return _kept(_row(connection, key=key, kind=found.kind, seq=found.seq))


def _kept(row: RowMapping) -> Kept:
    void_ = None
    if row["void_why"] is not None:
        void_ = Void(
            why=row["void_why"],
            who=row["void_who"],
            when=row["void_when"],
            replaced_by=row["void_replaced_by"],
        )
    return Kept(
        kind=row["kind"],
        reading=record_from(row, TABLES[row["kind"]][1]),
        entry_key=row["entry_key"],
        who=row["recorded_by"],
        when=row["recorded_at"],
        void=void_,
    )


def _as_evidence(kept: Kept) -> Reading | None:
    if kept.void is None:
        return kept.reading
    can_say_void = any(item.name == "void" for item in dataclasses.fields(kept.reading))
    if kept.void.replaced_by is not None or not can_say_void:
        return None
    marked: Reading = dataclasses.replace(kept.reading, void=True)  # type: ignore[arg-type]
    return marked


def _check_build(connection: Connection, *, key: int, build_id: str) -> None:
    builds = tables.build
    query = select(builds.c.build_id).where(builds.c.fitting == key).order_by(builds.c.position)
    known = list(connection.execute(query).scalars())
    if build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; this fitting has {', '.join(known)}")


def _next_seq(connection: Connection, *, key: int) -> int:
    query = select(func.max(tables.reading.c.seq)).where(_of(key))
    last = connection.execute(query).scalar()
    return 1 if last is None else int(last) + 1
