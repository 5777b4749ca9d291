"""Files no person would write: a sentence or a table, never a trace, and nothing half-read."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from puttwright.readers.files import Unreadable
from puttwright.readers.tables.header import layout_of
from puttwright.readers.tables.open_table import open_table
from puttwright.readers.tables.propose import propose, seen_columns
from puttwright.readers.tables.readings import keys_of
from puttwright.readers.tables.row_keys import row_keys
from puttwright.readers.tables.table_map import map_from, toml_of
from puttwright.readers.tables.take import Shop, Taker

SHOP = Shop(handed="left", builds={"own": "Old blade", "B": ""})
SAID = {
    "putts": {"build_id": "own", "distance_m": "3"},
    "aims": {"build_id": "own", "board_distance_mm": "3000"},
    "setups": {"build_id": "own"},
}
HEADERS = st.one_of(
    st.sampled_from(
        ["Ball speed", "Ball speed (mph)", "Start line", "start_deg", "Distance", "distance_m",
         "Putter", "Made", "Skid [cm]", "seq", "extra", "", "column 1", "Note", "void", "Dot (mm)"]
    ),
    st.text(max_size=8),
)  # fmt: skip
CELLS = st.one_of(
    st.sampled_from(
        ["", "-", "1.5", "1,5", "-0,8", "3 mph", "2.1 R", "own", "x", "NaN", "inf", "-1e308",
         "1e999", "2026-05-31", "=SUM(A1)", "=cmd|'/c'!A1", "yes", "99999999999999999999",
         "'", "\\", "\x1f",
         "8'6\"", "0x10", "1_000", "٣", "\u2028", "\ufeff", "#REF!", "true", "1.2.3", "--1"]
    ),
    st.text(max_size=6),
    st.floats().map(str),
)  # fmt: skip


@st.composite
def tables(draw):
    """Something like a table: any headers, any cells, ragged, any separator, any line end."""
    mark = draw(st.sampled_from([",", ";", "\t", "|", ", ", " "]))
    end = draw(st.sampled_from(["\n", "\r\n", "\r", "\n\n"]))
    quote = draw(st.sampled_from(["", "", '"', "'"]))
    width = draw(st.integers(1, 7))
    head = draw(st.lists(HEADERS, min_size=width, max_size=width))
    rows = draw(st.lists(st.lists(CELLS, min_size=0, max_size=width + 1), max_size=6))
    lines = [mark.join(quote + cell + quote for cell in row) for row in (head, *rows)]
    encoding = draw(st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"]))
    return end.join(lines).encode(encoding, errors="replace")


@st.composite
def harmed(draw):
    """A sound table cut off, with bytes put in or taken out."""
    data = draw(tables())
    for _ in range(draw(st.integers(0, 3))):
        start = draw(st.integers(0, len(data)))
        stop = draw(st.integers(start, min(len(data), start + 8)))
        data = data[:start] + draw(st.binary(max_size=4)) + data[stop:]
    return data[: draw(st.integers(0, len(data)))] if draw(st.booleans()) else data


def read(data):
    """What reading does with a file, short of writing."""
    opened = open_table(data)
    layout = layout_of(opened)
    found = propose(seen_columns(layout, opened.head), builds=SHOP.builds)
    again = map_from(toml_of(found).encode())
    filled = {column.into for column in again.columns}
    fixed = {name: each for name, each in SAID[again.table].items() if name not in filled}
    taker = Taker(dataclasses.replace(again, fixed=fixed), SHOP)
    told = []
    for chunk in opened.chunks(layout.below, len(layout.names)):
        taken = taker.take(chunk)
        assert len(row_keys(chunk.frame)) == len(chunk.rows) == len(taken.frame) == len(taken.fits)
        assert set(taken.why) == set((~taken.fits).arg_true())
        told += [*taken.why.values(), *(odd.why for odd in chunk.odd)]
    quickly_as_carefully(opened, layout, taker)
    return told


def quickly_as_carefully(opened, layout, taker):
    """The quick way, where there is one, gives the same readings and the same fingerprints."""
    if opened.quick is None:
        return
    said = layout.below, len(layout.names)
    quick = [read() for read in opened.quick(*said, taker.plain_numbers())]
    ways = [list(opened.chunks(*said)), quick]
    frames = [[taker.take(chunk).frame.to_dicts() for chunk in chunks] for chunks in ways]
    keys = [[each for c in chunks for each in keys_of(c).tolist()] for chunks in ways]
    rows = [[each for c in chunks for each in c.rows] for chunks in ways]
    assert plain(frames[0]) == plain(frames[1])
    assert keys[0] == keys[1]
    assert rows[0] == rows[1]


def plain(frames):
    return [{n: v for n, v in row.items() if v not in (None, "")} for f in frames for row in f]


def check_one_sentence_or_a_table(data):
    try:
        told = read(data)
    except Unreadable as trouble:
        told = [str(trouble)]
    assert all(len(each.strip()) > 1 for each in told)


FILES = st.one_of(tables(), harmed(), st.binary(max_size=300))
QUIET = {"deadline": None, "suppress_health_check": list(HealthCheck)}


@settings(max_examples=200, **QUIET)
@given(FILES)
def test_any_file_is_a_table_or_a_sentence(data):
    check_one_sentence_or_a_table(data)


@pytest.mark.slow
@settings(max_examples=2000, **QUIET)
@given(FILES)
def test_many_more_files_are_tables_or_sentences(data):
    check_one_sentence_or_a_table(data)
