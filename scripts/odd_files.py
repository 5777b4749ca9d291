"""Files that no device would write, for ``fuzz_tables.py``: text, JSON, spreadsheets, bytes."""

from __future__ import annotations

import io
import json
import random
import sys
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import Final
from xml.sax.saxutils import escape

sys.path.append(str(Path(__file__).resolve().parents[1] / "tests" / "readers"))

from old_spreadsheet import old_spreadsheet

HEADERS: Final = (
    "Ball speed", "Ball speed (mph)", "Start line", "start_deg", "Distance", "distance_m", "No",
    "Putter", "Made", "Skid [cm]", "Aim (mm)", "Eye inside", "seq", "", "column 1", "Note", "void",
    "Face (open +)", "Time", "Ball speed", "Größe", "x" * 300, "\ufeffstart", "=A1", "1.5",
    "BALL SPEED", "note (file)", "Note ", "build_id", "Spin (rpm)", "Path [deg; right +]", "'", '"',
)  # fmt: skip
CELLS: Final = (
    "", "-", "1.5", "1,5", "-0,8", "3 mph", "2.1 R", "own", "NaN", "inf", "-inf", "-1e308",
    "1e999", "2026-05-31", "10:04:11", "31.05.2026 9:30", "=SUM(A1)", "=cmd|'/c'!A1", "yes", "no",
    "99999999999999999999", "'", "\\", "\x1f", "8'6\"", "0x10", "1_000", "٣", "\u2028", "#REF!",
    "#DIV/0!", "1.2.3", "--1", "+1", "1e5", "1.234,5", "1,234.5", "5 m", "5 ft 3 in", "12 kg",
    "½", "\ud7ff", "a" * 900, "true", "TRUE", "3", "3", "3", "1.5", "0.4", "0.2",
    "1.6 m/s", "4 km/h", "2.1 L", "1/2", "31-May", "45443.25", "1e-320", "-0.0", "nan mph",
    "\u202e1.5", "\u0661.5", "1e+", "0e0", "12'", "\t", "5 %",
)  # fmt: skip
_BOMB_BYTES: Final = 300 * 1024 * 1024
_MANY: Final = 100_000


def rows(rng: random.Random) -> list[list[str]]:
    """A table of odd cells, mostly as wide as its header."""
    width = rng.choice((1, 1, 2, 2, 3, 4, 9))
    table = [[rng.choice(HEADERS) for _ in range(width)]]
    for _ in range(rng.choice((0, 1, 2, 5, 12))):
        odd = width + (rng.random() < 0.1) * rng.choice((-1, 1, 3))
        table.append([rng.choice(CELLS) for _ in range(max(odd, 0))])
    return [["Session 7"]] * rng.choice((0, 0, 0, 1, 3)) + table


def plausible(rng: random.Random) -> list[list[str]]:
    """A sound log in which a cell, a header or a row is none."""
    head = ["No", "Distance (m)", "Ball speed (mph)", "Start (deg; right +)", "Made", "Note"]
    table = [
        [str(n), "3", f"{rng.uniform(2, 5):.2f}", f"{rng.gauss(0, 1):.1f}", rng.choice("yn"), ""]
        for n in range(rng.choice((1, 3, 12, 40)))
    ]
    table.insert(0, head)
    for _ in range(rng.choice((0, 1, 2, 5))):
        row = rng.choice(table)
        place = rng.randrange(len(row) or 1)
        how = rng.randrange(5)
        if how == 0 and row:
            row[place] = rng.choice(HEADERS if row is head else CELLS)
        elif how == 1:
            row.insert(place, rng.choice(CELLS))
        elif how == 2 and row:
            del row[place]
        elif how == 3:
            table.insert(rng.randrange(len(table)), list(row))
        else:
            row[place:place] = [""] * rng.choice((1, 7))
    return table


def as_text(rng: random.Random, table: list[list[str]]) -> bytes:
    """With any separator, quotation and line end, in any encoding."""
    mark, quote = rng.choice(",;\t|"), rng.choice(("", "", '"'))
    end = rng.choice(("\n", "\r\n", "\r"))
    text = end.join(mark.join(quote + cell + quote for cell in row) for row in table)
    encoding = rng.choice(("utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252", "latin-1"))
    return (text + end * rng.choice((0, 1, 1, 3))).encode(encoding, errors="replace")


