"""A gauge study in a table: who read which part, what they read, and what is true of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

import numpy as np

from puttwright.errors import CannotRead, Fault, PackageFaults
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.header import Layout, layout_of
from puttwright.readers.tables.numbers import How, numbers
from puttwright.readers.tables.open_table import bytes_of, open_table
from puttwright.readers.tables.opened import Chunk
from puttwright.readers.tables.words import Header, closeness, words

if TYPE_CHECKING:
    import polars as pl

MOST_READINGS: Final = 20_000
_NEAR_ENOUGH: Final = 0.45


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeReadings:
    """Readings, shape (n,); ``part`` and ``appraiser`` number ``parts`` and ``appraisers``.

    ``unit`` is what the header writes behind the reading, ``header`` the header itself.
    """

    values: np.ndarray
    part: np.ndarray
    appraiser: np.ndarray
    reference: np.ndarray | None
    parts: tuple[str, ...]
    appraisers: tuple[str, ...]
    unit: str | None
    header: str


def read_gauge(path: Path) -> GaugeReadings:
    """Read a study; only the reading's column must be there.

    Raises
    ------
    CannotRead
        It is no table, or has no column of readings.
    PackageFaults
        Every cell that should be a number and is none.
    """
    try:
        opened = open_table(bytes_of(path))
        layout = layout_of(opened)
        frame, rows = _together(list(opened.chunks(layout.below, len(layout.names))))
    except Unreadable as trouble:
        raise CannotRead(path=path, reason=str(trouble)) from trouble
    places = columns_meant(layout.names)
    if "reading" not in places:
        reason = "has no column that says it holds readings; call it reading, in mm for instance"
        raise CannotRead(path=path, reason=reason)
    return _readings(frame, rows, layout=layout, places=places, table=path.name)


def columns_meant(names: Sequence[str]) -> dict[str, int]:
    """The place of each column of a study by what its header means, the closest first.

    Examples
    --------
    >>> columns_meant(["Operator", "Board mark", "Dot reading (mm)"])
    {'appraiser': 0, 'part': 1, 'reading': 2}
    """
    near = [
        (-max(closeness(Header(name), phrase) for phrase in phrases), place, meant)
        for place, name in enumerate(names)
        for meant, phrases in words()["gauge"].items()
    ]
    found: dict[str, int] = {}
    for away, place, meant in sorted(near):
        if -away >= _NEAR_ENOUGH and meant not in found and place not in found.values():
            found[meant] = place
    return found


def _together(chunks: Sequence[Chunk]) -> tuple[pl.DataFrame, pl.Series]:
    import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

    odd = [each for chunk in chunks for each in chunk.odd]
    if odd:
        raise Unreadable(f"row {odd[0].row} {odd[0].why}")
    if not chunks or sum(len(chunk.rows) for chunk in chunks) > MOST_READINGS:
        raise Unreadable("holds no readings" if not chunks else "holds too many readings")
    frame = pl.concat([chunk.frame for chunk in chunks])
    return frame, pl.concat([chunk.rows for chunk in chunks])


def _readings(
    frame: pl.DataFrame, rows: pl.Series, *, layout: Layout, places: Mapping[str, int], table: str
) -> GaugeReadings:
    faults: list[Fault] = []

    def column(meant: str) -> np.ndarray | None:
        if meant not in places:
            return None
        cells = frame[str(places[meant])]
        values, wrong = numbers(cells, How(comma=_decimal_comma(cells)))
        gaps = [(i, "is empty") for i in values.is_null().arg_true() if i not in dict(wrong)]
        name = layout.names[places[meant]]
        faults.extend(Fault(table, rows[i], name, why) for i, why in sorted(wrong + gaps)[:20])
        return values.to_numpy()

    values, reference = column("reading"), column("reference")
    if faults or values is None:
        raise PackageFaults(faults=faults)
    part, parts = _numbered(frame, places.get("part"), apart=reference)
    appraiser, appraisers = _numbered(frame, places.get("appraiser"))
    header = layout.names[places["reading"]]
    unit = Header(header).unit or layout.units[places["reading"]]
    return GaugeReadings(
        values=values, part=part, appraiser=appraiser, reference=reference, parts=parts,
        appraisers=appraisers, unit=unit, header=header,
    )  # fmt: skip


def _decimal_comma(cells: pl.Series) -> bool:
    return bool(cells.fill_null("").str.contains(r"^\s*[-+−]?\d*,\d+").any())


def _numbered(
    frame: pl.DataFrame, place: int | None, *, apart: np.ndarray | None = None
) -> tuple[np.ndarray, tuple[str, ...]]:
    """Labels to numbers in the order they come; without labels, references tell parts apart."""
    if place is not None:
        labels = [cell.strip() or "?" for cell in frame[str(place)].fill_null("")]
    elif apart is not None:
        labels = [f"{value:g}" for value in apart]
    else:
        labels = ["all"] * len(frame)
    order = {label: number for number, label in enumerate(dict.fromkeys(labels))}
    return np.array([order[label] for label in labels], dtype=np.int64), tuple(order)
