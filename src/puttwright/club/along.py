"""Mass and balance of many putters at once, from what lies where along the shaft.

The arithmetic of :class:`~puttwright.club.putter.Putter` for those two figures alone, on
arrays, so that a whole rack is judged in one go; what nobody measures is as usual.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.club.parts import Neck
from puttwright.club.usual import usual_for

Floats = NDArray[np.float64]

_USUAL: Final = {each.name: each.si * each.value for each in usual_for(None)}
_CAP_M: Final = 0.003
_NECK: Final = Neck(mass_kg=0.0)
_NECK_HIGH_M: Final = _NECK.low_m + 0.5 * _NECK.length_m
GLUED_KG: Final = _USUAL["epoxy_kg"] + _USUAL["tape_kg"]
"""Epoxy and the tape under the grip, as usual."""


def head_below_m(*, lie_rad: float, cg_from_axis_m: float | None) -> float:
    """How far short of the sole, up the shaft axis, the head's centre of gravity lies.

    Parameters
    ----------
    lie_rad
        Shaft to ground.
    cg_from_axis_m
        Square to the shaft axis, toe positive; as usual where nobody measured it.

    Returns
    -------
    float
        Negative where it lies beyond the end, as a far-out toe does at a flat lie.

    Examples
    --------
    >>> round(head_below_m(lie_rad=math.pi / 2, cg_from_axis_m=0.02), 6)
    0.012
    """
    from_axis = _USUAL["cg_from_axis_m"] if cg_from_axis_m is None else cg_from_axis_m
    high = _USUAL["cg_high_m"]
    across = (from_axis - high * math.cos(lie_rad)) / math.sin(lie_rad)
    return high * math.sin(lie_rad) - across * math.cos(lie_rad)


def total_and_balance(
    *, length_m: Floats, head_kg: Floats, neck_kg: Floats, shaft_kg: Floats, grip_kg: Floats,
    head_below_m: float,
) -> tuple[Floats, Floats]:  # fmt: skip
    """Mass [kg] and balance point from the butt [m] of putters put together from parts.

    Parameters
    ----------
    length_m
        Butt to sole.
    head_kg, neck_kg, shaft_kg, grip_kg
        With the weights that sit in the head; the shaft as cut. Any shapes that
        broadcast; not a number where a part was never weighed.
    head_below_m
        See :func:`head_below_m`.

    Returns
    -------
    tuple
        Not a number where a mass is not known.

    Examples
    --------
    >>> each = np.array
    >>> total, balance = total_and_balance(
    ...     length_m=each(0.864), head_kg=each(0.35), neck_kg=each(0.0), shaft_kg=each(0.11),
    ...     grip_kg=each(0.07), head_below_m=0.006,
    ... )  # fmt: skip
    >>> round(float(total), 3), round(float(balance), 3)
    (0.536, 0.665)
    """
    shaft_m = length_m - _USUAL["tip_high_m"] - _CAP_M
    grip_m = _USUAL["grip_length_m"]
    epoxy, tape = _USUAL["epoxy_kg"], _USUAL["tape_kg"]
    total = head_kg + neck_kg + shaft_kg + grip_kg + epoxy + tape
    moment = (
        head_kg * (length_m - head_below_m)
        + neck_kg * (length_m - _NECK_HIGH_M)
        + shaft_kg * (_CAP_M + _USUAL["shaft_balance_share"] * shaft_m)
        + grip_kg * (_USUAL["grip_balance_share"] * grip_m)
        + epoxy * (_CAP_M + shaft_m)
        + tape * 0.5 * grip_m
    )
    return total, moment / total
