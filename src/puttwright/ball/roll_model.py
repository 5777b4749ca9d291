"""What a film of a putt from the side shows, and what it would show of a given putt.

The parameters of :func:`puttwright.ball.roll_fit.fit_roll`: the ball off the face, the turf, and
what the film may be wrong in (scale, its change along the way, a line looked at askew).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.roll_kernel import films
from puttwright.ball.side_view import SideStrike
from puttwright.ball.skid import LAST_HOP_MPS, SLIDING_FRICTION, TURF_RESTITUTION
from puttwright.units import BALL_RADIUS_M, GRAVITY_MPS2

Floats = NDArray[np.float64]

STEPS: Final = 5
USUAL_DECELERATION_MPS2: Final = 0.6
_ASKEW_RAD: Final = 0.02
_LAG_S: Final = (1e-4, 1e-4)
"""A codec fetches the ball from the picture before, where it had not turned so far, and puts that
right in part: turning is seen late by a small part of a picture (rendered clips)."""
_BEND_RAD: Final = 0.002
"""How far a turning may read wrong toward the ends of the way, where the ball is looked at from
behind or from before (rendered clips)."""
NAMES: Final = (
    "strike_s", "along_mps", "rise_share", "surface_share", "log_friction", "log_deceleration",
    "log_scale", "log_radius", "bend_pm", "along_0", "up_0", "up_slope", "lie_m", "turned_0",
    "slide_share", "up_bend_pm", "once_sin", "once_cos", "twice_sin", "twice_cos",
    "turn_lag_s", "turn_square", "turn_cube",
)  # fmt: skip
AT: Final = {name: place for place, name in enumerate(NAMES)}
_SHOWN: Final = [AT[name] for name in (
    "strike_s", "log_scale", "bend_pm", "along_0", "up_0", "up_slope", "up_bend_pm", "lie_m",
    "turned_0", "turn_lag_s", "once_sin", "once_cos", "twice_sin", "twice_cos", "turn_square",
    "turn_cube",
)]  # fmt: skip
_SUNK_M: Final = 0.012
"""A ball that lay in a hollow is out of it within its own radius."""


@dataclass(frozen=True, kw_only=True)
class Filmed:
    """What a film shows of a putt, a row a picture, with the spread of each.

    ``along_m`` and ``up_m`` are places of the ball's middle, zero anywhere; ``turned_m`` is
    the ball's radius times the angle turned. ``scale_sd`` is the spread of the logarithm
    of the film's scale in the middle of the way, ``bend_sd_pm`` of its change per metre.
    """

    time_s: Floats
    along_m: Floats
    up_m: Floats
    turned_m: Floats
    along_sd_m: Floats
    up_sd_m: Floats
    turned_sd_m: Floats
    strike_s: float
    scale_sd: float = 0.006
    bend_sd_pm: float = 0.004
    radius_sd: float = 0.006

    @cached_property
    def middle_m(self) -> float:
        """From where the putt begins to the middle of its way."""
        return 0.5 * float(np.ptp(self.along_m))

    @cached_property
    def waves(self) -> Floats:
        """What a turning reads wrong, (6, pictures): :func:`_askew`, then :func:`_bend`."""
        return np.concatenate([_askew(self.turned_m), _bend(self.along_m)])

    @cached_property
    def seen_m(self) -> Floats:
        """Along, up and turned, (3, pictures)."""
        return np.stack([self.along_m, self.up_m, self.turned_m])

    @cached_property
    def sd_m(self) -> Floats:
        """The spread of each."""
        return np.stack([self.along_sd_m, self.up_sd_m, self.turned_sd_m])


def _strikes(p: Floats) -> Floats:
    """The ball off the face and its turf, as :mod:`puttwright.ball.roll_kernel` takes them."""
    numbers = np.empty((*p.shape[:-1], 9 + STEPS))
    speed = np.maximum(p[..., AT["along_mps"]], 0.02)
    brake = np.exp(_within(p[..., AT["log_deceleration"]], low=-4.0, high=3.0))
    numbers[..., 0] = speed
    numbers[..., 1] = speed * p[..., AT["rise_share"]]
    numbers[..., 2] = speed * p[..., AT["surface_share"]]
    numbers[..., 3] = brake
    numbers[..., 4] = np.exp(p[..., AT["log_radius"]])
    numbers[..., 5] = brake * _within(p[..., AT["slide_share"]], low=0.0, high=2.0)
    numbers[..., 6:9] = TURF_RESTITUTION, GRAVITY_MPS2, LAST_HOP_MPS
    friction = _within(p[..., AT["log_friction"], None], low=-5.0, high=2.0)
    numbers[..., 9:] = np.exp(friction + _within(p[..., len(NAMES) :], low=-2.5, high=2.5))
    return numbers


def _within(value: Floats, *, low: float, high: float) -> Floats:
    return np.asarray(np.minimum(np.maximum(value, low), high))


def strike_of(p: Floats) -> SideStrike:
    """The ball off the face and its turf, from the parameters: (parameters,) or (putts, same)."""
    numbers = np.moveaxis(_strikes(p), -1, 0)
    return SideStrike(
        along_mps=numbers[0], rise_mps=numbers[1], surface_mps=numbers[2],
        frictions=tuple(numbers[9:]), deceleration_mps2=numbers[3], radius_share=numbers[4],
        slide_resistance_mps2=numbers[5],
    )  # fmt: skip


def film_of(p: Floats, film: Filmed) -> Floats:
    """What the film would show of many putts, (putts, 3, pictures): along, up and turned [m]."""
    said = p[:, _SHOWN]
    said[:, 1] = scale_of(p, film)
    return np.asarray(films(_strikes(p), said, film.time_s, film.waves, _SUNK_M))


def scale_of(p: Floats, film: Filmed) -> Floats:
    """The film's scale where the putt begins; what is known of it holds in the middle."""
    bend = 2.0 * p[..., AT["bend_pm"]] * film.middle_m
    return np.asarray(np.exp(p[..., AT["log_scale"]]) * (1.0 - bend))


