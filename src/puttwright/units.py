"""The edge between people's units and ours (SI inside), and the constants of the game.

Inside the program lengths are metres, speeds m/s, angles radians; a name that
carries another unit says so (``length_mm``). People write "34 in" or "2.5 deg".
"""

from __future__ import annotations

import math
import re
from typing import Final

from puttwright.errors import NotANumber, UnknownUnit

GRAVITY_MPS2: Final = 9.80665
"""Standard gravity, 3rd CGPM (1901)."""

INCH_M: Final = 0.0254
FOOT_M: Final = 0.3048
OUNCE_KG: Final = 0.028349523125

BALL_MASS_KG: Final = 0.04593
"""Largest ball mass, 1.620 oz avoirdupois (Equipment Rules, part 4)."""

BALL_RADIUS_M: Final = 0.021336
"""Smallest ball radius, half of 1.680 in (Equipment Rules, part 4)."""

BALL_INERTIA_FACTOR: Final = 0.4
"""I/(m r^2) of a uniform sphere; 0.4003 measured (ISEA 2020, Proceedings 49(1) 47, table 1)."""

HOLE_RADIUS_M: Final = 0.053975
"""Half of 4.25 in (Rules of Golf, definition of the hole)."""

STIMP_SPEED_MPS: Final = 6.0 * FOOT_M
"""Speed at which the ball leaves the green-speed ramp, 6.00 ft/s (Holmes 1986)."""

_UNITS: Final[dict[str, tuple[str, float]]] = {
    "m": ("m", 1.0),
    "cm": ("m", 0.01),
    "mm": ("m", 0.001),
    "in": ("m", INCH_M),
    '"': ("m", INCH_M),
    "ft": ("m", FOOT_M),
    "yd": ("m", 3 * FOOT_M),
    "deg": ("rad", math.pi / 180),
    "°": ("rad", math.pi / 180),
    "rad": ("rad", 1.0),
    "kg": ("kg", 1.0),
    "g": ("kg", 0.001),
    "oz": ("kg", OUNCE_KG),
    "m/s": ("m/s", 1.0),
    "mps": ("m/s", 1.0),
    "ft/s": ("m/s", FOOT_M),
    "km/h": ("m/s", 1 / 3.6),
    "mph": ("m/s", 0.44704),
    "s": ("s", 1.0),
    "ms": ("s", 0.001),
}
_QUANTITY = re.compile(r"^\s*([-+−]?[\d.]+(?:[eE][-+]?\d+)?)\s*(\S*)\s*$")


def parse_quantity(text: str, *, default_unit: str) -> float:
    """Read a number as people write it, with or without a unit, into SI.

    Parameters
    ----------
    text
        Such as ``"34 in"``, ``"2.5deg"`` or ``"0.86"``.
    default_unit
        The unit meant when none is written, for instance ``"mm"``.

    Returns
    -------
    float
        The value in m, rad, kg, m/s or s.

    Raises
    ------
    NotANumber, UnknownUnit
        The text is no number, or its unit is unknown or of another kind.

    Examples
    --------
    >>> round(parse_quantity("34 in", default_unit="mm"), 4)
    0.8636
    """
    match = _QUANTITY.match(text)
    if not match:
        raise NotANumber(name="the value", text=text, unit_hint=f" (in {default_unit} if no unit)")
    kind = _UNITS[default_unit][0]
    unit = match[2] or default_unit
    if unit not in _UNITS or _UNITS[unit][0] != kind:
        known = ", ".join(name for name, (of, _) in _UNITS.items() if of == kind)
        raise UnknownUnit(text=text, known=known)
    try:
        return float(match[1].replace("−", "-")) * _UNITS[unit][1]
    except ValueError:
        raise NotANumber(name="the value", text=text, unit_hint="") from None


def feet(metres: float) -> float:
    """Metres to feet."""
    return metres / FOOT_M


def inches(metres: float) -> float:
    """Metres to inches."""
    return metres / INCH_M


def metres_from_feet(value_ft: float) -> float:
    """Feet to metres."""
    return value_ft * FOOT_M
