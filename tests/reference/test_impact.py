"""The strike against what is published: one case a row of references/impact."""

from __future__ import annotations

import math

import numpy as np
import pytest

from puttwright.ball.head import Head
from puttwright.ball.impact import Delivery, lie_aim_rad, strike
from puttwright.ball.strike import off_centre, strike_scatter
from puttwright.units import BALL_INERTIA_FACTOR

DEGREE = math.pi / 180.0


def _struck(*, restitution=0.8, head=None, **delivery):
    return strike(
        delivery=Delivery(head_speed_mps=1.5, **delivery),
        head=head or Head(cg_depth_m=0.0),
        restitution=restitution,
    )


def _ratio(restitution):
    return _struck(restitution=restitution).ball_speed_mps / 1.5


def _face_share(restitution, angle_rad=0.01):
    return _struck(restitution=restitution, face_rad=angle_rad).start_rad / angle_rad


def _lofted(loft_deg):
    return _struck(restitution=0.856, loft_rad=loft_deg * DEGREE)


def _lie(loft_deg, tilt_deg):
    """By the formula and by the strike itself, which must aim the face alike."""
    by_formula = lie_aim_rad(loft_rad=loft_deg * DEGREE, sole_tilt_rad=tilt_deg * DEGREE)
    hit = _struck(loft_rad=loft_deg * DEGREE, sole_tilt_rad=tilt_deg * DEGREE)
    assert hit.start_rad == pytest.approx(0.827 * by_formula, rel=0.02)
    return by_formula / DEGREE


def _kept(moi_g_cm2, strike_mm):
    head = Head(
        mass_kg=0.365 if moi_g_cm2 == 6000 else 0.350,
        moi_vertical_kg_m2=moi_g_cm2 / 1e7,
        cg_depth_m=0.0,
    )
    return off_centre(head=head, strike_toe_m=strike_mm / 1e3, loft_rad=0.0).pace_share


def _gear(depth_mm):
    moi = {10: 4.5e-4, 15: 4.5e-4, 20: 5e-4, 30: 6e-4}[depth_mm]
    head = Head(moi_vertical_kg_m2=moi, cg_depth_m=depth_mm / 1e3)
    return off_centre(head=head, strike_toe_m=0.001, loft_rad=0.0).line_rad / DEGREE


OURS = {
    "ratio_80": lambda: _ratio(0.80),
    "ratio_856": lambda: _ratio(0.856),
    "ratio_measured": lambda: _ratio(0.80),
    **{f"share_{pct}": lambda pct=pct: _face_share(pct / 100) for pct in (75, 80, 85)},
    "share_face": lambda: _face_share(0.8),
    "share_path": lambda: _struck(path_rad=0.01).start_rad / 0.01,
    "share_five": lambda: _face_share(0.8, 5 * DEGREE),
    "path_3_5": lambda: _struck(path_rad=3.5 * DEGREE).start_rad / DEGREE,
    **{f"launch_{loft}": lambda loft=loft: _lofted(loft).launch_rad / DEGREE for loft in (2, 3, 4)},
    **{f"backspin_{loft}": lambda loft=loft: -_lofted(loft).spin_radps for loft in (2, 3, 4)},
    "lie_3_2": lambda: _lie(3, 2),
    "lie_3_5": lambda: _lie(3, 5),
    "lie_4_5": lambda: _lie(4, 5),
    **{
        f"kept_{moi}_{mm}": lambda moi=moi, mm=mm: _kept(100 * moi, mm)
        for moi in (45, 50, 60)
        for mm in (10, 20, 30)
    },
    "lost_30": lambda: 100.0 * (1.0 - _kept(5000, 30)),
    **{f"gear_{mm}": lambda mm=mm: _gear(mm) for mm in (10, 15, 20, 30)},
    "gear_measured": lambda: _gear(20),
    "ball_inertia": lambda: BALL_INERTIA_FACTOR,
}


@pytest.mark.parametrize("key", OURS)
def test_impact(key, validate, published):
    row = published("impact", keys=OURS)[key]
    validate(ours=float(OURS[key]()), **row)


def _scatter(moi_kg_m2, depth_m):
    return strike_scatter(
        head=Head(moi_vertical_kg_m2=moi_kg_m2, cg_depth_m=depth_m), toe_sd_m=0.008
    )


def test_inertia_buys_pace_more_than_line():
    """R. Cross on the polar moment (abstract seen): more inertia steadies speed before line."""
    small, big = _scatter(4e-4, 0.02), _scatter(8e-4, 0.02)
    length_gained = small.pace_sd_share - big.pace_sd_share
    line_gained = small.line_sd_rad - big.line_sd_rad
    # Both as a share of the putt's length: how far short or long, how far beside.
    assert length_gained > 2.0 * line_gained > 0.0


def test_a_small_depth_steadies_the_line():
    """ISEA 2020, Proceedings 49(1) 2 (abstract seen)."""
    depths = [0.01, 0.02, 0.03]
    lines = [_scatter(5e-4, depth).line_sd_rad for depth in depths]
    assert np.all(np.diff(lines) > 0.0)
