"""Loft, from the bench to the grass: delivered loft, launch, skid, and the loft that is needed.

Static loft less shaft lean is delivered loft; with the head's rise it makes launch
and backspin; these make the hop and the skid. Too little launch and the ball
ploughs out of its own hollow, too much and it flies and skids: between lies the
window. Longer grass makes a deeper hollow and wants more (common practice, no
published table; ours is model output).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from puttwright.ball.green import SINK_SHARE, GreenPlane, climb_out_launch_rad, hollow_m
from puttwright.ball.head import Head
from puttwright.ball.impact import RESTITUTION, Delivery, Impact, strike
from puttwright.ball.limits import FloatArray, checked
from puttwright.ball.roll import Launch, Roll, roll
from puttwright.ball.skid import SLIDING_FRICTION

SKID_GROWTH: Final = 0.03
"""Skid longer by this share than at the low edge marks the window's high edge; ours."""

CUT_TIMES_SPEED: Final = 0.0107
"""Height of cut [m] times green speed [m], about 3.5 mm at 10 ft; from memory."""

_LOFTS: Final = np.radians(np.linspace(-4.0, 12.0, 161))
_RANGES: Final = {"sink_share": (0.01, 0.04), "sliding_friction": (0.3, 0.5)}


def grass_of_speed_m(*, speed_ft: npt.ArrayLike) -> FloatArray:
    """Height of cut to expect of a green speed where nobody measured it; from memory.

    Examples
    --------
    >>> float(grass_of_speed_m(speed_ft=10.0).round(4))
    0.0035
    """
    return np.asarray(CUT_TIMES_SPEED / (0.3048 * checked(limit="speed_ft", value=speed_ft)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Rolled:
    """A build, a delivery and a green: how the ball leaves the face and how it comes to roll."""

    impact: Impact
    roll: Roll


def roll_of(
    *,
    delivery: Delivery,
    green: GreenPlane,
    head: Head | None = None,
    restitution: float = RESTITUTION,
    sliding_friction: npt.ArrayLike = SLIDING_FRICTION,
) -> Rolled:
    """From the delivered head to the stop.

    Parameters
    ----------
    delivery, head, restitution
        As in :func:`puttwright.ball.impact.strike`.
    green, sliding_friction
        As in :func:`puttwright.ball.roll.roll`.

    Returns
    -------
    Rolled
        Impact and roll, arrays of one shape.

    Examples
    --------
    >>> green = GreenPlane.of_speed(speed_ft=10)
    >>> putt = roll_of(delivery=Delivery(head_speed_mps=1.5, loft_rad=0.052), green=green)
    >>> round(float(putt.roll.roll_share), 2)
    0.87
    """
    hit = strike(delivery=delivery, head=head, restitution=restitution)
    launch = Launch(
        ball_speed_mps=hit.ball_speed_mps,
        launch_rad=hit.launch_rad,
        start_rad=hit.start_rad,
        spin_radps=hit.spin_radps,
        spin_right_radps=hit.spin_right_radps,
    )
    return Rolled(
        impact=hit, roll=roll(launch=launch, green=green, sliding_friction=sliding_friction)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class LaunchWindow:
    """Launch that suits a green: from what climbs out of the hollow to where skid grows by 3 %."""

    low_rad: float
    high_rad: float
    low_loft_rad: float
    high_loft_rad: float

    @property
    def middle_loft_rad(self) -> float:
        """Delivered loft in the middle of the window."""
        return 0.5 * (self.low_loft_rad + self.high_loft_rad)


def launch_window(
    *,
    green: GreenPlane,
    grass_m: float,
    attack_rad: float = 0.0,
    head: Head | None = None,
    restitution: float = RESTITUTION,
    sliding_friction: float = SLIDING_FRICTION,
    sink_share: float = SINK_SHARE,
) -> LaunchWindow:
    """Window of launch for a green, and the delivered loft that makes it.

    Parameters
    ----------
    green, grass_m
        The plane, and its height of cut, 0.001 to 0.015 m.
    attack_rad
        The head's rise at impact.
    head, restitution
        As in :func:`puttwright.ball.impact.strike`.
    sliding_friction, sink_share
        Ball on grass, and depth of the hollow over height of cut: both are guesses
        with a range, 0.3 to 0.5 and 0.01 to 0.04.

    Returns
    -------
    LaunchWindow
        Launch and delivered loft at both edges; at most 12 degrees of loft. The same
        for putts of every length, since all of the motion scales with the speed.

    Examples
    --------
    >>> fast, slow = (GreenPlane.of_speed(speed_ft=speed) for speed in (12, 8))
    >>> short = launch_window(green=fast, grass_m=0.0028)
    >>> long = launch_window(green=slow, grass_m=0.0045)
    >>> np.degrees([short.low_loft_rad, long.low_loft_rad]).round(1)
    array([2.8, 3.5])
    """
    delivery = Delivery(head_speed_mps=1.0, loft_rad=_LOFTS, attack_rad=attack_rad)
    level = GreenPlane(deceleration_mps2=green.deceleration_mps2)
    found = roll_of(
        delivery=delivery,
        green=level,
        head=head,
        restitution=restitution,
        sliding_friction=sliding_friction,
    )
    launch, skid = found.impact.launch_rad, found.roll.skid_m / found.impact.ball_speed_mps**2
    depth = hollow_m(grass_m=grass_m, sink_share=sink_share)
    low = float(climb_out_launch_rad(hollow_m=depth))
    low = min(low, float(launch[-1]))
    longest = (1.0 + SKID_GROWTH) * np.interp(low, launch, skid)
    high = float(np.interp(longest, skid[launch >= low], launch[launch >= low]))
    lofts = np.interp([low, high], launch, _LOFTS)
    return LaunchWindow(
        low_rad=low, high_rad=high, low_loft_rad=float(lofts[0]), high_loft_rad=float(lofts[1])
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """How a golfer delivers the putter: means with their spreads (uncertainty of the mean)."""

    lean_rad: float = 0.0
    lean_sd_rad: float = 0.0
    attack_rad: float = 0.0
    attack_sd_rad: float = 0.0
    instrument_sd_rad: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GrassPlayed:
    """A green this golfer plays and how much."""

    green: GreenPlane
    grass_m: float
    share: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LoftNeed:
    """Static loft that puts the launch in the middle of the window, and how sure that is.

    ``bend_rad`` is what the workshop must add to the loft the putter has (negative:
    take off), with the same interval; ``within_window`` says whether the present
    loft already lies inside the window, when nothing need be done.
    """

    loft_rad: float
    interval_90: tuple[float, float]
    window_rad: tuple[float, float]
    bend_rad: float
    within_window: bool
    flags: tuple[str, ...] = ()


def loft_need(
    *,
    greens: Sequence[GrassPlayed],
    habit: Habit,
    present_loft_rad: float,
    head: Head | None = None,
    seed: int = 1,
    draws: int = 200,
) -> LoftNeed:
    """Static loft this golfer needs on their greens, with a 90 % interval.

    Parameters
    ----------
    greens
        The greens played; the needs are averaged by share.
    habit
        Lean and attack with their uncertainty, and the loft gauge's.
    present_loft_rad
        Loft of the putter as it is.
    head
        As in :func:`puttwright.ball.impact.strike`.
    seed, draws
        Of the random draws over what is not known: habit, hollow and friction.

    Returns
    -------
    LoftNeed
        Middle, interval and the bend from the present loft.

    Examples
    --------
    >>> played = [GrassPlayed(green=GreenPlane.of_speed(speed_ft=10), grass_m=0.0035)]
    >>> need = loft_need(greens=played, habit=Habit(lean_rad=0.035), present_loft_rad=0.052)
    >>> need.bend_rad > 0.0
    True
    """
    rng = np.random.default_rng(seed)
    share = np.array([played.share for played in greens], float)
    edges = np.array(
        [np.average([_edges(p, rng, habit, head) for p in greens], 0, share) for _ in range(draws)]
    )
    edges += rng.normal(habit.lean_rad, habit.lean_sd_rad, draws)[:, None]
    edges += rng.normal(0.0, habit.instrument_sd_rad, draws)[:, None]
    middle = edges.mean(axis=1)
    low, high = np.quantile(middle, [0.05, 0.95])
    window = (float(np.median(edges[:, 0])), float(np.median(edges[:, 1])))
    need = float(np.median(middle))
    return LoftNeed(
        loft_rad=need,
        interval_90=(float(low), float(high)),
        window_rad=window,
        bend_rad=need - present_loft_rad,
        within_window=window[0] <= present_loft_rad <= window[1],
        flags=("Hollow and turf friction are assumptions; the interval carries them.",),
    )


def _edges(
    played: GrassPlayed,
    rng: np.random.Generator,
    habit: Habit,
    head: Head | None,
) -> tuple[float, float]:
    """Delivered loft at both edges of the window for one draw of what is not known."""
    window = launch_window(
        green=played.green,
        grass_m=played.grass_m,
        attack_rad=rng.normal(habit.attack_rad, habit.attack_sd_rad),
        head=head,
        sliding_friction=rng.uniform(*_RANGES["sliding_friction"]),
        sink_share=rng.uniform(*_RANGES["sink_share"]),
    )
    return window.low_loft_rad, window.high_loft_rad
