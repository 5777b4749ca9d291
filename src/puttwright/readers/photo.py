"""A photo as pixels, the right way up; or one sentence why it is none.

The head of the file is read before anything is unpacked, so that a picture of
gigabytes in a file of kilobytes is refused for free. Notes that the camera left in
the file are used (which way is up, focal length) and never passed on.
"""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.readers.files import Unreadable

LARGEST_MEGAPIXELS: Final = 64.0
"""A phone's 48 and 50 megapixels pass; 200 do not, and tell nothing more of a dot."""
LARGEST_PHOTO_BYTES: Final = 40 * 1024 * 1024
SMALLEST_PX: Final = 200
_KINDS: Final = ("JPEG", "PNG", "WEBP")
_ORIENTATION: Final = 0x0112
_EXIF: Final = 0x8769
_FOCAL_35MM: Final = 0xA405
_WIDE_35MM: Final = 36.0
_PHONE_ONLY: Final = (b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"mif1", b"msf1")


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """Upright pixels, shape (height, width, 3), red first; focal length in pixels where noted."""

    pixels: NDArray[np.uint8]
    focal_px: float | None = None

    @property
    def size(self) -> tuple[int, int]:
        """Width and height."""
        return (self.pixels.shape[1], self.pixels.shape[0])


def read_photo(path: Path) -> Photo:
    """The photo in a file.

    Raises
    ------
    Unreadable
        It is not there, or it is no photo we take; the reason goes on from the file's name.
    """
    try:
        if not path.is_file():
            raise Unreadable("is a folder, not a photo" if path.is_dir() else "is not there")
        with path.open("rb") as stream:
            data = stream.read(LARGEST_PHOTO_BYTES + 1)
    except OSError as trouble:
        raise Unreadable(
            f"cannot be opened ({(trouble.strerror or 'refused').lower()})"
        ) from trouble
    return photo_of(data)


def photo_of(data: bytes) -> Photo:
    """The photo in these bytes.

    Raises
    ------
    Unreadable
        They hold no photo we take.
    """
    _refuse_early(data)
    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415 - large, only for photos

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image = Image.open(io.BytesIO(data), formats=_KINDS)
            _refuse_size(*image.size)
            notes = image.getexif()
            kind = image.format
            pixels = _jpeg(data) if kind == "JPEG" else np.asarray(image.convert("RGB"))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as trouble:
        raise Unreadable(_too_many("far too many")) from trouble
    except UnidentifiedImageError as trouble:
        raise Unreadable("is no photo; JPEG, PNG and WebP are read") from trouble
    except (OSError, ValueError, SyntaxError, MemoryError, EOFError) as trouble:
        raise Unreadable("is a damaged photo; copy it from the camera again") from trouble
    turned = _upright(pixels, int(notes.get(_ORIENTATION, 1) or 1))
    return Photo(pixels=np.ascontiguousarray(turned), focal_px=_focal_px(notes, turned.shape))


def _jpeg(data: bytes) -> NDArray[np.uint8]:
    """A JPEG in a third of the time; the library fills what is cut off with grey, so look first."""
    import cv2  # noqa: PLC0415 - a large library, needed only for photos

    if data.rfind(b"\xff\xd9") < data.rfind(b"\xff\xda"):
        raise ValueError("no end of image after the last scan")
    how = cv2.IMREAD_COLOR_RGB | cv2.IMREAD_IGNORE_ORIENTATION
    try:
        pixels: Any = cv2.imdecode(np.frombuffer(data, np.uint8), how)
    except cv2.error as trouble:
        raise ValueError("no JPEG") from trouble
    if pixels is None:
        raise ValueError("no JPEG")
    return np.asarray(pixels, np.uint8)


def _refuse_early(data: bytes) -> None:
    if not data:
        raise Unreadable("has no bytes in it; was it copied to the end?")
    if len(data) > LARGEST_PHOTO_BYTES:
        raise Unreadable(
            f"is larger than {LARGEST_PHOTO_BYTES // 1024**2} MB; send the photo as JPEG"
        )
    if data[4:8] == b"ftyp" and data[8:12] in _PHONE_ONLY:
        raise Unreadable(
            "is a HEIC photo, which is not read; set the phone's camera to JPEG "
            "(“most compatible”), or export the photo as JPEG"
        )


def _refuse_size(width: int, height: int) -> None:
    if width * height > 1e6 * LARGEST_MEGAPIXELS:
        raise Unreadable(_too_many(f"{width * height / 1e6:.0f}"))
    if min(width, height) < SMALLEST_PX:
        raise Unreadable(f"is only {width} × {height} pixels; send the photo itself, no preview")


def _too_many(megapixels: str) -> str:
    return (
        f"has {megapixels} megapixels, more than the {LARGEST_MEGAPIXELS:.0f} that are read; "
        "choose the camera's usual size"
    )


def _upright(pixels: NDArray[np.uint8], orientation: int) -> NDArray[np.uint8]:
    """Turned as the camera noted (Exif 2.3, tag 0x0112)."""
    if orientation in {5, 6, 7, 8}:
        pixels = pixels.swapaxes(0, 1)
    down = orientation in {3, 4, 7, 8}
    back = orientation in {2, 3, 6, 7}
    return pixels[:: -1 if down else 1, :: -1 if back else 1]


def _focal_px(notes: Any, shape: tuple[int, ...]) -> float | None:
    """From the 35 mm equivalent that the camera noted: the long side stands for 36 mm."""
    try:
        focal_mm = float(notes.get_ifd(_EXIF).get(_FOCAL_35MM, 0))
    except (TypeError, ValueError, ZeroDivisionError):
        return None
    return focal_mm / _WIDE_35MM * max(shape[:2]) if 8.0 <= focal_mm <= 400.0 else None