def wide(rng: random.Random, table: list[list[str]]) -> bytes:
    """A hundred thousand columns, in the header, in a row, or in both; or one endless cell."""
    mark = rng.choice(",;\t|")
    cells = [rng.choice(HEADERS[:9]) for _ in range(8)] * (_MANY // 8)
    how = rng.randrange(4)
    if how == 3:
        return as_text(rng, table) + b"\n" + b"9" * rng.choice((70_000, 2_000_000))
    head = cells if how < 2 else table[0]
    row = ["1.5"] * _MANY if how else ["1.5"]
    return "\n".join(mark.join(each) for each in (head, row, row)).encode()


def as_json(rng: random.Random, table: list[list[str]]) -> bytes:
    """Objects, nested now and then."""
    head = table[0]
    each = [dict(zip(head, row, strict=False)) for row in table[1:]]
    odd = [rng.choice((1, None, [], {"a": {"b": 2.5}}, float("nan"), "x", 10**400))]
    found = each + odd * (rng.random() < 0.3)
    if rng.random() < 0.5:
        return json.dumps(found).encode()
    return "\n".join(json.dumps(one) for one in found).encode()


def as_parts(rng: random.Random, table: list[list[str]]) -> bytes:
    """A spreadsheet's beginning and some of its parts; what is in them need not be sound."""
    names = ("[Content_Types].xml", "xl/workbook.xml", "xl/worksheets/sheet1.xml",
             "xl/vbaProject.bin", "content.xml", "mimetype")  # fmt: skip
    return _zipped({name: as_text(rng, table) for name in names if rng.random() < 0.6})


_ODD_PLACES: Final = (
    "", "A0", "1A", "XFD1048576", "XFE1048577", "AAAAAAAA1", "A99999999999", "a1", "$A$1", "A1:B2",
)  # fmt: skip
_ODD_CELLS: Final = (
    "<c{r} t='e'><v>#REF!</v></c>", "<c{r}><f>SUM(A1:A9)</f></c>", "<c{r} s='1'><v>45443</v></c>",
    "<c{r}><f>A1*2</f><v>3</v></c>", "<c{r} t='s'><v>999999</v></c>", "<c{r} t='b'><v>7</v></c>",
    "<c{r} t='d'><v>2026-05-31T10:04:11</v></c>", "<c{r} t='nonsense'><v>1</v></c>",
    "<c{r} s='1'><v>-1e300</v></c>", "<c{r}><v>NaN</v></c>", "<c{r} t='s'><v>-1</v></c>",
    "<c{r} s='99999'><v>1e999</v></c>", "<c{r} t='inlineStr'><is/></c>", "<c{r}><v/></c>",
    "<c{r} t='str'><f t='shared' si='0' ref='A1:XFD1048576'>B1</f><v>x</v></c>",
    "<c{r}><f t='shared' si='77'/><v>1</v></c>", "<c{r} t='inlineStr'><is><t>&lol;</t></is></c>",
)  # fmt: skip
_BOOK: Final = (
    "<workbook xmlns='http://schemas.openxmlformats.org/spreadsheetml/2006/main' xmlns:r="
    "'http://schemas.openxmlformats.org/officeDocument/2006/relationships'><sheets>"
    "<sheet name='{name}' sheetId='1' r:id='rId1'/>"
    "<sheet name='{name}' sheetId='1' r:id='{second}'/>"
    "</sheets><definedNames><definedName name='a'>{name}!#REF!</definedName></definedNames>"
    "</workbook>"
)
_RELS: Final = (
    "<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'>"
    "<Relationship Id='rId1' Type='http://schemas.openxmlformats.org/officeDocument/2006/"
    "relationships/{kind}' Target='{target}'/></Relationships>"
)
_STYLES: Final = (
    "<styleSheet xmlns='http://schemas.openxmlformats.org/spreadsheetml/2006/main'><numFmts "
    "count='1'><numFmt numFmtId='164' formatCode='[h]:mm;@\"'/></numFmts><cellXfs count='2'>"
    "<xf numFmtId='0'/><xf numFmtId='{style}'/></cellXfs></styleSheet>"
)
_LAUGHS: Final = (
    "<!DOCTYPE x [<!ENTITY l 'ha'><!ENTITY lol '" + "&l;" * 50 + "'><!ENTITY f SYSTEM "
    "'file:///etc/hostname'>]>"
)


def as_workbook(rng: random.Random, table: list[list[str]]) -> bytes:
    """A workbook with macros, formulas, dates and places that are none, mostly sound as a file."""
    return _zipped(_book(rng, table), lie=rng.choice((0,) * 17 + (1, 2, 3)))


def _book(rng: random.Random, table: list[list[str]]) -> dict[str, bytes | str]:
    files: dict[str, bytes | str] = {
        "[Content_Types].xml": "<Types xmlns='http://schemas.openxmlformats.org/package/2006/"
        "content-types'/>",
        "_rels/.rels": _RELS.format(kind="officeDocument", target="xl/workbook.xml"),
        "xl/workbook.xml": _BOOK.format(
            name=rng.choice(("S", "x" * 40)), second=rng.choice(("rId1",) * 19 + ("rId2",))
        ),
        "xl/_rels/workbook.xml.rels": _RELS.format(
            kind=rng.choice(("worksheet",) * 19 + ("chartsheet",)),
            target=rng.choice(("worksheets/sheet1.xml",) * 20 + ("../../x", "/etc/hosts", "")),
        ),
        "xl/styles.xml": _STYLES.format(style=rng.choice((14, 22, 45, 164, -3, 99999))),
        "xl/sharedStrings.xml": "<sst xmlns='http://schemas.openxmlformats.org/spreadsheetml/2006/main'"
        f" count='{rng.choice((2,) * 19 + (9999999999,))}'><si><t>Ball speed</t></si><si/></sst>",
        "xl/worksheets/sheet1.xml": _sheet(rng, table),
    }
    if rng.random() < 0.3:
        files["xl/vbaProject.bin"] = b"\xd0\xcf\x11\xe0" + rng.randbytes(600)
    if rng.random() < 0.05:
        del files[rng.choice(list(files))]
    return files


def _sheet(rng: random.Random, table: list[list[str]]) -> str:
    said, odd = [], rng.choice((0.0, 0.0, 0.01, 0.01, 0.1))
    for number, row in enumerate(table, start=1):
        cells = [
            _cell(rng, cell, place=f"{chr(65 + place)}{number}", odd=odd)
            for place, cell in enumerate(row)
        ]
        at = rng.choice(("", " r='0'", " r='99999999999'", " r='-1'"))
        at = at if rng.random() < odd / 3 else f" r='{number}'"
        said.append(f"<row{at}>{''.join(cells)}</row>")
    size = rng.choice(("A1:XFD1048576", "", "B2", "C9:A1", "A1:ZZZZZZZ9"))
    size = size if rng.random() < odd else "A1:F9"
    laughs = _LAUGHS if rng.random() < 0.1 else ""
    merged = "<mergeCells><mergeCell ref='A1:XFD1'/></mergeCells>" if rng.random() < 0.1 else ""
    return (
        f"<?xml version='1.0'?>{laughs}<worksheet xmlns='http://schemas.openxmlformats.org/"
        f"spreadsheetml/2006/main'><dimension ref='{size}'/><sheetData>{''.join(said)}</sheetData>"
        f"{merged}</worksheet>"
    )


def _cell(rng: random.Random, cell: str, *, place: str, odd: float) -> str:
    at = rng.choice(_ODD_PLACES) if rng.random() < odd / 10 else place
    where = f" r='{at}'" if at else ""
    if rng.random() < odd:
        return rng.choice(_ODD_CELLS).replace("{r}", where)
    if rng.random() < 0.5 and cell.lstrip("-").replace(".", "", 1).isdigit():
        return f"<c{where}><v>{cell}</v></c>"
    said = escape(cell).replace("\x1f", "_x001F_")
    return f"<c{where} t='inlineStr'><is><t>{said}</t></is></c>"


def as_document(rng: random.Random, table: list[list[str]]) -> bytes:
    """An open document whose cells may say that they are repeated past all bounds."""
    odd = rng.choice((0.0, 0.0, 0.0, 0.02))
    rows_said = ("".join(_document_cell(rng, cell, odd=odd) for cell in row) for row in table)
    said = "".join(f"<table:table-row>{each}</table:table-row>" for each in rows_said)
    names = "".join(
        f" xmlns:{short}='urn:oasis:names:tc:opendocument:xmlns:{short}:1.0'"
        for short in ("office", "table", "text")
    )
    content = (
        f"<office:document-content{names}><office:body><office:spreadsheet>"
        f"<table:table table:name='S'>{said}</table:table></office:spreadsheet>"
        "</office:body></office:document-content>"
    )
    return _zipped(
        {
            "mimetype": "application/vnd.oasis.opendocument.spreadsheet",
            "META-INF/manifest.xml": "<manifest/>", "content.xml": content,
        }
    )  # fmt: skip


def _document_cell(rng: random.Random, cell: str, *, odd: float) -> str:
    plain = cell.lstrip("-").replace(".", "", 1).isdecimal()
    kind = "float" if plain else "string"
    many = ""
    if rng.random() < odd:
        kind = rng.choice(("float", "date", "percentage", "time", "boolean", "odd"))
        times = rng.choice(("7", "1048576", "-1", "99999999999"))
        many = rng.choice(("", f" table:number-columns-repeated='{times}'"))
    value = escape(cell, {"'": "&apos;"}).replace("\x1f", "")
    value = "" if kind == "string" else f" office:value='{value}'"
    return (
        f"<table:table-cell office:value-type='{kind}'{value}{many}>"
        f"<text:p>{escape(cell)}</text:p></table:table-cell>"
    )


def as_old_spreadsheet(rng: random.Random, table: list[list[str]]) -> bytes:
    """As programs of the nineties wrote it."""
    del rng
    short = [[cell[:200].encode("utf-16-le", "replace").decode("utf-16-le") for cell in row]
             for row in table]  # fmt: skip
    return old_spreadsheet(short)


def bomb(rng: random.Random, table: list[list[str]]) -> bytes:
    """Little that unpacks to very much; now and then its list of contents says otherwise."""
    part = rng.choice(("xl/worksheets/sheet1.xml", "xl/sharedStrings.xml", "content.xml"))
    blank = b" " * rng.choice((_BOMB_BYTES // 8, _BOMB_BYTES))
    return _zipped(_book(rng, table) | {part: blank}, lie=rng.choice((0, 1)))


def _zipped(files: Mapping[str, bytes | str], *, lie: int = 0) -> bytes:
    """As a zip; one that lies says of its parts that they are tiny, locked, or of no kind."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    packed = bytearray(stream.getvalue())
    at = packed.find(b"PK\x01\x02")
    while lie and at >= 0:
        if lie == 1:
            packed[at + 24 : at + 28] = (7).to_bytes(4, "little")
        elif lie == 2:
            packed[at + 8] |= 1
        else:
            packed[at + 10] = 93
        at = packed.find(b"PK\x01\x02", at + 4)
    return bytes(packed)


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


_MAKERS: Final = (
    ("text", as_text, 690), ("JSON", as_json, 130), ("XLSX", as_workbook, 110),
    ("ODS", as_document, 25), ("XLS", as_old_spreadsheet, 25), ("parts of a sheet", as_parts, 10),
    ("very wide", wide, 8), ("bytes", lambda rng, _: rng.randbytes(rng.randrange(3000)), 10),
)  # fmt: skip
_BOMBS: Final = 0.0005


def malformed(rng: random.Random) -> tuple[str, bytes]:
    """One file that no device would write, and of what kind it is."""
    table = rows(rng) if rng.random() < 0.75 else plausible(rng)
    if rng.random() < _BOMBS:
        return "bomb", bomb(rng, table)
    kinds = [each[2] for each in _MAKERS]
    kind, made, _ = rng.choices(_MAKERS, kinds)[0]
    data = made(rng, table)
    return kind, spoiled(rng, data) if rng.random() < 0.6 else data
