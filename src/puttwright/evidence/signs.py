"""Handedness: the one place where right turns into toe, heel, open or closed.

A right-hander stands on the left of the ball line, so their toe points right;
a face that looks right of target is open for them. For a left-hander both flip.
"""

from __future__ import annotations

import dataclasses

from puttwright.evidence.records import LEFT, RIGHT, Fitting


def toe_side(handed: str) -> int:
    """+1 when the toe points to the golfer's right (a right-hander), -1 when left."""
    return 1 if handed == RIGHT else -1


def side_word(value: float) -> str:
    """``"right"`` or ``"left"`` for a direction that is positive to the right."""
    return RIGHT if value > 0 else LEFT


def face_word(angle_deg: float, *, handed: str) -> str:
    """``"open"`` or ``"closed"`` for a face direction that is positive to the right."""
    return "open" if angle_deg * toe_side(handed) > 0 else "closed"


_SIDEWAYS_PUTT = ("stop_right_m", "start_deg", "face_deg", "path_deg", "closure_deg_s")


def _negated(value: float | None) -> float | None:
    return None if value is None else -value


def mirrored(fitting: Fitting) -> Fitting:
    """The same fitting seen in a mirror: the other hand, every sideways reading flipped.

    Everything this program says of a golfer must hold of the mirrored one with
    left and right exchanged; the tests lean on it.
    """
    golfer = dataclasses.replace(
        fitting.golfer, handed=LEFT if fitting.golfer.handed == RIGHT else RIGHT
    )
    slope_deg = fitting.fitting_green.slope_towards_deg
    return dataclasses.replace(
        fitting,
        golfer=golfer,
        fitting_green=dataclasses.replace(
            fitting.fitting_green, slope_towards_deg=_negated(slope_deg)
        ),
        aims=tuple(
            dataclasses.replace(aim, reading_mm=-aim.reading_mm) for aim in fitting.aims
        ),
        putts=tuple(
            dataclasses.replace(
                putt, **{name: _negated(getattr(putt, name)) for name in _SIDEWAYS_PUTT}
            )
            for putt in fitting.putts
        ),
    )
