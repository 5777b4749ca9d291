"""Which balls drop, against what is published: one case a row of references/capture."""

from __future__ import annotations

import math

import pytest

from puttwright.ball.hole import (
    capture_speed_mps,
    capture_speed_penner2002,
    clean_fall_speed_mps,
    effective_half_width_m,
)
from puttwright.ball.rim import RimBall, fates
from puttwright.units import HOLE_RADIUS_M

FIVE_DEGREES = math.tan(math.radians(5.0))


def _simulated(offset_mm):
    return capture_speed_mps(offset_m=offset_mm / 1e3)


def _law(offset_mm):
    return capture_speed_penner2002(offset_m=offset_mm / 1e3)


def _width_mm(speed_mps):
    return 1e3 * effective_half_width_m(speed_mps=speed_mps)


def _smaller_pct(speed_mps):
    return 100.0 * (1.0 - effective_half_width_m(speed_mps=speed_mps) / HOLE_RADIUS_M)


def _sloped(of, towards_rad):
    return of(offset_m=0.0, slope=FIVE_DEGREES, slope_towards_rad=towards_rad)


OURS = {
    "centred": lambda: _simulated(0),
    "clean_fall": clean_fall_speed_mps,
    **{f"law_{mm}": lambda mm=mm: _law(mm) for mm in (0, 10, 20, 30, 40, 50)},
    **{f"offset_{mm}": lambda mm=mm: _simulated(mm) for mm in (10, 20, 30, 40, 50)},
    **{
        f"width_{str(v).replace('.', '_')}": lambda v=v: _width_mm(v)
        for v in (0.3, 0.5, 0.8, 1.0, 1.31, 1.5)
    },
    "factor_up": lambda: _sloped(capture_speed_penner2002, math.pi),
    "factor_down": lambda: _sloped(capture_speed_penner2002, 0.0),
    "slope_up": lambda: _sloped(capture_speed_mps, math.pi),
    "slope_down": lambda: _sloped(capture_speed_mps, 0.0),
    "smaller_65": lambda: _smaller_pct(0.65),
    "smaller_23": lambda: _smaller_pct(0.23),
    "edge": lambda: _simulated(52),
}


@pytest.mark.parametrize("key", OURS)
def test_capture(key, validate, published):
    row = published("capture", keys=OURS)[key]
    validate(ours=float(OURS[key]()), **row)


def test_both_kinds_of_lip_out_appear():
    """Hogan & Antali 2025 (abstract seen): over the rim, and out of the hole, which needs grip."""
    speeds = [0.5 + 0.01 * i for i in range(60)]
    rim = fates(speed_mps=speeds, offset_m=0.035)
    gripping = fates(speed_mps=speeds, offset_m=0.032, ball=RimBall(friction=1.5))
    assert 2 in rim
    assert 3 in gripping
