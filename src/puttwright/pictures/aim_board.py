"""The aim board: where the face looked at address, reading by reading, seen from the ball."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.evidence.signs import face_word
from puttwright.fitting.decision import Estimate
from puttwright.fitting.phrases import sideways_phrase
from puttwright.pictures.annotation import (
    Soft,
    dimension,
    measured_scale,
    plumb_line,
    scale_line,
    spindle,
    ticks,
)
from puttwright.pictures.builds import BALLOON, BuildMark, balloon
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import measure, spoken_unit, worded
from puttwright.pictures.lettering import width_of, wrapped
from puttwright.pictures.tables import Table
from puttwright.units import HOLE_RADIUS_M

_TOP: Final = 84.0
_FOOT: Final = 58.0
_BOB: Final = 14.0
_NARROW: Final = 520.0
_BAND: Final = 46.0
_SPREAD: Final = 1.645
"""Half width of the spread ellipse in standard deviations: nine readings in ten lie within."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AimSet:
    """The aim readings of one build.

    ``angles_deg`` in the order taken, right positive; ``bias`` and ``spread_deg``
    as the model has them, or ``None``. ``latest`` marks the set whose last reading
    was the last of all.
    """

    mark: BuildMark
    angles_deg: tuple[float, ...]
    bias: Estimate | None = None
    spread_deg: float | None = None
    latest: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """Where the board stands on the sheet and how an angle falls on it."""

    left: float
    right: float
    top: float
    bottom: float
    distance_mm: float
    reach_mm: float

    def x_of_mm(self, value_mm: float) -> float:
        middle = (self.left + self.right) / 2
        return middle + value_mm / self.reach_mm * (self.right - self.left) / 2

    def x_of_deg(self, value_deg: float) -> float:
        limit = 85.0  # a face that looks past the board's plane has no place on it
        angle = math.radians(min(max(value_deg, -limit), limit))
        return self.x_of_mm(self.distance_mm * math.tan(angle))


def aim_board(
    sets: Sequence[AimSet], *, board_distance_mm: float, handed: str, ground: Ground,
    prefix: str = "aim", width: float = 720.0, letters: Sequence[str] | None = None,
) -> str:  # fmt: skip
    """Draw the board at its distance with the readings of each build in a row of its own.

    Parameters
    ----------
    sets
        Builds from top to bottom.
    board_distance_mm
        Ball to board, for the millimetre scale [mm], above 0.
    handed
        ``"right"`` or ``"left"``: names the open and the closed side.
    ground, prefix, width
        As for every drawing; width from 320 up.
    letters
        Only builds of these letters are drawn; all when not given.

    Returns
    -------
    str
        An SVG drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> board = aim_board([], board_distance_mm=2000, handed="left", ground=PAPER)
    >>> "closed" in board
    True
    """
    shown = [item for item in sets if letters is None or item.mark.letter in letters]
    narrow = width < _NARROW
    row_height = _BAND + (54 if narrow else 32)
    height = _TOP + row_height * max(len(shown), 1) + _BOB + _FOOT
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    frame = _Frame(
        left=14.0 if narrow else min(200.0, 0.28 * width),
        right=width - 14.0,
        top=_TOP,
        bottom=height - _FOOT,
        distance_mm=board_distance_mm,
        reach_mm=_reach_mm(shown, board_distance_mm),
    )
    _board(sheet, frame, handed=handed)
    for number, item in enumerate(shown):
        top = _TOP + number * row_height
        _set(sheet, item, frame=frame, top=top, narrow=narrow)
        if number:
            sheet.line((frame.left, top), (frame.right, top), ink="faint", weight="hair")
    return sheet.svg(
        title="Aim at address", description=_told(shown, board_distance_mm=board_distance_mm)
    )


def _reach_mm(sets: Sequence[AimSet], distance_mm: float) -> float:
    """Half width of the board shown: every reading on it, the hole well inside."""
    angles = [angle for item in sets for angle in item.angles_deg]
    for item in sets:
        if item.bias:
            spread = _SPREAD * (item.spread_deg or 0.0)
            angles += [*item.bias.interval_90, item.bias.mean + spread, item.bias.mean - spread]
    widest = max((math.tan(math.radians(min(abs(a), 85.0))) for a in angles), default=0.0)
    return max(1.12 * distance_mm * widest, 1.7e3 * HOLE_RADIUS_M)


