"""A putt's way in distance, ready to draw, from what the ball does off the face."""

from __future__ import annotations

import math
from statistics import median

from puttwright.ball.green import GreenPlane
from puttwright.ball.hole import effective_half_width_m, fastest_capture_mps
from puttwright.ball.roll import Launch, roll
from puttwright.ball.skid import SLIDING_FRICTION
from puttwright.evidence import Fitting
from puttwright.pictures.hand import measure
from puttwright.pictures.roll import RollTrack
from puttwright.pictures.svg import Point
from puttwright.units import BALL_RADIUS_M, GRAVITY_MPS2

_SKID_STEPS = 16
_ROLL_STEPS = 40


def roll_track(
    *, ball_speed_mps: float, launch_deg: float, spin_rpm: float, green_ft: float,
    title: str = "Skid and roll",
) -> RollTrack:  # fmt: skip
    """The track of a putt on a level green.

    Parameters
    ----------
    ball_speed_mps, launch_deg, spin_rpm
        Off the face; topspin positive.
    green_ft
        Speed of the green [ft].
    title
        For the drawing.

    Returns
    -------
    RollTrack
        Speed and turning by distance: exact in the skid and the roll, a straight
        line over the hops, where friction works in bounces.

    Examples
    --------
    >>> track = roll_track(ball_speed_mps=2.0, launch_deg=2.0, spin_rpm=0.0, green_ft=10.0)
    >>> 0.2 < track.skid_m < 0.3, round(track.stop_m, 1)
    (True, 2.1)
    """
    spin = spin_rpm * 2.0 * math.pi / 60.0
    launch = Launch(
        ball_speed_mps=ball_speed_mps, launch_rad=math.radians(launch_deg), spin_radps=spin
    )
    putt = roll(launch=launch, green=GreenPlane.of_speed(speed_ft=green_ft))
    hop_m, skid_m, total_m = float(putt.hop_m), float(putt.skid_m), float(putt.total_m)
    rolling = float(putt.roll_start_speed_mps)
    level = ball_speed_mps * math.cos(math.radians(launch_deg))
    start = (0.0, level, spin * BALL_RADIUS_M)
    slip = -1.0 if start[2] > level else 1.0
    places = [start]
    for step in range(_SKID_STEPS + 1):
        back_m = (skid_m - hop_m) * (1.0 - step / _SKID_STEPS)
        squared = rolling**2 + slip * 2.0 * SLIDING_FRICTION * GRAVITY_MPS2 * back_m
        speed = math.sqrt(max(squared, 0.0))
        # A sphere that slips gains 5/2 of the surface speed that it loses of its own.
        places.append((skid_m - back_m, speed, rolling - 2.5 * (speed - rolling)))
    for step in range(1, _ROLL_STEPS + 1):
        # Finer toward the end, where the curve falls steeply.
        share = 1.0 - (1.0 - step / _ROLL_STEPS) ** 2
        speed = rolling * math.sqrt(max(1.0 - share, 0.0))
        places.append((skid_m + share * (total_m - skid_m), speed, speed))
    distances, speeds, surfaces = zip(*places, strict=True)
    return RollTrack(
        distance_m=distances,
        speed_mps=speeds,
        surface_mps=surfaces,
        hop_m=hop_m,
        skid_m=skid_m,
        title=title,
    )


def usual_roll(fitting: Fitting, *, build_id: str, distance_m: float) -> RollTrack | None:
    """The middle putt of a build from one distance, where a sensor saw the ball leave.

    Spin that was not measured is taken as none.
    """
    putts = [
        putt
        for putt in fitting.used_putts
        if putt.build_id == build_id and putt.distance_m == distance_m
    ]
    speeds = [putt.ball_speed_mps for putt in putts if putt.ball_speed_mps is not None]
    if not speeds:
        return None
    launches = [putt.launch_deg for putt in putts if putt.launch_deg is not None]
    spins = [putt.spin_rpm for putt in putts if putt.spin_rpm is not None]
    return roll_track(
        ball_speed_mps=median(speeds),
        launch_deg=median(launches) if launches else 0.0,
        spin_rpm=median(spins) if spins else 0.0,
        green_ft=fitting.fitting_green.speed_ft,
        title=f"The middle putt from {measure(distance_m, 'm', digits=1)}",
    )


def capture_region(*, green_ft: float, count: int = 24) -> list[Point]:
    """How far past the hole a putt may be rolling out, and how far off line, and still fall.

    Pairs of roll past the hole and half width [m], for :func:`pictures.green.green`.

    Examples
    --------
    >>> region = capture_region(green_ft=10.0)
    >>> round(1000 * region[0][1]), region[-1][1] < 0.005
    (54, True)
    """
    deceleration = GreenPlane.of_speed(speed_ft=green_ft).deceleration_mps2
    speeds = [fastest_capture_mps() * step / count for step in range(count + 1)]
    widths = effective_half_width_m(speed_mps=speeds)
    return [
        (speed**2 / (2.0 * deceleration), float(width))
        for speed, width in zip(speeds, widths, strict=True)
    ]
