"""A fingerprint of eight bytes for each row of a table, the same on every machine."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    import polars as pl

BETWEEN: Final = "\x1f"
"""Stands between the cells of a row where its fingerprint is taken."""
_WORD: Final = 8


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
    return _keys(joined.encode("utf-8"), np.cumsum(sizes) - sizes, sizes)


def keys_of_lines(data: bytes, separator: str) -> np.ndarray:
    r"""The same of lines as they stand, each with all its cells.

    Examples
    --------
    >>> import polars as pl
    >>> frame = pl.DataFrame({"0": ["1.5", "2"], "1": ["yes", ""]})
    >>> bool((keys_of_lines(b"1.5;yes\n2;\n", ";") == row_keys(frame)).all())
    True
    """
    plain = data.translate(bytes.maketrans(separator.encode("utf-8"), BETWEEN.encode("utf-8")))
    ends = np.flatnonzero(np.frombuffer(plain, dtype=np.uint8) == ord("\n"))
    if not plain.endswith(b"\n"):
        ends = np.append(ends, len(plain))
    starts = np.concatenate([[0], ends[:-1] + 1])
    return _keys(plain, starts, ends - starts)


def key_of(cells: Iterable[str]) -> int:
    """The fingerprint of one row of cells."""
    data = BETWEEN.join(cells).encode("utf-8", errors="replace")
    return int(_keys(data, np.array([0]), np.array([len(data)]))[0])


def _keys(data: bytes, starts: np.ndarray, sizes: np.ndarray) -> np.ndarray:
    """Multilinear hashing of words of eight bytes (Carter & Wegman 1979, from memory)."""
    padded = data + bytes(_WORD)
    words = np.ndarray(shape=(len(data) + 1,), dtype="<u8", buffer=padded, strides=(1,))
    count = -(-int(sizes.max(initial=0)) // _WORD)
    times = _multipliers(count + 1)
    keys = sizes.astype("<u8") * times[0]
    for place in range(count):
        left = sizes - _WORD * place
        long = np.flatnonzero(left > 0)
        if len(long) == len(sizes):
            keys += _word(words, starts + _WORD * place, left) * times[place + 1]
        else:
            keys[long] += _word(words, starts[long] + _WORD * place, left[long]) * times[place + 1]
    mixed: np.ndarray = keys ^ (keys >> np.uint64(32))
    return mixed


def _word(words: np.ndarray, at: np.ndarray, left: np.ndarray) -> np.ndarray:
    """The word at each place, what stands behind the row's end taken out."""
    word = words[at]
    short = left < _WORD
    if short.any():
        word[short] &= _TAILS[left[short]]
    found: np.ndarray = word
    return found


_TAILS: Final = np.array([(1 << (8 * size)) - 1 for size in range(_WORD)], dtype="<u8")


@cache
def _multipliers(count: int) -> np.ndarray:
    """Odd numbers without pattern, always the same: SplitMix64 (Steele et al. 2014)."""
    state = np.arange(1, count + 1, dtype="<u8") * np.uint64(0x9E3779B97F4A7C15)
    for shift, times in ((30, 0xBF58476D1CE4E5B9), (27, 0x94D049BB133111EB)):
        state = (state ^ (state >> np.uint64(shift))) * np.uint64(times)
    odd: np.ndarray = (state ^ (state >> np.uint64(31))) | np.uint64(1)
    return odd
