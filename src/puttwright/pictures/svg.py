"""SVG elements as text: escaped, and with numbers rounded so that equal data give equal bytes."""

from __future__ import annotations

import math
import re
from typing import Final
from xml.sax.saxutils import escape, quoteattr

Point = tuple[float, float]

_FORBIDDEN = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_ID: Final = re.compile(r"[^A-Za-z0-9_-]+")


def number(value: float, /) -> str:
    """A coordinate with at most two decimals, as short as it can be written.

    Examples
    --------
    >>> number(1.0), number(-0.001), number(2.346)
    ('1', '0', '2.35')
    """
    if not math.isfinite(value):
        raise ValueError(f"not a coordinate: {value}")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def clean(text: str, /) -> str:
    """Text without the characters that XML 1.0 forbids, ready to stand between tags."""
    return escape(_FORBIDDEN.sub("", text))


def safe_id(text: str, /) -> str:
    """An id made of ``text``: letters, digits, hyphen and underscore only.

    Examples
    --------
    >>> safe_id('aim "1"')
    'aim-1-'
    """
    return _ID.sub("-", text) or "x"


def element(tag: str, content: str = "", /, **attributes: str | float | None) -> str:
    """One element; ``content`` is SVG already, attributes are escaped here.

    Underscores in names become hyphens, ``None`` leaves an attribute out.

    Examples
    --------
    >>> element("circle", r=2.0, stroke_width="1", fill=None)
    '<circle r="2" stroke-width="1"/>'
    """
    parts = [tag]
    for name, value in attributes.items():
        if value is None:
            continue
        text = value if isinstance(value, str) else number(value)
        parts.append(f"{name.rstrip('_').replace('_', '-')}={quoteattr(_FORBIDDEN.sub('', text))}")
    opening = " ".join(parts)
    return f"<{opening}>{content}</{tag}>" if content else f"<{opening}/>"


def path_data(points: list[Point] | tuple[Point, ...], /, *, closed: bool = False) -> str:
    """The ``d`` of a path through points.

    Examples
    --------
    >>> path_data([(0, 0), (1.5, 2)], closed=True)
    'M0 0L1.5 2Z'
    """
    steps = "L".join(f"{number(x)} {number(y)}" for x, y in points)
    return f"M{steps}{'Z' if closed else ''}"
