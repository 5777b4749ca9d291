"""Ball speed and turning along the way, as a film shows them and as they are fitted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.phrases import figure, measure
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.frame import Frame, doubt, draw_frame
from puttwright.pictures.grounds import Ground
from puttwright.pictures.tables import Table

_FOOT: Final = 15.0
_NARROW: Final = 500.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmedRoll:
    """One putt's curves: places in metres from the face, speeds of the ball and of its surface.

    ``skid_m`` is where true roll begins, with its interval; ``meets_m`` where the two
    meet in the film alone.
    """

    seen_m: tuple[float, ...]
    seen_speed_mps: tuple[float, ...]
    seen_surface_mps: tuple[float, ...]
    fitted_m: tuple[float, ...]
    fitted_speed_mps: tuple[float, ...]
    fitted_surface_mps: tuple[float, ...]
    skid_m: tuple[float, float, float]
    meets_m: float | None = None
    title: str = "Ball speed and turning along the putt"


def draw_filmed_roll(
    roll: FilmedRoll, *, ground: Ground, prefix: str = "filmed", width: float = 720.0,
    height: float = 360.0,
) -> str:  # fmt: skip
    """Draw the curves: full circles and line for the ball's speed, open and broken for turning.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> roll = FilmedRoll(
    ...     seen_m=(0.0, 0.3),
    ...     seen_speed_mps=(2.0, 1.5),
    ...     seen_surface_mps=(0.0, 1.5),
    ...     fitted_m=(0.0, 0.3),
    ...     fitted_speed_mps=(2.0, 1.5),
    ...     fitted_surface_mps=(0.0, 1.5),
    ...     skid_m=(0.28, 0.27, 0.29),
    ... )
    >>> "true roll" in draw_filmed_roll(roll, ground=PAPER)
    True
    """
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    frame = _frame(roll, width=width, height=height)
    draw_frame(
        sheet, frame, names=("m along the putt", "m/s"),
        label=(lambda v: figure(v, digits=1), lambda v: figure(v, digits=1)),
    )  # fmt: skip
    _points(sheet, frame, roll)
    _line(sheet, frame, roll.fitted_m, roll.fitted_speed_mps, turning=False)
    _line(sheet, frame, roll.fitted_m, roll.fitted_surface_mps, turning=True)
    _skid_end(sheet, frame, roll)
    _names(sheet, frame, roll)
    return sheet.svg(title=roll.title, description=_told(roll))


def _frame(roll: FilmedRoll, *, width: float, height: float) -> Frame:
    low = min([0.0, *roll.seen_surface_mps, *roll.fitted_surface_mps])
    top = max([0.1, *roll.seen_speed_mps, *roll.fitted_speed_mps])
    far = max([0.1, *roll.seen_m, *roll.fitted_m, roll.skid_m[2]])
    return Frame(
        across=(0.0, far), up=(low, 1.08 * top), left=52.0, right=width - 24.0, top=34.0,
        base=height - 52.0 - _FOOT * len(_foot(roll, width=width)),
    )  # fmt: skip


def _points(sheet: Sheet, frame: Frame, roll: FilmedRoll) -> None:
    stride = max(1, len(roll.seen_m) // 70)
    rows = zip(roll.seen_m, roll.seen_speed_mps, roll.seen_surface_mps, strict=True)
    for place, speed, surface in list(rows)[::stride]:
        if not 0.0 <= place <= frame.across[1]:
            continue
        sheet.circle(frame.at(across=place, up=speed), radius=2.2, fill="ink", weight="hair")
        sheet.circle(frame.at(across=place, up=surface), radius=2.4, fill="paper", weight="hair")


def _line(
    sheet: Sheet, frame: Frame, places: Sequence[float], values: Sequence[float], *, turning: bool
) -> None:
    points = [frame.at(across=x, up=y) for x, y in zip(places, values, strict=True)]
    sheet.path(points, weight="line", style="centre" if turning else "solid")


def _skid_end(sheet: Sheet, frame: Frame, roll: FilmedRoll) -> None:
    middle, low, high = roll.skid_m
    x = frame.x(middle)
    sheet.line((x, frame.top), (x, frame.base), ink="accent", weight="hair", style="centre")
    level = frame.base - 10.0
    doubt(sheet, ((frame.x(max(low, 0.0)), level), (frame.x(high), level)), ink="accent")
    sheet.text(
        (x + 8, frame.top + 10), f"true roll from {measure(middle, 'm', digits=2)}", size="small",
        ink="accent", halo=True,
    )  # fmt: skip
    if roll.meets_m is not None:
        met = frame.x(roll.meets_m)
        sheet.solid(
            [(met - 4, frame.base + 1), (met + 4, frame.base + 1), (met, frame.base - 7)], ink="own"
        )


def _names(sheet: Sheet, frame: Frame, roll: FilmedRoll) -> None:
    if not roll.fitted_m:
        return
    at = sum(place < 0.3 * roll.skid_m[0] for place in roll.fitted_m)
    at = min(at, len(roll.fitted_m) - 1)
    x = frame.x(roll.fitted_m[at])
    above, below = frame.y(roll.fitted_speed_mps[at]), frame.y(roll.fitted_surface_mps[at])
    sheet.text((x + 8, above - 8), "ball speed", size="small", halo=True)
    sheet.text((x + 12, below + 14), "turning (spin × radius)", size="small", halo=True)
    lines = _foot(roll, width=sheet.width)
    for up, words in enumerate(reversed(lines)):
        sheet.text((14.0, sheet.height - 8 - _FOOT * up), words, size="small", ink="muted")


def _foot(roll: FilmedRoll, *, width: float) -> list[str]:
    """How the drawing is read, in as many lines as its width asks for."""
    said = ["circles: the film; lines: fitted", "bar: where true roll begins, 90 % sure"]
    if roll.meets_m is not None:
        said.append("wedge: where the film alone says")
    return said if width < _NARROW else ["; ".join(said)]


def _told(roll: FilmedRoll) -> str:
    middle, low, high = (measure(value, "m", digits=2) for value in roll.skid_m)
    return f"The ball slides to {middle} ({low} to {high}), then truly rolls."


def filmed_table(roll: FilmedRoll, *, rows: int = 12) -> Table:
    """The film's speeds at some places, as a table."""
    stride = max(1, len(roll.seen_m) // max(rows, 1))
    picked = list(zip(roll.seen_m, roll.seen_speed_mps, roll.seen_surface_mps, strict=True))
    return Table(
        caption=_told(roll),
        head=("Along the putt", "Ball speed", "Spin times radius"),
        rows=tuple(
            (measure(x, "m", digits=2), measure(v, "m/s", digits=2), measure(w, "m/s", digits=2))
            for x, v, w in picked[::stride]
        ),
    )
