import math

import numpy as np
import pytest

from puttwright.ball.limits import RANGES, checked
from puttwright.errors import OutOfRange


@pytest.mark.parametrize("limit", RANGES)
def test_both_ends_are_taken_and_beyond_them_is_refused_with_the_reason(limit):
    low, high, _, why = RANGES[limit]
    assert checked(limit=limit, value=[low, high]).tolist() == [low, high]
    for value in (low - 1e-9 - abs(low) * 1e-9, high * (1 + 1e-9) + 1e-9, math.nan, math.inf):
        with pytest.raises(OutOfRange) as refused:
            checked(limit=limit, value=[low, value])
        assert why in str(refused.value)


def test_the_first_value_outside_is_named():
    with pytest.raises(OutOfRange) as refused:
        checked(limit="ball_speed_mps", value=np.array([1.0, 40.0, 50.0]), name="ball speed")
    assert str(refused.value).startswith("ball speed is 40 m/s; it must lie between 0 and 12 m/s")
