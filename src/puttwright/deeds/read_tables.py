"""Read tables of any kind into a fitting package: all of them, or nothing is written."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from puttwright.deeds.table_maps import is_of, keep_map, kept_map, map_name, with_fixed
from puttwright.errors import CannotRead, UserError
from puttwright.evidence import Fitting, columns_of
from puttwright.readers.change_package import (
    begin_file,
    change_package,
    file_of,
    manifest_with,
    table_place,
)
from puttwright.readers.files import Unreadable
from puttwright.readers.package import read_package
from puttwright.readers.tables.append import Appended, rows_of
from puttwright.readers.tables.header import Layout, layout_of
from puttwright.readers.tables.kept_aside import ASIDE, aside_bytes, asides_from
from puttwright.readers.tables.open_table import bytes_of, open_table
from puttwright.readers.tables.opened import Opened
from puttwright.readers.tables.propose import propose, seen_columns
from puttwright.readers.tables.readings import FileRead, FileReader
from puttwright.readers.tables.seen_before import (
    READ_LOG,
    Source,
    log_bytes,
    read_before,
    sources_from,
)
from puttwright.readers.tables.side_by_side import behind
from puttwright.readers.tables.table_map import (
    RECORDS,
    TableMap,
    header_key,
    map_from,
    toml_of,
)
from puttwright.readers.tables.take import Shop, Taker
from puttwright.readers.whole import Content, write_file_whole


class ToConfirm(UserError):
    """{file} is a kind of table not seen before: {count} to confirm, in {proposal}."""

    code = "to-confirm"

    def __init__(self, *, file: str, questions: Sequence[str], proposal: Path) -> None:
        count = "one thing" if len(questions) == 1 else f"{len(questions)} things"
        super().__init__(file=file, count=count, proposal=proposal)
        asked = [f"  {number}. {each}" for number, each in enumerate(questions, start=1)]
        again = f"Put that file right and give it with --map {proposal}; nothing was read yet."
        self.hint = "\n".join([*asked, again])  # type: ignore[misc]  # of this one, not the class


class NoRowFits(UserError):
    """No row of {file} fits; the first, row {row}: {why}."""

    code = "no-row-fits"
    hint = "Nothing was read. Is the map right? Look at units, signs and the builds' names."


@dataclass(frozen=True, slots=True, kw_only=True)
class TablesRead:
    """What each file came to, and what had to be guessed of it."""

    files: tuple[FileRead, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """What holds for this reading: a confirmed map, a build, a distance, the shop's folder."""

    map_file: Path | None = None
    build_id: str | None = None
    distance_m: float | None = None
    shop_folder: Path | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class _File:
    path: Path
    opened: Opened
    layout: Layout
    key: str
    kept: TableMap
    map: TableMap


def read_tables(files: Sequence[Path], *, package: Path, ask: Ask) -> TablesRead:
    """Read files into a package; what does not fit is kept aside in it, with why.

    Parameters
    ----------
    files
        Tables of any kind, each of putts, aims or set-ups.
    package
        Folder or zip of the fitting.
    ask
        What the person says besides.

    Raises
    ------
    ToConfirm
        A file of a kind not seen before; the proposal of its map is written beside it.
    CannotRead, NoRowFits, PackageFaults, CannotWrite
        Nothing is read then, of any file.
    """
    fitting = read_package(package)
    opened = [_open(path, package=package, fitting=fitting, ask=ask) for path in files]
    with contextlib.ExitStack() as begun:
        reading = _Reading(opened, fitting=fitting, package=package, begun=begun)
        reading.run()
        changes = reading.changes()
        if changes:
            change_package(package, changes)
    if ask.shop_folder is not None:
        for each in opened:
            keep_map(ask.shop_folder, each.kept, key=each.key)
    notes = tuple(f"{each.path.name}: {each.opened.note}" for each in opened if each.opened.note)
    return TablesRead(files=tuple(reading.read), notes=notes)


def _open(path: Path, *, package: Path, fitting: Fitting, ask: Ask) -> _File:
    try:
        opened = open_table(bytes_of(path))
        layout = layout_of(opened)
    except Unreadable as trouble:
        raise CannotRead(path=path, reason=str(trouble)) from trouble
    key = header_key(layout.names, layout.units)
    table_map = _known_map(path, layout, key=key, package=package, ask=ask)
    if table_map is None:
        builds = {build.build_id: build.label or "" for build in fitting.builds}
        table_map = propose(seen_columns(layout, opened.head), builds=builds)
        if table_map.questions:
            _ask(path, table_map, layout)
    return _File(
        path=path, opened=opened, layout=layout, key=key,
        kept=table_map, map=with_fixed(table_map, fitting, said=_said(table_map, ask)),
    )  # fmt: skip


def _known_map(path: Path, layout: Layout, *, key: str, package: Path, ask: Ask) -> TableMap | None:
    """The map given, else the one kept in the package, else the one kept in the shop."""
    if ask.map_file is not None:
        found = _read_map(ask.map_file, bytes_of(ask.map_file))
        if not is_of(found, layout):
            reason = f"is the map of other columns than those of {path.name}"
            raise CannotRead(path=ask.map_file, reason=reason)
        return found
    name = map_name(key)
    kept = file_of(package, name)
    if kept is not None:
        found = _read_map(Path(name), kept)
        return found if is_of(found, layout) else None
    return None if ask.shop_folder is None else kept_map(ask.shop_folder, key=key, layout=layout)


