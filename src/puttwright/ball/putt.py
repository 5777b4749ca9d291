"""A putt from the face to the cup: launch, hop, skid, roll, and stop or hole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from puttwright.ball.crossing import RimEntry, rim_entry
from puttwright.ball.green import GreenPlane
from puttwright.ball.hole import capture_speed_mps
from puttwright.ball.limits import FloatArray, checked
from puttwright.ball.roll import Launch, Roll, Stages, launch_inputs, rolled_out, staged
from puttwright.ball.skid import SLIDING_FRICTION, TURF_RESTITUTION

COMPILED_FROM: Final = 50_000
"""Number of putts from which loading the compiler pays; below it plain arrays are quicker."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Putts:
    """What becomes of each putt; arrays of one shape.

    ``reached`` says whether the ball's centre crosses the rim; then
    ``rim_speed_mps``, ``rim_direction_rad`` and ``rim_offset_m`` (how far right of
    the centre a straight run on would pass) are its state there, 0 otherwise.
    A ball that lips out is not followed further.
    """

    holed: npt.NDArray[np.bool_]
    reached: npt.NDArray[np.bool_]
    rim_speed_mps: FloatArray
    rim_direction_rad: FloatArray
    rim_offset_m: FloatArray
    green: GreenPlane
    stages: Stages

    @property
    def roll(self) -> Roll:
        """The putts as if there were no hole."""
        return rolled_out(stages=self.stages, green=self.green)


def putt(
    *,
    launch: Launch,
    green: GreenPlane,
    distance_m: float,
    sliding_friction: npt.ArrayLike = SLIDING_FRICTION,
    turf_restitution: npt.ArrayLike = TURF_RESTITUTION,
    compiled: bool | None = None,
) -> Putts:
    """Putt at a hole ``distance_m`` away along the target line.

    Parameters
    ----------
    launch, green, sliding_friction, turf_restitution
        As in :func:`puttwright.ball.roll.roll`.
    distance_m
        Ball to the hole's centre, 0.05 to 60 m.
    compiled
        Use the compiled kernels; if left out, from 50,000 putts on. The answer is
        the same to rounding.

    Examples
    --------
    >>> green = GreenPlane.of_speed(speed_ft=10)
    >>> launch = Launch(ball_speed_mps=[1.0, 2.5, 4.5])
    >>> putt(launch=launch, green=green, distance_m=3.0).holed
    array([False,  True, False])
    """
    checked(limit="distance_m", value=distance_m)
    inputs = launch_inputs(
        launch=launch, sliding_friction=sliding_friction, turf_restitution=turf_restitution
    )
    if compiled is None:
        compiled = inputs[0].size >= COMPILED_FROM
    if compiled:
        from puttwright.ball.many import putt_many  # noqa: PLC0415 - a compiler is slow to load

        stages, entry, holed = putt_many(inputs, green=green, distance_m=distance_m)
    else:
        stages = staged(inputs, green=green)
        entry = rim_entry(stages=stages, green=green, distance_m=distance_m)
        holed = _dropped(entry, green=green)
    shape = stages.shape
    return Putts(
        holed=holed.reshape(shape),
        reached=entry.reached.reshape(shape),
        rim_speed_mps=entry.speed_mps.reshape(shape),
        rim_direction_rad=entry.direction_rad.reshape(shape),
        rim_offset_m=entry.offset_m.reshape(shape),
        green=green,
        stages=stages,
    )


def _dropped(entry: RimEntry, *, green: GreenPlane) -> npt.NDArray[np.bool_]:
    fastest = capture_speed_mps(
        offset_m=entry.offset_m,
        slope=green.slope,
        slope_towards_rad=green.slope_towards_rad - entry.direction_rad,
    )
    return np.asarray(entry.reached & (entry.speed_mps <= fastest))
