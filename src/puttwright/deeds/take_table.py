"""Take a device's table into a fitting of the records: all that fits, once, the rest kept aside."""

from __future__ import annotations

import dataclasses
import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Final

import numpy as np
from sqlalchemy import Connection

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.read_tables import NoRowFits
from puttwright.deeds.table_maps import keep_map, kept_map, with_fixed
from puttwright.errors import CannotRead, PackageFaults
from puttwright.evidence import Fitting
from puttwright.evidence.sheet import sheet_of
from puttwright.evidence.tables import table_faults
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.header import Layout, layout_of
from puttwright.readers.tables.kept_aside import Aside
from puttwright.readers.tables.open_table import open_table
from puttwright.readers.tables.opened import Opened
from puttwright.readers.tables.propose import propose, seen_columns
from puttwright.readers.tables.readings import FileRead, FileReader
from puttwright.readers.tables.seen_before import Source, read_before
from puttwright.readers.tables.table_map import RECORDS, TableMap, header_key, known_columns
from puttwright.readers.tables.take import Shop, Taker
from puttwright.store import Store, files_read, fittings
from puttwright.store.files_read import KeptAside, KeptFile
from puttwright.store.many_readings import record_many
from puttwright.store.readings import Reading
from puttwright.store.revisions import key_to_write

if TYPE_CHECKING:
    import polars as pl

