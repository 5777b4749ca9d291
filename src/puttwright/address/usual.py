"""What is believed of a body and of how it stands to a putt before anyone measures: one table.

Lengths of the body are fractions of the height without shoes. Published means are
those of ANSUR II (Gordon et al. 2014, NATICK/TR-15/007: 4082 men and 1986 women,
soldiers of 17 to 58, so neither juniors nor seniors nor golfers in a wheelchair)
and of Drillis & Contini 1966 as relayed by Winter. Nobody is asked for their sex: the middle
of men and women is taken and the spread holds both. "Judgement" means ours, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

_DEGREE: Final = math.pi / 180.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """One row: what is usual, how far golfers lie from it (sd), and who says so."""

    name: str
    mean: float
    sd: float
    source: str


BODY: Final = (
    Usual(name="stature_m", mean=1.692, sd=0.092, source="ANSUR II, men and women alike"),
    Usual(name="shoe_m", mean=0.025, sd=0.008, source="judgement"),
    Usual(name="shoulder_share", mean=0.820, sd=0.0087,
          source="ANSUR II acromial height, residual on stature; Drillis & Contini 0.818"),
    Usual(name="arm_share", mean=0.335, sd=0.010,
          source="ANSUR II acromial less wrist height; Drillis & Contini 0.332"),
    Usual(name="hip_share", mean=0.523, sd=0.012,
          source="between ANSUR II trochanter 0.516 and Drillis & Contini hip 0.530"),
    Usual(name="half_shoulders_share", mean=0.115, sd=0.006, source="ANSUR II biacromial breadth"),
    Usual(name="eye_share", mean=0.934, sd=0.006,
          source="ANSUR II, stature less sitting height plus sitting eye height"),
    Usual(name="eye_ahead_share", mean=0.055, sd=0.012,
          source="judgement: eyes ahead of the shoulders, standing"),
    Usual(name="grip_share", mean=0.044, sd=0.008,
          source="judgement: wrist to the middle of the closed hand, 0.4 of its length"),
)  # fmt: skip
"""Lengths of the body, as fractions of the height without shoes where they end in ``_share``."""

HABITS: Final = (
    Usual(name="trunk_rad", mean=40 * _DEGREE, sd=12 * _DEGREE, source="judgement"),
    Usual(name="neck_rad", mean=30 * _DEGREE, sd=10 * _DEGREE, source="judgement"),
    Usual(name="arm_rad", mean=0.0, sd=4 * _DEGREE,
          source="common practice, no source: the arms hang"),
    Usual(name="elbow_rad", mean=25 * _DEGREE, sd=12 * _DEGREE, source="judgement"),
    Usual(name="grip_down_m", mean=0.0, sd=0.020,
          source="judgement: further down than is usual for the grip style"),
    Usual(name="eye_behind_m", mean=0.030, sd=0.040, source="judgement"),
    Usual(name="weight_ahead_m", mean=0.045, sd=0.015,
          source="judgement: centre of mass ahead of the ankles"),
)  # fmt: skip
"""How a golfer stands: bend of the trunk, of the neck on it, arms off the plumb, elbows."""

GIVES: Final = (
    Usual(name="trunk_rad", mean=0.0, sd=3.0 * _DEGREE, source="judgement"),
    Usual(name="neck_rad", mean=0.0, sd=3.0 * _DEGREE, source="judgement"),
    Usual(name="arm_rad", mean=0.0, sd=1.0 * _DEGREE, source="judgement"),
    Usual(name="elbow_rad", mean=0.0, sd=3.0 * _DEGREE, source="judgement"),
    Usual(name="grip_down_m", mean=0.0, sd=0.005, source="judgement"),
    Usual(name="sole_tilt_rad", mean=0.0, sd=1.2 * _DEGREE,
          source="judgement: how readily toe or heel is let rise"),
    Usual(name="eye_behind_m", mean=0.0, sd=0.008, source="judgement"),
    Usual(name="axis_to_ball_m", mean=0.030, sd=0.010,
          source="judgement: shaft axis to sweet spot, where it was not measured"),
)  # fmt: skip
"""How a golfer meets one putter: what differs from the habit, each giving as readily as this."""

REPEATS: Final = (
    Usual(name="eye_inside_m", mean=0.0, sd=0.010, source="judgement"),
    Usual(name="eye_behind_m", mean=0.0, sd=0.010, source="judgement"),
    Usual(name="hands_height_m", mean=0.0, sd=0.006, source="judgement"),
    Usual(name="sole_tilt_rad", mean=0.0, sd=0.5 * _DEGREE, source="judgement"),
)
"""How two addresses to one putter differ."""

READ_TO: Final = (
    Usual(name="eye_inside_m", mean=0.0, sd=0.008, source="judgement: plumb line and tape"),
    Usual(name="eye_behind_m", mean=0.0, sd=0.008, source="judgement: plumb line and tape"),
    Usual(name="hands_height_m", mean=0.0, sd=0.008, source="judgement: tape"),
    Usual(name="sole_tilt_rad", mean=0.0, sd=0.5 * _DEGREE, source="judgement: a level or a card"),
)
"""Errors of reading where no gauge study was done."""

ARM_UPPER: Final = 0.186 / (0.186 + 0.146)
"""Upper arm, of shoulder to wrist (Drillis & Contini)."""

ANKLE_SHARE: Final = 0.039
"""Height of the ankle (Drillis & Contini)."""

TOE_SHARE: Final = 0.115
"""Toes ahead of the ankle; from memory, it places the feet in the picture and nothing else."""

UPPER_MASS, UPPER_CENTRE, LEG_CENTRE = 0.678, 0.626, 0.553
"""Mass of head, arms and trunk over the body's; its centre, of hip to shoulder; centre of the
legs, of ankle to hip (Winter, from memory). They place the hips over the feet, nothing else."""

TOLD_OVER_M: Final = 0.0175
"""Told height less measured: ANSUR II 22.7 mm men, 12.4 mm women; the middle of both."""
TOLD_SD_M: Final = 0.028
MEASURED_SD_M: Final = 0.005
HEIGHT_SD_M: Final = 0.010
"""A height read from a tape along a standing golfer; judgement."""

CLOSES_TO_M: Final = 0.002
"""How exactly the hands of the body and the hands on the grip must meet."""
