"""Where the start line comes from: face, path, lie, strike and the turning of the face."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from puttwright.ball.head import Head
from puttwright.ball.impact import RESTITUTION, Delivery, strike
from puttwright.ball.limits import FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class StartLine:
    """The start line and what each cause would do alone; right positive.

    ``rest_rad`` is what they do together beyond their sum; it is small for putts.
    """

    start_rad: FloatArray
    face_rad: FloatArray
    path_rad: FloatArray
    lie_rad: FloatArray
    strike_rad: FloatArray
    closure_rad: FloatArray
    rest_rad: FloatArray


_CAUSES = {
    "face_rad": ("face_rad",),
    "path_rad": ("path_rad",),
    "lie_rad": ("sole_tilt_rad",),
    "strike_rad": ("strike_toe_m", "strike_high_m"),
    "closure_rad": ("closure_radps",),
}


def explain(
    *, delivery: Delivery, head: Head | None = None, restitution: float = RESTITUTION
) -> StartLine:
    """Split the start line into its causes, each struck alone with all else straight.

    Parameters
    ----------
    delivery, head, restitution
        As in :func:`puttwright.ball.impact.strike`.

    Returns
    -------
    StartLine
        Arrays of the broadcast shape.

    Examples
    --------
    >>> parts = explain(delivery=Delivery(head_speed_mps=1.5, face_rad=0.01, path_rad=0.01))
    >>> (100 * parts.face_rad).round(2), (100 * parts.path_rad).round(2)
    (np.float64(0.83), np.float64(0.17))
    """
    whole = strike(delivery=delivery, head=head, restitution=restitution).start_rad
    names = [name for fields in _CAUSES.values() for name in fields]
    nothing: dict[str, Any] = dict.fromkeys(names, 0.0)
    straight = replace(delivery, **nothing)
    parts: dict[str, npt.NDArray[np.float64]] = {}
    for cause, fields in _CAUSES.items():
        alone = replace(straight, **{name: getattr(delivery, name) for name in fields})
        found = strike(delivery=alone, head=head, restitution=restitution).start_rad
        parts[cause] = np.broadcast_to(found, whole.shape)
    return StartLine(start_rad=whole, rest_rad=whole - sum(parts.values()), **parts)
