"""Worth of a fitting: 4,000 draws of 8 builds on 3 greens, beside nested SciPy quadrature.

The peer solves the same chain of putts over the same leaves by ``scipy.integrate.quad`` inside
``quad``, for one pattern of putts on one green, and its time is scaled to all of them. It must
come to our expected putts, or its time would mean nothing.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Iterator

import numpy as np
from scipy.integrate import quad

from puttwright.ball.hole import effective_half_width_m, fastest_capture_mps
from puttwright.evidence import Green
from puttwright.worth.first_putts import TOUR_FIRST_PUTTS
from puttwright.worth.kernels import LEAVE_GRID_M
from puttwright.worth.noise import TOUR_READ_NOISE
from puttwright.worth.pattern import PLANNED_PAST_M, Pattern
from puttwright.worth.rounds import Course, deceleration_of, putts_per_round

DRAWS, BUILDS = 4000, 8
GREENS_FT = (9.0, 10.5, 12.0)
SWEEPS = 2
REACH_SD = 6.0
SPEEDS = np.linspace(0.0, fastest_capture_mps(), 2000)
WIDTHS = effective_half_width_m(speed_mps=SPEEDS)
ROOT_TWO_PI = math.sqrt(2.0 * math.pi)

Value = Callable[[float], float]


class Peer:
    """Expected putts of one pattern on one green, by nested quadrature."""

    def __init__(self, *, start_sd_deg: float, start_bias_deg: float, pace_sd: float) -> None:
        self.start_sd, self.bias = math.radians(start_sd_deg), math.radians(start_bias_deg)
        self.pace_sd = math.hypot(pace_sd, TOUR_READ_NOISE.pace)
        self.deceleration = deceleration_of(speed_ft=GREENS_FT[0])

    def putts_per_round(self) -> float:
        """The chain solved over the leaves, then the first putts."""
        value = self._chance_alone
        for _ in range(SWEEPS):
            solved = np.array([self._expected(d, value) for d in LEAVE_GRID_M])
            value = self._interpolated(solved)
        return sum(p.per_round * self._expected(p.distance_m, value) for p in TOUR_FIRST_PUTTS)

    def _chance_alone(self, distance_m: float) -> float:
        return 1.0 if distance_m < LEAVE_GRID_M[0] else 2.0

    def _interpolated(self, solved: np.ndarray) -> Value:
        roots = np.sqrt(LEAVE_GRID_M)
        return lambda leave: float(np.interp(math.sqrt(leave), roots, solved))

    def _expected(self, distance_m: float, value: Value) -> float:
        mean = distance_m + PLANNED_PAST_M
        sd = self.pace_sd * mean

        def over_rolls(roll: float) -> float:
            z = (roll - mean) / sd
            density = math.exp(-0.5 * z * z) / (ROOT_TWO_PI * sd)
            return density * self._missed(distance_m, roll, value)

        low, high = max(mean - REACH_SD * sd, 0.0), mean + REACH_SD * sd
        inside = [x for x in (distance_m, self._longest(distance_m)) if low < x < high]
        return 1.0 + quad(over_rolls, low, high, points=inside, limit=100, epsabs=1e-4)[0]

    def _longest(self, distance_m: float) -> float:
        return distance_m + fastest_capture_mps() ** 2 / (2.0 * self.deceleration)

    def _missed(self, distance_m: float, roll: float, value: Value) -> float:
        """Mean expected putts over the lines that miss, for one roll."""
        line_sd = math.hypot(
            self.start_sd, float(TOUR_READ_NOISE.line_sd_rad(distance_m=np.float64(distance_m)))
        )

        def over_lines(line: float) -> float:
            z = (line - self.bias) / line_sd
            leave = math.sqrt(
                (roll * math.cos(line) - distance_m) ** 2 + (roll * math.sin(line)) ** 2
            )
            return math.exp(-0.5 * z * z) / (ROOT_TWO_PI * line_sd) * value(leave)

        reach = self._half_angle(distance_m, roll)
        low, high = self.bias - REACH_SD * line_sd, self.bias + REACH_SD * line_sd
        sides = ((low, max(-reach, low)), (min(reach, high), high))
        return sum(quad(over_lines, a, b, epsabs=1e-4)[0] for a, b in sides if a < b)

    def _half_angle(self, distance_m: float, roll: float) -> float:
        past = roll - distance_m
        if not 0.0 < past < self._longest(distance_m) - distance_m:
            return 0.0
        speed = math.sqrt(2.0 * self.deceleration * past)
        return math.asin(min(float(np.interp(speed, SPEEDS, WIDTHS)) / distance_m, 1.0))


def _ours(*, draws: int, builds: int, greens_ft: tuple[float, ...]) -> float:
    """Seconds for as many patterns, each a little different."""
    rng = np.random.default_rng(4)
    shape = (draws, builds)
    pattern = Pattern(
        start_sd_rad=np.radians(rng.uniform(0.8, 1.4, shape)),
        start_bias_rad=np.radians(rng.normal(0.0, 0.5, shape)),
        pace_sd=rng.uniform(0.06, 0.1, shape),
        pace_bias=rng.normal(0.0, 0.03, shape),
    )
    started = time.perf_counter()
    putts_per_round(pattern, course=_course(greens_ft))
    return time.perf_counter() - started


def _course(greens_ft: tuple[float, ...]) -> Course:
    greens = tuple(Green(name=f"{speed} ft", speed_ft=speed, share=1.0) for speed in greens_ft)
    return Course(greens=greens, first_putts=TOUR_FIRST_PUTTS, noise=TOUR_READ_NOISE)


def rows() -> Iterator[tuple[str, float, str, float]]:
    """All patterns on all greens; the peer solves one on one."""
    _ours(draws=10, builds=1, greens_ft=GREENS_FT)
    ours_s = min(_ours(draws=DRAWS, builds=BUILDS, greens_ft=GREENS_FT) for _ in range(3))
    started = time.perf_counter()
    theirs = Peer(start_sd_deg=1.1, start_bias_deg=0.3, pace_sd=0.08).putts_per_round()
    peer_s = (time.perf_counter() - started) * DRAWS * BUILDS * len(GREENS_FT)
    pattern = Pattern.of(start_sd_deg=1.1, start_bias_deg=0.3, pace_sd_pct=8.0, pace_bias_pct=0.0)
    mine = float(putts_per_round(pattern, course=_course(GREENS_FT[:1]))[0])
    if abs(theirs - mine) > 0.05:
        raise SystemExit(f"the peer comes to {theirs:.3f} putts a round and we to {mine:.3f}")
    what = f"{DRAWS} draws × {BUILDS} builds × {len(GREENS_FT)} greens, in putts a round"
    yield what, ours_s, f"nested quad ({theirs:.2f} to our {mine:.2f} putts), scaled", peer_s
