"""Throw malformed files at the reader of tables: each ends in readings or in one sentence.

    python scripts/fuzz_tables.py [COUNT] [SEED]     100 000 files unless told otherwise

Prints how they ended; a file that ends in anything else is written beside it and the run goes on.
"""

from __future__ import annotations

import io
import json
import random
import sys
import traceback
import zipfile
from collections import Counter
from pathlib import Path
from typing import Final

from puttwright.errors import UserError
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.header import layout_of
from puttwright.readers.tables.open_table import open_table
from puttwright.readers.tables.propose import propose, seen_columns
from puttwright.readers.tables.readings import FileReader
from puttwright.readers.tables.table_map import map_from, toml_of
from puttwright.readers.tables.take import Shop, Taker

HEADERS: Final = (
    "Ball speed", "Ball speed (mph)", "Start line", "start_deg", "Distance", "distance_m", "No",
    "Putter", "Made", "Skid [cm]", "Aim (mm)", "Eye inside", "seq", "", "column 1", "Note", "void",
    "Face (open +)", "Time", "Ball speed", "Größe", "x" * 300, "\ufeffstart", "=A1", "1.5",
)  # fmt: skip
CELLS: Final = (
    "", "-", "1.5", "1,5", "-0,8", "3 mph", "2.1 R", "own", "NaN", "inf", "-inf", "-1e308",
    "1e999", "2026-05-31", "10:04:11", "31.05.2026 9:30", "=SUM(A1)", "=cmd|'/c'!A1", "yes", "no",
    "99999999999999999999", "'", "\\", "\x1f", "8'6\"", "0x10", "1_000", "٣", "\u2028", "#REF!",
    "#DIV/0!", "1.2.3", "--1", "+1", "1e5", "1.234,5", "1,234.5", "5 m", "5 ft 3 in", "12 kg",
    "½", "\ud7ff", "a" * 5000, "true", "TRUE", "3", "3", "3", "1.5", "0.4", "0.2",
)  # fmt: skip


def rows(rng: random.Random) -> list[list[str]]:
    """A table of odd cells, mostly as wide as its header."""
    width = rng.choice((1, 2, 3, 4, 6, 9))
    table = [[rng.choice(HEADERS) for _ in range(width)]]
    for _ in range(rng.choice((0, 1, 2, 5, 12))):
        odd = width + (rng.random() < 0.1) * rng.choice((-1, 1, 3))
        table.append([rng.choice(CELLS) for _ in range(max(odd, 0))])
    return [["Session 7"]] * rng.choice((0, 0, 0, 1, 3)) + table


def as_text(rng: random.Random, table: list[list[str]]) -> bytes:
    """With any separator, quotation and line end, in any encoding."""
    mark, quote = rng.choice(",;\t|"), rng.choice(("", "", '"'))
    end = rng.choice(("\n", "\r\n", "\r"))
    text = end.join(mark.join(quote + cell + quote for cell in row) for row in table)
    encoding = rng.choice(("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252", "latin-1"))
    return (text + end * rng.choice((0, 1, 1, 3))).encode(encoding, errors="replace")


def as_json(rng: random.Random, table: list[list[str]]) -> bytes:
    """Objects, nested now and then."""
    head = table[0]
    each = [dict(zip(head, row, strict=False)) for row in table[1:]]
    odd = [rng.choice((1, None, [], {"a": {"b": 2.5}}, float("nan"), "x", 10**400))]
    found = each + odd * (rng.random() < 0.3)
    if rng.random() < 0.5:
        return json.dumps(found).encode()
    return "\n".join(json.dumps(one) for one in found).encode()


def as_workbook(rng: random.Random, table: list[list[str]]) -> bytes:
    """A spreadsheet's beginning and some of its parts; what is in them need not be sound."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        for name in ("[Content_Types].xml", "xl/workbook.xml", "xl/worksheets/sheet1.xml",
                     "xl/vbaProject.bin", "content.xml", "mimetype"):  # fmt: skip
            if rng.random() < 0.6:
                archive.writestr(name, as_text(rng, table))
    return stream.getvalue()


def spoiled(rng: random.Random, data: bytes) -> bytes:
    """Cut, doubled, with bits turned, with other bytes in it."""
    how = rng.randrange(6)
    at = rng.randrange(len(data) + 1)
    if how == 0:
        return data[:at]
    if how == 1:
        return data + data
    if how == 2 and data:
        turned = bytearray(data)
        for _ in range(rng.choice((1, 3, 20))):
            turned[rng.randrange(len(turned))] ^= 1 << rng.randrange(8)
        return bytes(turned)
    if how == 3:
        return data[:at] + rng.randbytes(rng.choice((1, 8, 200))) + data[at:]
    if how == 4:
        return (
            rng.choice((b"PK\x03\x04", b"\xd0\xcf\x11\xe0", b"{", b"[{", b"\x00", b"%PDF")) + data
        )
    return data


def malformed(rng: random.Random) -> bytes:
    """One file that no device would write; few are spreadsheets, each takes a process."""
    table = rows(rng)
    kind = rng.random()
    made = as_text if kind < 0.8 else as_json if kind < 0.998 else as_workbook
    return spoiled(rng, made(rng, table))


def ended(data: bytes) -> str:
    """How reading it ends: so many readings, or the kind of sentence."""
    if not data.strip():
        return "empty"
    try:
        opened = open_table(data)
        layout = layout_of(opened)
        found = propose(seen_columns(layout, opened.head), builds={"own": ""})
        again = map_from(toml_of(found).encode("utf-8"))
        fixed = {"build_id": "own", "distance_m": "3", "board_distance_mm": "2000"}
        into = {each.into for each in again.columns}
        lacks = {n: v for n, v in fixed.items() if n not in into}
        taken = [
            n for n in lacks if n == "build_id" or (n == "distance_m") == (again.table == "putts")
        ]
        told = again.__class__(
            table=again.table, columns=again.columns, decimal_comma=again.decimal_comma,
            fixed={n: lacks[n] for n in taken if again.table != "setups" or n == "build_id"},
        )  # fmt: skip
        taker = Taker(told, Shop(handed="left", builds={"own": ""}))
        reader = FileReader(opened, layout, file="f", header="h", taker=taker)
        count = sum(len(frame) for frame in reader.frames((), ()))
    except (Unreadable, UserError) as sentence:
        return "two lines" if "\n" in str(sentence) else "a sentence"
    assert count == reader.read.added
    assert all(each.why for each in reader.read.aside)
    return "readings" if count else "all kept aside"


def main(count: int, seed: int) -> int:
    """Throw so many; how many ended in a trace."""
    rng = random.Random(seed)  # noqa: S311 - no secret
    how: Counter[str] = Counter()
    for number in range(count):
        data = malformed(rng)
        try:
            how[ended(data)] += 1
        except Exception:  # noqa: BLE001 - that is what is looked for
            how["A TRACE"] += 1
            Path(f"fuzz-{seed}-{number}.bin").write_bytes(data)
            traceback.print_exc(limit=-3)
        if number % 5000 == 4999:
            print(number + 1, dict(how), file=sys.stderr, flush=True)
    print(dict(how))
    return how["A TRACE"]


if __name__ == "__main__":
    said = [int(each) for each in sys.argv[1:]]
    sys.exit(bool(main(*(said + [100_000, 1][len(said) :]))))
