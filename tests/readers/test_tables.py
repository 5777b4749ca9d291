"""Tables of any kind: opened, understood, converted; what does not fit said cell by cell."""

from __future__ import annotations

import contextlib
import io
import json
import sys
import zipfile
from pathlib import Path

import numpy as np
import openpyxl
import polars as pl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.evidence import columns_of
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.header import layout_of
from puttwright.readers.tables.numbers import DIGITS, How, number_of, numbers, rounded
from puttwright.readers.tables.open_table import open_table
from puttwright.readers.tables.propose import propose, seen_columns
from puttwright.readers.tables.row_keys import key_of, row_keys
from puttwright.readers.tables.seen_before import Source, read_before
from puttwright.readers.tables.sides import AGREED, SIDES, signs_of
from puttwright.readers.tables.table_map import RECORDS, known_columns, map_from, toml_of
from puttwright.readers.tables.words import words

sys.path.insert(0, str(Path(__file__).parent))

from old_spreadsheet import old_spreadsheet

ROWS = [["Ball speed", "Start line", "Putter"], ["1.52", "-0.8", "A"], ["1.61", "0.3", "B"]]

TEXT_CELL = "office:value-type='string'"
OBJECTS = [dict(zip(ROWS[0], row, strict=True)) for row in ROWS[1:]]
MAP = 'table = "putts"\n[[column]]\nheader = "a"\ninto = '


def rows_of(data):
    opened = open_table(data)
    layout = layout_of(opened)
    chunks = list(opened.chunks(layout.below, len(layout.names)))
    return layout, [list(row) for chunk in chunks for row in chunk.frame.rows()]


def workbook(rows):
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(
            [float(c) if c.replace(".", "").lstrip("-").isdigit() else c for c in row]
        )
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def open_document(rows):
    """The least an OpenDocument spreadsheet can be."""
    cells = [
        "".join(
            f"<table:table-cell {TEXT_CELL}><text:p>{c}</text:p></table:table-cell>" for c in row
        )
        for row in rows
    ]
    body = "".join(f"<table:table-row>{row}</table:table-row>" for row in cells)
    spaces = " ".join(
        f"xmlns:{name}='urn:oasis:names:tc:opendocument:xmlns:{name}:1.0'"
        for name in ("office", "table", "text")
    )
    content = (
        f"<?xml version='1.0'?><office:document-content {spaces} office:version='1.2'><office:body>"
        f"<office:spreadsheet><table:table table:name='1'>{body}</table:table></office:spreadsheet>"
        "</office:body></office:document-content>"
    )
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        archive.writestr("mimetype", kind)
        archive.writestr("META-INF/manifest.xml", "<manifest/>")
        archive.writestr("content.xml", content)
    return stream.getvalue()


def with_macros(data):
    """The same workbook with a program in it, which nobody runs."""
    stream = io.BytesIO(data)
    with zipfile.ZipFile(stream, "a") as archive:
        archive.writestr("xl/vbaProject.bin", b"\xd0\xcf\x11\xe0" + bytes(500))
    return stream.getvalue()


def delimited(mark, quote=""):
    return "\n".join(mark.join(quote + c + quote for c in row) for row in ROWS).encode()


WRITTEN = {
    "commas": delimited(","),
    "semicolons": delimited(";"),
    "tabs": delimited("\t"),
    "bars": delimited("|"),
    "quoted": delimited(",", '"'),
    "old line ends": delimited(",").replace(b"\n", b"\r"),
    "windows line ends": delimited(",").replace(b"\n", b"\r\n"),
    "byte order mark": b"\xef\xbb\xbf" + delimited(","),
    "UTF-16": delimited(";").decode().encode("utf-16"),
    "UTF-16 without a mark": delimited(";").decode().encode("utf-16-le"),
    "preamble": b"Session of a morning\nRoom; warm\n\n" + delimited(","),
    "spreadsheet": workbook(ROWS),
    "spreadsheet with macros": with_macros(workbook(ROWS)),
    "open document": open_document(ROWS),
    "old spreadsheet": old_spreadsheet(ROWS),
    "JSON lines": "\n".join(map(json.dumps, OBJECTS)).encode(),
    "JSON list": json.dumps(OBJECTS).encode(),
}  # fmt: skip


@pytest.mark.parametrize("kind", WRITTEN)
def test_the_same_table_however_it_is_written(kind):
    layout, rows = rows_of(WRITTEN[kind])

    assert list(layout.names) == ROWS[0]
    assert rows == ROWS[1:]


