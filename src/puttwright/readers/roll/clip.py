"""A video file as grey pictures with their times; or one sentence why it is none.

Only films in the usual containers are opened, and only from a plain file: a list of other
places to read from is no film. The brightness alone is kept.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.readers.files import Unreadable

Grey = NDArray[np.uint8]
Tell = Callable[[int], object]

LARGEST_BYTES: Final = 2 * 1024**3
MOST_PIXELS: Final = 500 * 1920 * 1080
"""What is kept in memory, a gigabyte: two seconds at 240 pictures a second of 1920 × 1080."""
SMALLEST_PX: Final = 240
SLOWEST_FPS: Final = 50.0
ASK_BELOW_FPS: Final = 100.0
FASTEST_FPS: Final = 1000.0
FEWEST: Final = 24
_HEAD: Final = 64
_SHELF: Final = 32
_UNEVEN_SHARE: Final = 0.35
_MISSED_SHARE: Final = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Clip:
    """Pictures, each (height, width), with the time of each in seconds from the first."""

    pictures: list[Grey]
    time_s: NDArray[np.float64]
    fps: float

    @property
    def size(self) -> tuple[int, int]:
        """Width and height."""
        high, wide = self.pictures[0].shape
        return wide, high


def read_clip(path: Path, *, fps: float | None = None, tell: Tell = lambda _more: None) -> Clip:
    """The pictures in a video file.

    Parameters
    ----------
    path
        The file.
    fps
        Pictures a second that the camera took, where the file plays them slower; else the
        file is believed.
    tell
        Called with 1 after each picture.

    Raises
    ------
    Unreadable
        It is not there, no film, too long, too small, or its pictures are not evenly spaced.
    """
    _refuse_early(path)
    film = _opened(path)
    try:
        said = _said_fps(film)
        if fps is None and not said >= ASK_BELOW_FPS:
            raise Unreadable(
                f"plays at {said:.0f} pictures a second; say with --fps how many the camera took "
                "(slow motion is 120 or 240)"
            )
        pictures, played = _pictures(film, tell)
    finally:
        film.release()
    if len(pictures) < FEWEST:
        raise Unreadable(_short(len(pictures)))
    step_s = 1.0 / (fps or said)
    return Clip(pictures=pictures, time_s=step_s * _numbers(played), fps=1.0 / step_s)


def count_of(path: Path) -> int:
    """How many pictures the file says it holds, 0 where it cannot be told."""
    try:
        _refuse_early(path)
        film = _opened(path)
    except Unreadable:
        return 0
    import cv2  # noqa: PLC0415 - a large library, needed only for photos and films

    count = float(film.get(cv2.CAP_PROP_FRAME_COUNT))
    film.release()
    return int(count) if 0 < count < 1e7 else 0


def _short(count: int) -> str:
    return f"holds {count} pictures, too few for a putt; film in slow motion, a second and more"


def _refuse_early(path: Path) -> None:
    try:
        if not path.is_file():
            raise Unreadable("is a folder, not a video" if path.is_dir() else "is not there")
        size = path.stat().st_size
        with path.open("rb") as stream:
            head = stream.read(_HEAD)
    except OSError as trouble:
        raise Unreadable(
            f"cannot be opened ({(trouble.strerror or 'refused').lower()})"
        ) from trouble
    if not head:
        raise Unreadable("has no bytes in it; was it copied to the end?")
    if size > LARGEST_BYTES:
        raise Unreadable("is larger than 2 GB; cut it to the seconds around the strike")
    known = (
        head[4:8] in {b"ftyp", b"moov", b"mdat", b"wide", b"free", b"skip"}
        or (head[:4] == b"RIFF" and head[8:12] == b"AVI ")
        or head[:4] == b"\x1aE\xdf\xa3"
    )
    if not known:
        raise Unreadable("is no video; MP4, MOV, AVI and WebM are read")


def _opened(path: Path) -> Any:
    # Their warnings would stand beside our one sentence.
    os.environ.setdefault("OPENCV_FFMPEG_LOGLEVEL", "-8")
    import cv2  # noqa: PLC0415 - as above

    cv2.utils.logging.setLogLevel(cv2.utils.logging.LOG_LEVEL_SILENT)
    film = cv2.VideoCapture(str(path), cv2.CAP_FFMPEG, [cv2.CAP_PROP_N_THREADS, 1])
    if film.isOpened() and _plain(film):
        film.release()
        how = [cv2.CAP_PROP_N_THREADS, 1, cv2.CAP_PROP_CONVERT_RGB, 0]
        film = cv2.VideoCapture(str(path), cv2.CAP_FFMPEG, how)
    if not film.isOpened():
        film.release()
        raise Unreadable("is a damaged video, or of a kind that is not read; export it as MP4")
    wide, high = (film.get(key) for key in (cv2.CAP_PROP_FRAME_WIDTH, cv2.CAP_PROP_FRAME_HEIGHT))
    if min(wide, high) < SMALLEST_PX:
        film.release()
        raise Unreadable(
            f"is only {wide:.0f} × {high:.0f} pixels; send the video itself, no preview"
        )
    return film


def _plain(film: Any) -> bool:
    """Whether brightness lies there by itself, eight bits a pixel and upright: it is then taken as
    it is, and no colour is worked out only to be thrown away.
    """
    import cv2  # noqa: PLC0415 - as above

    packed = int(film.get(cv2.CAP_PROP_CODEC_PIXEL_FORMAT))
    upright = float(film.get(cv2.CAP_PROP_ORIENTATION_META)) == 0.0
    return upright and packed == cv2.VideoWriter.fourcc(*"I420")


def _said_fps(film: Any) -> float:
    import cv2  # noqa: PLC0415 - as above

    said = float(film.get(cv2.CAP_PROP_FPS))
    return said if 0.0 < said < 1e5 else 0.0


def _pictures(film: Any, tell: Tell) -> tuple[list[Grey], NDArray[np.float64]]:
    pictures: list[Grey] = []
    played: list[float] = []
    kept = 0
    for grey, time_ms in _each(film):
        kept += grey.size
        if kept > MOST_PIXELS:
            raise Unreadable(
                f"is too long to be read ({len(pictures)} pictures and more); cut it to two "
                "seconds, from just before the strike"
            )
        if pictures and grey.shape != pictures[0].shape:
            raise Unreadable("changes its size on the way; export it again as MP4")
        pictures.append(grey)
        played.append(time_ms / 1e3)
        tell(1)
    return pictures, np.array(played)


def _each(film: Any) -> Iterator[tuple[Grey, float]]:
    import cv2  # noqa: PLC0415 - as above

    wide, high = (
        int(film.get(key)) for key in (cv2.CAP_PROP_FRAME_WIDTH, cv2.CAP_PROP_FRAME_HEIGHT)
    )
    packed: Any = None
    free: list[Grey] = []
    try:
        while film.grab():
            time_ms = float(film.get(cv2.CAP_PROP_POS_MSEC))
            # Memory taken a shelf at a time comes in large pages, far quicker than by the picture.
            free = free or list(np.empty((_SHELF, high, wide), np.uint8))
            place = free.pop(0)
            # Brightness by itself goes straight to its place; what is packed is unpacked to there.
            good, picture = film.retrieve(place if packed is None else packed)
            if not good or picture is None:
                return
            if picture.ndim == 3:
                packed = picture
                grey = cv2.cvtColor(picture, cv2.COLOR_BGR2GRAY, place)
            else:
                # Some builds hand the colour on too, below the brightness.
                grey = picture[:high]
            yield np.asarray(grey, np.uint8), time_ms
    except (cv2.error, MemoryError) as trouble:
        raise Unreadable("is a damaged video; copy it from the phone again") from trouble


def _numbers(played_s: NDArray[np.float64]) -> NDArray[np.float64]:
    """Which picture of an even row each is; a missed one leaves a gap.

    Containers round times to their own ticks, so a picture may lie a little off its place.
    """
    steps = np.diff(played_s)
    usual = float(np.median(steps))
    if not usual > 0.0:
        raise Unreadable("has no times that can be used; export it again as MP4")
    # Ticks alternate: the mean of steps near the usual one is the step.
    near = steps[np.abs(steps - usual) < 0.5 * usual]
    step = float(near.mean())
    number = np.concatenate([[0.0], np.cumsum(np.maximum(np.round(steps / step), 1.0))])
    off = played_s - played_s[0] - step * number
    off -= np.median(off)
    missed = float(number[-1] + 1 - len(number)) / len(number)
    if float(np.abs(off).max()) > _UNEVEN_SHARE * step or missed > _MISSED_SHARE:
        raise Unreadable(
            "has an uneven frame rate, and a speed cannot be taken from it; film in slow motion "
            "at a fixed rate, and export it without changing its speed"
        )
    return number
