"""Usual figures beside a field, one touch each: a putt with both its figures takes three."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from puttwright.store.readings import PUTTS
from puttwright.web.forms.entry_forms import SIDES
from puttwright.web.measures import spoken_unit

_ALONG, _BESIDE = "stop_past_m", "stop_right_m"
_STEPS: Final[Mapping[str, float]] = {"m": 0.1, "ft": 0.5}
"""How far apart usual stops along the line are told, in the unit that is spoken."""
_LONG_M: Final = 4.0
"""From farther than this a putt ends farther off: the steps are twice as wide."""
_ROW: Final = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickRow:
    """The figures to one side, as they stand in the field."""

    side: str
    values: tuple[str, ...]


def quick_rows(kind: str, *, distance_m: float) -> dict[str, tuple[QuickRow, ...]]:
    """The usual figures of a kind of reading, by the field they fill.

    Across the line they are half as far apart as along it, and the first is none at all.

    Parameters
    ----------
    kind
        The kind of reading; only putts have any.
    distance_m
        From ball to hole.

    Examples
    --------
    >>> rows = quick_rows("putts", distance_m=3.0)
    >>> rows["stop_past_m"][1]
    QuickRow(side='short', values=('0.1', '0.2', '0.3', '0.4', '0.5', '0.6'))
    >>> [row.values[:3] for row in rows["stop_right_m"]]
    [('0', '0.05', '0.1'), ('0.05', '0.1', '0.15')]
    """
    if kind != PUTTS:
        return {}
    step = _STEPS[spoken_unit("m")] * (2.0 if distance_m > _LONG_M else 1.0)
    along = _values(step, first=1)
    past, short = SIDES[_ALONG]
    right, left = SIDES[_BESIDE]
    return {
        _ALONG: (QuickRow(side=past, values=along), QuickRow(side=short, values=along)),
        _BESIDE: (
            QuickRow(side=right, values=_values(step / 2, first=0)),
            QuickRow(side=left, values=_values(step / 2, first=1)[:-1]),
        ),
    }


def _values(step: float, *, first: int) -> tuple[str, ...]:
    return tuple(f"{round(step * place, 3):g}" for place in range(first, first + _ROW))
