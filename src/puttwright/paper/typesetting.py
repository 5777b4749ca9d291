"""The typesetter: a template and plain data in, the bytes of a PDF out.

Data reach the template as JSON, never as markup, so no label can become code.
Only our own type is used and the date is given, so the same data set the same bytes.
"""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Mapping
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any, Final, Literal

from puttwright.fitting.phrases import joined

Sheet = Literal["a4", "us-letter"]

_HERE: Final = Path(__file__).resolve().parent
_TEMPLATES: Final = _HERE / "templates"
_FONTS: Final = _HERE / "fonts"
STANDARD: Final = "ua-1"
"""PDF/UA-1: tagged, titled, and every picture with words for those who cannot see it."""


def day_of(text: str, /) -> date:
    """The day an ISO 8601 text names; a fixed day where it names none, so bytes stay the same.

    Examples
    --------
    >>> day_of("2026-05-14T09:30:00")
    datetime.date(2026, 5, 14)
    """
    try:
        return date.fromisoformat(text[:10])
    except ValueError:
        return date(1970, 1, 1)


def typeset(template: str, data: Mapping[str, object], *, day: date, sheet: Sheet = "a4") -> bytes:
    """Set a template of this folder.

    Parameters
    ----------
    template
        Its name without ending, ``report`` for instance.
    data
        What JSON can hold; the template reads it as ``data``.
    day
        Written into the document as its date.
    sheet
        ``a4`` or ``us-letter``.

    Returns
    -------
    bytes
        A PDF/UA-1 file, the same for the same input.
    """
    import typst  # noqa: PLC0415 - a large library, needed only when something is printed

    job: dict[str, Any] = {
        "input": str(_TEMPLATES / f"{template}.typ"),
        "root": str(_TEMPLATES),
        "font_paths": [str(_FONTS)],
        "format": "pdf",
        "sys_inputs": {"data": json.dumps(_printable(data), ensure_ascii=False), "sheet": sheet},
        "timestamp": datetime(day.year, day.month, day.day, 12, tzinfo=UTC),
    }
    for looser in _ATTEMPTS[:-1]:
        try:
            return bytes(typst.compile(**job, **looser))
        except typst.TypstError:
            continue
    return bytes(typst.compile(**job, **_ATTEMPTS[-1]))


_ATTEMPTS: Final[tuple[dict[str, Any], ...]] = (
    {"ignore_system_fonts": True, "pdf_standards": [STANDARD]},
    # A name in a script that our type lacks: the machine's own type has to help,
    # and where it cannot, an empty box is better than no sheet.
    {"ignore_system_fonts": False, "pdf_standards": [STANDARD]},
    {"ignore_system_fonts": False, "pdf_standards": []},
)


def _printable(value: object) -> object:
    """The same data, figures joined to their units, without characters that no type can show."""
    if isinstance(value, str):
        seen = (letter for letter in value if unicodedata.category(letter) not in _UNSEEN)
        return joined("".join(seen))
    if isinstance(value, Mapping):
        return {name: _printable(each) for name, each in value.items()}
    if isinstance(value, list | tuple):
        return [_printable(each) for each in value]
    return value


_UNSEEN: Final = frozenset({"Cc", "Cs", "Co", "Cn"})
