"""Worlds an invented golfer may live in, made to differ from the model that judges them.

The model believes certain levers matter a little, tails may be heavy and
golfers steer half of an aim error back. Here levers may do nothing, a lot, or
the reverse; tails, drift, steering and instruments vary; nobody tells the model which.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class World:
    """How one kind of invented golfer putts.

    ``lever`` scales what head shape, offset, loft, hang and mass do; ``own``
    scales what each build does besides. ``tails`` is the degrees of freedom of
    every error. ``steering`` is the share of an aim bias taken back in the stroke.
    Drifts are from first putt to last. ``sensor_bias_deg`` and ``speed_scale``
    are faults of the sensor that no gauge study has told of.
    """

    name: str
    lever: float = 1.0
    own: float = 1.0
    tails: float = 60.0
    steering: float = 0.5
    start_drift_deg: float = 0.0
    pace_drift_pct: float = 0.0
    spread_growth: float = 0.0
    sensor_bias_deg: float = 0.0
    speed_scale: float = 1.0
    sliding_friction: float = 0.4


WORLDS: Final = (
    World(name="levers matter"),
    World(name="levers do nothing", lever=0.0),
    World(name="levers reversed", lever=-1.0),
    World(name="levers strong", lever=2.0, own=0.5),
    World(name="builds alike", lever=0.0, own=0.15),
    World(name="heavy tails", tails=3.5),
    World(name="drift", start_drift_deg=0.6, pace_drift_pct=5.0, spread_growth=0.2),
    World(name="steers it all back", steering=0.95),
    World(name="never steers", steering=0.0),
    World(name="sensor off", sensor_bias_deg=0.4, speed_scale=1.03, sliding_friction=0.3),
)
