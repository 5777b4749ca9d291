"""A photo of the aim board to a reading: where the dot lies, how sure, or why not.

No reading is made up: a photo without a dot, or with two that could be it, gives
none and says so, with the places a person may choose from.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.address.board import CHECK_BAR_MM, Board
from puttwright.readers.board_markers import SeenBoard, find_board
from puttwright.readers.files import Unreadable
from puttwright.readers.laser_dot import Spot, find_spots
from puttwright.readers.photo import Photo

COARSEST_PX_PER_MM: Final = 0.4
_FIELD_PX_PER_MM: Final = (1.5, 3.5)
_RIVAL_SHARE: Final = 0.12
"""A second spot with this part of the first one's light could be the dot."""
_PRINT_UNCHECKED_SHARE: Final = 0.005
"""How far off its size a print nobody held a ruler to may be; common practice, no source."""
_RULER_SD_MM: Final = 0.25
_TAP_SD_MM: Final = 1.0
_TAP_REACH_MM: Final = 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardReading:
    """What a photo of the board says.

    ``reading_mm`` is the dot from the zero line, right positive, ``None`` when there is
    ``doubt``, which says why. ``spots`` are all places that could be it, brightest first.
    """

    paper: str
    markers: int
    reading_mm: float | None
    reading_sd_mm: float | None
    colour: str | None
    doubt: str
    spots: tuple[Spot, ...]
    seen: SeenBoard


def read_board(
    photo: Photo, *, colour: str = "any", bar_mm: float | None = None,
    tap_px: tuple[float, float] | None = None,
) -> BoardReading:  # fmt: skip
    """Read the dot on the board in a photo.

    Parameters
    ----------
    photo
        Upright.
    colour
        ``red``, ``green`` or ``any``.
    bar_mm
        Measured length of the bar that should be 100 mm; none when it was not measured.
    tap_px
        Where a person says the dot is, in pixels of the upright photo.

    Returns
    -------
    BoardReading
        With a reading or a doubt.

    Raises
    ------
    Unreadable
        No board can be made out.
    """
    import cv2  # noqa: PLC0415 - a large library, needed only for photos

    grey = cv2.cvtColor(photo.pixels, cv2.COLOR_RGB2GRAY)
    seen = find_board(np.asarray(grey, np.uint8))
    scale = seen.plane.scale_px_per_mm((0.0, 0.0))
    if scale < COARSEST_PX_PER_MM:
        raise Unreadable("shows the board too small; go nearer, or use the camera's full size")
    flat, px_per_mm = _laid_flat(photo.pixels, seen, scale=scale)
    spots = tuple(s for s in find_spots(flat, px_per_mm=px_per_mm, colour=colour) if s.round_enough)
    spot, doubt = _the_dot(spots, flat) if tap_px is None else _tapped(seen, spots, tap_px=tap_px)
    return _reading(seen, spots, spot=spot, doubt=doubt, bar_mm=bar_mm)


def settle(
    reading: BoardReading, *, tap_px: tuple[float, float], bar_mm: float | None = None
) -> BoardReading:
    """A doubtful reading, settled by a person's tap; the photo itself is not needed again.

    Parameters
    ----------
    reading
        With a doubt.
    tap_px
        Where the dot is, in pixels of the upright photo.
    bar_mm
        As for :func:`read_board`.
    """
    spot, doubt = _tapped(reading.seen, reading.spots, tap_px=tap_px)
    return _reading(reading.seen, reading.spots, spot=spot, doubt=doubt, bar_mm=bar_mm)


def _reading(
    seen: SeenBoard, spots: tuple[Spot, ...], *, spot: Spot | None, doubt: str,
    bar_mm: float | None,
) -> BoardReading:  # fmt: skip
    stretch = (bar_mm or CHECK_BAR_MM) / CHECK_BAR_MM
    scale = seen.plane.scale_px_per_mm((0.0, 0.0))
    sd = _sd_mm(seen, spot, scale=scale, checked=bar_mm is not None) if spot else None
    return BoardReading(
        paper=seen.board.paper, markers=len(seen.markers),
        reading_mm=spot.x_mm * stretch if spot and not doubt else None,
        reading_sd_mm=sd * stretch if sd and not doubt else None,
        colour=spot.colour if spot and not doubt else None,
        doubt=doubt, spots=spots, seen=seen,
    )  # fmt: skip


