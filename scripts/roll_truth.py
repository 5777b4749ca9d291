"""Putts with a known truth, stepped through time by a program that shares nothing with ball/.

On *even* turf the ball hops, slides under Coulomb's law and rolls with constant resistance. On
*rough* turf it lies in a hollow, springs off bumps, meets friction that changes along the way, is
slowed by the grass while it slides, and rolls on a radius that is not its own: other physics than
those that are fitted.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

RADIUS_M = 0.021336
GRAVITY_MPS2 = 9.80665
STEP_S = 2e-5
EVERY = 5
_STILL = 1e-3
_WAVES = 9
_STEP_SLIP = 5e-4

Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Strike:
    """How the ball leaves the face, and how even turf treats it."""

    ball_speed_mps: float = 2.0
    launch_deg: float = 2.0
    spin_radps: float = 0.0
    friction: float = 0.4
    deceleration_mps2: float = 0.55
    restitution: float = 0.3


@dataclass(frozen=True, kw_only=True)
class Rough:
    """What is uneven: spreads of friction and height, depth of the hollow, rolling radius."""

    friction_share: float = 0.2
    bump_m: float = 1.2e-4
    hollow_m: float = 6e-4
    radius_share: float = 1.0
    seed: int = 0


@dataclass(frozen=True, kw_only=True)
class Truth:
    """The putt through time from the strike on; ``skid_m`` and ``skid_s`` are from the face."""

    strike: Strike
    time_s: Floats
    along_m: Floats
    up_m: Floats
    speed_mps: Floats
    surface_mps: Floats
    turn_rad: Floats
    rest_up_m: float
    skid_m: float
    skid_s: float


def follow(strike: Strike, *, rough: Rough | None = None, until_s: float = 1.2) -> Truth:
    """Step the putt from the strike on; the books are kept every tenth of a millisecond."""
    if rough is None:
        rows = _even(strike, until_s)
        return _truth(strike, np.array(rows), rest_up_m=0.0, radius_share=1.0, still=_STEP_SLIP)
    rest, rows = _uneven(strike, rough, until_s)
    return _truth(
        strike, np.array(rows), rest_up_m=rest, radius_share=rough.radius_share, still=3.0 * _STILL
    )


def _truth(
    strike: Strike, rows: Floats, *, rest_up_m: float, radius_share: float, still: float
) -> Truth:
    time_s, along, up, speed, surface, turn = rows.T
    rolling = np.abs(speed - radius_share * surface) < still
    first = int(np.argmax(rolling)) if rolling.any() else len(speed) - 1
    return Truth(
        strike=strike, time_s=time_s, along_m=along, up_m=up, speed_mps=speed,
        surface_mps=surface, turn_rad=turn, rest_up_m=rest_up_m,
        skid_m=float(along[first]), skid_s=float(time_s[first]),
    )  # fmt: skip


def _even(strike: Strike, until_s: float) -> list[tuple[float, ...]]:
    """Free flight, landings that take friction with them, sliding, rolling."""
    up = math.radians(strike.launch_deg)
    v, rise = strike.ball_speed_mps * math.cos(up), strike.ball_speed_mps * math.sin(up)
    w, x, z, turn, rows = RADIUS_M * strike.spin_radps, 0.0, 0.0, 0.0, []
    flying = rise > 0.0
    for step in range(round(until_s / STEP_S)):
        if step % EVERY == 0:
            rows.append((step * STEP_S, x, z, v, w, turn))
        if flying:
            rise -= GRAVITY_MPS2 * STEP_S
            z += rise * STEP_S
            if z <= 0.0 and rise < 0.0:
                back = -strike.restitution * rise
                push = strike.friction * (back - rise)
                slip = v - w
                share = min(2.0 / 7.0, push / abs(slip)) if slip else 0.0
                v, w = v - share * slip, w + 2.5 * share * slip
                z, rise, flying = 0.0, back, back > 0.004
        elif abs(v - w) > _STEP_SLIP:
            pull = math.copysign(strike.friction * GRAVITY_MPS2 * STEP_S, v - w)
            v, w = v - pull, w + 2.5 * pull
        else:
            v = max(v - strike.deceleration_mps2 * STEP_S, 0.0)
            w = v
        x += v * STEP_S
        turn += w / RADIUS_M * STEP_S
    return rows


def _smooth(rng: np.random.Generator, low_m: float, high_m: float) -> Floats:
    """Waves of unit variance between two lengths: rows of amplitude, wave number, phase."""
    length = np.exp(rng.uniform(math.log(low_m), math.log(high_m), _WAVES))
    size = np.full(_WAVES, math.sqrt(2.0 / _WAVES))
    return np.stack([size, 2.0 * math.pi / length, rng.uniform(0, 2 * math.pi, _WAVES)])


def _grid(waves: Floats, at_m: Floats) -> Floats:
    size, number, phase = waves
    return np.asarray((size * np.sin(np.multiply.outer(at_m, number) + phase)).sum(axis=-1))


def _uneven(strike: Strike, rough: Rough, until_s: float) -> tuple[float, list[tuple[float, ...]]]:
    """A ball on a springy uneven floor, with friction along the way and resistance always."""
    rng = np.random.default_rng([31, rough.seed])
    cell = 5e-4
    at = np.arange(-0.05, 6.0, cell)
    hollow = rough.hollow_m * np.exp(-((at / 0.012) ** 2))
    floor = rough.bump_m * _grid(_smooth(rng, 0.05, 0.25), at) - hollow
    steep = np.gradient(floor, cell)
    mu = strike.friction * np.exp(rough.friction_share * _grid(_smooth(rng, 0.08, 0.5), at))
    hold = strike.deceleration_mps2 * np.exp(0.1 * _grid(_smooth(rng, 0.1, 0.5), at))
    spring, damp = GRAVITY_MPS2 / 2e-4, 260.0
    base = round(0.05 / cell)
    up = math.radians(strike.launch_deg)
    v, rise = strike.ball_speed_mps * math.cos(up), strike.ball_speed_mps * math.sin(up)
    rest = float(floor[base]) - GRAVITY_MPS2 / spring
    w, x, z, turn, rows = RADIUS_M * strike.spin_radps, 0.0, rest, 0.0, []
    low, slope, grip, brake = floor.tolist(), steep.tolist(), mu.tolist(), hold.tolist()
    for step in range(round(until_s / STEP_S)):
        if step % EVERY == 0:
            rows.append((step * STEP_S, x, z, v, w, turn))
        cellno = base + int(x / cell)
        sunk = low[cellno] - z
        press = max(spring * sunk - damp * (rise - v * slope[cellno]), 0.0) if sunk > 0 else 0.0
        rise += (press - GRAVITY_MPS2) * STEP_S
        z += rise * STEP_S
        slip = v - rough.radius_share * w
        rub = grip[cellno] * press * max(-1.0, min(1.0, slip / _STILL))
        share = press / GRAVITY_MPS2 * brake[cellno]
        v += (-rub - share - press * slope[cellno]) * STEP_S
        w += (2.5 * rub - share) * STEP_S
        if v <= 0.0:
            v = w = 0.0
        x += v * STEP_S
        turn += w / RADIUS_M * STEP_S
    return rest - (float(np.mean(floor[base + 100 :])) - GRAVITY_MPS2 / spring), rows
