"""What a film of a putt from the side shows, and what it would show of a given putt.

The parameters of :func:`puttwright.ball.roll_fit.fit_roll`: the ball off the face, the turf, and
what the film may be wrong in (scale, its change along the way, a line looked at askew).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.side_view import SideStrike, side_view
from puttwright.ball.skid import SLIDING_FRICTION
from puttwright.units import BALL_RADIUS_M

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
    def askew(self) -> Floats:
        """See :func:`_askew`."""
        return _askew(self.turned_m)

    @cached_property
    def bend(self) -> Floats:
        """See :func:`_bend`."""
        return _bend(self.along_m)


def strike_of(p: Floats) -> SideStrike:
    """The ball off the face and its turf, from the parameters: (parameters,) or (putts, same)."""
    said = dict(zip(NAMES, np.moveaxis(p, -1, 0), strict=False))
    friction = np.exp(np.clip(said["log_friction"], -5.0, 2.0))
    speed = np.maximum(said["along_mps"], 0.02)
    brake = np.exp(np.clip(said["log_deceleration"], -4.0, 3.0))
    changes = np.exp(np.clip(p[..., len(NAMES) :], -2.5, 2.5))
    return SideStrike(
        along_mps=speed,
        rise_mps=speed * said["rise_share"],
        surface_mps=speed * said["surface_share"],
        frictions=tuple(np.moveaxis(friction[..., None] * changes, -1, 0)),
        deceleration_mps2=brake,
        slide_resistance_mps2=brake * np.clip(said["slide_share"], 0.0, 2.0),
        radius_share=np.exp(said["log_radius"]),
    )


def film_of(p: Floats, film: Filmed) -> tuple[Floats, Floats, Floats]:
    """What the film would show of the putt: along, up and turned; of many, (putts, pictures)."""
    said = {name: p[..., place, None] for name, place in AT.items()}
    since = film.time_s - said["strike_s"]
    putt = side_view(strike_of(p), time_s=since)
    scale = scale_of(said, film)
    along = scale * putt.along_m
    along = said["along_0"] + along + said["bend_pm"] * along * along
    # A ball that lay in a hollow is out of it within its own radius.
    sunk = np.where(since < 0.0, 1.0, np.exp(-((putt.along_m / 0.012) ** 2)))
    up = said["up_0"] + said["up_slope"] * along + said["up_bend_pm"] * along * along
    up = up + scale * putt.up_m - said["lie_m"] * sunk
    turned = said["turned_0"] + putt.turned_m - said["turn_lag_s"] * putt.surface_mps
    askew = p[..., AT["once_sin"] : AT["twice_cos"] + 1] @ film.askew
    bend = p[..., AT["turn_square"] : AT["turn_cube"] + 1] @ film.bend
    return along, up, turned + askew + bend


def scale_of(said: Mapping[str, Floats], film: Filmed) -> Floats:
    """The film's scale where the putt begins; what is known of it holds in the middle."""
    return np.asarray(np.exp(said["log_scale"]) * (1.0 - 2.0 * said["bend_pm"] * film.middle_m))


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
    """What is known of the film is not given up for the sake of the physics."""
    low, high = np.full(len(middle), -np.inf), np.full(len(middle), np.inf)
    for name in ("log_scale", "log_radius", "bend_pm"):
        at = AT[name]
        low[at], high[at] = middle[at] - 2.5 * spread[at], middle[at] + 2.5 * spread[at]
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
