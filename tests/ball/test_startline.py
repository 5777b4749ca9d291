import numpy as np
import pytest

from puttwright.ball.impact import Delivery
from puttwright.ball.startline import explain

PARTS = ("face_rad", "path_rad", "lie_rad", "strike_rad", "closure_rad", "rest_rad")


def _explained(**delivery):
    return explain(delivery=Delivery(head_speed_mps=1.5, loft_rad=0.06, **delivery))


def test_the_parts_add_up_and_the_rest_is_small():
    parts = _explained(
        face_rad=np.array([0.02, -0.01]),
        path_rad=-0.03,
        sole_tilt_rad=0.05,
        strike_toe_m=-0.01,
        strike_high_m=0.004,
        closure_radps=1.0,
    )
    assert sum(getattr(parts, name) for name in PARTS) == pytest.approx(parts.start_rad)
    assert np.abs(parts.rest_rad).max() < 1e-3


@pytest.mark.parametrize(
    ("cause", "delivery"),
    [
        ("face_rad", {"face_rad": 0.02}),
        ("path_rad", {"path_rad": 0.02}),
        ("lie_rad", {"sole_tilt_rad": -0.05}),
        ("strike_rad", {"strike_toe_m": 0.01}),
        ("closure_rad", {"closure_radps": 1.0}),
    ],
)
def test_one_cause_alone_is_all_of_it(cause, delivery):
    parts = _explained(**delivery)
    assert float(getattr(parts, cause)) == pytest.approx(float(parts.start_rad), abs=1e-15)
    assert float(parts.start_rad) > 0.0
