"""Read the laser's dot off photos of the aim board, one result a photo, none of them lost."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from puttwright.address.laser import angle_sd_rad, face_angle_rad
from puttwright.deeds.write_whole import write_whole
from puttwright.errors import OutOfRange
from puttwright.readers.files import Unreadable

if TYPE_CHECKING:
    from puttwright.readers.tap_picture import TapPicture

Show = Callable[[Path, "TapPicture"], str]
"""What is done with the small picture of a doubtful photo; gives the name it then has."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSetup:
    """How the board stood: distance from where the light leaves, and what was measured of it."""

    distance_m: float
    distance_sd_m: float = 0.01
    mirror: bool = False
    laser: str = "any"
    bar_mm: float | None = None
    zero_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A place that could be the dot: its number in the picture, its reading, where to tap."""

    number: int
    reading_mm: float
    colour: str
    tap_px: tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoReading:
    """What one photo gave: a reading with its angle, or a doubt, or why it could not be read.

    ``trouble`` says that the file is no photo of a board, ``doubt`` that the board is
    there and the dot is not clear. In both cases there is no reading.
    """

    photo: str
    reading_mm: float | None = None
    reading_sd_mm: float | None = None
    face_deg: float | None = None
    face_sd_deg: float | None = None
    colour: str | None = None
    paper: str | None = None
    markers: int = 0
    doubt: str = ""
    trouble: str = ""
    candidates: tuple[Candidate, ...] = ()
    picture: str = ""


def measure_board(
    photos: Sequence[Path], setup: BoardSetup, *, tap_px: tuple[float, float] | None = None,
    show: Show | None = None, tell: Callable[[int], object] = lambda _more: None,
) -> tuple[PhotoReading, ...]:  # fmt: skip
    """Read the dot off each photo.

    Parameters
    ----------
    photos
        Files, in the order taken.
    setup
        The same for all of them.
    tap_px
        Where the dot is, in pixels of the upright photo; for a single photo.
    show
        Called with each doubtful photo and a small picture of it; none is made without it.
    tell
        Called with 1 after each photo.

    Returns
    -------
    tuple of PhotoReading
        One a photo, in the same order.

    Raises
    ------
    OutOfRange
        A distance or bar that cannot be.
    CannotWrite
        A picture could not be written.
    """
    _check(setup)
    found = []
    for result in _each(photos, setup, tap_px=tap_px, show=show):
        found.append(result)
        tell(1)
    return tuple(found)


def _check(setup: BoardSetup) -> None:
    if not 0.2 <= setup.distance_m <= 20.0:
        raise OutOfRange(name="distance", value=setup.distance_m, low=0.2, high=20, unit="m")
    if setup.bar_mm is not None and not 60.0 <= setup.bar_mm <= 150.0:
        raise OutOfRange(
            name="the bar of 100 mm", value=setup.bar_mm, low=60, high=150, unit="mm",
            why="a print further off its size is another paper's; print it anew",
        )  # fmt: skip


def _each(
    photos: Sequence[Path], setup: BoardSetup, *, tap_px: tuple[float, float] | None,
    show: Show | None,
) -> Iterator[PhotoReading]:  # fmt: skip
    from puttwright.readers.board_photo import read_board  # noqa: PLC0415 - starts numpy
    from puttwright.readers.photo import read_photo  # noqa: PLC0415 - as above

    for path in photos:
        try:
            photo = read_photo(path)
            read = read_board(photo, colour=setup.laser, bar_mm=setup.bar_mm, tap_px=tap_px)
        except Unreadable as trouble:
            yield PhotoReading(photo=str(path), trouble=str(trouble))
            continue
        picture = ""
        if read.doubt and show is not None:
            picture = show(path, _tap_picture(photo, read))
        yield _told(str(path), read, setup=setup, picture=picture)


def _tap_picture(photo: Any, read: Any) -> TapPicture:
    from puttwright.readers.tap_picture import tap_picture  # noqa: PLC0415 - as above

    return tap_picture(photo, read)


def into_folder(folder: Path) -> Show:
    """Small pictures of doubtful photos go into a folder."""

    def show(path: Path, picture: TapPicture) -> str:
        target = folder / f"{path.stem}-which.jpg"
        write_whole(target, picture.jpeg)
        return str(target)

    return show


def settle_board(
    picture: TapPicture, setup: BoardSetup, *, tap_px: tuple[float, float]
) -> PhotoReading:
    """The reading of a doubtful photo in whose small picture a person tapped the dot.

    Parameters
    ----------
    picture, setup
        The picture, and how its board stood.
    tap_px
        Where it was tapped, in the picture's pixels.
    """
    from puttwright.readers.board_photo import settle  # noqa: PLC0415 - starts numpy

    x_px, y_px = tap_px
    place = picture.in_photo(x_px=x_px, y_px=y_px)
    read = settle(picture.reading, tap_px=place, bar_mm=setup.bar_mm)
    return _told("", read, setup=setup, picture="")


def _told(photo: str, read: Any, *, setup: BoardSetup, picture: str) -> PhotoReading:
    common: dict[str, Any] = {
        "photo": photo, "paper": read.paper, "markers": read.markers, "doubt": read.doubt,
        "picture": picture,
    }  # fmt: skip
    if read.reading_mm is None:
        return PhotoReading(candidates=_candidates(read, setup=setup), **common)
    reading_mm = read.reading_mm - setup.zero_mm
    face, sd = _face_deg(reading_mm, sd_mm=read.reading_sd_mm, setup=setup)
    return PhotoReading(
        reading_mm=reading_mm, reading_sd_mm=read.reading_sd_mm, face_deg=face, face_sd_deg=sd,
        colour=read.colour, **common,
    )  # fmt: skip


def _face_deg(reading_mm: float, *, sd_mm: float, setup: BoardSetup) -> tuple[float, float]:
    """Face direction and its spread; an error of the distance stretches every reading alike."""
    how: dict[str, Any] = {"board_distance_m": setup.distance_m, "mirror": setup.mirror}
    face = face_angle_rad(reading_m=reading_mm / 1000, **how)
    stretch = abs(reading_mm) / 1000 * setup.distance_sd_m / setup.distance_m
    sd = angle_sd_rad(reading_sd_m=math.hypot(sd_mm / 1000, stretch), **how)
    return math.degrees(face), math.degrees(sd)


def _candidates(read: Any, *, setup: BoardSetup) -> tuple[Candidate, ...]:
    if not read.spots:
        return ()
    stretch = (setup.bar_mm or 100.0) / 100.0
    places = read.seen.plane.to_pixels([(spot.x_mm, spot.y_mm) for spot in read.spots])
    return tuple(
        Candidate(
            number=number, reading_mm=spot.x_mm * stretch - setup.zero_mm, colour=spot.colour,
            tap_px=(round(float(x)), round(float(y))),
        )
        for number, (spot, (x, y)) in enumerate(zip(read.spots, places, strict=True), start=1)
    )  # fmt: skip
