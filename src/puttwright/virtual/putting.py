"""Let an invented golfer putt and aim: readings with the noise of the world they live in."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from puttwright.ball.hole import effective_half_width_m, fastest_capture_mps
from puttwright.evidence import AimReading, Putt
from puttwright.units import GRAVITY_MPS2
from puttwright.virtual.truth import TrueStroke
from puttwright.virtual.worlds import World
from puttwright.worth.pattern import PLANNED_PAST_M
from puttwright.worth.rounds import deceleration_of

BOARD_DISTANCE_MM = 2000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """What the shop owns: a start-line and speed sensor or only a tape measure."""

    sensor: bool
    start_noise_deg: float = 0.15
    speed_noise: float = 0.012


@dataclass(frozen=True, slots=True, kw_only=True)
class _Struck:
    """A putt as struck: start line, how far it will roll, and the hole's distance."""

    start_rad: float
    roll_m: float
    distance_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """A golfer on the fitting green, ready to putt."""

    stroke: TrueStroke
    world: World
    device: Device
    green_ft: float
    build_ids: tuple[str, ...]
    expected_putts: int

    def putt(self, *, seq: int, build: int, distance_m: float, rng: np.random.Generator) -> Putt:
        """One putt with build number ``build``."""
        along = seq / max(self.expected_putts, 1) - 0.5
        growth = 1.0 + self.world.spread_growth * along
        start_deg = (
            self.stroke.start_bias_deg[build]
            + self.world.start_drift_deg * along
            + growth * self.stroke.start_sd_deg[build] * self._error(rng)
        )
        pace = (
            self.stroke.pace_bias_pct[build]
            + self.world.pace_drift_pct * along
            + growth * self.stroke.pace_sd_pct[build] * self._error(rng)
        ) / 100.0
        rolled = max((distance_m + PLANNED_PAST_M) * (1.0 + pace), 0.1)
        struck = _Struck(start_rad=math.radians(start_deg), roll_m=rolled, distance_m=distance_m)
        return self._seen(struck, rng, seq=seq, build=build)

    def _error(self, rng: np.random.Generator) -> float:
        """A standard error with the world's tails, scaled to unit standard deviation."""
        nu = self.world.tails
        return float(rng.standard_t(nu) / math.sqrt(nu / (nu - 2.0)))

    def _seen(self, struck: _Struck, rng: np.random.Generator, *, seq: int, build: int) -> Putt:
        """What the shop's device and a tape measure make of it."""
        deceleration = deceleration_of(speed_ft=self.green_ft)
        green_line = struck.start_rad + math.radians(0.2) * rng.standard_normal()
        green_roll = struck.roll_m * (1.0 + 0.02 * rng.standard_normal())
        holed = _is_holed(
            _Struck(start_rad=green_line, roll_m=green_roll, distance_m=struck.distance_m),
            deceleration_mps2=deceleration,
        )
        past = green_roll * math.cos(green_line) - struck.distance_m
        speed, line = self._sensed(struck, rng, deceleration_mps2=deceleration)
        return Putt(
            seq=seq,
            build_id=self.build_ids[build],
            distance_m=struck.distance_m,
            holed=holed,
            stop_past_m=None if holed else round(past, 2),
            stop_right_m=None if holed else round(green_roll * math.sin(green_line), 2),
            ball_speed_mps=speed,
            start_deg=line,
            instrument="sensor" if self.device.sensor else None,
        )

    def _sensed(
        self, struck: _Struck, rng: np.random.Generator, *, deceleration_mps2: float
    ) -> tuple[float | None, float | None]:
        if not self.device.sensor:
            return None, None
        friction = self.world.sliding_friction * GRAVITY_MPS2
        speed = math.sqrt(
            struck.roll_m / (12.0 / (49.0 * friction) + 25.0 / (98.0 * deceleration_mps2))
        )
        speed *= self.world.speed_scale * (1.0 + self.device.speed_noise * rng.standard_normal())
        line = math.degrees(struck.start_rad) + self.world.sensor_bias_deg
        line += self.device.start_noise_deg * rng.standard_normal()
        return round(speed, 3), round(line, 2)

    def aim(self, *, seq: int, build: int, rng: np.random.Generator) -> AimReading:
        """One laser reading on the board, laser on the face."""
        angle = self.stroke.aim_bias_deg[build]
        angle += self.stroke.aim_sd_deg[build] * rng.standard_normal()
        dot = BOARD_DISTANCE_MM * math.tan(math.radians(angle)) + rng.normal(0.0, 1.5)
        return AimReading(
            seq=seq,
            build_id=self.build_ids[build],
            board_distance_mm=BOARD_DISTANCE_MM,
            reading_mm=round(dot, 0),
            mirror=False,
        )


def _is_holed(struck: _Struck, *, deceleration_mps2: float) -> bool:
    past = struck.roll_m - struck.distance_m
    if past < 0.0:
        return False
    speed = math.sqrt(2.0 * deceleration_mps2 * past)
    if speed > fastest_capture_mps():
        return False
    width = float(effective_half_width_m(speed_mps=np.array([speed]))[0])
    return abs(struck.distance_m * math.sin(struck.start_rad)) < width
