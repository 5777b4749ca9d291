"""What a drawing shows, as a table: for those who read instead of look."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A caption, the column heads and the rows, all ready to be read out."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
