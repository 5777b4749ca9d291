"""Which bright round thing rolls through the clip: looked for in pictures a quarter the size."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.readers.files import Unreadable
from puttwright.readers.roll.clip import Clip, Grey

Floats = NDArray[np.float64]

SHRINK: Final = 4
_LEAST_LEVELS: Final = 18.0
_SAMPLES: Final = 32
_BACKGROUND: Final = 0.15
"""The still picture is this quantile of the sampled ones: a ball may rest in most of them."""
_GATE: Final = 2.5
_LATELY: Final = 25
_MOST_MISSED: Final = 24
"""Pictures in a row in which the ball may not stand out before its track ends."""
_LEAST_WAY: Final = 6.0
"""A ball must get this many of its radii along."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """Where the ball is in pictures ``number``: middle and radius in pixels of the full picture."""

    number: NDArray[np.intp]
    x_px: Floats
    y_px: Floats
    radius_px: Floats


@dataclass(slots=True)
class _Track:
    rows: list[tuple[int, float, float, float]]
    missed: int = 0

    def ahead(self, number: int) -> tuple[float, float]:
        last = self.rows[-1]
        if len(self.rows) < 2:
            return last[1], last[2]
        before = self.rows[-min(4, len(self.rows))]
        share = (number - last[0]) / max(last[0] - before[0], 1)
        return last[1] + share * (last[1] - before[1]), last[2] + share * (last[2] - before[2])

    @property
    def radius(self) -> float:
        return median(row[3] for row in self.rows[-_LATELY:])

    @property
    def way(self) -> float:
        places = np.array([row[1:3] for row in self.rows])
        return float(np.hypot(*(places[-1] - places[0]))) / max(self.radius, 1e-6)


def find_ball(clip: Clip) -> Seen:
    """Find the ball that rolls.

    Raises
    ------
    Unreadable
        Nothing moves, no ball does, two do, or it goes up or down the picture.
    """
    small = _small(clip)
    still = _still(small)
    above = [_above(picture, still) for picture in small]
    level = max(_LEAST_LEVELS, 0.45 * _brightest(above))
    tracks: list[_Track] = []
    for number, picture in enumerate(above):
        _link(tracks, _spots(picture, level=level), number=number)
    moving = [each for each in tracks if each.way > _LEAST_WAY and len(each.rows) >= 8]
    if not moving:
        raise Unreadable(_none(small, still))
    moving.sort(key=lambda each: -each.way)
    if len(moving) > 1 and _beside(moving[0], moving[1]):
        raise Unreadable("shows two balls that roll; film one putt at a time")
    return _checked(moving[0])


def _above(picture: Grey, still: Grey) -> Grey:
    """How much brighter than the still picture; where it is darker, nothing."""
    import cv2  # noqa: PLC0415 - a large library, needed only for photos and films

    return np.asarray(cv2.subtract(picture, still), np.uint8)


def _none(small: list[Grey], still: Grey) -> str:
    import cv2  # noqa: PLC0415 - as above

    sampled = small[:: max(1, len(small) // _SAMPLES)]
    moves = max(float((cv2.absdiff(each, still) > _LEAST_LEVELS).mean()) for each in sampled)
    if moves < 2e-4:
        return "shows nothing that moves; was the strike cut off, or is this another clip?"
    return (
        "shows no ball that rolls; a white ball on darker ground, in full view from the side, "
        "with the camera still, is what can be read"
    )


def _small(clip: Clip) -> list[Grey]:
    import cv2  # noqa: PLC0415 - a large library, needed only for photos and films

    wide, high = clip.size
    size = (wide // SHRINK, high // SHRINK)
    return [
        np.asarray(cv2.resize(picture, size, interpolation=cv2.INTER_LINEAR), np.uint8)
        for picture in clip.pictures
    ]


def _still(small: list[Grey]) -> Grey:
    """The picture without what moves, so that even a ball that rests for long is not in it."""
    sampled = np.stack(small[:: max(1, len(small) // _SAMPLES)])
    rank = int(_BACKGROUND * (len(sampled) - 1))
    return np.asarray(np.partition(sampled, rank, axis=0)[rank])


def _brightest(above: list[Grey]) -> float:
    """How far what moves stands out where it is brightest, a spot of some size."""
    sampled = above[:: max(1, len(above) // _SAMPLES)]
    tops = [float(np.partition(picture, -30, axis=None)[-30]) for picture in sampled]
    return float(np.quantile(tops, 0.7))


def _spots(picture: Grey, *, level: float) -> list[tuple[float, float, float]]:
    """Round bright spots: middle and radius in small pixels."""
    import cv2  # noqa: PLC0415 - as above

    mask = (picture > level).astype(np.uint8)
    left, top, wide, high = cv2.boundingRect(mask)
    if not wide:
        return []
    # A margin, so that what is closed is closed as in the whole picture.
    left, top = max(left - 2, 0), max(top - 2, 0)
    mask = mask[top : top + high + 4, left : left + wide + 4]
    # The line drawn on the ball cuts it in two: close the gap.
    mask = np.asarray(cv2.morphologyEx(mask, cv2.MORPH_CLOSE, np.ones((3, 3), np.uint8)))
    count, _labels, boxes, middles = cv2.connectedComponentsWithStats(mask)
    found = []
    for label in range(1, min(count, 60)):
        _, _, across, down, area = (int(value) for value in boxes[label])
        if area < 6 or not 0.4 < across / down < 2.5 or area < 0.45 * across * down:
            continue
        x, y = left + float(middles[label][0]), top + float(middles[label][1])
        # In poor light only a part of the ball stands out: take the longer side.
        found.append((x, y, 0.5 * float(max(across, down))))
    return found


def _link(tracks: list[_Track], spots: list[tuple[float, float, float]], *, number: int) -> None:
    """Give each spot to the track that comes nearest; what is left begins one."""
    free = list(spots)
    for track in sorted(
        (t for t in tracks if t.missed < _MOST_MISSED), key=lambda each: -len(each.rows)
    ):
        (x, y), radius = track.ahead(number), track.radius
        near = [
            (float(np.hypot(spot[0] - x, spot[1] - y)), spot)
            for spot in free
            if 0.5 < (spot[2] + 0.5) / (radius + 0.5) < 2.0
        ]
        best = min(near, default=None)
        if best is None or best[0] > _GATE * max(best[1][2], 2.0):
            track.missed += 1
            continue
        free.remove(best[1])
        track.rows.append((number, *best[1]))
        track.missed = 0
    tracks.extend(_Track([(number, *spot)]) for spot in free)


def _beside(one: _Track, other: _Track) -> bool:
    """Whether two tracks run at one time and the other is as round and as large."""
    shared = {row[0] for row in one.rows} & {row[0] for row in other.rows}
    alike = 0.6 < other.radius / one.radius < 1.6
    return alike and len(shared) >= 6 and other.way > 0.25 * one.way


def _checked(track: _Track) -> Seen:
    rows = np.array(track.rows)
    x, y, radius = (SHRINK * (rows[:, column] + 0.5) - 0.5 for column in (1, 2, 3))
    across, down = abs(x[-1] - x[0]), abs(y[-1] - y[0])
    if down > across:
        raise Unreadable("lies on its side: the ball goes up or down the picture; turn it upright")
    if down > 0.35 * across:
        raise Unreadable("is tilted too far; hold the camera level, square to the putt")
    return Seen(number=rows[:, 0].astype(np.intp), x_px=x, y_px=y, radius_px=radius)
