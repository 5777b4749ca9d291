"""Rows read before: exports that overlap share readings, rows merely alike do not."""

from __future__ import annotations

import numpy as np
import polars as pl
import pytest

from puttwright.readers.tables.row_keys import row_keys
from puttwright.readers.tables.seen_before import Source, read_before, stamped_rows

NUMBERED = [(str(n), "3", "yes" if n % 2 else "no", f"{1.5 + (7 * n % 40) / 100:.2f}")
            for n in range(40)]  # fmt: skip
COARSE = [("3", "yes"), ("3", "no"), ("3", "yes")] * 8
TIMED = [(f"2026-05-31 10:{n:02d}", "3", "yes") for n in range(20)]


def keys_of(rows, *, stamped=False):
    columns = {str(place): [row[place] for row in rows] for place in range(len(rows[0]))}
    frame = pl.DataFrame(columns)
    return stamped_rows(frame) if stamped else row_keys(frame)


def before(old, new, *, name="b.csv"):
    source = Source(file="a.csv", header="h", keys=keys_of(old))
    marked = read_before(
        keys_of(new), [source], header="h", file=name, stamped=keys_of(new, stamped=True)
    )
    return [row for row, known in zip(new, marked, strict=True) if known]


@pytest.mark.parametrize(
    ("old", "new", "shared"),
    [
        (NUMBERED[:25], NUMBERED[15:], NUMBERED[15:25]),
        (NUMBERED[:25][::-1], NUMBERED[15:][::-1], NUMBERED[15:25][::-1]),
        (NUMBERED, NUMBERED[10:20], NUMBERED[10:20]),
        (NUMBERED, NUMBERED[10:20][::-1], NUMBERED[10:20][::-1]),
        ([*NUMBERED[:20], ("20", "3", "no", "1.")], NUMBERED, NUMBERED[:20]),
        (TIMED[5:9], [TIMED[2], TIMED[8], TIMED[11], TIMED[6]], [TIMED[8], TIMED[6]]),
    ],
    ids=["the next", "newest first", "a part", "a part turned", "half a row", "by time"],
)
def test_what_both_exports_hold_is_read_once(old, new, shared):
    assert before(old, new) == shared


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (NUMBERED[:10], NUMBERED[20:]),
        (COARSE, [("3", "yes"), ("3", "yes"), ("5", "no"), ("3", "no")]),
        (COARSE[:2], COARSE[:1]),
        ([("3", "yes")], [("3", "yes")]),
        (NUMBERED[:20], [NUMBERED[3], NUMBERED[30], NUMBERED[5]]),
    ],
    ids=["apart", "coarse rows", "one of two", "one putt a file", "here and there"],
)
def test_rows_merely_alike_are_other_readings(old, new):
    assert before(old, new) == []


def test_a_file_of_the_same_name_is_known_however_short():
    assert before([("3", "yes")], [("3", "yes")], name="a.csv") == [("3", "yes")]


@pytest.mark.parametrize(
    ("cell", "stamped"),
    [
        ("2026-05-31T10:04:11Z", True), ("10:04:11", True), ("31.05.2026 9:30", True),
        ("1780221851", True), ("1780221851123", True),
        ("b9d1b9b0-20f2-4d93-8a73-5b9e1a1c2d3f", True),
        ("2026-05-31", False), ("14", False), ("1.25", False), ("8'6\"", False), ("", False),
    ],
)  # fmt: skip
def test_a_time_or_an_id_marks_a_row(cell, stamped):
    frame = pl.DataFrame({"0": ["1.5", None], "1": [cell, "3"]})

    assert stamped_rows(frame).tolist() == [stamped, False]


def test_rows_under_another_header_are_others():
    source = Source(file="a.csv", header="h", keys=keys_of(TIMED))

    marked = read_before(keys_of(TIMED), [source], header="g", stamped=np.ones(20, bool))

    assert not marked.any()