def test_a_row_of_units_gives_the_units():
    data = "No;Ball speed;Skid;Start line\n-;(km/h);[cm];°\n1;5,4;31,0;-0,8\n2;5,5;30,1;0,2\n"

    layout, rows = rows_of(data.encode("cp1252"))

    assert layout.units == (None, "km/h", "cm", "deg")
    assert len(rows) == 2


def test_a_row_too_wide_is_told_and_the_others_are_read():
    opened = open_table(b"speed,start\n1.5,2\n1,5,0,3\n1.6,1\n")
    layout = layout_of(opened)
    (chunk,) = opened.chunks(layout.below, 2)

    assert chunk.rows.to_list() == [2, 4]
    assert [(odd.row, odd.why[:35]) for odd in chunk.odd] == [
        (3, "has 4 cells, the header has 2; is t")
    ]


@pytest.mark.parametrize(
    ("cell", "unit", "column_unit", "value"),
    [
        ("3.5 mph", "", "m/s", 1.56464),
        ("5,4 km/h", "m/s", "m/s", 1.5),
        ("6 ft/s", "", "m/s", 1.8288),
        ("8'6\"", "m", "m", 2.5908),
        ("1 200", "rpm", "rpm", None),
        ("1,200.5", "mm", "mm", 1200.5),
        ("1.200,5", "mm", "mm", 1200.5),
        ("−0.8°", "deg", "deg", -0.8),
        ("0.4 R", "deg", "deg", 0.4),
        ("L 0.4°", "deg", "deg", -0.4),
        ("0.4 left", "deg", "deg", -0.4),
        ("n/a", "deg", "deg", None),
        ("inf", "deg", "deg", None),
        ("1e999", "deg", "deg", None),
        ("2026-05-31", "deg", "deg", None),
        ("12:30", "deg", "deg", None),
        ("=A1*2", "deg", "deg", None),
        ("3 kg", "mm", "mm", None),
    ],
)
def test_a_cell_is_read_with_its_unit_and_side_or_said_to_be_none(cell, unit, column_unit, value):
    how = How(
        unit=unit, column_unit=column_unit, comma="km" in cell, sides={"right": 1, "left": -1}
    )

    found, why = number_of(cell, how)

    assert found == (None if value is None else pytest.approx(value))
    assert bool(why) == (value is None and cell != "n/a")


@given(
    st.lists(st.one_of(st.floats(-1e6, 1e6).map(lambda v: f"{v:.4f}"), st.sampled_from(
        ["", "-", "1,5", "2 mph", "x", " 3 ", "1e2", "nan", "Infinity", "0x1", "1_0", "٣"]))),
    st.booleans(),
)  # fmt: skip
def test_a_column_reads_as_its_cells_one_by_one(cells, comma):
    how = How(unit="m/s", column_unit="m/s", comma=comma)

    values, wrong = numbers(pl.Series(cells, dtype=pl.String), how)

    one_by_one = [number_of(cell.strip(), how) for cell in cells]
    assert values.to_list() == pytest.approx([value for value, _ in one_by_one])
    assert [place for place, _ in wrong] == [n for n, (_, why) in enumerate(one_by_one) if why]


NEAR_POWERS = st.builds(
    lambda power, off: 10.0**power * (1.0 + off),
    st.integers(-9, 9), st.sampled_from([0.0, -1e-16, -5e-10, 5e-10, -1e-9, 1e-8]),
)  # fmt: skip
HALVES = st.builds(
    lambda whole, power: (whole + 0.5) / 10.0**power, st.integers(10**8, 10**9 - 1),
    st.integers(2, 12),
)  # fmt: skip
ANY_SIZE = HALVES | st.floats(-1e9, 1e9) | NEAR_POWERS | NEAR_POWERS.map(lambda value: -value)


@given(st.lists(ANY_SIZE | st.floats(-10, 10).map(lambda value: round(value, 2) * 0.44704)))
def test_rounding_by_comparing_is_rounding_by_logarithms(values):
    column = pl.Series("speed", values, dtype=pl.Float64)

    found, by_logarithms = rounded(column), column.round_sig_figs(DIGITS)

    assert found.name == "speed"
    assert found.to_numpy().view("u8").tolist() == by_logarithms.to_numpy().view("u8").tolist()


def test_what_is_not_there_is_not_rounded():
    assert rounded(pl.Series([1.23456789012, None])).to_list() == [1.23456789, None]


@pytest.mark.parametrize("table", RECORDS)
def test_every_word_is_for_a_column_there_is(table):
    assert set(words()[table]) <= set(known_columns(table))


def test_every_column_with_two_sides_has_them_in_words():
    sided = {c.name for record in RECORDS.values() for c in columns_of(record)} & set(SIDES)
    assert sided == set(SIDES)
    assert {side for pair in SIDES.values() for side in pair} <= set(words()["sides"])
    assert set(SIDES) >= AGREED


