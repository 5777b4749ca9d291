"""Handedness: the one place where right turns into toe, heel, open or closed.

A right-hander stands on the left of the ball line, so their toe points right;
a face that looks right of target is open for them. For a left-hander both flip.
"""

from __future__ import annotations

import dataclasses
from typing import Any

from puttwright.evidence.records import LEFT, RIGHT, Fitting, Instrument, Putt


def toe_side(handed: str) -> int:
    """+1 when the toe points to the golfer's right (a right-hander), -1 when left."""
    return 1 if handed == RIGHT else -1


def side_word(value: float) -> str:
    """``"right"`` or ``"left"`` for a direction that is positive to the right."""
    return RIGHT if value > 0 else LEFT


def face_word(angle_deg: float, *, handed: str) -> str:
    """``"open"`` or ``"closed"`` for a face direction that is positive to the right."""
    return "open" if angle_deg * toe_side(handed) > 0 else "closed"


_OTHER_SIDE = {LEFT: RIGHT, RIGHT: LEFT}
_SIDEWAYS_PUTT = ("stop_right_m", "start_deg", "face_deg", "path_deg", "closure_deg_s")


def _negated(value: float | None) -> float | None:
    return None if value is None else -value


def _mirrored_putt(putt: Putt) -> Putt:
    flipped: dict[str, Any] = {name: _negated(getattr(putt, name)) for name in _SIDEWAYS_PUTT}
    return dataclasses.replace(putt, **flipped)


def _mirrored_instrument(instrument: Instrument) -> Instrument:
    if instrument.quantity not in (*_SIDEWAYS_PUTT, "reading_mm"):
        return instrument
    return dataclasses.replace(instrument, bias=_negated(instrument.bias))


def mirrored(fitting: Fitting) -> Fitting:
    """The same fitting seen in a mirror: the other hand, every sideways reading flipped.

    Everything this program says of a golfer must hold of the mirrored one with
    left and right exchanged; the tests lean on it.
    """
    golfer = dataclasses.replace(
        fitting.golfer,
        handed=_OTHER_SIDE[fitting.golfer.handed],
        eye_dominant=_OTHER_SIDE.get(fitting.golfer.eye_dominant or ""),
    )
    slope_deg = fitting.fitting_green.slope_towards_deg
    return dataclasses.replace(
        fitting,
        golfer=golfer,
        fitting_green=dataclasses.replace(
            fitting.fitting_green, slope_towards_deg=_negated(slope_deg)
        ),
        instruments=tuple(_mirrored_instrument(each) for each in fitting.instruments),
        aims=tuple(dataclasses.replace(aim, reading_mm=-aim.reading_mm) for aim in fitting.aims),
        putts=tuple(_mirrored_putt(putt) for putt in fitting.putts),
    )