def _board(sheet: Sheet, frame: _Frame, *, handed: str) -> None:
    left, right = (frame.x_of_mm(side * 1e3 * HOLE_RADIUS_M) for side in (-1, 1))
    for edge, way in ((frame.top, 1), (frame.bottom, -1)):
        lip = edge + way * 9.0
        sheet.hatch([(left, edge), (right, edge), (right, lip), (left, lip)], gap=4.0)
    for x in (left, right):
        sheet.line((x, frame.top), (x, frame.bottom), ink="faint", weight="hair", style="centre")
    corners = [
        (frame.left, frame.top), (frame.right, frame.top),
        (frame.right, frame.bottom), (frame.left, frame.bottom),
    ]  # fmt: skip
    sheet.path(corners, closed=True)
    zero = frame.x_of_mm(0.0)
    plumb_line(sheet, (zero, frame.top), length=frame.bottom - frame.top - 2, weight="hair")
    level = frame.top - 44
    whole = worded(f"hole, {measure(2e3 * HOLE_RADIUS_M, 'mm')}")
    wide = right - left > width_of(whole, size="small") + 8
    dimension(sheet, ((left, level), (right, level)), label=whole if wide else "hole")
    for x in (left, right):
        sheet.line((x, level - 5), (x, level + 5), ink="faint", weight="hair")
    _scales(sheet, frame)
    _sides(sheet, frame, handed=handed)


def _scales(sheet: Sheet, frame: _Frame) -> None:
    about = max(4, round((frame.right - frame.left) / 62))
    measured_scale(
        sheet, (-frame.reach_mm, frame.reach_mm), unit="mm", place=frame.x_of_mm,
        level=frame.bottom, about=about,
    )  # fmt: skip
    unit = spoken_unit("mm")
    sheet.text((frame.right, frame.bottom + 34), unit, size="small", ink="muted", anchor="end")
    reach_deg = math.degrees(math.atan(frame.reach_mm / frame.distance_mm))
    degrees = ticks((-reach_deg, reach_deg), about=about)
    step = abs(degrees[1] - degrees[0]) if len(degrees) > 1 else 1.0
    digits = 0 if step >= 1 else 1
    scale_line(
        sheet,
        degrees,
        place=frame.x_of_deg,
        level=frame.top,
        label=lambda v: measure(v, "°", digits=digits),
        below=False,
    )


def _sides(sheet: Sheet, frame: _Frame, *, handed: str) -> None:
    for angle, words in ((-1.0, "left"), (1.0, "right")):
        x = frame.left if angle < 0 else frame.right
        sheet.text(
            (x, frame.top - 66),
            f"{words}, {face_word(angle, handed=handed)}",
            size="small",
            ink="muted",
            anchor="start" if angle < 0 else "end",
        )
    sheet.text(
        (frame.left, frame.bottom + 34),
        f"board at {measure(frame.distance_mm / 1000.0, 'm', digits=1)}",
        size="small",
        ink="muted",
    )


def _set(sheet: Sheet, item: AimSet, *, frame: _Frame, top: float, narrow: bool) -> None:
    head = 24.0 if narrow else 9.0
    row_middle = (_BAND + 32) / 2
    _name(sheet, item, frame=frame, at=top + (16 if narrow else row_middle), narrow=narrow)
    centre = top + head + _BAND / 2
    if item.bias and item.spread_deg and len(item.angles_deg) > 1:
        middle = frame.x_of_deg(item.bias.mean)
        radius = abs(frame.x_of_deg(item.bias.mean + _SPREAD * item.spread_deg) - middle)
        sheet.ellipse((middle, centre), radii=(radius, _BAND / 2), ink=item.mark.ink, weight="hair")
    _dots(sheet, item, frame=frame, centre=centre)
    if item.bias:
        _interval(sheet, item, frame=frame, level=centre + _BAND / 2 + 13)


