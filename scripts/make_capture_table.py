"""Make the table of capture speeds that ships with puttwright.

Run ``python scripts/make_capture_table.py`` from the root after a change of
``ball/rim_kernel.py`` or of the inputs below; it takes about a minute. The
same inputs give the same bytes. A test holds the shipped table to the kernel.
"""

from __future__ import annotations

import hashlib
import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from puttwright.ball.rim import RimBall, fates
from puttwright.units import BALL_RADIUS_M, GRAVITY_MPS2, HOLE_RADIUS_M

PACKAGE = Path(__file__).parents[1] / "src" / "puttwright" / "ball"
INPUTS: dict[str, Any] = {
    "ball_radius_m": BALL_RADIUS_M,
    "hole_radius_m": HOLE_RADIUS_M,
    "gravity_mps2": GRAVITY_MPS2,
    "rim": RimBall().as_inputs(),
    "offset_nodes": 81,
    "direction_nodes": 9,
    "slopes": [0.0, 0.02, 0.05, 0.10, 0.25],
    "scan_mps": 0.02,
    "fastest_mps": 2.4,
    "halvings": 8,
}

Floats = npt.NDArray[np.float64]


def _captured(speed: Floats, offset: Floats, slope: Floats, towards: Floats) -> npt.NDArray[Any]:
    found = fates(
        speed_mps=speed, offset_m=offset, slope=slope, slope_towards_rad=towards, ball=RimBall()
    )
    return np.asarray(found == 1)


def _highest_captured(offset: Floats, slope: Floats, towards: Floats) -> Floats:
    """Highest speed that drops, by a scan from below and halving above the last that did."""
    scan = np.arange(0.0, INPUTS["fastest_mps"], INPUTS["scan_mps"])[1:]
    low = np.zeros_like(offset)
    for speed in scan:
        low = np.where(_captured(np.full_like(offset, speed), offset, slope, towards), speed, low)
    high = low + INPUTS["scan_mps"]
    for _ in range(INPUTS["halvings"]):
        middle = 0.5 * (low + high)
        down = _captured(middle, offset, slope, towards)
        low, high = np.where(down, middle, low), np.where(down, high, middle)
    return low


def make() -> dict[str, Any]:
    """The arrays of the table: speed over slope, direction and offset, and their grids."""
    turn = np.linspace(-1.0, 1.0, INPUTS["offset_nodes"])
    offset = HOLE_RADIUS_M * np.sin(0.5 * math.pi * turn)
    direction = np.linspace(0.0, math.pi, INPUTS["direction_nodes"])
    slopes = np.asarray(INPUTS["slopes"])
    grid = np.meshgrid(slopes, direction, offset[1:-1], indexing="ij")
    inner = _highest_captured(grid[2].ravel(), grid[0].ravel(), grid[1].ravel())
    speed = np.zeros((len(slopes), len(direction), len(offset)))
    speed[:, :, 1:-1] = inner.reshape(grid[0].shape)
    # Without slope, and with the slope straight along, the mirror image is the same putt.
    for row in (*speed[0], *speed[:, 0], *speed[:, -1]):
        row[:] = 0.5 * (row + row[::-1])
    return {
        "speed_mps": speed.astype(np.float32),
        "slope": slopes,
        "slope_towards_rad": direction,
        "offset_m": offset,
    }


def header(arrays: dict[str, Any]) -> str:
    """Where the table comes from: inputs, and the hashes of kernel, script and numbers."""
    return json.dumps(
        {
            "made_by": "scripts/make_capture_table.py",
            "meaning": "highest speed at the rim, m/s, at which the ball drops",
            "inputs": INPUTS,
            "kernel_sha256": hashlib.sha256((PACKAGE / "rim_kernel.py").read_bytes()).hexdigest(),
            "speeds_sha256": hashlib.sha256(arrays["speed_mps"].tobytes()).hexdigest(),
        },
        sort_keys=True,
    )


if __name__ == "__main__":
    table = make()
    target = PACKAGE / "data" / "capture.npz"
    target.parent.mkdir(exist_ok=True)
    np.savez_compressed(target, provenance=np.array(header(table)), **table)
    print(f"{target.relative_to(PACKAGE.parents[2])}: {target.stat().st_size} bytes")