def _laid_flat(
    pixels: NDArray[np.uint8], seen: SeenBoard, *, scale: float
) -> tuple[NDArray[np.uint8], float]:
    """The field as if looked at squarely, and its pixels a millimetre."""
    import cv2  # noqa: PLC0415 - as above

    px_per_mm = float(np.clip(scale, *_FIELD_PX_PER_MM))
    board = seen.board
    width = 2 * round(board.field_half_width_mm * px_per_mm)
    height = 2 * round(board.field_half_height_mm * px_per_mm)
    source_x, source_y = _grid(seen, size=(width, height), px_per_mm=px_per_mm)
    low = np.floor([source_x.min(), source_y.min()]).astype(int) - 4
    low = np.clip(low, 0, [pixels.shape[1] - 1, pixels.shape[0] - 1])
    high = np.ceil([source_x.max(), source_y.max()]).astype(int) + 5
    view = pixels[low[1] : max(high[1], low[1] + 1), low[0] : max(high[0], low[0] + 1)]
    shrink = int(scale / px_per_mm)
    if shrink > 1:
        size = (max(1, view.shape[1] // shrink), max(1, view.shape[0] // shrink))
        ratio = (size[0] / view.shape[1], size[1] / view.shape[0])
        view = np.asarray(cv2.resize(view, size, interpolation=cv2.INTER_AREA), np.uint8)
    else:
        ratio = (1.0, 1.0)
    flat = cv2.remap(
        np.ascontiguousarray(view),
        ((source_x - low[0] + 0.5) * ratio[0] - 0.5).astype(np.float32),
        ((source_y - low[1] + 0.5) * ratio[1] - 0.5).astype(np.float32),
        cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE,
    )  # fmt: skip
    return np.asarray(flat, np.uint8), px_per_mm


def _grid(
    seen: SeenBoard, *, size: tuple[int, int], px_per_mm: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Where each pixel of the flat field comes from: exact every 16th, drawn out between."""
    import cv2  # noqa: PLC0415 - as above

    step = 16
    columns, rows = size[0] // step + 2, size[1] // step + 2
    x, y = np.meshgrid(np.arange(columns) * step, np.arange(rows) * step)
    mm = np.column_stack([
        ((x + 0.5 - size[0] / 2) / px_per_mm).ravel(), ((size[1] / 2 - y - 0.5) / px_per_mm).ravel()
    ])  # fmt: skip
    exact = seen.plane.to_pixels(mm).reshape(rows, columns, 2).astype(np.float32)
    fine_x, fine_y = np.meshgrid(
        np.arange(size[0], dtype=np.float32) / step, np.arange(size[1], dtype=np.float32) / step
    )
    between = np.asarray(cv2.remap(exact, fine_x, fine_y, cv2.INTER_LINEAR), np.float64)
    return between[..., 0], between[..., 1]


def _the_dot(spots: tuple[Spot, ...], flat: NDArray[np.uint8]) -> tuple[Spot | None, str]:
    """The one spot that is the dot, or why none is."""
    if not spots:
        burnt = float(np.mean(flat.min(axis=2) >= 250))
        if burnt > 0.2:
            return None, "no dot found, and the paper is burnt to white; expose darker"
        return None, "no dot found on the board's field"
    first = spots[0]
    if len(spots) > 1 and spots[1].light >= _RIVAL_SHARE * first.light:
        return first, (
            f"{_count(spots)} spots could be the dot; cover the reflection, or say which it is"
        )
    if first.at_edge:
        return first, "the dot is cut by the edge of the field; move the board"
    return first, ""


def _count(spots: tuple[Spot, ...]) -> str:
    rivals = sum(spot.light >= _RIVAL_SHARE * spots[0].light for spot in spots)
    return {2: "two", 3: "three", 4: "four"}.get(rivals, str(rivals))


def _tapped(
    seen: SeenBoard, spots: tuple[Spot, ...], *, tap_px: tuple[float, float]
) -> tuple[Spot | None, str]:
    """The spot nearest to where a person tapped; the tap itself where there is none near."""
    x, y = (float(value) for value in seen.plane.to_mm([tap_px])[0])
    board: Board = seen.board
    if abs(x) > board.width_mm / 2 or abs(y) > board.height_mm / 2:
        return None, "the tap lies beside the board"
    near = [s for s in spots if np.hypot(s.x_mm - x, s.y_mm - y) <= _TAP_REACH_MM]
    if near:
        return min(near, key=lambda s: float(np.hypot(s.x_mm - x, s.y_mm - y))), ""
    tap = Spot(
        x_mm=x, y_mm=y, sd_mm=_TAP_SD_MM, width_mm=0.0, streak=1.0, colour="tapped", light=0.0
    )
    return tap, ""


def _sd_mm(seen: SeenBoard, spot: Spot, *, scale: float, checked: bool) -> float:
    """Dot, plane and print together; a coarse photo cannot tell less than a part of its pixel."""
    across, _ = seen.plane.sd_mm(seen.plane.to_pixels([(spot.x_mm, spot.y_mm)])[0])
    off = _RULER_SD_MM / CHECK_BAR_MM if checked else _PRINT_UNCHECKED_SHARE
    return float(np.sqrt(spot.sd_mm**2 + across**2 + (off * spot.x_mm) ** 2 + (0.08 / scale) ** 2))
