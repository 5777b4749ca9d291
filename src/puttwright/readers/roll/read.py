"""A clip to what it shows of the putt: place, height and turning, picture by picture."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.roll_model import Filmed
from puttwright.readers.files import Unreadable
from puttwright.readers.roll.clip import Clip
from puttwright.readers.roll.disc import Outline, outlines
from puttwright.readers.roll.find import find_ball
from puttwright.readers.roll.local import local_parabola
from puttwright.readers.roll.mark import Rolling, Turning, read_turning
from puttwright.readers.roll.way import Way, fit_way, places, smooth_shape, upright
from puttwright.units import BALL_RADIUS_M

Floats = NDArray[np.float64]

STEPS: Final = 4
_REST: Final = 4
"""So many pictures at rest before the strike are needed, to know where the putt begins."""
_REST_MOST: Final = 40
_MOVED_M: Final = 8e-4
_LEAST_MOVING: Final = 20
_LEAST_PX: Final = 18.0
_MOST_SMEAR: Final = 0.75
_PIXEL_SD: Final = 0.02
"""What codec and lens add to a middle's spread, in pixels, however many rays hold."""
_USUAL_BLUR_PX: Final = 3.0
_HEAD_S: Final = (-0.025, 0.021)
_HEAD_M: Final = 2e-4
"""While the putter's head stands at the ball, and until it has turned on by a dimple, its height
reads wrong: how much is a guess, and what rendered clips other than the study's bore out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """What the clip shows, with the way it was seen and the speeds read off without any law.

    ``speed_mps`` and ``surface_mps`` are slopes of place and turning over 15 pictures.
    """

    filmed: Filmed
    speed_mps: Floats
    surface_mps: Floats
    way: Way
    match: Floats
    radius_px: float
    rightward: bool
    fps: float


def read_track(clip: Clip, *, tell: Callable[[int], object] = lambda _more: None) -> Track:
    """Follow ball and line through the clip.

    Parameters
    ----------
    clip
        From :func:`puttwright.readers.roll.clip.read_clip`.
    tell
        Called with 1 after each of four steps.

    Raises
    ------
    Unreadable
        The clip cannot carry the figures; the reason goes on from the file's name.
    """
    seen = find_ball(clip)
    tell(1)
    first = outlines(clip, number=seen.number, start=(seen.x_px, seen.y_px, seen.radius_px))
    keep = _whole(first, clip.size)
    number, first = seen.number[keep], first.some(keep)
    number, first, strike_s = _from_rest(clip, number, first)
    _refuse_small(first)
    moving = clip.time_s[number] > strike_s
    _refuse_smear(first, moving)
    way = fit_way(first.some(moving), size=clip.size)
    tell(1)
    shape = smooth_shape(first)
    fixed = outlines(
        clip, number=number, start=(first.x_px, first.y_px, first.radius_px), shape=shape
    )
    rolling = _rolling(clip, number, fixed, way, up=upright(way), strike_s=strike_s)
    tell(1)
    turning = read_turning(clip, number=number, way=way, rolling=rolling)
    tell(1)
    return _track(clip.fps, outline=fixed, way=way, rolling=rolling, turning=turning)


def _whole(outline: Outline, size: tuple[int, int]) -> NDArray[np.bool_]:
    """Pictures in which the ball is whole, and as large as in the others."""
    usual = float(np.median(outline.radius_px))
    reach = 1.25 * usual
    inside = (outline.x_px > reach) & (outline.x_px < size[0] - 1 - reach)
    inside &= (outline.y_px > reach) & (outline.y_px < size[1] - 1 - reach)
    alike = np.abs(outline.radius_px / usual - 1.0) < 0.3
    return np.asarray(inside & alike & (outline.rays >= 16))


def _from_rest(
    clip: Clip, number: NDArray[np.intp], outline: Outline
) -> tuple[NDArray[np.intp], Outline, float]:
    """The pictures from the last ones at rest on, and about when the ball was struck."""
    if len(number) < _REST + _LEAST_MOVING:
        raise Unreadable(_TOO_SHORT)
    metres = BALL_RADIUS_M / float(np.median(outline.radius_px))
    along = metres * (outline.x_px - float(np.median(outline.x_px[:_REST])))
    gone = np.abs(along) > _MOVED_M
    # The first of three in a row that moved, each further than the one before.
    run = gone[:-2] & gone[1:-1] & gone[2:] & (np.abs(along[2:]) > np.abs(along[:-2]))
    begin = int(np.argmax(run)) if run.any() else 0
    if begin < _REST:
        raise Unreadable(
            "begins when the ball is already rolling; let it begin before the strike, "
            "with the ball at rest in the picture"
        )
    if len(number) - begin < _LEAST_MOVING:
        raise Unreadable(_TOO_SHORT)
    time_s = clip.time_s[number]
    soon = slice(begin, begin + 10)
    line = np.polynomial.polynomial.polyfit(time_s[soon] - time_s[begin], along[soon], 1)
    strike_s = float(time_s[begin] - line[0] / line[1])
    strike_s = min(max(strike_s, float(time_s[begin - 1]) - 1e-6), float(time_s[begin]))
    low = max(0, begin - _REST_MOST)
    keep = np.arange(len(number)) >= low
    return number[keep], outline.some(keep), strike_s


_TOO_SHORT: Final = (
    "is too short or too dim, and loses the ball; show it at rest, the strike and the first metre "
    "of the putt, in bright light"
)


def _refuse_small(outline: Outline) -> None:
    wide = 2.0 * float(np.median(outline.radius_px))
    if wide < _LEAST_PX:
        raise Unreadable(
            f"shows the ball only {wide:.0f} pixels wide; go nearer, so that the first metre of "
            "the putt fills the picture"
        )


def _refuse_smear(outline: Outline, moving: NDArray[np.bool_]) -> None:
    fastest = float(np.median(outline.blur_px[moving][:12]))
    if fastest - _USUAL_BLUR_PX > _MOST_SMEAR * float(np.median(outline.radius_px)):
        raise Unreadable(
            "smears the ball along its way; film in brighter light, or set a shorter exposure"
        )


def _rolling(
    clip: Clip, number: NDArray[np.intp], outline: Outline, way: Way, *, up: Floats, strike_s: float
) -> Rolling:
    time_s = clip.time_s[number]
    along, high = places(way, x_px=outline.x_px, y_px=outline.y_px, up=up)
    moving = time_s > strike_s
    speed = np.zeros_like(along)
    speed[moving] = local_parabola(time_s[moving], along[moving], floor=2e-5)[1]
    return Rolling(time_s=time_s, along_m=along, up_m=high, speed_mps=speed, strike_s=strike_s)


def _track(fps: float, *, outline: Outline, way: Way, rolling: Rolling, turning: Turning) -> Track:
    up = upright(way, pitch_rad=turning.axis.pitch_rad)
    along, high = places(way, x_px=outline.x_px, y_px=outline.y_px, up=up)
    time_s, strike_s = rolling.time_s, rolling.strike_s
    since = time_s - strike_s
    moving = since > 0.0
    turned = BALL_RADIUS_M * turning.angle_rad
    rest = max(math.sqrt(float((~moving).sum()) / 4.0), 1.0)
    metres = BALL_RADIUS_M / float(np.median(outline.radius_px))
    filmed = Filmed(
        time_s=time_s, along_m=along, up_m=high, turned_m=turned,
        along_sd_m=_spread(time_s, along, moving, least=metres * _PIXEL_SD),
        up_sd_m=np.hypot(
            _spread(time_s, high, moving, least=metres * _PIXEL_SD),
            np.where((since > _HEAD_S[0]) & (since < _HEAD_S[1]), _HEAD_M, 0.0),
        ),
        turned_sd_m=np.where(moving, 1.0, rest) * BALL_RADIUS_M * turning.sd_rad, strike_s=strike_s,
        scale_sd=way.scale_sd, bend_sd_pm=way.bend_sd_pm,
    )  # fmt: skip
    surface = np.zeros_like(along)
    surface[moving] = local_parabola(time_s[moving], turned[moving], floor=5e-5)[1]
    return Track(
        filmed=filmed, speed_mps=rolling.speed_mps, surface_mps=surface, way=way,
        match=turning.match, radius_px=float(np.median(outline.radius_px)),
        rightward=bool(way.along[0] > 0), fps=fps,
    )  # fmt: skip


def _spread(time_s: Floats, value: Floats, moving: NDArray[np.bool_], *, least: float) -> Floats:
    """How far single pictures lie off their neighbours.

    At rest one picture shows the same as the next: together they count as four.
    """
    off = local_parabola(time_s[moving], value[moving], floor=1e-6)[2]
    # A parabola through 15 pictures leaves twelve of them free.
    spread = max(math.sqrt(15.0 / 12.0) * 1.4826 * float(np.median(np.abs(off))), least)
    rest = max(math.sqrt(float((~moving).sum()) / 4.0), 1.0)
    return np.where(moving, spread, rest * spread)
