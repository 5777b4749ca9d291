"""The rim of a shaded, smeared ball, from the brightness along its rays."""

from __future__ import annotations

import numpy as np
import pytest

from puttwright.readers.roll.edge import REACH, rims

ANGLE = (np.arange(72) + 0.5) * (2.0 * np.pi / 72)
RADIUS_PX = 24.0


def _runs(*, smear_px, rim=1.0, side=45.0, ink=None):
    """What a lens shows of a ball lit from the right and from before it, on turf with a slope."""
    fine = np.linspace(0.2, 1.6, 1401)
    light = np.empty((8, len(ANGLE), len(REACH)))
    kernel = np.exp(-0.5 * ((REACH[:, None] - fine) * RADIUS_PX / smear_px) ** 2)
    kernel /= kernel.sum(axis=1, keepdims=True)
    for ray, angle in enumerate(ANGLE):
        facing = np.sqrt(np.clip(1.0 - (fine / rim) ** 2, 0.0, None))
        ball = 170.0 + side * np.cos(angle) * fine / rim + 50.0 * facing
        run = np.where(fine < rim, ball, 70.0 + 15.0 * (fine - 1.0))
        if ray == ink:
            run = np.where((fine > 0.75) & (fine < 0.85), 30.0, run)
        light[:, ray] = kernel @ run
    return light


def _found(light, *, step_px=0.0):
    size = np.full(len(light), RADIUS_PX)
    return rims(light, angle=ANGLE, radius_px=size, step_px=np.full(len(light), step_px))


@pytest.mark.parametrize("smear_px", [0.8, 1.2, 1.5])
@pytest.mark.parametrize("rim", [0.96, 1.0, 1.03])
def test_shade_and_smear_do_not_move_the_rim(smear_px, rim):
    found = _found(_runs(smear_px=smear_px, rim=rim))

    # Runs here are of a straight edge; a disc is bent, and its rim lies so much further out.
    bent = 0.5 * (smear_px / RADIUS_PX) ** 2
    assert np.isfinite(found).all()
    assert np.abs(found - bent - rim).max() * RADIUS_PX < 0.08


def test_half_the_brightness_would_be_well_inside():
    light = _runs(smear_px=1.2)[0, 36]  # away from the light
    half = 0.5 * (light[(REACH > 0.87) & (REACH < 0.95)].mean() + light[REACH > 1.12].mean())
    crossing = np.interp(-half, -light, REACH)
    assert (1.0 - crossing) * RADIUS_PX > 0.15


def test_a_ray_with_ink_on_it_is_not_told():
    found = _found(_runs(smear_px=1.0, ink=20))

    assert np.isnan(found[:, 20]).all()
    assert np.isfinite(np.delete(found, 20, axis=1)).all()


def test_a_rim_out_of_reach_is_not_told():
    assert np.isnan(_found(_runs(smear_px=1.0, rim=0.85))).all()
