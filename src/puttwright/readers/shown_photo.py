"""A photo to be shown and tapped on: upright, small, without the camera's notes."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Final

from puttwright.readers.photo import Photo

LONG_SIDE_PX: Final = 2000
"""At three metres a pixel is then a millimetre or so; nobody taps finer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPhoto:
    """A JPEG of the pixels alone; size and focal length [px] are of this picture."""

    jpeg: bytes
    size: tuple[int, int]
    focal_px: float | None


def shown_photo(photo: Photo) -> ShownPhoto:
    """The photo as it is shown; nothing but its pixels is in it.

    Examples
    --------
    >>> import numpy as np
    >>> photo = Photo(pixels=np.zeros((4000, 3000, 3), np.uint8), focal_px=2900.0)
    >>> shown = shown_photo(photo)
    >>> shown.size, shown.focal_px
    ((1500, 2000), 1450.0)
    """
    from PIL import Image  # noqa: PLC0415 - a large library, needed only for photos

    image = Image.fromarray(photo.pixels)
    image.thumbnail((LONG_SIDE_PX, LONG_SIDE_PX))
    out = io.BytesIO()
    image.save(out, "JPEG", quality=88)
    ratio = max(image.size) / max(photo.size)
    return ShownPhoto(
        jpeg=out.getvalue(),
        size=image.size,
        focal_px=None if photo.focal_px is None else photo.focal_px * ratio,
    )
