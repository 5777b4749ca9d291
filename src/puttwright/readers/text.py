"""Bytes to text, saying in one sentence what a wrong file is."""

from __future__ import annotations

from typing import Final

from puttwright.readers.files import Unreadable

_SAVE_AGAIN: Final = "save it again as UTF-8"
_OTHER_KINDS: Final = (
    (b"PK\x03\x04", f"is a spreadsheet or a zip, not plain text; {_SAVE_AGAIN} CSV"),
    (b"\xd0\xcf\x11\xe0", f"is a spreadsheet, not plain text; {_SAVE_AGAIN} CSV"),
    (b"%PDF", "is a PDF, not plain text"),
    (b"\xff\xfe", f"is UTF-16; {_SAVE_AGAIN}"),
    (b"\xfe\xff", f"is UTF-16; {_SAVE_AGAIN}"),
)


def text_of(data: bytes) -> str:
    r"""The text of a UTF-8 file, with or without a byte order mark.

    Raises
    ------
    Unreadable
        No bytes, UTF-16, a spreadsheet, or bytes that are not UTF-8.

    Examples
    --------
    >>> text_of(b"\xef\xbb\xbfseq")
    'seq'
    """
    if not data:
        raise Unreadable("has no bytes in it; write its header line, or delete the file")
    for start, kind in _OTHER_KINDS:
        if data.startswith(start):
            raise Unreadable(kind)
    if b"\0" in data[:1000]:
        raise Unreadable(f"is UTF-16 or not text at all; {_SAVE_AGAIN}")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as trouble:
        line = data.count(b"\n", 0, trouble.start) + 1
        raise Unreadable(f"is not UTF-8 (line {line}); {_SAVE_AGAIN}") from trouble
