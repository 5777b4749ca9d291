"""What a reading was when it was written, in 64 characters: a changed bit is noticed later.

The database's own check sees a broken page, not a figure that turned into another.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any, Final

_COMMON: Final = ("kind", "seq", "build_id", "entry_key", "recorded_by")


def reading_fingerprint(
    common: Mapping[str, Any], details: Mapping[str, Any], *, recorded_at: datetime
) -> str:
    """The SHA-256 of a reading as it is written.

    What is empty does not count, so that a column added later leaves the
    fingerprint as it is. The rule never changes: the fingerprints of years
    rest on it.

    Parameters
    ----------
    common
        Its row in ``reading``.
    details
        Its row in the table of its kind.
    recorded_at
        When it was written; an aware instant.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> row = dict(kind="putts", seq=1, build_id="A", entry_key="k", recorded_by="me", extra={})
    >>> when = datetime(2026, 5, 1, tzinfo=UTC)
    >>> reading_fingerprint(row, {"distance_m": 3, "note": None}, recorded_at=when)[:8]
    '5f297cab'
    """
    said = {name: _plain(value) for name, value in details.items() if value is not None}
    whole = {
        **{name: _plain(common[name]) for name in _COMMON},
        "recorded_at": recorded_at.astimezone(UTC).isoformat(timespec="microseconds"),
        "extra": common["extra"],
        "said": said,
    }
    text = json.dumps(whole, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def _plain(value: Any) -> object:
    """A number is the same whether the database gives it back as 3 or as 3.0."""
    if isinstance(value, str | bool):
        return value
    return float(value) + 0.0  # adding zero turns -0.0 into 0.0
