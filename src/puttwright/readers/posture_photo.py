"""A posture photo's size and lens, and the points a person tapped in it.

The picture itself is not looked at: no body is searched for in it, and nothing of
it is kept.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Final

from puttwright.readers.cells import not_a_number
from puttwright.readers.files import Unreadable

_MOST_LINES: Final = 100

Points = dict[str, tuple[float, float]]


def points_of(texts: list[str], *, known: tuple[str, ...]) -> Points:
    """Points from ``name=x,y`` texts.

    Raises
    ------
    Unreadable
        A text that is no point, an unknown name, or a name given twice.

    Examples
    --------
    >>> points_of(["eye=470,200"], known=("eye",))
    {'eye': (470.0, 200.0)}
    """
    found: Points = {}
    for text in texts:
        name, _, place = text.partition("=")
        name = name.strip()
        if name not in known:
            raise Unreadable(f"{name[:40]!r} is no point; there are {', '.join(known)}")
        if name in found:
            raise Unreadable(f"the point {name} is given twice")
        found[name] = _place(name, place)
    return found


def _place(name: str, text: str) -> tuple[float, float]:
    parts = text.split(",")
    if len(parts) != 2:
        raise Unreadable(f"the point {name} says {text[:40]!r}; write it as x,y in pixels")
    values = []
    for part in parts:
        try:
            values.append(float(part))
        except ValueError as trouble:
            raise Unreadable(f"the point {name}: {not_a_number(part.strip())}") from trouble
    if not all(map(math.isfinite, values)):
        raise Unreadable(f"the point {name} is not finite")
    return values[0], values[1]


def read_points(path: Path, *, known: tuple[str, ...]) -> Points:
    """Points from a file with a line ``name,x,y`` for each.

    Raises
    ------
    Unreadable
        The file cannot be read, or a line is no point.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError as trouble:
        raise Unreadable("is not there") from trouble
    except (OSError, ValueError) as trouble:
        raise Unreadable("cannot be read as text") from trouble
    lines = [line.strip() for line in text.splitlines()]
    rows = [line for line in lines if line and line.replace(" ", "").lower() != "name,x,y"]
    if len(rows) > _MOST_LINES:
        raise Unreadable("has more lines than there are points")
    return points_of([row.replace(",", "=", 1) for row in rows], known=known)


def check_inside(points: Points, *, size: tuple[int, int]) -> None:
    """Every point must lie in the photo of that width and height.

    Raises
    ------
    Unreadable
        One does not.
    """
    width, height = size
    for name, (x, y) in points.items():
        if not (0 <= x <= width and 0 <= y <= height):
            raise Unreadable(
                f"the point {name} lies at {x:g},{y:g}, outside the photo of {width} × {height} "
                "pixels; count from the upper left corner of the upright photo"
            )
