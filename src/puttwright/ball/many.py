"""Many putts at once, on all cores: the bridge between arrays and the compiled kernels."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from puttwright.ball.crossing import RimEntry
from puttwright.ball.green import GreenPlane
from puttwright.ball.hole import capture_rows, capture_table
from puttwright.ball.kernels import putt_all
from puttwright.ball.limits import FloatArray
from puttwright.ball.roll import Stages, at_launch
from puttwright.ball.skid import Ball
from puttwright.units import BALL_RADIUS_M, HOLE_RADIUS_M


def _plane(green: GreenPlane, distance_m: float) -> FloatArray:
    """The green in the kernel's order."""
    turn = green.slope_towards_rad
    return np.array(
        [
            green.gravity_across_mps2,
            green.gravity_along_mps2,
            green.resistance_mps2,
            green.pull_mps2,
            turn,
            distance_m,
            HOLE_RADIUS_M,
            BALL_RADIUS_M,
            math.cos(turn),
            math.sin(turn),
        ]
    )


def putt_many(
    inputs: tuple[FloatArray, ...], *, green: GreenPlane, distance_m: float
) -> tuple[Stages, RimEntry, npt.NDArray[np.bool_]]:
    """Stages, rim entry and whether it dropped, as :func:`puttwright.ball.putt.putt` wants them.

    ``inputs`` are those of :func:`puttwright.ball.roll.launch_inputs`.
    """
    table = capture_table()
    flat = np.stack([part.ravel() for part in inputs])
    out = putt_all(
        flat,
        _plane(green, distance_m),
        table.offset_m,
        capture_rows(np.full(len(table.slope_towards_rad), green.slope), table.slope_towards_rad),
    )
    entry = RimEntry(
        reached=out[9] > 0.5, speed_mps=out[10], direction_rad=out[11], offset_m=out[12]
    )
    return _stages(inputs, flat, out), entry, out[9] > 1.5


def _stages(inputs: tuple[FloatArray, ...], flat: FloatArray, out: FloatArray) -> Stages:
    launched, _ = at_launch(tuple(flat[:5]))
    zero = np.zeros_like(out[0])
    hopped = Ball(
        place_m=np.stack([out[1], zero]),
        velocity_mps=launched.velocity_mps,
        surface_mps=launched.surface_mps,
        time_s=zero,
        bounce_lost=out[7],
        slide_lost=zero,
    )
    rolling = Ball(
        place_m=out[2:4],
        velocity_mps=out[4:6],
        surface_mps=out[4:6],
        time_s=out[6],
        bounce_lost=out[7],
        slide_lost=out[8],
    )
    return Stages(
        shape=inputs[0].shape,
        start_rad=flat[2],
        launch_energy=out[0],
        launched=launched,
        hopped=hopped,
        rolling=rolling,
    )
