"""The putts seen from above, the golfer's view: the line goes up the sheet, right is right."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.pictures.annotation import break_line, dimension
from puttwright.pictures.builds import BALLOON, BuildMark, balloon
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import in_spoken, measure
from puttwright.pictures.lettering import width_of
from puttwright.pictures.svg import Point
from puttwright.pictures.tables import Table
from puttwright.units import BALL_RADIUS_M, HOLE_RADIUS_M

_HEAD: Final = 54.0
_FOOT: Final = 20.0
_TAIL: Final = 46.0
_COLUMN: Final = 165.0
_NINE_IN_TEN: Final = 2.146
"""Radius holding 90 % of a two-dimensional normal, in standard deviations."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """Where the putts would stop were there no hole: middle and standard deviations [m]."""

    right_m: float
    past_m: float
    right_sd_m: float
    past_sd_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StopSet:
    """The putts of one build from one distance.

    ``stops`` holds (right, past the hole) of every putt that missed [m] in the
    order hit; ``holed`` counts those that went in, ``unseen`` the misses whose stop
    was not measured. ``latest`` marks the set whose last stop was the last putt of all.
    """

    mark: BuildMark
    stops: tuple[Point, ...]
    holed: int = 0
    unseen: int = 0
    spread: Spread | None = None
    latest: bool = False

    @property
    def putts(self) -> int:
        """How many were hit."""
        return self.holed + len(self.stops) + self.unseen


@dataclass(frozen=True, slots=True, kw_only=True)
class _View:
    """The part of the green that is shown, and its scale [units per metre]."""

    half_m: float
    low_m: float
    high_m: float
    scale: float
    whole: bool

    @property
    def width(self) -> float:
        return 2.0 * self.half_m * self.scale

    @property
    def height(self) -> float:
        return (self.high_m - self.low_m) * self.scale + (0.0 if self.whole else _TAIL)


def green(
    sets: Sequence[StopSet], *, distance_m: float, ground: Ground, prefix: str = "green",
    width: float = 720.0, capture: Sequence[Point] = (), tall: float = 330.0,
) -> str:  # fmt: skip
    """Draw the hole to scale and where the putts of each build stopped, a panel a build.

    Parameters
    ----------
    sets
        Builds from left to right; all panels share one scale.
    distance_m
        Ball to hole [m]. A long putt is cut short by a break line.
    ground, prefix, width
        As for every drawing.
    capture
        Pairs of roll past the hole and half width [m] of the region in which a
        putt would have stopped that the hole takes instead.
    tall
        Height of what is shown of the green [units].

    Returns
    -------
    str
        An SVG drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> green([], distance_m=3.0, ground=PAPER).startswith("<svg")
    True
    """
    columns = max(1, min(len(sets), int(width // _COLUMN)))
    rows = max(1, math.ceil(len(sets) / columns))
    panel = (width - 24.0) / columns
    view = _view(sets, distance_m=distance_m, room=(panel - 20.0, tall))
    row_height = _HEAD + view.height + _FOOT
    sheet = Sheet(width=width, height=rows * row_height + 26.0, ground=ground, prefix=prefix)
    for number, item in enumerate(sets):
        row, column = divmod(number, columns)
        hole = (
            12.0 + (column + 0.5) * panel,
            row * row_height + _HEAD + view.high_m * view.scale,
        )
        _name(sheet, item, left=12.0 + column * panel + 4, top=row * row_height, room=panel - 8)
        _panel(
            sheet, item, hole=hole, view=view, distance_m=distance_m, capture=capture, room=panel
        )
    _scale_bar(sheet, view, hatched=bool(capture))
    return sheet.svg(title=_title(distance_m), description=_told(sets))


def _title(distance_m: float) -> str:
    return f"Putts from {measure(distance_m, 'm', digits=1)}, seen from above"


def _view(sets: Sequence[StopSet], *, distance_m: float, room: Point) -> _View:
    points = [stop for item in sets for stop in item.stops]
    for item in sets:
        if item.spread:
            reach = (_NINE_IN_TEN * item.spread.right_sd_m, _NINE_IN_TEN * item.spread.past_sd_m)
            points += [
                (item.spread.right_m + side * reach[0], item.spread.past_m + side * reach[1])
                for side in (-1, 1)
            ]
    half = 1.12 * max([0.3, *(abs(right) for right, _ in points)])
    high = 1.1 * max([0.4, *(past for _, past in points)]) + 0.05
    low = min([-0.3, *(1.1 * past for _, past in points)]) - 0.05
    low = max(low, -distance_m)
    scale = min(room[0] / (2.0 * half), room[1] / (high - low))
    whole = (high + distance_m) * scale <= room[1] + 2.0 * _TAIL
    if whole:
        low = -distance_m - 0.04
    return _View(half_m=half, low_m=low, high_m=high, scale=scale, whole=whole)


def _name(sheet: Sheet, item: StopSet, *, left: float, top: float, room: float) -> None:
    balloon(sheet, (left + BALLOON, top + 18), mark=item.mark)
    x = left + 2 * BALLOON + 7
    chosen = item.mark.role == "choice"
    sheet.text((x, top + 15), item.mark.name, bold=chosen, room=room - (x - left))
    sheet.text((x, top + 30), _holed(item), size="small", ink="muted", room=room - (x - left))
    _tally(sheet, item.holed, at=(x, top + 37), room=room - (x - left))


def _holed(item: StopSet) -> str:
    return f"holed {item.holed} of {item.putts}" if item.putts else "no putts yet"


def _missed(item: StopSet) -> dict[str, int]:
    short = sum(past < 0 for _, past in item.stops)
    return {"short": short, "past": len(item.stops) - short}


def _score(item: StopSet) -> str:
    missed = [f"{count} {where}" for where, count in _missed(item).items() if count]
    return ", ".join([_holed(item), *missed])


def _tally(sheet: Sheet, count: int, *, at: Point, room: float) -> None:
    """Strokes in fives, as one keeps count on paper."""
    step, group = 4.0, 26.0
    for number in range(count):
        fives, place = divmod(number, 5)
        x = at[0] + fives * group
        if x + group > at[0] + room:
            return
        if place < 4:
            start = (x + place * step, at[1])
            sheet.line(start, (start[0], at[1] + 9), ink="muted", weight="line")
        else:
            sheet.line((x - 3, at[1] + 7.5), (x + 15, at[1] + 1.5), ink="muted", weight="line")


def _panel(
    sheet: Sheet, item: StopSet, *, hole: Point, view: _View, distance_m: float,
    capture: Sequence[Point], room: float,
) -> None:  # fmt: skip
    def at(right_m: float, past_m: float) -> Point:
        return (hole[0] + right_m * view.scale, hole[1] - past_m * view.scale)

    foot = hole[1] - view.low_m * view.scale + (0.0 if view.whole else _TAIL)
    _rings(sheet, hole, view=view)
    within = [(past, half) for past, half in capture if past <= view.high_m]
    _capture(sheet, [[at(side * half, past) for past, half in within] for side in (-1.0, 1.0)])
    sheet.line((hole[0], foot), at(0.0, view.high_m), ink="faint", weight="hair", style="centre")
    sheet.circle(hole, radius=HOLE_RADIUS_M * view.scale, weight="bold", fill="paper")
    _ball(sheet, hole, foot=foot, view=view, distance_m=distance_m, room=room)
    if item.spread:
        spread = item.spread
        sheet.ellipse(
            at(spread.right_m, spread.past_m),
            radii=(
                _NINE_IN_TEN * spread.right_sd_m * view.scale,
                _NINE_IN_TEN * spread.past_sd_m * view.scale,
            ),
            ink=item.mark.ink,
            weight="hair",
            style="hidden" if item.mark.guess else "solid",
        )
    _dots(sheet, item, points=[at(*stop) for stop in item.stops])
    for where, level in (("past", at(0.0, view.high_m)[1] + 8), ("short", hole[1] + 14)):
        count = _missed(item)[where]
        if count:
            corner = (hole[0] + min(room / 2 - 6, view.half_m * view.scale + 62), level)
            sheet.text(
                corner, f"{count} {where}", size="small", ink="muted", anchor="end", halo=True
            )


def _rings(sheet: Sheet, hole: Point, *, view: _View) -> None:
    """Half a metre and a metre around the hole, as far as the panel reaches."""
    for radius_m in (0.5, 1.0, 2.0):
        if radius_m > min(view.half_m, view.high_m):
            return
        sheet.circle(hole, radius=radius_m * view.scale, ink="faint", weight="hair", style="dotted")


def _capture(sheet: Sheet, sides: Sequence[Sequence[Point]]) -> None:
    left, right = sides
    if len(left) > 1:
        sheet.hatch([*left, *reversed(right)], gap=4.5)
        for side in sides:
            sheet.path(side, ink="faint", weight="hair")


def _ball(
    sheet: Sheet, hole: Point, *, foot: float, view: _View, distance_m: float, room: float
) -> None:
    ball = (hole[0], foot - BALL_RADIUS_M * view.scale)
    if not view.whole:
        cut = foot - 0.62 * _TAIL
        for gap in (0.0, 5.0):
            break_line(sheet, (hole[0] - 26, cut + gap), end=(hole[0] + 26, cut + gap))
    sheet.circle(ball, radius=max(BALL_RADIUS_M * view.scale, 2.0), weight="line", fill="paper")
    dimension(
        sheet,
        ((ball[0], ball[1]), (hole[0], hole[1])),
        label=measure(distance_m, "m", digits=1),
        offset=-min(view.half_m * view.scale, 0.4 * room),
    )


def _dots(sheet: Sheet, item: StopSet, *, points: Sequence[Point]) -> None:
    for number, at in enumerate(points):
        if item.latest and number == len(points) - 1:
            sheet.circle(at, radius=7.0, ink="accent", weight="line", kind="pw-latest")
            sheet.circle(
                at, radius=3.8, ink="accent", weight="hair", fill="accent", kind="pw-reading"
            )
        else:
            sheet.circle(
                at, radius=3.1, ink=item.mark.ink, weight="hair", fill="paper", kind="pw-reading"
            )


def _scale_bar(sheet: Sheet, view: _View, *, hatched: bool) -> None:
    length_m, words = _bar(view.scale, room=0.25 * sheet.width)
    y = sheet.height - 14
    x = 16.0
    sheet.line((x, y), (x + length_m * view.scale, y), ink="muted", weight="line")
    for end in (x, x + length_m * view.scale):
        sheet.line((end, y - 4), (end, y + 4), ink="muted", weight="line")
    x += length_m * view.scale + 8
    sheet.text((x, y + 4), words, size="small", ink="muted")
    if hatched:
        x += width_of(words, size="small") + 18
        swatch = [(x, y - 5), (x + 16, y - 5), (x + 16, y + 5), (x, y + 5)]
        sheet.hatch(swatch, gap=4.5)
        sheet.text((x + 22, y + 4), "caught by the hole", size="small",
                   ink="muted", room=sheet.width - x - 26)  # fmt: skip


def _bar(scale: float, *, room: float) -> tuple[float, str]:
    """A round length in the unit spoken here that fits into the room [m], and its words."""
    times = in_spoken("m")
    rounds = (1.0, 0.5, 0.2) if times == 1.0 else (3.0, 2.0, 1.0)
    least = 0.1 if times == 1.0 else 0.5
    length_m = next((each / times for each in rounds if each / times * scale < room), least / times)
    return length_m, measure(length_m, "m", digits=1)


def _told(sets: Sequence[StopSet]) -> str:
    return "; ".join(f"{item.mark.said}: {_score(item)}" for item in sets) or "No putts yet"


def green_table(sets: Sequence[StopSet], *, distance_m: float) -> Table:
    """Where every putt stopped, as a table."""
    return Table(
        caption=_title(distance_m),
        head=("Build", "Holed", "Stopped (right, past the hole)"),
        rows=tuple(
            (
                item.mark.said,
                f"{item.holed} of {item.putts}",
                "; ".join(
                    f"{measure(right, 'm', digits=2)}, {measure(past, 'm', digits=2)}"
                    for right, past in item.stops
                )
                or "none",
            )
            for item in sets
        ),
    )
