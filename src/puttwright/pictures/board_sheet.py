"""The aim board as it is printed, at its own size: markers, scale, zero line, bar to check."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from puttwright.address.board import CELLS, CHECK_BAR_MM, Board, Marker
from puttwright.pictures.annotation import arrowhead
from puttwright.pictures.drafting import UNIT_MM, Sheet
from puttwright.pictures.grounds import PRINT
from puttwright.pictures.svg import Point, element, path_data

Bits = Sequence[Sequence[bool]]
"""The cells of a marker, row by row from the top; true is white."""

_TICK_MM: Final = {10: 4.5, 5: 3.2, 1: 2.0}
_BAR_BELOW_MM: Final = 11.5


def board_sheet(board: Board, *, bits: Mapping[int, Bits]) -> str:
    """Draw the board life-size, in black and grey only: colour is the laser's.

    Parameters
    ----------
    board
        What stands where.
    bits
        The cells of each marker by its number.

    Returns
    -------
    str
        An SVG drawing as large as the paper.
    """
    sheet = Sheet(
        width=board.width_mm / UNIT_MM,
        height=board.height_mm / UNIT_MM,
        ground=PRINT,
        prefix="board",
    )
    for marker in board.markers:
        _marker(sheet, marker, board=board, bits=bits[marker.number])
    _field(sheet, board)
    for side in (1.0, -1.0):
        _scale(sheet, board, side=side)
    _check_bar(sheet, board)
    _sides(sheet, board)
    return sheet.svg(
        title="Aim board",
        description=f"Millimetre scale to {board.reach_mm:g} on either side of the zero line, "
        "six square markers for photographs, and a bar 100 mm long to check the print.",
    )


def _at(board: Board, x_mm: float, y_mm: float) -> Point:
    return ((board.width_mm / 2 + x_mm) / UNIT_MM, (board.height_mm / 2 - y_mm) / UNIT_MM)


def _marker(sheet: Sheet, marker: Marker, *, board: Board, bits: Bits) -> None:
    """A black square, and its white cells as one path so that no seams show between them."""
    corners = [_at(board, x, y) for x, y in marker.corners_mm]
    sheet.add(element("path", d=_exact(corners), fill="#000000"))
    cell = marker.side_mm / CELLS
    left, top = marker.corners_mm[0]
    data = "".join(
        _exact(_rectangle(board, left + a * cell, top - row * cell, width_mm=(b - a) * cell,
                          height_mm=cell))
        for row, cells in enumerate(bits)
        for a, b in _runs(cells)
    )  # fmt: skip
    sheet.add(element("path", d=data, fill="#ffffff"))


def _rectangle(
    board: Board, left_mm: float, top_mm: float, *, width_mm: float, height_mm: float
) -> list[Point]:
    right, foot = left_mm + width_mm, top_mm - height_mm
    spots = ((left_mm, top_mm), (right, top_mm), (right, foot), (left_mm, foot))
    return [_at(board, x, y) for x, y in spots]


def _exact(points: Sequence[Point]) -> str:
    """A closed path to a ten-thousandth: a hundredth of a unit would show in a marker's cells."""
    return "M" + "L".join(f"{x:.4f} {y:.4f}" for x, y in points) + "Z"


def _runs(cells: Sequence[bool]) -> list[tuple[int, int]]:
    """Where white runs begin and end.

    Examples
    --------
    >>> _runs([False, True, True, False, True])
    [(1, 3), (4, 5)]
    """
    edges = [False, *cells, False]
    changes = [place for place in range(len(cells) + 1) if edges[place] != edges[place + 1]]
    return list(zip(changes[::2], changes[1::2], strict=True))


def _field(sheet: Sheet, board: Board) -> None:
    """Lines from top to foot: every 50 mm faint, zero in black."""
    top = board.field_half_height_mm
    for x_mm in range(-int(board.reach_mm), int(board.reach_mm) + 1, 10):
        ends = (_at(board, x_mm, top), _at(board, x_mm, -top))
        if x_mm == 0:
            sheet.line(*ends, ink="ink", weight="line")
        elif x_mm % 50 == 0:
            sheet.line(*ends, ink="faint", weight="hair")


def _scale(sheet: Sheet, board: Board, *, side: float) -> None:
    """The scale along the top (1) or the foot (-1) of the field, ticks pointing away."""
    reach, level = int(board.reach_mm), side * board.field_half_height_mm
    sheet.line(_at(board, -reach, level), _at(board, reach, level), weight="hair")
    for x_mm in range(-reach, reach + 1):
        length = next(_TICK_MM[step] for step in _TICK_MM if x_mm % step == 0)
        foot = _at(board, x_mm, level + side * length)
        sheet.line(_at(board, x_mm, level), foot, weight="hair" if x_mm % 10 else "line")
        if x_mm % (10 if reach < 150 else 20) == 0:
            words = f"{'−' if x_mm < 0 else ''}{abs(x_mm)}"
            x, y = _at(board, x_mm, level + side * 7.2)
            sheet.text((x, y + 3.9), words, size="small", anchor="middle", bold=x_mm == 0)


def _check_bar(sheet: Sheet, board: Board) -> None:
    half = CHECK_BAR_MM / 2
    level = -board.field_half_height_mm - _BAR_BELOW_MM
    left, right = _at(board, -half, level), _at(board, half, level)
    sheet.line(left, right, weight="line")
    for end, way in ((left, -1.0), (right, 1.0)):
        sheet.line((end[0], end[1] - 6), (end[0], end[1] + 6), weight="line")
        arrowhead(sheet, end, towards=(way, 0.0), ink="ink")
    x, y = _at(board, 0.0, level)
    sheet.text((x, y + 4), "hold a ruler here: 100 mm", size="small", anchor="middle", halo=True)


def _sides(sheet: Sheet, board: Board) -> None:
    """Which way is which; at the ends of the scales, where nothing else stands."""
    level = -board.field_half_height_mm - _BAR_BELOW_MM - 1.0
    for x_mm, words, anchor in ((-1.0, "left −", "start"), (1.0, "right +", "end")):
        spot = _at(board, x_mm * board.reach_mm, level)
        sheet.text(spot, words, size="body", anchor="start" if anchor == "start" else "end",
                   bold=True)  # fmt: skip
    zero = _at(board, 0.0, board.field_half_height_mm + 12.6)
    tip = _at(board, 0.0, board.field_half_height_mm + 9.6)
    sheet.add(element("path", d=path_data([tip, (zero[0] - 5, zero[1]), (zero[0] + 5, zero[1])],
                                          closed=True), fill=PRINT.ink))  # fmt: skip
