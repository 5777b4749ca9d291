"""A spreadsheet as programs of the nineties wrote it, made by hand.

Compound file: Microsoft's [MS-CFB]; records of the workbook: [MS-XLS] (both from memory, and read
by the library that the reader of tables uses).
"""

from __future__ import annotations

import struct
from collections.abc import Sequence

_SECTOR = 512
_FREE, _END, _FAT, _NONE = 0xFFFFFFFF, 0xFFFFFFFE, 0xFFFFFFFD, 0xFFFFFFFF


def _record(kind: int, data: bytes) -> bytes:
    return struct.pack("<HH", kind, len(data)) + data


def _begin(what: int) -> bytes:
    return _record(0x0809, struct.pack("<HHHHII", 0x0600, what, 0x0DBB, 0x07CC, 0, 6))


def _cell(row: int, column: int, value: str) -> bytes:
    place = struct.pack("<HHH", row, column, 0)
    try:
        return _record(0x0203, place + struct.pack("<d", float(value)))
    except ValueError:
        text = value.encode("utf-16-le")
        return _record(0x0204, place + struct.pack("<HB", len(value), 1) + text)


def _stream(rows: Sequence[Sequence[str]]) -> bytes:
    sheet = _begin(0x0010) + b"".join(
        _cell(row, column, cell)
        for row, cells in enumerate(rows)
        for column, cell in enumerate(cells)
        if cell
    )
    name = b"\x05\x00putts"
    front = _begin(0x0005)
    end = _record(0x000A, b"")
    at = len(front) + 4 + 6 + len(name) + len(end)
    bound = _record(0x0085, struct.pack("<IH", at, 0) + name)
    return (front + bound + end + sheet + end).ljust(4096, b"\0")


def _entry(name: str, kind: int, start: int, size: int, child: int = _NONE) -> bytes:
    text = (name + "\0").encode("utf-16-le")
    links = struct.pack("<III", _NONE, _NONE, child)
    tail = links + bytes(16 + 4 + 16) + struct.pack("<IQ", start, size)
    return text.ljust(64, b"\0") + struct.pack("<HBB", len(text), kind, 1) + tail


def old_spreadsheet(rows: Sequence[Sequence[str]]) -> bytes:
    """The bytes of a workbook with one sheet of these cells."""
    stream = _stream(rows)
    sectors = -(-len(stream) // _SECTOR)
    stream = stream.ljust(sectors * _SECTOR, b"\0")
    chain = [_FAT, _END, *range(3, 2 + sectors), _END]
    fat = b"".join(struct.pack("<I", each) for each in chain).ljust(_SECTOR, b"\xff")
    entries = _entry("Root Entry", 5, _END, 0, child=1) + _entry("Workbook", 2, 2, len(stream))
    directory = entries + bytes(128 * 2)
    header = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(16)
    header += struct.pack("<HHHHH", 0x3E, 3, 0xFFFE, 9, 6) + bytes(6)
    header += struct.pack("<IIIIIIIII", 0, 1, 1, 0, 4096, _END, 0, _END, 0)
    header += struct.pack("<I", 0) + b"\xff" * (4 * 108)
    return header + fat + directory + stream
