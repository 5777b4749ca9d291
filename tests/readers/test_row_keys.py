"""Fingerprints of rows stay what they were: what a package remembers of a file must be known."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.readers.tables import row_keys
from puttwright.readers.tables.row_keys import key_of, keys_of_lines

WHOLE = (1 << 64) - 1
ROWS = st.lists(
    st.lists(st.text("ab1.é;\x1f", max_size=90), min_size=2, max_size=3), min_size=1, max_size=40
)


def mixed(state):
    for shift, times in ((30, 0xBF58476D1CE4E5B9), (27, 0x94D049BB133111EB)):
        state = ((state ^ (state >> shift)) * times) & WHOLE
    return (state ^ (state >> 31)) | 1


def one_by_one(cells):
    """The same sum, word by word, in whole numbers without end."""
    data = "\x1f".join(cells).encode()
    words = [int.from_bytes(data[at : at + 8], "little") for at in range(0, len(data), 8)]
    total = sum(
        word * mixed((place * 0x9E3779B97F4A7C15) & WHOLE)
        for place, word in enumerate([len(data), *words], start=1)
    )
    return (total ^ ((total & WHOLE) >> 32)) & WHOLE


@pytest.mark.parametrize(
    ("cells", "key"),
    [
        (["1.5", "yes"], 0x1904DD92705CF43C),
        (["", ""], 0x42BBD723522AF179),
        (["Länge", "x" * 200], 0x98CE7E0604989883),
    ],
)
def test_fingerprints_of_earlier_readings_hold(cells, key):
    assert key_of(cells) == key


@given(ROWS, st.sampled_from("\t,|"), st.booleans(), st.sampled_from([1, 200, 10**6]))
def test_lines_have_the_fingerprints_of_their_cells(rows, separator, ended, block_bytes):
    text = "\n".join(separator.join(cells) for cells in rows) + "\n" * ended

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(row_keys, "_BLOCK_BYTES", block_bytes)
        keys = keys_of_lines(text.encode(), separator)

    assert keys.tolist() == [one_by_one(cells) for cells in rows]


def test_a_long_line_among_short_ones_takes_no_room_for_all_of_them():
    lines = b"a" * 500_000 + b"\n" + b"b\n" * 50_000

    keys = keys_of_lines(lines, ",")

    assert keys[0] == key_of(["a" * 500_000])
    assert np.unique(keys[1:]).tolist() == [key_of(["b"])]
