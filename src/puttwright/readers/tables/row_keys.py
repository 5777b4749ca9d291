"""A fingerprint of eight bytes for each row of a table, the same on every machine."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    import polars as pl

BETWEEN: Final = "\x1f"
"""Stands between the cells of a row where its fingerprint is taken."""
_LINE_END: Final = ord("\n")
_WORD: Final = 8
_WORDS_AT_ONCE: Final = 8
_BLOCK_BYTES: Final = 256 * 1024


def texts_of(frame: pl.DataFrame) -> pl.Series:
    """Each row as one text."""
    import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

    whole = not any(column.null_count() for column in frame)
    cells = pl.all() if whole else pl.all().fill_null("")
    return frame.select(pl.concat_str(cells, separator=BETWEEN)).to_series()


def row_keys(frame: pl.DataFrame) -> np.ndarray:
    """A fingerprint of each row of text cells, shape (n,), the same for any chunk."""
    texts = texts_of(frame)
    sizes = texts.str.len_bytes().to_numpy().astype(np.int64)
    joined = (texts.str.join("")[0] or "") if len(texts) else ""
    letters = np.frombuffer(joined.encode("utf-8"), dtype=np.uint8)
    return _keys(letters, np.cumsum(sizes) - sizes, sizes)


def keys_of_lines(data: bytes, separator: str) -> np.ndarray:
    r"""The same of lines as they stand, each with all its cells.

    Examples
    --------
    >>> import polars as pl
    >>> frame = pl.DataFrame({"0": ["1.5", "2"], "1": ["yes", ""]})
    >>> bool((keys_of_lines(b"1.5;yes\n2;\n", ";") == row_keys(frame)).all())
    True
    """
    found = [_keys_of_block(each, ord(separator)) for each in _blocks(data)]
    return np.concatenate([np.empty(0, dtype="<u8"), *found])


def _blocks(data: bytes) -> Iterator[bytes]:
    """Whole lines, so few at a time that what is made of them stays near the processor."""
    start = 0
    while start < len(data):
        stop = data.find(b"\n", start + _BLOCK_BYTES) + 1 or len(data)
        yield data[start:stop]
        start = stop


def _keys_of_block(data: bytes, separator: int) -> np.ndarray:
    letters = np.frombuffer(data, dtype=np.uint8)
    ends = np.flatnonzero(letters == _LINE_END)
    if letters[-1] != _LINE_END:
        ends = np.append(ends, len(data))
    starts = np.concatenate([[0], ends[:-1] + 1])
    turned = (letters == separator).view(np.uint8) * np.uint8(separator ^ ord(BETWEEN))
    return _keys(letters ^ turned, starts, ends - starts)


def key_of(cells: Iterable[str]) -> int:
    """The fingerprint of one row of cells."""
    data = np.frombuffer(BETWEEN.join(cells).encode("utf-8", errors="replace"), dtype=np.uint8)
    return int(_keys(data, np.array([0]), np.array([len(data)]))[0])


def _keys(data: np.ndarray, starts: np.ndarray, sizes: np.ndarray) -> np.ndarray:
    """Multilinear hashing of words of eight bytes (Carter & Wegman 1979, from memory)."""
    words = -(-int(sizes.max(initial=0)) // _WORD)
    at_once = max(1, min(words, _WORDS_AT_ONCE))
    width = _WORD * at_once
    padded = np.concatenate([data, np.zeros(width, dtype=np.uint8)])
    pieces = np.ndarray((len(data) + 1,), dtype=f"V{width}", buffer=padded, strides=(1,))
    times = _multipliers(1 + words + at_once)
    keys = sizes.astype("<u8") * times[0]
    for place in range(0, words, at_once):
        left = sizes - _WORD * place
        long = slice(None) if not place else np.flatnonzero(left > 0)
        found = pieces[starts[long] + _WORD * place].view("<u8").reshape(-1, at_once)
        found &= _within(at_once)[np.minimum(left[long], width)]
        keys[long] += found @ times[1 + place : 1 + place + at_once]
    mixed: np.ndarray = keys ^ (keys >> np.uint64(32))
    return mixed


@cache
def _within(words: int) -> np.ndarray:
    """By the bytes that are left of a row, what of its next words is within it."""
    places = np.arange(_WORD * words)
    inside = np.where(places < np.arange(_WORD * words + 1)[:, None], 0xFF, 0).astype(np.uint8)
    return inside.view("<u8")


@cache
def _multipliers(count: int) -> np.ndarray:
    """Odd numbers without pattern, always the same: SplitMix64 (Steele et al. 2014)."""
    state = np.arange(1, count + 1, dtype="<u8") * np.uint64(0x9E3779B97F4A7C15)
    for shift, times in ((30, 0xBF58476D1CE4E5B9), (27, 0x94D049BB133111EB)):
        state = (state ^ (state >> np.uint64(shift))) * np.uint64(times)
    odd: np.ndarray = (state ^ (state >> np.uint64(31))) | np.uint64(1)
    return odd
