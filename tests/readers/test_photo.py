"""A file that is no photo we take gets one sentence, before it can do harm."""

from __future__ import annotations

import io
import struct
import zlib

import numpy as np
import pytest
from PIL import Image

from puttwright.readers.files import Unreadable
from puttwright.readers.photo import photo_of, read_photo


def _saved(kind="JPEG", size=(400, 300), **how):
    out = io.BytesIO()
    Image.fromarray(_quarters(size)).save(out, kind, **how)
    return out.getvalue()


def _quarters(size):
    """Red upper left, green upper right, blue lower left, white lower right."""
    pixels = np.full((size[1], size[0], 3), 255, np.uint8)
    half_y, half_x = size[1] // 2, size[0] // 2
    pixels[:half_y, :half_x] = (255, 0, 0)
    pixels[:half_y, half_x:] = (0, 255, 0)
    pixels[half_y:, :half_x] = (0, 0, 255)
    return pixels


def _bomb(width, height):
    """A PNG head that promises more than a file of its size can hold."""

    def chunk(kind, body):
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 99))


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "has no bytes in it"),
        (b"\0\0\0\x18ftypheic" + b"\0" * 400, "is a HEIC photo"),
        (b"%PDF-1.7 " + b"x" * 400, "is no photo"),
        (b"GIF89a" + b"\0" * 400, "is no photo"),
        (_saved()[:600], "is a damaged photo"),
        (_bomb(17000, 12000), "more than the 64"),
        (_bomb(9000, 9000), "has 81 megapixels"),
        (_saved(size=(120, 90)), "is only 120 × 90 pixels"),
        (b"\xff" * (41 * 1024 * 1024), "is larger than 40 MB"),
    ],
    ids=["empty", "heic", "pdf", "gif", "cut", "bomb", "large", "tiny", "heavy"],
)
def test_what_is_no_photo_is_told_in_one_sentence(data, words):
    with pytest.raises(Unreadable) as caught:
        photo_of(data)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_the_usual_kinds_are_read(kind):
    assert photo_of(_saved(kind)).size == (400, 300)


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photo_is_turned_as_the_camera_noted(orientation):
    from PIL import ImageOps

    exif = Image.Exif()
    exif[0x0112] = orientation
    data = _saved(exif=exif.tobytes(), quality=95)
    ours = photo_of(data).pixels
    theirs = np.asarray(ImageOps.exif_transpose(Image.open(io.BytesIO(data))))
    assert np.array_equal(ours, theirs)


def test_the_focal_length_is_taken_from_the_notes():
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA405] = 27
    assert photo_of(_saved(exif=exif.tobytes())).focal_px == pytest.approx(300.0)
    assert photo_of(_saved()).focal_px is None


def test_a_missing_file_and_a_folder_are_told(tmp_path):
    for path, words in ((tmp_path / "no.jpg", "is not there"), (tmp_path, "is a folder")):
        with pytest.raises(Unreadable, match=words):
            read_photo(path)