MOST_ROWS: Final = 20_000
"""New readings of one file; a fitting is an hour, and is decided anew with every one of them."""
_TOO_MANY: Final = (
    f"holds more than {MOST_ROWS} new readings; one fitting has a few hundred. Is it the log of a "
    "year? Split it"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedAt:
    """A table before anything of it is taken.

    ``header``: the fingerprint of its header. ``map``: the shop's, when it ``known`` this kind of
    table or everything was clear; else the likeliest, with what is to be confirmed.
    """

    name: str
    opened: Opened
    layout: Layout
    header: str
    map: TableMap
    known: bool

    @property
    def sure(self) -> bool:
        """Whether it may be taken without anybody confirming anything."""
        return self.known or not self.map.questions


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking:
    """How a table is taken: who, under which key, and what its rows do not say themselves.

    ``said``: by column, such as the build in hand and the distance.
    """

    entry_key: str
    who: str
    said: Mapping[str, str | None] = dataclasses.field(default_factory=dict)


def look_at_table(data: bytes, *, name: str, fitting: Fitting, folder: Path) -> LookedAt:
    """Open a table and find its map.

    Parameters
    ----------
    data, name
        The file.
    fitting
        Its builds' names may stand in the table.
    folder
        The shop's, with the maps that were confirmed.

    Raises
    ------
    CannotRead
        It is no table, or a map was damaged.
    """
    if not data.strip():
        raise CannotRead(path=name, reason="is empty")
    try:
        opened = open_table(data)
        layout = layout_of(opened)
    except Unreadable as trouble:
        raise CannotRead(path=name, reason=str(trouble)) from trouble
    header = header_key(layout.names, layout.units)
    found = kept_map(folder, key=header, layout=layout)
    builds = {build.build_id: build.label or "" for build in fitting.builds}
    return LookedAt(
        name=name, opened=opened, layout=layout, header=header, known=found is not None,
        map=found or propose(seen_columns(layout, opened.head), builds=builds),
    )  # fmt: skip


def take_table(
    store: Store, clock: Clock, *, fitting_id: str, table: LookedAt, taking: Taking, folder: Path
) -> FileRead:
    """Take in what is new of a table; sent twice under one key it is taken once.

    Parameters
    ----------
    store, clock
        The shop's.
    fitting_id
        Which fitting.
    table
        With a map that was confirmed; the map is kept for the next table of this kind.
    taking
        Who takes it, and what holds for all its rows.
    folder
        The shop's.

    Returns
    -------
    FileRead
        What was added, known before, and kept aside with why.

    Raises
    ------
    CannotRead, NoRowFits, NotFound
        Nothing is taken then.
    """
    with store.writing() as transaction:
        key = key_to_write(transaction, fitting_id)
        sent = files_read.find(transaction, key=key, entry_key=taking.entry_key)
        if sent is not None:
            return FileRead(file=sent.file, table=sent.kind, added=sent.added, before=sent.before)
        fitting = fittings.load(transaction, fitting_id)
        reader = reader_of(table, fitting, said=taking.said)
        readings = _new_readings(transaction, reader, key=key)
        read = reader.read
        if not read.added and not read.before and read.aside:
            raise NoRowFits(file=read.file, row=read.aside[0].row, why=read.aside[0].why)
        now = clock()
        if readings:
            record_many(
                transaction, readings, key=key, kind=read.table, now=now, who=taking.who,
                entry_keys=_entry_keys(reader, taking.entry_key, len(readings)),
            )  # fmt: skip
        kept = _kept(reader, fitting_id=fitting_id, taking=taking, now=now)
        files_read.keep(transaction, _grown(transaction, kept, key=key), key=key)
        _keep_asides(transaction, reader, key=key)
    keep_map(folder, table.map, key=table.header)
    return read


def reader_of(table: LookedAt, fitting: Fitting, *, said: Mapping[str, str | None]) -> FileReader:
    """What reads the table's rows as readings of this fitting.

    Raises
    ------
    CannotRead
        Something that every reading needs stands nowhere.
    """
    shop = Shop(
        handed=fitting.golfer.handed,
        builds={build.build_id: build.label or "" for build in fitting.builds},
    )
    known = known_columns(table.map.table)
    fits = {name: each for name, each in said.items() if name in known}
    try:
        taker = Taker(with_fixed(table.map, fitting, said=fits), shop)
    except Unreadable as trouble:
        raise CannotRead(path=table.name, reason=str(trouble)) from trouble
    return FileReader(table.opened, table.layout, file=table.name, header=table.header, taker=taker)


def _new_readings(transaction: Connection, reader: FileReader, *, key: int) -> list[Reading]:
    """What no fitting of the shop had before."""
    sources = [_source(each) for each in files_read.of_header(transaction, reader.header)]
    retry = {
        int(each.row_key, 16)
        for each in files_read.asides(transaction, key=key)
        if each.header == reader.header
    }
    readings: list[Reading] = []
    try:
        for frame in reader.frames(sources, retry):
            if len(readings) + len(frame) > MOST_ROWS:
                raise CannotRead(path=reader.read.file, reason=_TOO_MANY)
            readings += readings_of([frame], reader.taker)
    except Unreadable as trouble:
        raise CannotRead(path=reader.read.file, reason=str(trouble)) from trouble
    _refuse_faults(readings, reader.read.table)
    return readings


def readings_of(frames: Iterable[pl.DataFrame], taker: Taker) -> list[Reading]:
    """Rows of our columns as records, what else stood in them as their extra."""
    record = RECORDS[taker.map.table]
    ours = taker.columns()
    extras = tuple(taker.extras().values())
    return [
        record(
            seq=0, **{name: row[name] for name in ours if row[name] is not None},
            extra={name: row[name] for name in extras if row[name]},
        )
        for frame in frames
        for row in frame.iter_rows(named=True)
    ]  # fmt: skip


def _refuse_faults(readings: Sequence[Reading], table: str) -> None:
    """The last door before the records; what comes here was judged row by row."""
    numbered = [dataclasses.replace(each, seq=n) for n, each in enumerate(readings, start=1)]
    faults = table_faults({table: sheet_of(numbered, table=table, record=RECORDS[table])})
    if faults:
        raise PackageFaults(faults=faults)


def _source(file: KeptFile) -> Source:
    keys = np.frombuffer(file.row_keys, dtype="<u8")
    return Source(file=file.file, header=file.header, keys=keys)


def _kept(reader: FileReader, *, fitting_id: str, taking: Taking, now: datetime) -> KeptFile:
    read = reader.read
    return KeptFile(
        fitting_id=fitting_id, file=read.file, header=reader.header, entry_key=taking.entry_key,
        kind=read.table, row_keys=reader.source().keys.tobytes(), added=read.added,
        before=read.before, aside=len(read.aside), when=now, who=taking.who,
    )  # fmt: skip


def _entry_keys(reader: FileReader, sent: str, count: int, /) -> list[str]:
    whose = prefix_of(file=reader.read.file, header=reader.header)
    return [f"{whose}{sent}:{place}" for place in range(count)]


def prefix_of(*, file: str, header: str) -> str:
    """What the keys of all readings from a file begin with."""
    name = hashlib.sha256(file.encode("utf-8", errors="replace")).hexdigest()[:16]
    return f"file:{header}:{name}:"


def _grown(transaction: Connection, kept: KeptFile, *, key: int) -> KeptFile:
    """A log that grew is one file: what was read of it before is folded into it."""
    rows = _source(kept).keys
    added = kept.added
    for each in files_read.of_fitting(transaction, key=key):
        if each.file == kept.file and each.header == kept.header:
            earlier = _source(each)
            if read_before(rows, [earlier], header=kept.header, file=kept.file).sum() >= len(
                earlier.keys
            ):
                files_read.forget(transaction, key=key, entry_key=each.entry_key)
                added += each.added
    return dataclasses.replace(kept, added=added)


def _keep_asides(transaction: Connection, reader: FileReader, *, key: int) -> None:
    """Those of this file anew; of others with the same header, what it does not hold."""
    source = reader.source()
    told = [
        each for each in files_read.asides(transaction, key=key) if each.header == reader.header
    ]
    gone = source.among([int(each.row_key, 16) for each in told])
    still = [each for each in told if int(each.row_key, 16) not in gone]
    now = [_as_kept(each) for each in reader.read.aside]
    files_read.replace_asides(transaction, [*still, *now], key=key, header=reader.header)


def _as_kept(aside: Aside) -> KeptAside:
    return KeptAside(
        file=aside.file, header=aside.header, row=aside.row, why=aside.why, cells=aside.cells,
        row_key=f"{aside.key:016x}",
    )  # fmt: skip
