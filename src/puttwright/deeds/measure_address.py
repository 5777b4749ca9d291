"""Measure a set-up from a photo and the points tapped in it; the photo is read and forgotten."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from puttwright.errors import CannotRead, NotAllowed, UserError
from puttwright.readers.files import Unreadable

if TYPE_CHECKING:
    from puttwright.address.posture import Posture
    from puttwright.address.posture_camera import Scale
    from puttwright.readers.posture_photo import Points

Read = TypeVar("Read")


class MinorsOff(UserError):
    """Photos of a minor are off; take the measures by tape, or ask the guardian and {say_so}."""

    code = "minors-off"


@dataclass(frozen=True, slots=True, kw_only=True)
class PostureAsked:
    """What a person says of the photo: who, how scaled, and what else was measured.

    ``minor`` is the golfer's; ``minor_agreed`` says that the guardian allowed the photo.
    ``level`` says that a level was looked at when the photo was taken. ``tap_sd_px`` is how
    well the points were tapped, as a phone's screen allows when left out.
    """

    handed: str
    scale: str = "ball"
    points: Sequence[str] = ()
    points_file: Path | None = None
    distance_m: float | None = None
    distance_sd_m: float = 0.1
    eye_behind_mm: float | None = None
    lie_deg: float | None = None
    minor: bool = False
    minor_agreed: bool = False
    tap_sd_px: float | None = None
    level: bool = False


def measure_address(path: Path, asked: PostureAsked) -> Posture:
    """Work out eyes, hands and shaft from a photo from down the line.

    Parameters
    ----------
    path
        The photo.
    asked
        What is known of it.

    Returns
    -------
    Posture
        Each figure with its spread.

    Raises
    ------
    CannotRead
        The photo or the points cannot be read.
    MinorsOff
        A minor's photo without the guardian's leave.
    NotAllowed
        There is no such scale.
    PointMissing, PointsTogether
        The points do not suffice.
    """
    if asked.minor and not asked.minor_agreed:
        raise MinorsOff(say_so="say so with --guardian-agrees")
    from puttwright.readers.photo import read_photo  # noqa: PLC0415 - starts numpy
    from puttwright.readers.posture_photo import read_points  # noqa: PLC0415 - as above

    _scale(asked.scale)  # what is asked wrongly is told before a photo is read
    photo = _told(path, lambda: read_photo(path))
    given = _told(path, lambda: asked_points(asked))
    points_file = asked.points_file
    if points_file is not None:
        read = _told(points_file, lambda: read_points(points_file, known=known_points()))
        given = read | given
    return _told(path, lambda: measured(given, asked, size=photo.size, focal_px=photo.focal_px))


def known_points() -> tuple[str, ...]:
    """Every point that has a name."""
    from puttwright.address import posture  # noqa: PLC0415 - starts numpy

    return (*posture.TAPPED, *posture.PLUMB, *posture.SCALE_ENDS)


def asked_points(asked: PostureAsked) -> Points:
    """The points given one by one; raises Unreadable."""
    from puttwright.readers.posture_photo import points_of  # noqa: PLC0415 - as above

    return points_of(list(asked.points), known=known_points())


def measured(
    points: Points, asked: PostureAsked, *, size: tuple[int, int], focal_px: float | None
) -> Posture:
    """The set-up that points make in a photo of that size; raises Unreadable as well."""
    from puttwright.address.posture import measure_posture  # noqa: PLC0415 - starts numpy
    from puttwright.address.posture_camera import (  # noqa: PLC0415 - as above
        BY_LEVEL_SD_DEG,
        LEVEL_SD_DEG,
        Camera,
    )
    from puttwright.readers.posture_photo import check_inside  # noqa: PLC0415 - as above

    check_inside(points, size=size)
    camera = Camera(
        size_px=size, distance_m=asked.distance_m, distance_sd_m=asked.distance_sd_m,
        focal_px=focal_px, eye_behind_mm=asked.eye_behind_mm,
        level_sd_deg=BY_LEVEL_SD_DEG if asked.level else LEVEL_SD_DEG,
    )  # fmt: skip
    return measure_posture(
        points, camera, scale=_scale(asked.scale), handed=asked.handed, lie_deg=asked.lie_deg,
        tap_sd_px=asked.tap_sd_px or max(2.0, 0.0008 * max(size)),
    )  # fmt: skip


def _told(path: Path, read: Callable[[], Read]) -> Read:
    try:
        return read()
    except Unreadable as trouble:
        raise CannotRead(path=path, reason=str(trouble)) from trouble


def _scale(text: str) -> Scale:
    """The scale a person named: ball, card, club=MM or length=MM."""
    from puttwright.address.posture import BALL_MM, CARD_MM  # noqa: PLC0415 - as above
    from puttwright.address.posture_camera import Scale  # noqa: PLC0415 - as above

    kind, _, length = text.strip().lower().partition("=")
    if kind == "ball" and not length:
        return Scale(kind="ball", length_mm=BALL_MM)
    if kind == "card" and not length:
        return Scale(kind="length", length_mm=CARD_MM)
    try:
        length_mm = float(length)
    except ValueError:
        length_mm = 0.0
    if kind not in {"club", "length"} or not 20.0 <= length_mm <= 5000.0:
        raise NotAllowed(
            what=f"The scale {text!r} is none; write ball, card, club=864 (butt to sole, mm) or "
            "length=1000 (between scale_a and scale_b, 20 to 5000 mm)"
        )
    return Scale(kind=kind, length_mm=length_mm, length_sd_mm=2.0)
