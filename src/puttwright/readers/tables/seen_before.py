"""Which rows of a file were read before: the file again, grown, turned round, overlapping.

Kept file by file: a fingerprint of eight bytes for each row that was read. A file whose rows follow
each other somewhere in a new one, forwards or backwards, is in it whole; where the last rows of one
are the first of another, both overlap. A row that says when it was taken, or bears an id, is the
same wherever it stands. Rows that are merely alike are not: two putts may well read the same.
"""

from __future__ import annotations

import base64
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from puttwright.readers.files import Unreadable
from puttwright.readers.head import load_json
from puttwright.readers.tables.row_keys import texts_of
from puttwright.readers.text import text_of

if TYPE_CHECKING:
    import polars as pl

READ_LOG: Final = "readings-read.json"
_FEW: Final = 3
_MANY: Final = 10
"""Fewer different rows, unless there are many, may be alike by chance."""
_STAMP: Final = (
    r"\d{1,2}:\d{2}:\d{2}|\d[-/.]\d{1,2}[-/.]\d{1,4}[ T]+\d{1,2}:\d{2}"
    r"|(^|\x1f)\d{10,19}(\x1f|$)|[0-9a-fA-F]{8}-([0-9a-fA-F]{4}-){3}[0-9a-fA-F]{12}"
)
"""A time of day to the second, a date with a time, seconds of an epoch, a UUID."""


def stamped_rows(frame: pl.DataFrame) -> np.ndarray:
    """The rows in which a cell says when, or bears an id: shape (n,)."""
    stamped: np.ndarray = texts_of(frame).str.contains(_STAMP).to_numpy()
    return stamped


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
    said = [_log_entry(each) for each in sources]
    parted = [piece for entry in said for piece in (b",\n", *entry)][1:]
    return b"".join([b'{"sources": [\n', *parted, b"\n]}\n"])


def _log_entry(each: Source) -> tuple[bytes, ...]:
    """Put together by hand: of a million rows the fingerprints alone are eleven megabytes."""
    head = json.dumps({"file": each.file, "header": each.header}, ensure_ascii=False)
    rows = base64.b64encode(np.ascontiguousarray(each.keys, dtype="<u8").data)
    return head[:-1].encode("utf-8", errors="replace"), b', "rows": "', rows, b'"}'


def read_before(
    keys: np.ndarray, sources: Iterable[Source], *, header: str, file: str = "",
    stamped: np.ndarray | None = None,
) -> np.ndarray:  # fmt: skip
    """Whether each row was read before, shape (n,).

    Parameters
    ----------
    keys
        Fingerprints of all rows of a file, in order.
    sources
        The files read before.
    header, file
        Of the file: rows under other headers are others; a file of the same name may be as short
        as it likes to be known again.
    stamped
        The rows that say when they were taken, or bear an id: such a row is the same wherever it
        stands.

    Examples
    --------
    >>> old = Source(file="a", header="h", keys=np.array([7, 8, 9], dtype="<u8"))
    >>> read_before(np.array([9, 7, 8, 9, 5], dtype="<u8"), [old], header="h").tolist()
    [False, True, True, True, False]
    >>> read_before(np.array([7, 8, 9, 5], dtype="<u8")[::-1], [old], header="h").tolist()
    [False, True, True, True]
    """
    before = np.zeros(len(keys), dtype=bool)
    for each in sources:
        if each.header == header and len(each.keys) and len(keys):
            for run in _common_runs(each.keys, keys, same_name=each.file == file):
                before[run] = True
            if stamped is not None:
                before |= stamped & np.isin(keys, each.keys)
    return before


def _common_runs(old: np.ndarray, new: np.ndarray, *, same_name: bool) -> list[slice]:
    """Where a file stands in a newer one: whole, in part, or as far as both overlap."""
    whole = _whole(old, new, same_name=same_name)
    if whole is not None:
        return [whole]
    ends = (_overlap(old, new), _mirrored(_overlap(old[::-1], new[::-1]), len(new)))
    return [run for run in ends if run is not None]


def _whole(old: np.ndarray, new: np.ndarray, *, same_name: bool) -> slice | None:
    """The rows of the one that are all of the other, forwards or backwards."""
    within, all_of = (new, old) if len(old) <= len(new) else (old, new)
    if not same_name and len(all_of) < _MANY and len(np.unique(all_of)) < _FEW:
        return None
    for run in (all_of, all_of[::-1]):
        start = _place(within, run)
        if start is not None:
            return slice(start, start + len(run)) if within is new else slice(0, len(new))
    return None


def _overlap(old: np.ndarray, new: np.ndarray) -> slice | None:
    """The first rows of the new file that are the last of the old one.

    Or all the old ones but the very last, which a log may have finished since.
    """
    said = min(len(old), len(new))
    if said > _FEW and np.array_equal(old[: len(old) - 1], new[: len(old) - 1]):
        return slice(0, len(old) - 1)
    for start in np.flatnonzero(old == new[0])[:1000]:
        length = len(old) - int(start)
        if length <= len(new) and np.array_equal(old[start:], new[:length]):
            return slice(0, length) if _telling(new[:length], old, new) else None
    return None


def _telling(run: np.ndarray, *files: np.ndarray) -> bool:
    """Enough rows that stand once in either file: coarse rows repeat, and tell nothing."""
    once = set(run.tolist())
    for file in files:
        rows, counts = np.unique(file, return_counts=True)
        once &= set(rows[counts == 1].tolist())
    return len(once) >= _FEW


def _mirrored(run: slice | None, length: int) -> slice | None:
    return None if run is None else slice(length - run.stop, length - run.start)


def _place(keys: np.ndarray, wanted: np.ndarray) -> int | None:
    """Where a run of fingerprints stands in a longer one."""
    last = len(keys) - len(wanted)
    for start in np.flatnonzero(keys[: last + 1] == wanted[0])[:1000]:
        if np.array_equal(keys[start : start + len(wanted)], wanted):
            return int(start)
    return None
