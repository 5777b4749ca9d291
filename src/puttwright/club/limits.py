"""What the club's models accept, and why: one table of ranges."""

from __future__ import annotations

from typing import Final, NamedTuple

from puttwright.errors import OutOfRange


class Range(NamedTuple):
    """Lowest and highest value taken, the unit said to people and its size in SI, the reason."""

    low: float
    high: float
    unit: str
    si: float
    why: str


_DEG: Final = 0.017453292519943295
RANGES: Final[dict[str, Range]] = {
    "mass": Range(0.0, 2000.0, "g", 1e-3, "nothing on a putter weighs less than nothing"),
    "head mass": Range(150.0, 900.0, "g", 1e-3, "putter heads"),
    "total mass": Range(200.0, 2500.0, "g", 1e-3, "putters"),
    "length": Range(457.2, 1600.0, "mm", 1e-3, "18 in is the least the Equipment Rules allow"),
    "place": Range(0.0, 2000.0, "mm", 1e-3, "from the butt, down the shaft"),
    "shaft length": Range(10.0, 1700.0, "mm", 1e-3, "shafts, as supplied or cut"),
    "lie": Range(50.0, 90.0, "°", _DEG, "shaft to ground"),
    "loft": Range(-15.0, 20.0, "°", _DEG, "putters"),
    "offset": Range(-30.0, 80.0, "mm", 1e-3, "shaft axis ahead of the face"),
    "from axis": Range(-80.0, 120.0, "mm", 1e-3, "centre of gravity from the shaft axis"),
    "behind face": Range(0.0, 150.0, "mm", 1e-3, "centre of gravity behind the face"),
    "high": Range(-10.0, 100.0, "mm", 1e-3, "above the sole"),
    "bend height": Range(5.0, 127.0, "mm", 1e-3, "a neck reaches 127 mm (5 in) at most"),
    "inertia": Range(500.0, 50000.0, "g cm²", 1e-7, "putter heads about the upright axis"),
    "lean": Range(-25.0, 25.0, "°", _DEG, "handle toward the target"),
    "period": Range(0.1, 20.0, "s", 1.0, "one swing there and back"),
    "distance": Range(1.0, 2000.0, "mm", 1e-3, "pivot to balance point"),
    "thread": Range(20.0, 5000.0, "mm", 1e-3, "length of each thread"),
    "spacing": Range(5.0, 1500.0, "mm", 1e-3, "between the threads, not half of it"),
    "amplitude": Range(0.0, 60.0, "°", _DEG, "from the middle to one side"),
}


def checked(value: float, /, *, limit: str, name: str = "") -> float:
    """The value [SI], or :class:`~puttwright.errors.OutOfRange` in the unit people say.

    Examples
    --------
    >>> checked(0.35, limit="head mass")
    0.35
    """
    low, high, unit, si, why = RANGES[limit]
    said = value / si
    # A hair of room, so that 90 degrees turned into radians and back are 90 degrees.
    slack = 1e-9 * max(abs(low), abs(high))
    if not low - slack <= said <= high + slack:
        raise OutOfRange(name=name or limit, value=said, low=low, high=high, unit=unit, why=why)
    return value