def _name(sheet: Sheet, item: AimSet, *, frame: _Frame, at: float, narrow: bool) -> None:
    chosen = item.mark.role == "choice"
    said = _short(item)
    if narrow:
        balloon(sheet, (frame.left + 15, at), mark=item.mark, radius=8.5)
        sheet.text(
            (frame.left + 29, at + 4), said, size="small", ink=item.mark.ink, halo=True, bold=chosen
        )
        return
    balloon(sheet, (14 + BALLOON, at), mark=item.mark)
    x = 14 + 2 * BALLOON + 8
    room = frame.left - x - 10
    lines = wrapped(item.mark.name, size="body", room=room, lines=2)
    level = at + 4.5 - 7.5 * (len(lines) + bool(item.mark.note))
    for count, words in enumerate(lines):
        sheet.text((x, level + 15 * count), words, bold=chosen)
    level += 15 * len(lines)
    for words in filter(None, (said, item.mark.note)):
        sheet.text((x, level), words, size="small", ink="muted", room=room)
        level += 14


def _short(item: AimSet) -> str:
    if not item.angles_deg:
        return "no readings yet"
    if item.bias is None:
        noun = "reading" if len(item.angles_deg) == 1 else "readings"
        return f"{len(item.angles_deg)} {noun}"
    return sideways_phrase(item.bias).replace(", give or take ", " ± ")


def _dots(sheet: Sheet, item: AimSet, *, frame: _Frame, centre: float) -> None:
    """First reading at the bottom, the latest at the top, so that a drift shows."""
    count = len(item.angles_deg)
    rise = 0.66 * _BAND / max(count - 1, 1)
    for number, angle in enumerate(item.angles_deg):
        y = centre + (0.33 * _BAND - number * rise if count > 1 else 0.0)
        at = (frame.x_of_deg(angle), y)
        if item.latest and number == count - 1:
            sheet.circle(at, radius=7.0, ink="accent", weight="line", kind="pw-latest")
            sheet.circle(
                at, radius=3.8, ink="accent", weight="hair", fill="accent", kind="pw-reading"
            )
        else:
            sheet.circle(
                at, radius=3.1, ink=item.mark.ink, weight="hair", fill="paper", kind="pw-reading"
            )


def _interval(sheet: Sheet, item: AimSet, *, frame: _Frame, level: float) -> None:
    bias = item.bias
    assert bias is not None
    x: Callable[[float], float] = frame.x_of_deg
    inner = bias.interval_50 or (bias.mean - 0.6745 * bias.sd, bias.mean + 0.6745 * bias.sd)
    soft = Soft(
        low_90=x(bias.interval_90[0]),
        low_50=x(inner[0]),
        middle=x(bias.mean),
        high_50=x(inner[1]),
        high_90=x(bias.interval_90[1]),
    )
    spindle(
        sheet, soft, across=level, half=3.2,
        ink=item.mark.ink, weight=item.mark.weight, guess=item.mark.guess,
    )  # fmt: skip


def _told(sets: Sequence[AimSet], *, board_distance_mm: float) -> str:
    told = [f"{item.mark.said}: {len(item.angles_deg)} readings, {_aims(item)}" for item in sets]
    where = f"Board at {measure(board_distance_mm / 1000.0, 'm', digits=1)}, seen from the ball. "
    return where + ("; ".join(told) or "No readings yet") + "."


def _aims(item: AimSet) -> str:
    return f"aims {sideways_phrase(item.bias)}" if item.bias else "no estimate yet"


def aim_table(sets: Sequence[AimSet], /) -> Table:
    """Every reading and what it adds up to, as a table."""
    return Table(
        caption="Aim at address, degrees from the target line, right positive",
        head=("Build", "Aims", "Readings in order"),
        rows=tuple(
            (
                item.mark.said,
                sideways_phrase(item.bias) if item.bias else "–",
                ", ".join(measure(angle, "°", digits=1) for angle in item.angles_deg) or "none",
            )
            for item in sets
        ),
    )