def test_open_and_toe_turn_round_for_a_left_hander():
    right, left = (signs_of("face_deg", handed=hand) for hand in ("right", "left"))

    assert (right["right"], left["right"]) == (1, 1)
    assert (right["open"], left["open"]) == (1, -1)
    assert signs_of("strike_toe_mm", handed="left")["left"] == 1
    assert signs_of("strike_toe_mm", handed="right")["right"] == 1


def proposed(text, builds=None):
    opened = open_table(text.encode())
    return propose(seen_columns(layout_of(opened), opened.head), builds=builds or {"own": ""})


def test_what_the_file_does_not_say_is_asked_with_an_example():
    found = proposed("Distance,Ball speed (mph),Start line,Made\n10,3.4,-0.8,x\n10,3.5,0.4,\n")

    asked = " ".join(found.questions)
    assert '"Distance" says no unit (row 2 says 10): is it m?' in asked
    assert '"Start line" says -0.8 in row 2: was that left?' in asked
    assert '"Made" is empty in some rows' in asked
    assert "speed" not in asked


def test_decimal_commas_are_seen_beside_units_too():
    assert proposed("Ball speed;Start line\n1,5 m/s;0,5 L\n5,4 km/h;0,2 R\n").decimal_comma
    assert not proposed("Ball speed;Start line\n1.5 m/s;0.5 L\n5,4 km/h;0.2 R\n").decimal_comma


def test_what_the_file_says_is_not_asked():
    found = proposed(
        "Distance (ft),BallSpeed_mph,Start line [deg; right +],Face angle\n10,3.4,-0.8,0.5 open\n"
    )

    assert found.questions == ()
    assert [c.into for c in found.columns] == [
        "distance_m",
        "ball_speed_mps",
        "start_deg",
        "face_deg",
    ]


def test_our_own_columns_need_no_words():
    found = proposed("seq,build_id,distance_m,start_deg,stop_past_m\n1,own,3,0.2,-0.1\n")

    assert found.questions == ()
    assert [c.into for c in found.columns] == [
        "",
        "build_id",
        "distance_m",
        "start_deg",
        "stop_past_m",
    ]


@pytest.mark.parametrize(
    ("text", "table"),
    [
        ("Putter,Dot (mm),Distance to board (m)\nown,3,3\n", "aims"),
        ("Putter,Eyes inside (mm),Hands height (mm)\nown,30,700\n", "setups"),
        ("Putter,Distance (m),Made\nown,3,yes\n", "putts"),
    ],
)
def test_what_kind_of_readings_they_are_is_told_by_the_columns(text, table):
    assert proposed(text).table == table


TEXT = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=20)


@given(st.lists(TEXT, min_size=1, max_size=6, unique=True), st.booleans())
def test_a_map_reads_as_it_was_written(headers, comma):
    found = proposed("Ball speed (mph),Start line\n3,-1\n")
    columns = tuple(type(found.columns[0])(header=header) for header in headers)
    wanted = type(found)(
        table="putts", columns=columns, decimal_comma=comma, fixed={"build_id": headers[0]}
    )

    assert map_from(toml_of(wanted).encode()) == wanted


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("table = ", "is not TOML"),
        ('table = "rack"\n', "must say table"),
        ('table = "putts"\n', "must hold a [[column]]"),
        (f'{MAP}"seq"', "'seq', which is no column"),
        (f'{MAP}"skid_m"\nunit = "mph"', "may be m, cm"),
        (f'{MAP}"start_deg"\npositive = "up"', "may be right"),
        (f'{MAP}"holed"\nempty = "yes"', "it may be"),
        (f"{MAP}3", "in quotation marks"),
        (f'{MAP}"note"\n[[column]]\nheader = "b"\ninto = "note"', "two columns"),
    ],
)  # fmt: skip
def test_a_wrong_map_is_said_to_be(text, says):
    with pytest.raises(Unreadable, match=says.replace("[", r"\[")):
        map_from(text.encode())


CELLS = st.lists(
    st.tuples(st.text(max_size=12).filter(str.isprintable), st.sampled_from(["", "1", "Ü"])),
    max_size=8,
)


@given(CELLS)
def test_fingerprints_do_not_depend_on_the_chunk(rows):
    frame = pl.DataFrame(
        {"0": [a for a, _ in rows], "1": [b for _, b in rows]},
        schema={"0": pl.String, "1": pl.String},
    )

    assert row_keys(frame).tolist() == [key_of(row) for row in rows]


