"""What lies between pixels is told exactly where brightness runs evenly."""

from __future__ import annotations

import numpy as np
import pytest

from puttwright.readers.roll.look_kernel import along_rays, on_ball

PICTURE = (2 * np.arange(40)[:, None] + 3 * np.arange(50)).astype(np.uint8)


def test_brightness_runs_evenly_between_pixels_and_goes_on_beyond_the_edge():
    across, below = np.array([[0.0, 0.37, -0.8, 400.0]]), np.array([[0.0, -0.61, 0.25, 0.0]])
    light = np.empty((1, 4), np.float32)
    along_rays(PICTURE, 20.5, 10.25, across, below, light)
    x, y = 20.5 + across[0, :3], 10.25 + below[0, :3]
    assert light[0, :3] == pytest.approx(3.0 * x + 2.0 * y, abs=1e-4)
    assert light[0, 3] == pytest.approx(3.0 * 49.0 + 2.0 * 10.25, abs=0.01)


def test_a_point_of_the_ball_is_seen_where_the_lens_has_it_and_only_from_before():
    normal = np.array([[[0.0, 0.0, -1.0], [0.6, 0.0, -0.8], [0.0, 0.0, 1.0]]])
    middle, lens = np.array([0.05, -0.02, 1.0]), np.array([100.0, 20.0, 15.0])
    light, seen = np.empty((1, 3), np.float32), np.zeros((1, 3), bool)
    on_ball(PICTURE, middle, normal, lens, 0.02, 0.28, light, seen)
    place = middle + 0.02 * normal[0]
    x, y = 20.0 + 100.0 * place[:, 0] / place[:, 2], 15.0 + 100.0 * place[:, 1] / place[:, 2]
    assert light[0] == pytest.approx(3.0 * x + 2.0 * y, abs=1e-4)
    assert seen[0].tolist() == [True, True, False]
