"""A putt from the side: hop, skid and true roll, and how ball speed and turning come together."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from puttwright.fitting.phrases import figure
from puttwright.pictures.annotation import arrowhead, digits_of, dimension, measured_scale, ticks
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import in_spoken, measure, spoken_unit, worded
from puttwright.pictures.svg import Point
from puttwright.pictures.tables import Table

_GROUND: Final = 56.0
_BALL: Final = 12.0
_CURVES: Final = 140.0
_FOOT: Final = 48.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RollTrack:
    """A putt sampled along its way.

    ``distance_m`` rises from 0; ``speed_mps`` is the ball's, ``surface_mps`` its
    spin times its radius (topspin positive). ``hop_m`` is where it landed for the
    last time, ``skid_m`` where true roll began, both from the start.
    """

    distance_m: tuple[float, ...]
    speed_mps: tuple[float, ...]
    surface_mps: tuple[float, ...]
    hop_m: float
    skid_m: float
    title: str = "Skid and roll"

    @property
    def stop_m(self) -> float:
        """Where the track ends."""
        return self.distance_m[-1] if self.distance_m else 0.0


def skid_and_roll(
    track: RollTrack,
    *,
    ground: Ground,
    prefix: str = "roll",
    width: float = 720.0,
    height: float = 308.0,
) -> str:
    """Draw the putt from the side above the curves of its speed and its turning.

    The ball is drawn larger than to scale and the hop higher; lengths along the
    green are to scale. A ``height`` from 240 up leaves room for the curves.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> track = RollTrack(
    ...     distance_m=(0, 0.5, 3),
    ...     speed_mps=(2, 1.5, 0),
    ...     surface_mps=(0, 1.5, 0),
    ...     hop_m=0.05,
    ...     skid_m=0.5,
    ... )
    >>> "skid" in skid_and_roll(track, ground=PAPER)
    True
    """
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    left, right = 46.0, width - 24.0
    span = max(track.stop_m, 1e-6)

    def place(distance_m: float) -> float:
        return left + distance_m / span * (right - left)

    _curves(sheet, track, place=place, ends=(left, right))
    _side_view(sheet, track, place=place)
    _stages(sheet, track, place=place)
    return sheet.svg(title=track.title, description=_told(track))


def _side_view(sheet: Sheet, track: RollTrack, *, place: Callable[[float], float]) -> None:
    start, stop = place(0.0), place(track.stop_m)
    hop, skid = place(track.hop_m), place(track.skid_m)
    sheet.line((start - 20, _GROUND), (stop + 16, _GROUND), weight="bold")
    if skid - hop > 1.0:
        band = [(hop, _GROUND), (skid, _GROUND), (skid, _GROUND + 10), (hop, _GROUND + 10)]
        sheet.hatch(band, ink="ink", gap=4.5)
    _flight(sheet, start=start, end=hop)
    for where_m in _stations(track, place=place):
        _ball(sheet, track, where_m=where_m, place=place)


def _flight(sheet: Sheet, *, start: float, end: float) -> None:
    """The hop, higher than it was, so that it can be seen."""
    if end - start < 6.0:
        return
    rise = min(16.0, 0.3 * (end - start))
    steps = [step / 16 for step in range(17)]
    arc = [(start + s * (end - start), _GROUND - _BALL - 4 * rise * s * (1 - s)) for s in steps]
    sheet.path(arc, ink="muted", weight="hair", style="dotted")


def _stations(track: RollTrack, *, place: Callable[[float], float]) -> list[float]:
    """Where the ball is drawn: first roll, start, rest, then between them where there is room."""
    stop = track.stop_m
    wanted = (track.skid_m, 0.0, stop, 0.5 * (track.skid_m + stop))
    kept: list[float] = []
    for where_m in (*wanted, 0.5 * (track.hop_m + track.skid_m)):
        if all(abs(place(where_m) - place(other)) > 2.2 * _BALL for other in kept):
            kept.append(where_m)
    return kept


def _at(track: RollTrack, values: Sequence[float], *, where_m: float) -> float:
    pairs = list(zip(track.distance_m, values, strict=True))
    for (x0, y0), (x1, y1) in pairwise(pairs):
        if where_m <= x1:
            share = (where_m - x0) / (x1 - x0) if x1 > x0 else 1.0
            return y0 + share * (y1 - y0)
    return pairs[-1][1] if pairs else 0.0


def _ball(
    sheet: Sheet, track: RollTrack, *, where_m: float, place: Callable[[float], float]
) -> None:
    centre = (place(where_m), _GROUND - _BALL)
    rolling = abs(where_m - track.skid_m) < 1e-9
    sheet.circle(
        centre, radius=_BALL, fill="paper", ink="accent" if rolling else "ink",
        weight="line" if rolling else "hair",
    )  # fmt: skip
    speed = _at(track, track.speed_mps, where_m=where_m)
    if speed <= 1e-9:
        return
    ratio = _at(track, track.surface_mps, where_m=where_m) / speed
    _turning(sheet, centre, ratio=min(max(ratio, -1.0), 1.0))


def _turning(sheet: Sheet, centre: Point, *, ratio: float) -> None:
    """An arrow round the ball, three quarters of a turn for true roll, none for pure skid."""
    sweep = 270.0 * abs(ratio)
    if sweep < 12.0:
        sheet.line((centre[0] - 5, centre[1]), (centre[0] + 5, centre[1]), weight="hair")
        arrowhead(sheet, (centre[0] + 8, centre[1]), towards=(1.0, 0.0), ink="ink")
        return
    way = 1.0 if ratio > 0 else -1.0
    count = max(3, int(sweep / 8))
    angles = [math.radians(-135.0 + way * sweep * step / count) for step in range(count + 1)]
    radius = _BALL - 5.0
    arc = [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]
    sheet.path(arc, weight="hair")
    last = angles[-1]
    arrowhead(sheet, arc[-1], towards=(-way * math.sin(last), way * math.cos(last)), ink="ink")


def _stages(sheet: Sheet, track: RollTrack, *, place: Callable[[float], float]) -> None:
    level = _GROUND + 34.0
    stages = (
        ("hop", 0.0, track.hop_m),
        ("skid", track.hop_m, track.skid_m),
        ("true roll", track.skid_m, track.stop_m),
    )
    below = 0.5
    for words, low, high in stages:
        a, b = place(low), place(high)
        if b - a < 3.0:
            continue
        for x in (a, b):
            sheet.line((x, _GROUND + 3), (x, level + 4), ink="faint", weight="hair")
        label = worded(f"{words} {measure(high - low, 'm', digits=2 if high - low < 1 else 1)}")
        fits = b - a > 6.2 * len(label)
        if fits:
            dimension(sheet, ((a, level), (b, level)), label=label)
            continue
        sheet.line((a, level), (b, level), ink="muted", weight="hair")
        below += 13.5
        sheet.text((max(a - 8, 8), level + below), label, size="small", halo=True)


def _curves(
    sheet: Sheet, track: RollTrack, *, place: Callable[[float], float], ends: tuple[float, float]
) -> None:
    top = max([0.1, *track.speed_mps, *track.surface_mps])
    low = min([0.0, *track.surface_mps])
    base = sheet.height - _FOOT

    def height(value: float) -> float:
        return base - (value - low) / (1.06 * top - low) * (base - _CURVES - 8)

    _speed_scale(sheet, limits=(low, top), height=height, ends=ends)
    about = max(3, round((ends[1] - ends[0]) / 90))
    stop = (0.0, track.stop_m)
    measured_scale(sheet, stop, unit="m", place=place, level=base + 4, about=about)
    across = f"{spoken_unit('m')} along the putt"
    sheet.text((ends[1], base + 40), across, size="small", ink="muted", anchor="end")
    sheet.text((14.0, base + 40), "ball and hop drawn large", size="small", ink="muted")
    along = [place(x) for x in track.distance_m]
    speed = list(zip(along, map(height, track.speed_mps), strict=True))
    surface = list(zip(along, map(height, track.surface_mps), strict=True))
    _slipping(sheet, track, speed=speed, surface=surface)
    sheet.path(surface, weight="line", style="centre")
    sheet.path(speed, weight="bold")
    _meeting(sheet, track, place=place, height=height)


def _slipping(
    sheet: Sheet, track: RollTrack, *, speed: Sequence[Point], surface: Sequence[Point]
) -> None:
    """Hatch between the curves while the ball slips."""
    count = sum(x <= track.skid_m + 1e-9 for x in track.distance_m)
    if count > 1:
        sheet.hatch([*speed[:count], *reversed(surface[:count])], gap=4.5)


def _speed_scale(
    sheet: Sheet, *, limits: tuple[float, float], height: Callable[[float], float],
    ends: tuple[float, float],
) -> None:  # fmt: skip
    times = in_spoken("m/s")
    values = ticks((limits[0] * times, limits[1] * times), about=4)
    digits = digits_of(values)
    for value in values:
        y = height(value / times)
        sheet.line((ends[0], y), (ends[1], y), ink="faint", weight="hair")
        sheet.text(
            (ends[0] - 7, y + 4), figure(value, digits=digits), size="small", ink="muted",
            anchor="end",
        )  # fmt: skip
    unit = spoken_unit("m/s")
    sheet.text((ends[0] - 32, height(limits[1]) - 12), unit, size="small", ink="muted")


def _meeting(
    sheet: Sheet, track: RollTrack, *, place: Callable[[float], float],
    height: Callable[[float], float],
) -> None:  # fmt: skip
    meet = (place(track.skid_m), height(_at(track, track.speed_mps, where_m=track.skid_m)))
    sheet.line((meet[0], _GROUND + 12), meet, ink="accent", weight="hair", style="centre")
    sheet.circle(meet, radius=4.0, ink="accent", weight="line", fill="paper")
    sheet.text((meet[0] + 9, meet[1] - 7), "rolls from here", size="small", ink="accent", halo=True)
    first = place(0.0)
    if track.speed_mps:
        sheet.text(
            (first + 8, height(track.speed_mps[0]) - 6), "ball speed", size="small", halo=True
        )
        low = height(_at(track, track.surface_mps, where_m=0.35 * track.skid_m))
        x = place(0.35 * track.skid_m) + 12
        sheet.text((x, min(low + 16, height(0) - 5)), "turning (spin × radius)", size="small",
                   halo=True)  # fmt: skip


def _told(track: RollTrack) -> str:
    share = 100.0 * (1.0 - track.skid_m / track.stop_m) if track.stop_m else 0.0
    return (
        f"Hops {measure(track.hop_m, 'm', digits=2)}, then skids to "
        f"{measure(track.skid_m, 'm', digits=2)} and rolls to "
        f"{measure(track.stop_m, 'm', digits=1)}; {measure(share, '%')} of the putt is true roll."
    )


def roll_table(track: RollTrack, *, rows: int = 12) -> Table:
    """Speed and turning at places along the putt, as a table."""
    stride = max(1, len(track.distance_m) // max(rows, 1))
    picked = list(zip(track.distance_m, track.speed_mps, track.surface_mps, strict=True))[::stride]
    return Table(
        caption=_told(track),
        head=("Along the putt", "Ball speed", "Spin times radius"),
        rows=tuple(
            (
                measure(x, "m", digits=2),
                measure(v, "m/s", digits=2),
                measure(w, "m/s", digits=2),
            )
            for x, v, w in picked
        ),
    )