@pytest.mark.parametrize(
    ("rows", "before"),
    [
        ("abc", "111"), ("abcd", "1110"), ("dabc", "0111"), ("cba", "111"), ("abd", "000"),
        ("dcbae", "01110"), ("aabc", "0111"), ("bc", "00"),
    ],
)  # fmt: skip
def test_a_file_is_known_whole_wherever_it_stands(rows, before):
    keys = {letter: number for number, letter in enumerate("abcde")}
    old = Source(file="old", header="h", keys=np.array([keys[r] for r in "abc"], dtype="<u8"))
    new = np.array([keys[row] for row in rows], dtype="<u8")

    assert read_before(new, [old], header="h").tolist() == [each == "1" for each in before]
    assert not read_before(new, [old], header="other").any()


def bomb():
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", b" " * (70 * 1024 * 1024))
    return stream.getvalue()


def repeated():
    """One cell that says of itself that it fills the largest sheet there can be."""
    with zipfile.ZipFile(io.BytesIO(open_document(ROWS))) as archive:
        content = archive.read("content.xml").decode()
    row, cell = (f" table:number-{each}-repeated=" for each in ("rows", "columns"))
    content = content.replace("<table:table-row", f"<table:table-row{row}'1048576'", 1)
    content = content.replace("<table:table-cell", f"<table:table-cell{cell}'16384'", 1)
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr("META-INF/manifest.xml", "<manifest/>")
        archive.writestr("content.xml", content)
    return stream.getvalue()


def far_corner():
    """Two cells at the ends of the largest sheet there can be."""
    with zipfile.ZipFile(io.BytesIO(workbook(ROWS))) as archive:
        files = {name: archive.read(name) for name in archive.namelist()}
    sheet = files["xl/worksheets/sheet1.xml"]
    files["xl/worksheets/sheet1.xml"] = sheet.replace(
        b"</sheetData>",
        b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>',
    )
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return stream.getvalue()


NO_TABLES = {
    "nothing below the header": lambda: b"Ball speed,Start line\n",
    "only numbers": lambda: b"1,2\n3,4\n",
    "binary": lambda: bytes(range(256)) * 10,
    "a picture": lambda: b"\x89PNG\r\n\x1a\n" + bytes(100),
    "a PDF": lambda: b"%PDF-1.7\n",
    "a web page": lambda: b"<!DOCTYPE html><p>",
    "too many columns": lambda: ",".join(f"c{n}" for n in range(100_000)).encode() + b"\n1\n",
    "an open quotation mark": lambda: b'Ball speed,Note\n1.5,"off the toe\n1.6,\n',
    "JSON cut off": lambda: b'{"speed": 1.5}\n{"speed": 1.',
    "JSON that is no reading": lambda: b"[{}]",
    "JSON nested without end": lambda: b'{"a":' * 100_000,
    "a damaged spreadsheet": lambda: workbook(ROWS)[:-200],
    "an open document cut off": lambda: open_document(ROWS)[:-100],
    "an old spreadsheet cut off": lambda: old_spreadsheet(ROWS)[:2000],
    "an old spreadsheet, damaged": lambda: b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600),
    "one endless line": lambda: b"speed " * 300_000,
}


@pytest.mark.parametrize(("letters", "is_one"), [(1024 * 1024, True), (1024 * 1024 + 1, False)])
@pytest.mark.parametrize("above", [b"", b"3.1,way\n" * 100_000])
@pytest.mark.parametrize("below", [b"", b"\n4,end\n"])
def test_a_line_may_be_so_long_and_no_longer(letters, is_one, above, below):
    long = b"3.5," + b"x" * (letters - 4)
    data = b"Distance (ft),Note\n" + above + long + below

    with contextlib.nullcontext() if is_one else pytest.raises(Unreadable, match="longer"):
        open_table(data)


@pytest.mark.parametrize("kind", NO_TABLES)
def test_what_is_no_table_is_said_in_one_sentence(kind):
    with pytest.raises(Unreadable) as trouble:
        rows_of(NO_TABLES[kind]())

    assert "\n" not in str(trouble.value)
    assert 10 < len(str(trouble.value)) < 160


def test_a_cell_of_digits_without_end_is_looked_at_once():
    """What looked for a number tried every way to part the digits: an hour for this file."""
    data = b"start_deg,build_id,distance_m\n1,own,3\n" + b"9" * 200_000 + b" no number,own,3\n"

    opened = open_table(data)

    assert layout_of(opened).names == ("start_deg", "build_id", "distance_m")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("crafted", "says"),
    [(bomb, "unpacks to more than 64 MB"), (far_corner, "spreadsheet"), (repeated, "spreadsheet")],
)
def test_a_crafted_spreadsheet_is_refused_before_it_takes_the_memory(crafted, says):
    with pytest.raises(Unreadable, match=says):
        rows_of(crafted())
