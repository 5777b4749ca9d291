"""Which rows of a file were read before: a file again, under another name, grown, or turned round.

Kept in the package, file by file: a fingerprint of eight bytes for each row that was read. A file
whose rows follow each other somewhere in a new one, forwards or backwards, is in it whole. Rows
that are merely alike are not taken for the same: two putts may well read the same.
"""

from __future__ import annotations

import base64
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from puttwright.readers.files import Unreadable
from puttwright.readers.head import load_json
from puttwright.readers.text import text_of

if TYPE_CHECKING:
    import polars as pl

READ_LOG: Final = "readings-read.json"
_BETWEEN: Final = "\x1f"
_LONGEST_AT_ONCE: Final = 2048
"""Rows past so many bytes are taken one by one: padding all to the longest would cost memory."""


def row_keys(frame: pl.DataFrame) -> np.ndarray:
    """A fingerprint of each row, shape (n,), the same on every machine and for any chunk."""
    import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

    whole = not any(column.null_count() for column in frame)
    cells = pl.all() if whole else pl.all().fill_null("")
    texts = frame.select(pl.concat_str(cells, separator=_BETWEEN)).to_series()
    sizes = texts.str.len_bytes()
    longest = int(sizes.to_numpy().max(initial=0))
    if longest > _LONGEST_AT_ONCE or (sizes != texts.str.len_chars()).any():
        return np.array([_key(text.encode("utf-8")) for text in texts], dtype="<u8")
    words = -(-longest // 8) or 1
    padded = texts.str.pad_end(8 * words, "\0").str.join("")[0] if len(texts) else ""
    matrix = np.frombuffer(padded.encode("ascii"), dtype="<u8").reshape(len(texts), words)
    return _keys(matrix, sizes.to_numpy())


def _keys(matrix: np.ndarray, sizes: np.ndarray) -> np.ndarray:
    """Multilinear hashing of words of eight bytes (Carter & Wegman 1979, from memory)."""
    times = _multipliers(matrix.shape[1] + 1)
    keys = sizes.astype("<u8") * times[0]
    for place in range(matrix.shape[1]):
        keys = keys + matrix[:, place] * times[place + 1]
    mixed: np.ndarray = keys ^ (keys >> np.uint64(32))
    return mixed


def _key(data: bytes) -> int:
    words = -(-len(data) // 8) or 1
    matrix = np.frombuffer(data.ljust(8 * words, b"\0"), dtype="<u8").reshape(1, words)
    return int(_keys(matrix, np.array([len(data)]))[0])


@cache
def _multipliers(count: int) -> np.ndarray:
    """Odd numbers without pattern, always the same: SplitMix64 (Steele et al. 2014)."""
    state = np.arange(1, count + 1, dtype="<u8") * np.uint64(0x9E3779B97F4A7C15)
    for shift, times in ((30, 0xBF58476D1CE4E5B9), (27, 0x94D049BB133111EB)):
        state = (state ^ (state >> np.uint64(shift))) * np.uint64(times)
    odd: np.ndarray = (state ^ (state >> np.uint64(31))) | np.uint64(1)
    return odd


def key_of(cells: Iterable[str]) -> int:
    """The fingerprint of one row of cells."""
    return _key(_BETWEEN.join(cells).encode("utf-8", errors="replace"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A file that was read: its header's fingerprint, its rows' fingerprints in order."""

    file: str
    header: str
    keys: np.ndarray

    def among(self, keys: Sequence[int]) -> set[int]:
        """Those of these fingerprints that are of its rows."""
        if not keys:
            return set()
        wanted = np.array(keys, dtype="<u8")
        return set(wanted[np.isin(wanted, self.keys)].tolist())


def sources_from(data: bytes | None) -> list[Source]:
    """The files read before, from the log in a package.

    Raises
    ------
    Unreadable
        The log was changed by hand.
    """
    if data is None:
        return []
    try:
        said = load_json(text_of(data))["sources"]
        return [
            Source(
                file=str(each["file"]), header=str(each["header"]),
                keys=np.frombuffer(base64.b64decode(each["rows"], validate=True), dtype="<u8"),
            )
            for each in said
        ]  # fmt: skip
    except (KeyError, TypeError, ValueError) as trouble:
        raise Unreadable("is not as it was written; delete it, and all files count as new") from (
            trouble
        )


def log_bytes(sources: Iterable[Source]) -> bytes:
    """The log as it lies in a package."""
    said: list[dict[str, Any]] = [
        {
            "file": each.file, "header": each.header,
            "rows": base64.b64encode(each.keys.astype("<u8").tobytes()).decode("ascii"),
        }
        for each in sources
    ]  # fmt: skip
    return (json.dumps({"sources": said}, indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def read_before(keys: np.ndarray, sources: Iterable[Source], *, header: str) -> np.ndarray:
    """Whether each row was read before, shape (n,).

    Examples
    --------
    >>> old = Source(file="a", header="h", keys=np.array([7, 8], dtype="<u8"))
    >>> read_before(np.array([8, 7, 8, 9], dtype="<u8"), [old], header="h").tolist()
    [False, True, True, False]
    >>> read_before(np.array([9, 7, 8], dtype="<u8"), [old], header="h").tolist()
    [False, True, True]
    """
    before = np.zeros(len(keys), dtype=bool)
    for each in sources:
        if each.header != header or not len(each.keys) or len(each.keys) > len(keys):
            continue
        for wanted in (each.keys, each.keys[::-1]):
            start = _place(keys, wanted)
            if start is not None:
                before[start : start + len(wanted)] = True
                break
    return before


def _place(keys: np.ndarray, wanted: np.ndarray) -> int | None:
    """Where a run of fingerprints stands in a longer one."""
    last = len(keys) - len(wanted)
    for start in np.flatnonzero(keys[: last + 1] == wanted[0])[:1000]:
        if np.array_equal(keys[start : start + len(wanted)], wanted):
            return int(start)
    return None
