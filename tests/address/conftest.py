"""An invented golfer and their putter."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from puttwright.address.linkage import Held
from puttwright.address.posterior import Address, Heights, learn

OWN = Held(length_m=0.864, lie_rad=np.radians(71.0), name="own", axis_to_ball_m=0.03)
HEIGHTS = Heights(stature_m=1.78, told=True)


@pytest.fixture(scope="session")
def own():
    """The putter the golfer came with."""
    return OWN


@pytest.fixture(scope="session")
def heights():
    """All that is known of the golfer's body: a height, told."""
    return HEIGHTS


@pytest.fixture(scope="session")
def held():
    """Another putter: what differs from the own."""

    def _held(**change):
        return dataclasses.replace(OWN, **{"name": "other"} | change)

    return _held


@pytest.fixture(scope="session")
def measured():
    """An address as the fitter measures it."""
    return _measured


def _measured(*, eyes_m=0.06, hands_m=0.735, tilt_rad=0.02, of=OWN, seq=1):
    return Address(
        held=of, eye_inside_m=eyes_m, hands_height_m=hands_m, sole_tilt_rad=tilt_rad, seq=seq
    )


@pytest.fixture(scope="session")
def golfer():
    """One address with the own putter, measured."""
    return learn(HEIGHTS, [_measured()])
