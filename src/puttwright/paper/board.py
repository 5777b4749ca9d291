"""The aim board to print: the drawing at its own size, the words beside the markers."""

from __future__ import annotations

from typing import Final

from puttwright.address.board import BOARDS, FAMILY, Board
from puttwright.errors import NotFound
from puttwright.paper.typesetting import day_of, typeset
from puttwright.pictures.board_sheet import Bits, board_sheet

LASER: Final = (
    "Laser class 1 or 2 only. Never toward eyes, nobody's, and never at a face or a window. "
    "Off a mirror on a lofted face the beam comes back and up, 6° for 3° of loft: nobody stands "
    "or bends where it can go, before or behind the board. Children and animals are kept away "
    "while it is on. Local rules on lasers come first."
)
"""The caution that stands wherever a laser is used."""
HANG: Final = (
    "Print at 100 %, not “fit to page”. Fix it flat to something stiff, upright, the zero line "
    "plumb and on the target line, the sheet square to it. Measure the distance from where the "
    "light leaves: the laser's exit, or the mirror."
)
READ: Final = (
    "Right is right as seen from the ball, for every golfer. For a photo: all six squares in it, "
    "sharp, no flash, no lamp mirrored on the sheet. Then: puttwright measure board PHOTO "
    "--distance-m D"
)
CHECK: Final = (
    "Hold a steel ruler to the bar. If it is not 100 mm long, say what it is with --bar-mm, "
    "or print again. If one end of the bar cannot be read to half a millimetre, the readings "
    "cannot either."
)


def render_board(paper: str) -> bytes:
    """The board on a size of paper.

    Parameters
    ----------
    paper
        ``A4``, ``A3``, ``letter`` or ``tabloid``.

    Returns
    -------
    bytes
        A PDF of one page of that size, the same each time.

    Raises
    ------
    NotFound
        We have no board for that paper.
    """
    board = board_on(paper)
    return typeset("board", board_data(board), day=day_of(""))


def board_on(paper: str) -> Board:
    """The board on a size of paper, however the name is written."""
    found = {name.lower(): board for name, board in BOARDS.items()}.get(paper.strip().lower())
    if found is None:
        raise NotFound(what="board", name=paper, known=f"; there are {', '.join(BOARDS)}")
    return found


def board_data(board: Board) -> dict[str, object]:
    """What the template sets: the drawing, and four texts where they have room."""
    marker = board.markers[0]
    return {
        "paper": board.paper,
        "width_mm": board.width_mm,
        "height_mm": board.height_mm,
        "side_mm": marker.side_mm,
        "left_mm": board.width_mm / 2 + marker.x_mm,
        "drawing": board_sheet(board, bits={m.number: _bits(m.number) for m in board.markers}),
        "laser": LASER,
        "hang": HANG,
        "read": READ,
        "check": CHECK,
    }


def _bits(number: int) -> Bits:
    """The cells of a marker, as the library that will look for it prints it."""
    import cv2  # noqa: PLC0415 - a large library, needed only for the markers

    family = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, FAMILY))
    image = family.generateImageMarker(number, family.markerSize + 2)
    return [[bool(cell) for cell in row] for row in image]
