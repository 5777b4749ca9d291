"""Grip styles by the trade's names, as far as they move the hands on the shaft.

Common practice, no source: where the middle of the two hands lies below the butt.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from puttwright.errors import NotFound


@dataclass(frozen=True, slots=True, kw_only=True)
class GripStyle:
    """A way to hold the putter; ``down_m`` from the butt to the middle of the hands."""

    name: str
    down_m: float
    meaning: str


CONVENTIONAL: Final = "conventional"

GRIP_STYLES: Final = (
    GripStyle(name=CONVENTIONAL, down_m=0.095, meaning="lead hand above, the hands together"),
    GripStyle(name="cross_handed", down_m=0.095, meaning="lead hand below"),
    GripStyle(name="claw", down_m=0.110, meaning="the lower hand laid on from the side"),
    GripStyle(name="split", down_m=0.150, meaning="a hand's breadth between the hands"),
    GripStyle(name="arm_lock", down_m=0.260, meaning="the grip runs up the lead forearm"),
)
"""By the names of ``evidence.records.GRIP_STYLES``. Not among them: a long putter held apart at
the chest, which this linkage does not describe."""

_BY_NAME: Final = {style.name: style for style in GRIP_STYLES}


def grip_style(name: str | None) -> GripStyle:
    """The style of that name; nothing said means the hands together.

    Raises
    ------
    NotFound
        There is no such style here.

    Examples
    --------
    >>> grip_style(None).name
    'conventional'
    """
    found = _BY_NAME.get(name or CONVENTIONAL)
    if found is None:
        raise NotFound(what="grip style", name=name, known=f"; known are {', '.join(_BY_NAME)}")
    return found
