"""A small picture of the board in a photo, the places that could be the dot numbered on it."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.readers.board_photo import BoardReading
from puttwright.readers.photo import Photo

_LONG_SIDE_PX: Final = 1100
_INK: Final = (189, 58, 27)


@dataclass(frozen=True, slots=True, kw_only=True)
class TapPicture:
    """The picture as a JPEG, its size, where it was cut out, and the reading it belongs to."""

    jpeg: bytes
    size: tuple[int, int]
    low_px: tuple[int, int]
    ratio: float
    reading: BoardReading

    def in_photo(self, *, x_px: float, y_px: float) -> tuple[float, float]:
        """A pixel of the picture as one of the upright photo."""
        low_x, low_y = self.low_px
        return (
            (x_px + 0.5) / self.ratio + low_x - 0.5,
            (y_px + 0.5) / self.ratio + low_y - 0.5,
        )


def tap_picture(photo: Photo, reading: BoardReading) -> TapPicture:
    """The board cut out of the photo, with a numbered ring around each place, without notes.

    Numbers are those of ``reading.spots``, from 1.
    """
    from PIL import Image, ImageDraw  # noqa: PLC0415 - a large library, needed only here

    low, high = _board_box(photo, reading)
    image = Image.fromarray(photo.pixels[low[1] : high[1], low[0] : high[0]])
    ratio = min(1.0, _LONG_SIDE_PX / max(image.size))
    image = image.resize((max(1, round(image.width * ratio)), max(1, round(image.height * ratio))))
    pen = ImageDraw.Draw(image)
    places = reading.seen.plane.to_pixels([(s.x_mm, s.y_mm) for s in reading.spots] or [(0.0, 0.0)])
    for number, _spot in enumerate(reading.spots, start=1):
        x, y = (places[number - 1] + 0.5 - low) * ratio
        pen.ellipse((x - 14, y - 14, x + 14, y + 14), outline=_INK, width=3)
        pen.text((x + 18, y - 18), str(number), fill=_INK, font_size=22)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=85)
    return TapPicture(
        jpeg=out.getvalue(), size=image.size, low_px=(int(low[0]), int(low[1])), ratio=ratio,
        reading=reading,
    )  # fmt: skip


def _board_box(photo: Photo, reading: BoardReading) -> tuple[np.ndarray, np.ndarray]:
    board = reading.seen.board
    half = np.array([board.width_mm, board.height_mm]) / 2
    corners = reading.seen.plane.to_pixels([half, -half, half * (1, -1), half * (-1, 1)])
    size = np.array(photo.size)
    low = np.clip(np.floor(corners.min(axis=0)).astype(int) - 10, 0, size - 1)
    high = np.clip(np.ceil(corners.max(axis=0)).astype(int) + 10, low + 1, size)
    return low, high
