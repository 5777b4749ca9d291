"""A plane seen by a camera, against the camera itself."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.address.plane_fit import fit_plane

SIZE = (1200, 900)
GRID = np.array([(x, y) for x in (-180, -130, 0, 130, 180) for y in (-120, -70, 70, 120)], float)


def _seen(points_mm, *, yaw_deg=0.0, pitch_deg=0.0, k=0.0):
    """A pinhole 1 m away with focal length 2000 px, bent by k at the picture's corners."""
    yaw, pitch = np.radians([yaw_deg, pitch_deg])
    turn_y = np.array([[np.cos(yaw), 0, np.sin(yaw)], [0, 1, 0], [-np.sin(yaw), 0, np.cos(yaw)]])
    turn_x = np.array(
        [[1, 0, 0], [0, np.cos(pitch), -np.sin(pitch)], [0, np.sin(pitch), np.cos(pitch)]]
    )
    flat = np.column_stack([points_mm[:, 0], -points_mm[:, 1], np.zeros(len(points_mm))])
    spots = flat @ (turn_x @ turn_y).T + (10.0, -20.0, 1000.0)
    straight = 2000.0 * spots[:, :2] / spots[:, 2:] / (np.hypot(*SIZE) / 2)
    bent = straight * (1 + k * (straight**2).sum(axis=1, keepdims=True))
    return bent * np.hypot(*SIZE) / 2 + ((SIZE[0] - 1) / 2, (SIZE[1] - 1) / 2)


@given(
    yaw_deg=st.floats(-35, 35), pitch_deg=st.floats(-35, 35), k=st.floats(-0.03, 0.03),
    x=st.floats(-180, 180), y=st.floats(-120, 120),
)  # fmt: skip
def test_it_goes_there_and_back_and_finds_the_lens(yaw_deg, pitch_deg, k, x, y):
    fit = fit_plane(GRID, _seen(GRID, yaw_deg=yaw_deg, pitch_deg=pitch_deg, k=k), size_px=SIZE)
    spot = np.array([[x, y]])
    truth = _seen(spot, yaw_deg=yaw_deg, pitch_deg=pitch_deg, k=k)
    assert fit.to_mm(truth)[0] == pytest.approx((x, y), abs=0.05)
    assert fit.to_mm(fit.to_pixels(spot))[0] == pytest.approx((x, y), abs=1e-6)


def test_the_spread_it_claims_is_the_spread_it_has():
    rng = np.random.default_rng(2)
    truth = _seen(GRID, yaw_deg=20, pitch_deg=-10)
    target = _seen(np.array([[150.0, 40.0]]), yaw_deg=20, pitch_deg=-10)[0]
    fits = [
        fit_plane(GRID, truth + rng.normal(0, 0.5, truth.shape), size_px=SIZE) for _ in range(200)
    ]
    found = np.array([fit.to_mm(target)[0] - (150.0, 40.0) for fit in fits])
    claimed = np.array([fit.sd_mm(target) for fit in fits])
    assert found.std(axis=0) == pytest.approx(np.sqrt((claimed**2).mean(axis=0)), rel=0.15)
    assert np.abs(found.mean(axis=0)).max() < 0.05


def test_points_in_a_line_fix_no_plane():
    line = np.array([(0.0, 0.0), (1, 1), (2, 2), (3, 3)])
    with pytest.raises(np.linalg.LinAlgError):
        fit_plane(line, line, size_px=SIZE)