def _askew(turned_m: Floats) -> Floats:
    """What a drawn line that is looked at askew reads wrong, the same again every turn [m]."""
    angle = turned_m / BALL_RADIUS_M
    rows = [np.sin(angle), np.cos(angle) - 1.0, np.sin(2.0 * angle), np.cos(2.0 * angle) - 1.0]
    return BALL_RADIUS_M * np.stack(rows)


def _bend(along_m: Floats) -> Floats:
    """What a turning reads wrong toward the ends of the way; nothing at rest [m]."""
    low, high = float(along_m.min()), float(along_m.max())
    way = 2.0 * (along_m - low) / max(high - low, 1e-6) - 1.0
    return BALL_RADIUS_M * np.stack([way**2 - 1.0, way**3 + 1.0])


def prior_of(film: Filmed, *, loose: float, extra: Floats) -> tuple[Floats, Floats]:
    """Middle and spread of every parameter; infinite where nothing is known."""
    middle = np.zeros(len(NAMES) + STEPS)
    spread = np.full(len(middle), np.inf)
    said: dict[str, tuple[float, float]] = {
        "rise_share": (0.03, 0.06), "surface_share": (0.05, 0.4),
        "log_friction": (math.log(SLIDING_FRICTION), 0.35),
        "log_deceleration": (float(extra[0]), float(extra[1])),
        "log_scale": (0.0, film.scale_sd), "log_radius": (0.0, film.radius_sd),
        "bend_pm": (0.0, film.bend_sd_pm), "up_slope": (0.0, 0.02), "lie_m": (0.0, 3e-4),
        "up_bend_pm": (0.0, 5e-4), "turn_lag_s": _LAG_S,
        "turn_square": (0.0, _BEND_RAD), "turn_cube": (0.0, _BEND_RAD),
        **dict.fromkeys(("once_sin", "once_cos", "twice_sin", "twice_cos"), (0.0, _ASKEW_RAD)),
    }  # fmt: skip
    for name, (centre, sd) in said.items():
        middle[AT[name]], spread[AT[name]] = centre, sd
    middle[AT["slide_share"]], spread[AT["slide_share"]] = min(2.0 * loose, 0.5), 2.0 * loose
    spread[len(NAMES) :] = loose
    return middle, spread


