"""The markers of an aim board in a photo, and the plane they lie in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.address.board import FAMILY, Board, Marker, board_with
from puttwright.address.plane_fit import PlaneFit, fit_plane
from puttwright.readers.files import Unreadable

FEWEST_MARKERS: Final = 3
_QUICK_PX: Final = 2000
_WORST_FIT_SHARE: Final = 0.06
"""Corners further off the plane than this part of a marker: the sheet is bent, or no board."""

_INWARD: Final = [(1.0, -1.0), (-1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)]
"""From each corner of a marker along both its sides, in the order of the corners."""

Corners = dict[int, NDArray[np.float64]]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenBoard:
    """A board found in a photo: which, how it lies, and which of its markers were seen."""

    board: Board
    plane: PlaneFit
    markers: tuple[int, ...]


def find_board(grey: NDArray[np.uint8]) -> SeenBoard:
    """Find the board in a grey picture.

    First on a small copy, which finds most; what is missing is looked for in full size,
    where the others say it must be, or everywhere.

    Raises
    ------
    Unreadable
        No board, too few of its markers, two boards, or a sheet that is not flat.
    """
    seen = _quickly(grey)
    board = board_with(seen)
    if board and FEWEST_MARKERS <= len(seen) < len(board.markers):
        seen |= _around(grey, board, seen)
    elif board is None or len(seen) < FEWEST_MARKERS:
        seen = _detected(grey) or seen
        board = board_with(seen)
    return _placed(board, seen, size_px=(grey.shape[1], grey.shape[0]))


def _placed(board: Board | None, seen: Corners, *, size_px: tuple[int, int]) -> SeenBoard:
    if board is None:
        raise Unreadable(
            "shows no marker of an aim board; take the photo so that all six black squares "
            "are in it, sharp and not too small"
        )
    ours = [marker for marker in board.markers if marker.number in seen]
    if len(ours) < len(seen):
        raise Unreadable("shows markers of two boards; take one board at a time")
    if len(ours) < FEWEST_MARKERS:
        raise Unreadable(
            f"shows only {len(ours)} of the board's six markers, and at least {FEWEST_MARKERS} "
            "are needed; step back, or clear what covers them"
        )
    try:
        plane = _plane(ours, seen, size_px=size_px)
    except np.linalg.LinAlgError as trouble:
        raise Unreadable("shows the board too much from the side; stand before it") from trouble
    side_px = plane.scale_px_per_mm((ours[0].x_mm, ours[0].y_mm)) * ours[0].side_mm
    if plane.noise_px > max(_WORST_FIT_SHARE * side_px, 1.5):
        raise Unreadable(
            "shows markers that do not lie as on a flat board; lay the sheet flat on something "
            "stiff, and print it anew if it was cut or put together"
        )
    return SeenBoard(board=board, plane=plane, markers=tuple(m.number for m in ours))


def _plane(ours: Sequence[Marker], seen: Corners, *, size_px: tuple[int, int]) -> PlaneFit:
    return fit_plane(
        [corner for marker in ours for corner in marker.corners_mm],
        np.concatenate([seen[marker.number] for marker in ours]),
        size_px=size_px,
        inward=_INWARD * len(ours),
    )


def _quickly(grey: NDArray[np.uint8]) -> Corners:
    """On a copy of at most 2000 pixels, corners brought back to full size and refined there."""
    import cv2  # noqa: PLC0415 - a large library, needed only for photos

    shrink = max(grey.shape) / _QUICK_PX
    if shrink <= 1.0:
        return _detected(grey)
    size = (round(grey.shape[1] / shrink), round(grey.shape[0] / shrink))
    small = cv2.resize(grey, size, interpolation=cv2.INTER_AREA)
    ratio = np.array([grey.shape[1] / size[0], grey.shape[0] / size[1]])
    found = _detected(np.asarray(small, np.uint8), refine=False)
    return {
        number: _refined(grey, (corners + 0.5) * ratio - 0.5) for number, corners in found.items()
    }


def _around(grey: NDArray[np.uint8], board: Board, seen: Corners) -> Corners:
    """Markers that the small copy did not show, looked for on the sheet in full size."""
    ours = [marker for marker in board.markers if marker.number in seen]
    try:
        plane = _plane(ours, seen, size_px=(grey.shape[1], grey.shape[0]))
    except np.linalg.LinAlgError:
        return {}
    half = np.array([board.width_mm, board.height_mm]) / 2
    sheet = plane.to_pixels([half, -half, half * (1, -1), half * (-1, 1)])
    low = np.clip(np.floor(sheet.min(axis=0)), 0, None).astype(int)
    high = np.ceil(np.clip(sheet.max(axis=0), 0, (grey.shape[1], grey.shape[0]))).astype(int)
    if np.any(high - low < 40):
        return {}
    crop = np.ascontiguousarray(grey[low[1] : high[1], low[0] : high[0]])
    missing = board.numbers - set(seen)
    return {n: c + low for n, c in _detected(crop).items() if n in missing}


def _detected(grey: NDArray[np.uint8], *, refine: bool = True) -> Corners:
    """Markers of our boards in a picture, by number; corners from the upper left, clockwise."""
    import cv2  # noqa: PLC0415 - as above

    how: Any = cv2.aruco.DetectorParameters()
    how.minMarkerPerimeterRate = 0.02
    how.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_NONE
    family = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, FAMILY))
    corners, seen, _ = cv2.aruco.ArucoDetector(family, how).detectMarkers(grey)
    numbers: Any = seen  # None when there is none, whatever its type says
    found: Corners = {}
    for number, square in zip([] if numbers is None else numbers.ravel(), corners, strict=True):
        if board_with([int(number)]) is None:
            continue
        if int(number) in found:
            raise Unreadable("shows a marker twice; take one board at a time")
        spots = np.asarray(square, float).reshape(4, 2)
        found[int(number)] = _refined(grey, spots) if refine else spots
    return found


def _refined(grey: NDArray[np.uint8], corners: NDArray[np.float64]) -> NDArray[np.float64]:
    """Corners to a part of a pixel: where the gradients around them meet."""
    import cv2  # noqa: PLC0415 - as above

    side = float(np.min(np.linalg.norm(np.roll(corners, 1, axis=0) - corners, axis=1)))
    window = int(np.clip(side / 16, 2, 12))
    stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 40, 0.005)
    start = corners.astype(np.float32).reshape(-1, 1, 2)
    better = cv2.cornerSubPix(grey, start, (window, window), (-1, -1), stop)
    return np.asarray(better, float).reshape(4, 2)
