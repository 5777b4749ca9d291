"""The aim board: what is printed where, in millimetres from the middle of the sheet.

Right and up are positive, as the board hangs. Printing and reading a photo both
go by this; nothing else says where a marker or the scale is. Markers are
AprilTags of the family 36h11 (an open standard: Wang and Olson 2016), and each size
of paper has numbers of its own, so that a photo tells which board it shows.

Within the field, where the dot is looked for, only lines that run from its top to
its foot are printed: whatever does not run through is not print.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

FAMILY: Final = "DICT_APRILTAG_36h11"
CELLS: Final = 8
"""Cells along the side of a marker, its black frame counted."""
CHECK_BAR_MM: Final = 100.0
"""Length of the bar to hold a ruler against, on a board printed at its size."""
_FIRST_ID: Final = 100
_MARGIN_MM: Final = 10.0
"""White around the markers: more than most printers leave bare, and more than a cell."""
_SCALE_BAND_MM: Final = 17.0
"""From the markers to the scale: figures, the bar to check, and white around the markers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marker:
    """One marker: its number in the family, its middle and the side of its black square [mm]."""

    number: int
    x_mm: float
    y_mm: float
    side_mm: float

    @property
    def corners_mm(self) -> tuple[tuple[float, float], ...]:
        """Its corners from the upper left, clockwise as seen, the order detectors use."""
        half = self.side_mm / 2
        turns = ((-half, half), (half, half), (half, -half), (-half, -half))
        return tuple((self.x_mm + dx, self.y_mm + dy) for dx, dy in turns)


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board on one size of paper, lying on its long side."""

    paper: str
    width_mm: float
    height_mm: float
    markers: tuple[Marker, ...]
    reach_mm: float
    field_half_width_mm: float
    field_half_height_mm: float

    @property
    def numbers(self) -> frozenset[int]:
        """The numbers of its markers."""
        return frozenset(marker.number for marker in self.markers)


def _board(paper: str, place: int, *, width_mm: float, height_mm: float, side_mm: float) -> Board:
    across = width_mm / 2 - _MARGIN_MM - side_mm / 2
    up = height_mm / 2 - _MARGIN_MM - side_mm / 2
    spots = itertools.product((up, -up), (-across, 0.0, across))
    first = _FIRST_ID + 6 * place
    return Board(
        paper=paper,
        width_mm=width_mm,
        height_mm=height_mm,
        markers=tuple(
            Marker(number=first + count, x_mm=x, y_mm=y, side_mm=side_mm)
            for count, (y, x) in enumerate(spots)
        ),
        reach_mm=10.0 * ((width_mm / 2 - 12.0) // 10.0),
        field_half_width_mm=width_mm / 2 - 10.0,
        field_half_height_mm=up - side_mm / 2 - _SCALE_BAND_MM,
    )


BOARDS: Final = {
    board.paper: board
    for board in (
        _board("A4", 0, width_mm=297.0, height_mm=210.0, side_mm=32.0),
        _board("A3", 1, width_mm=420.0, height_mm=297.0, side_mm=48.0),
        _board("letter", 2, width_mm=279.4, height_mm=215.9, side_mm=32.0),
        _board("tabloid", 3, width_mm=431.8, height_mm=279.4, side_mm=48.0),
    )
}
"""The boards by paper: ISO 216 A4 and A3, ANSI A (letter) and B (tabloid)."""


def board_with(numbers: Iterable[int], /) -> Board | None:
    """The board most of these markers belong to; ``None`` when none does.

    Examples
    --------
    >>> board_with([106, 108, 111]).paper
    'A3'
    >>> board_with([3]) is None
    True
    """
    seen = set(numbers)
    best = max(BOARDS.values(), key=lambda board: len(board.numbers & seen))
    return best if best.numbers & seen else None
