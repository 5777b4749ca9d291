"""The linkage's usual body against published bodies: one case a row of references/anthropometry."""

from __future__ import annotations

import numpy as np
import pytest

from puttwright.address.linkage import GOLFER, GOLFER_SIZE, body_of, heights_m
from puttwright.address.posterior import Heights, learn, slopes
from puttwright.address.usual import TOLD_OVER_M, TOLD_SD_M

MAN_MM, WOMAN_MM = 1756.21, 1628.47
SHOE = [row.name for row in GOLFER].index("shoe_m")


def _barefoot(stature_mm):
    """The usual golfer of a height, in standard deviations, on bare feet."""
    golfer = np.zeros(GOLFER_SIZE)
    golfer[0] = (stature_mm / 1e3 - GOLFER[0].mean) / GOLFER[0].sd
    golfer[SHOE] = -GOLFER[SHOE].mean / GOLFER[SHOE].sd
    return golfer


def _height(name, stature_mm):
    return 1e3 * float(heights_m(_barefoot(stature_mm))[name])


def _eye(stature_mm):
    body = body_of(_barefoot(stature_mm))
    return _height("shoulder", stature_mm) + 1e3 * float(body.eye_up_m)


def _breadth(stature_mm):
    return 2e3 * float(body_of(_barefoot(stature_mm)).half_shoulders_m)


def _error(name, stature_mm):
    """What a height foretold from the stature may be wrong by."""
    belief = learn(Heights(stature_m=stature_mm / 1e3 + 0.025))
    slope = slopes(lambda at: (heights_m(at)[name] - heights_m(at)["barefoot"])[..., None],
                   belief.mean)[0]  # fmt: skip
    slope[0] = slope[SHOE] = 0.0
    return 1e3 * float(np.sqrt(slope @ belief.covariance @ slope))


OURS = {
    "shoulder_men": lambda: _height("shoulder", MAN_MM),
    "shoulder_women": lambda: _height("shoulder", WOMAN_MM),
    "wrist_men": lambda: _height("wrist", MAN_MM),
    "wrist_women": lambda: _height("wrist", WOMAN_MM),
    "eye_men": lambda: _eye(MAN_MM),
    "eye_women": lambda: _eye(WOMAN_MM),
    "breadth_men": lambda: _breadth(MAN_MM),
    "breadth_women": lambda: _breadth(WOMAN_MM),
    "wrist_sd_men": lambda: _error("wrist", MAN_MM),
    "wrist_sd_women": lambda: _error("wrist", WOMAN_MM),
    "shoulder_sd_men": lambda: _error("shoulder", MAN_MM),
    "told_men": lambda: 1e3 * TOLD_OVER_M,
    "told_women": lambda: 1e3 * TOLD_OVER_M,
    "told_sd": lambda: 1e3 * TOLD_SD_M,
    "dc_shoulder": lambda: _height("shoulder", 1000),
    "dc_hip": lambda: _height("hip", 1000),
    "dc_eye": lambda: _eye(1000) / 1e3,
    "dc_arm": lambda: (_height("shoulder", 1000) - _height("wrist", 1000)) / 1e3,
}


@pytest.mark.parametrize("key", OURS)
def test_a_usual_body(key, validate, published):
    row = published("anthropometry", keys=OURS)[key]
    ours = OURS[key]()
    if key in {"dc_shoulder", "dc_hip"}:
        ours /= 1e3
    validate(ours=ours, **row)