def _read_map(path: Path, data: bytes) -> TableMap:
    with _named(path):
        return map_from(data)


def _ask(path: Path, proposed: TableMap, layout: Layout) -> None:
    """Write the proposal, unless one for these columns lies there already, and say what to do."""
    proposal = path.with_name(f"{path.stem}.map.toml")
    there = None
    if proposal.is_file():
        try:
            there = map_from(proposal.read_bytes())
        except Unreadable:
            there = None
    if there is None or not is_of(there, layout):
        write_file_whole(proposal, toml_of(proposed).encode("utf-8"))
    raise ToConfirm(file=path.name, questions=proposed.questions, proposal=proposal)


def _said(table_map: TableMap, ask: Ask) -> dict[str, str | None]:
    """What was said on the command line, by column."""
    said = {"build_id": ask.build_id}
    if ask.distance_m is not None and table_map.table == "putts":
        said["distance_m"] = f"{ask.distance_m:g}"
    elif ask.distance_m is not None and table_map.table == "aims":
        said["board_distance_mm"] = f"{1000 * ask.distance_m:g}"
    return said


class _Reading:
    """All files of one reading, and the package as it will be."""

    def __init__(
        self, files: Sequence[_File], *, fitting: Fitting, package: Path,
        begun: contextlib.ExitStack,
    ) -> None:  # fmt: skip
        self.files = files
        self.package = package
        self.begun = begun
        self.fitting = fitting
        try:
            self.sources = sources_from(file_of(package, READ_LOG))
            self.asides = asides_from(file_of(package, ASIDE))
        except Unreadable as trouble:
            raise CannotRead(path=package, reason=f"a file of earlier readings {trouble}") from (
                trouble
            )
        self.readers = [self._reader(each) for each in files]
        self.read = [each.read for each in self.readers]
        self.tables = {name: self._table(name) for name in RECORDS if self._of(name)}
        tables = (fitting.putts, fitting.aims, fitting.setups)
        self.seq = max((row.seq for table in tables for row in table), default=0)

    def _reader(self, each: _File) -> FileReader:
        shop = Shop(
            handed=self.fitting.golfer.handed,
            builds={build.build_id: build.label or "" for build in self.fitting.builds},
        )
        with _named(each.path):
            return FileReader(
                each.opened, each.layout, file=each.path.name, header=each.key,
                taker=Taker(each.map, shop),
            )  # fmt: skip

    def _of(self, table: str) -> list[FileReader]:
        return [each for each in self.readers if each.read.table == table]

    def _table(self, name: str) -> Appended:
        takers = [each.taker for each in self._of(name)]
        ours = {column for taker in takers for column in taker.columns()}
        order = [column.name for column in columns_of(RECORDS[name])]
        extras = dict.fromkeys(extra for taker in takers for extra in taker.extras().values())
        columns = ["seq", *(each for each in order if each in ours), *extras]
        return Appended(
            file_of(self.package, table_place(self.package, name)), columns=columns,
            begun=self.begun.enter_context(begin_file(self.package)),
        )  # fmt: skip

    def run(self) -> None:
        """Read every file to its end."""
        for each, reader in zip(self.files, self.readers, strict=True):
            with _named(each.path):
                self._run(reader)
            if not reader.read.added and not reader.read.before and reader.read.aside:
                first = reader.read.aside[0]
                raise NoRowFits(file=reader.read.file, row=first.row, why=first.why)

    def _run(self, reader: FileReader) -> None:
        table = self.tables[reader.read.table]
        retry = {each.key for each in self.asides if each.header == reader.header}
        with behind(table.add) as add:
            for frame in reader.frames(self.sources, retry):
                add(rows_of(frame, first_seq=self.seq + 1))
                self.seq += len(frame)
        source = reader.source()
        now = {each.key for each in reader.read.aside}
        told = [each for each in self.asides if each.header == reader.header]
        others = [each for each in self.asides if each.header != reader.header]
        gone = source.among([each.key for each in told])
        told = [each for each in told if each.key not in gone and each.key not in now]
        self.asides = [*others, *told, *reader.read.aside]
        self.sources = [*_others(self.sources, source), source]

    def changes(self) -> dict[str, Content]:
        """The files of the package that are to be written."""
        changed: dict[str, Content] = {READ_LOG: log_bytes(self.sources)}
        aside = aside_bytes(self.asides)
        if self.asides or file_of(self.package, ASIDE) is not None:
            changed[ASIDE] = aside
        for name, table in self.tables.items():
            if any(each.read.added for each in self._of(name)):
                place = table_place(self.package, name)
                changed[place] = table.whole()
                changed |= manifest_with(self.package, name, place=place, header=table.header)
        for each in self.files:
            changed[map_name(each.key)] = toml_of(each.kept).encode("utf-8")
        same = all(file_of(self.package, name) == data for name, data in changed.items())
        return {} if same else changed


def _others(sources: Sequence[Source], grown: Source) -> list[Source]:
    """The files read before, less those that are whole in this one."""
    return [
        each
        for each in sources
        if not read_before(grown.keys, [each], header=grown.header).sum() >= len(each.keys) > 0
    ]


@contextlib.contextmanager
def _named(path: Path) -> Iterator[None]:
    """What cannot be read is told with the name of its file."""
    try:
        yield
    except Unreadable as trouble:
        raise CannotRead(path=path, reason=str(trouble)) from trouble
