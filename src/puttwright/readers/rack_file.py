"""The shop's rack as a table, CSV or spreadsheet, in and out."""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterable, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, Final

from puttwright.errors import Fault, PackageFaults
from puttwright.evidence import Part, columns_of
from puttwright.evidence.tables import table_faults
from puttwright.readers.files import Unreadable
from puttwright.readers.table import read_table
from puttwright.readers.text import text_of
from puttwright.readers.writing import plain_number, table_bytes, zip_bytes

LARGEST_BYTES: Final = 16 * 1024 * 1024
MOST_ROWS: Final = 50_000
_UNPACKED_BYTES: Final = 128 * 1024 * 1024
_A_DAY: Final = datetime(1980, 1, 1)  # noqa: DTZ001 - a spreadsheet's days have no zone
_ZIP_START: Final = b"PK\x03\x04"


def read_rack(path: Path) -> tuple[Part, ...]:
    """Read and check a rack from a file.

    Raises
    ------
    PackageFaults
        Everything that is wrong with it, each with row and column.
    """
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
    except OSError as trouble:
        return _refused(path.name, "is not there or cannot be opened", trouble)
    return rack_from(data, name=path.name)


def rack_from(data: bytes, *, name: str) -> tuple[Part, ...]:
    """The parts a file's bytes hold; spreadsheet or CSV is told from the bytes.

    Raises
    ------
    PackageFaults
        Everything that is wrong with it.
    """
    try:
        _refuse_large(data)
        text = _text_of_workbook(data) if data.startswith(_ZIP_START) else text_of(data)
    except Unreadable as trouble:
        return _refused(name, str(trouble), trouble)
    table = read_table(text, table=name, record=Part)
    faults = table.faults + table_faults({"rack": table.sheet})
    if faults:
        raise PackageFaults(faults=faults)
    return table.records()


def _refuse_large(data: bytes) -> None:
    if len(data) > LARGEST_BYTES:
        raise Unreadable("is larger than 16 MB")


def _refused(name: str, why: str, trouble: Exception) -> tuple[Part, ...]:
    raise PackageFaults(faults=[Fault(name, 0, "", why)]) from trouble


def rack_csv(parts: Sequence[Part], /) -> bytes:
    """The rack as CSV, the same bytes for the same parts."""
    return table_bytes(parts, Part)


def rack_workbook(parts: Sequence[Part], /) -> bytes:
    """The rack as a spreadsheet (Office Open XML), one sheet, the same bytes for the same parts."""
    from openpyxl import Workbook  # noqa: PLC0415 - a large library, for those who ask

    book = Workbook()
    book.properties.creator = "puttwright"
    book.properties.created = book.properties.modified = _A_DAY
    sheet = book.active
    sheet.title = "rack"
    names = [column.name for column in columns_of(Part)]
    extra = list(dict.fromkeys(name for part in parts for name in part.extra))
    sheet.append(names + extra)
    for part in parts:
        cells = [getattr(part, name) for name in names]
        sheet.append(cells + [part.extra.get(name) for name in extra])
    for row in sheet.iter_rows():
        for cell in row:
            if cell.data_type == "f":  # a text that begins with = is a text, never a formula
                cell.data_type = "s"
    sheet.freeze_panes = "A2"
    stream = io.BytesIO()
    book.save(stream)
    return _without_the_day(stream.getvalue())


def _without_the_day(data: bytes) -> bytes:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    core = files["docProps/core.xml"]
    files["docProps/core.xml"] = _dated(core)
    return zip_bytes(files)


def _dated(core: bytes) -> bytes:
    """Openpyxl writes the time of saving as the time of change."""
    before, _, rest = core.partition(b"<dcterms:modified")
    inside, _, after = rest.partition(b">")
    _, _, tail = after.partition(b"</dcterms:modified>")
    day = _A_DAY.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    return before + b"<dcterms:modified" + inside + b">" + day + b"</dcterms:modified>" + tail


def _text_of_workbook(data: bytes) -> str:
    """The first sheet of a workbook as CSV; formulas are taken at their last value."""
    from openpyxl import load_workbook  # noqa: PLC0415 - a large library, for those who ask

    _refuse_bombs(data)
    try:
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        rows = list(_rows(book.worksheets[0].iter_rows(values_only=True)))
        book.close()
    except Unreadable:
        raise
    except Exception as trouble:  # what a damaged file makes of a parser is past counting
        raise Unreadable("is no spreadsheet that can be read; save it as CSV") from trouble
    stream = io.StringIO(newline="")
    csv.writer(stream, lineterminator="\n").writerows(rows)
    return stream.getvalue()


def _refuse_bombs(data: bytes) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            unpacked = sum(entry.file_size for entry in archive.infolist())
    except (zipfile.BadZipFile, ValueError, OSError) as trouble:
        raise Unreadable("is a damaged spreadsheet; save it again") from trouble
    if unpacked > _UNPACKED_BYTES:
        raise Unreadable("unpacks to more than 128 MB; a rack is a small table")


def _rows(rows: Iterable[Sequence[Any]]) -> Iterable[list[str]]:
    for number, row in enumerate(rows):
        if number > MOST_ROWS:
            raise Unreadable(f"has more than {MOST_ROWS} rows")
        yield [_cell(value) for value in row]


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    return plain_number(value) if isinstance(value, int | float) else str(value)