def bounds_of(middle: Floats, spread: Floats) -> tuple[Floats, Floats]:
    """What is known of the film is not given up for the sake of the physics.

    Nor does a ball go down into the turf it lies on: what a downward blow takes from the turf it
    takes during the strike, and no film could tell it from that.
    """
    low, high = np.full(len(middle), -np.inf), np.full(len(middle), np.inf)
    for name in ("log_scale", "log_radius", "bend_pm"):
        at = AT[name]
        low[at], high[at] = middle[at] - 2.5 * spread[at], middle[at] + 2.5 * spread[at]
    low[AT["rise_share"]] = 0.0
    # Turf does not push. Here the slope breaks: without a bound a way down crosses it to and fro.
    low[AT["slide_share"]], high[AT["slide_share"]] = 0.0, 2.0
    return low, high


def scales() -> Floats:
    """How far each parameter moves to matter."""
    usual = {
        "strike_s": 1e-3, "along_mps": 0.05, "rise_share": 0.02, "surface_share": 0.1,
        "log_friction": 0.1, "log_deceleration": 0.1, "log_scale": 0.005, "log_radius": 0.005,
        "bend_pm": 0.004, "along_0": 1e-3, "up_0": 1e-3, "up_slope": 0.005, "lie_m": 2e-4,
        "turned_0": 1e-3, "slide_share": 0.2, "up_bend_pm": 5e-4,
        "once_sin": 0.01, "once_cos": 0.01, "twice_sin": 0.01, "twice_cos": 0.01,
        "turn_lag_s": 1e-4, "turn_square": 0.01, "turn_cube": 0.01,
    }  # fmt: skip
    return np.array([*(usual[name] for name in NAMES), *([0.1] * STEPS)])


def with_unevenness(film: Filmed, *, unevenness_m: float) -> Filmed:
    """Places and turns that may be off the smooth physics by so much, once the ball is struck."""
    off = np.where(film.time_s > film.strike_s, unevenness_m, 0.0)
    return replace(
        film, along_sd_m=np.hypot(film.along_sd_m, off), turned_sd_m=np.hypot(film.turned_sd_m, off)
    )


def with_bumps(film: Filmed) -> Filmed:
    """The height's spread with the turf's own unevenness, as the rolling ball shows it.

    Bumps come in waves, so one picture repeats another, and counts for less.
    """
    since = film.time_s - film.strike_s
    late = since > 0.10
    if late.sum() < 12:
        return film
    line = np.polynomial.polynomial.polyfit(film.along_m[late], film.up_m[late], 3)
    off = film.up_m[late] - np.polynomial.polynomial.polyval(film.along_m[late], line)
    noise = float(np.median(film.up_sd_m[late]))
    bump = math.sqrt(max((1.4826 * float(np.median(np.abs(off)))) ** 2 - noise**2, 0.0))
    share = np.where(since < 0.0, 0.0, np.where(since < 0.02, 2.0, 2.5))
    return replace(film, up_sd_m=np.hypot(film.up_sd_m, share * bump))


def first_guess(film: Filmed) -> Floats:
    """A first guess from the film itself."""
    p = np.zeros(len(NAMES) + STEPS)
    before = film.time_s < film.strike_s
    soon = (film.time_s > film.strike_s) & (film.time_s < film.strike_s + 0.06)
    at_rest = float(np.median(film.along_m[before])) if before.any() else float(film.along_m[0])
    since = film.time_s[soon] - film.strike_s
    speed = (
        float(np.sum(since * (film.along_m[soon] - at_rest)) / np.sum(since**2))
        if soon.any()
        else 1.0
    )
    turned_0 = float(np.median(film.turned_m[before])) if before.any() else float(film.turned_m[0])
    p[AT["strike_s"]], p[AT["along_mps"]] = film.strike_s, 1.04 * speed
    p[AT["rise_share"]], p[AT["surface_share"]] = 0.03, 0.05
    p[AT["log_friction"]] = math.log(SLIDING_FRICTION)
    p[AT["log_deceleration"]] = math.log(USUAL_DECELERATION_MPS2)
    p[AT["along_0"]], p[AT["turned_0"]] = at_rest, turned_0
    p[AT["up_0"]] = float(np.median(film.up_m))
    return p
