"""The start line of a putt whose face was read but whose ball was not: from face and path."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from puttwright.ball.impact import Delivery, strike
from puttwright.evidence import Putt

FACE_SD_DEG: Final = 0.3
PATH_SD_DEG: Final = 0.6
"""A stroke sensor nobody studied is taken to repeat to these; common practice, no source."""
UNREAD_PATH_SD_DEG: Final = 2.0
"""How far a path nobody read may lie from straight; common practice, no source."""
_STEP_DEG: Final = 0.5
_USUAL_SPEED_MPS: Final = 1.5
"""Speed does not matter to the line; the impact wants one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeliveredLine:
    """Start line [deg, right positive] and how well it is known."""

    start_deg: float
    sd_deg: float


def line_from_face(putt: Putt, *, instruments: Mapping[tuple[str, str], float]) -> DeliveredLine:
    """Start line by the mechanics of impact: five sixths from the face, the rest from the path.

    Parameters
    ----------
    putt
        With ``face_deg``; ``path_deg`` where it was read.
    instruments
        Repeatability by instrument and column, from gauge studies.

    Examples
    --------
    >>> putt = Putt(seq=1, build_id="A", distance_m=3.0, face_deg=1.0, path_deg=0.0)
    >>> round(line_from_face(putt, instruments={}).start_deg, 2)
    0.83
    """
    face, path = putt.face_deg or 0.0, putt.path_deg or 0.0
    start = _start_deg(face, path)
    by_face = (_start_deg(face + _STEP_DEG, path) - start) / _STEP_DEG
    by_path = (_start_deg(face, path + _STEP_DEG) - start) / _STEP_DEG
    name = putt.instrument or ""
    face_sd = instruments.get((name, "face_deg"), FACE_SD_DEG)
    path_sd = instruments.get((name, "path_deg"), PATH_SD_DEG)
    if putt.path_deg is None:
        path_sd = UNREAD_PATH_SD_DEG
    return DeliveredLine(start_deg=start, sd_deg=math.hypot(by_face * face_sd, by_path * path_sd))


def _start_deg(face_deg: float, path_deg: float) -> float:
    delivery = Delivery(
        head_speed_mps=_USUAL_SPEED_MPS,
        face_rad=math.radians(face_deg),
        path_rad=math.radians(path_deg),
    )
    return math.degrees(float(strike(delivery=delivery).start_rad))
