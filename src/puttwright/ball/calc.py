"""Single computations in the units people use: what the ``calc`` commands print."""

from __future__ import annotations

import math
from typing import Final

from puttwright.ball.green import GreenPlane, level_speed
from puttwright.ball.head import Head
from puttwright.ball.hole import capture_speed_mps
from puttwright.ball.impact import RESTITUTION, Delivery, strike
from puttwright.ball.limits import checked
from puttwright.ball.roll import Launch, roll
from puttwright.ball.skid import SLIDING_FRICTION

_RPM: Final = 60.0 / (2.0 * math.pi)
_UNMEASURED_SLOPE: Final = 0.10


def calc_impact(
    *,
    head_speed_mps: float,
    loft_deg: float = 3.0,
    attack_deg: float = 0.0,
    face_deg: float = 0.0,
    path_deg: float = 0.0,
    lean_deg: float = 0.0,
    head_mass_g: float = 350.0,
    moi_g_cm2: float = 5000.0,
    cg_depth_mm: float = 20.0,
    strike_toe_mm: float = 0.0,
    strike_high_mm: float = 0.0,
    restitution: float = RESTITUTION,
    handed: str = "right",
) -> dict[str, float | list[str]]:
    """Ball speed, launch, start line, spin and head twist of one strike.

    Parameters
    ----------
    head_speed_mps, loft_deg, attack_deg, face_deg, path_deg, lean_deg
        The delivery; right, up and handle toward the target are positive.
    head_mass_g, moi_g_cm2, cg_depth_mm
        The head.
    strike_toe_mm, strike_high_mm, restitution, handed
        The strike, toe and high positive.

    Returns
    -------
    dict
        ``ball_speed_mps, launch_deg, start_deg, spin_rpm`` (topspin positive),
        ``twist_deg`` (of the head while in contact, right positive), and ``flags``
        where there is something to say.

    Examples
    --------
    >>> round(calc_impact(head_speed_mps=1.5)["ball_speed_mps"], 3)
    2.384
    """
    hit = strike(
        delivery=Delivery(
            head_speed_mps=head_speed_mps,
            loft_rad=math.radians(loft_deg),
            attack_rad=math.radians(attack_deg),
            face_rad=math.radians(face_deg),
            path_rad=math.radians(path_deg),
            lean_rad=math.radians(lean_deg),
            strike_toe_m=strike_toe_mm / 1e3,
            strike_high_m=strike_high_mm / 1e3,
            handed=handed,
        ),
        head=Head(
            mass_kg=head_mass_g / 1e3,
            moi_vertical_kg_m2=moi_g_cm2 / 1e7,
            cg_depth_m=cg_depth_mm / 1e3,
        ),
        restitution=restitution,
    )
    found = {
        "ball_speed_mps": float(hit.ball_speed_mps),
        "launch_deg": math.degrees(hit.launch_rad),
        "start_deg": math.degrees(hit.start_rad),
        "spin_rpm": float(hit.spin_radps) * _RPM,
        "twist_deg": math.degrees(hit.twist_rad),
    }
    return _flagged(found, hit.flags)


def _flagged(found: dict[str, float], flags: tuple[str, ...]) -> dict[str, float | list[str]]:
    return {**found, **({"flags": list(flags)} if flags else {})}


def calc_roll(
    *,
    ball_speed_mps: float,
    launch_deg: float = 2.0,
    spin_rpm: float = 0.0,
    green_ft: float = 10.0,
    sliding_friction: float = SLIDING_FRICTION,
    slope_pct: float = 0.0,
    slope_towards_deg: float = 0.0,
) -> dict[str, float | list[str] | None]:
    """Hop, skid and roll of one putt to where it stops.

    Parameters
    ----------
    ball_speed_mps, launch_deg, spin_rpm
        Off the face; up and topspin positive.
    green_ft, sliding_friction, slope_pct, slope_towards_deg
        The green; 0 falls away toward the target, 90 to the right.

    Returns
    -------
    dict
        ``skid_m`` and ``skid_s`` from the face to true roll, hops included,
        ``roll_start_speed_mps``, ``roll_out_m`` from the face to the stop,
        ``roll_share_pct`` of it in true roll, ``break_m`` (how far right of the
        start line it stops) and ``energy_error``, the share of the launch energy
        that the books leave over. A ball that never stops has none of
        ``roll_out_m`` and ``break_m``, and a flag.

    Examples
    --------
    >>> round(calc_roll(ball_speed_mps=2.0, launch_deg=0.0)["skid_m"], 3)
    0.25
    """
    putt = roll(
        launch=Launch(
            ball_speed_mps=ball_speed_mps,
            launch_rad=math.radians(launch_deg),
            spin_radps=spin_rpm / _RPM,
        ),
        green=GreenPlane.of_speed(
            speed_ft=green_ft,
            slope=slope_pct / 100.0,
            slope_towards_rad=math.radians(slope_towards_deg),
        ),
        sliding_friction=sliding_friction,
    )
    never = bool(putt.never_stops)
    found: dict[str, float | list[str] | None] = {
        "skid_m": float(putt.skid_m),
        "skid_s": float(putt.skid_s),
        "roll_start_speed_mps": float(putt.roll_start_speed_mps),
        "roll_out_m": None if never else float(putt.total_m),
        "roll_share_pct": 100.0 * float(putt.roll_share),
        "break_m": None if never else float(putt.break_m),
        "energy_error": float(putt.energy.error),
    }
    if never:
        found["flags"] = ["The ball never stops: the slope pulls harder than this grass holds."]
    return found


def calc_capture(*, offset_mm: float, slope_pct: float = 0.0) -> dict[str, float | list[str]]:
    """Fastest ball that drops on a line that misses the centre by ``offset_mm``.

    Parameters
    ----------
    offset_mm
        Right positive, -200 to 200 mm.
    slope_pct
        Along the ball's way, uphill positive, -25 to 25 %.

    Returns
    -------
    dict
        ``capture_speed_mps``; 0 where the ball passes the hole.

    Examples
    --------
    >>> round(calc_capture(offset_mm=0.0)["capture_speed_mps"], 2)
    1.63
    """
    checked(limit="offset_m", value=offset_mm / 1e3)
    grade = checked(limit="slope", value=abs(slope_pct) / 100.0)
    speed = capture_speed_mps(
        offset_m=offset_mm / 1e3,
        slope=float(grade),
        slope_towards_rad=math.pi if slope_pct > 0.0 else 0.0,
    )
    steep = float(grade) > _UNMEASURED_SLOPE
    flags = ("No hole is cut on so steep a slope; computed all the same.",) if steep else ()
    return _flagged({"capture_speed_mps": float(speed)}, flags)


def calc_green_speed(*, up_ft: float, down_ft: float) -> dict[str, float | list[str]]:
    """Level green speed from a reading each way.

    Parameters
    ----------
    up_ft, down_ft
        How far the ball rolls off the ramp, 1 to 60 ft.

    Returns
    -------
    dict
        ``level_ft, deceleration_mps2``, and ``flags`` where the readings are in doubt.

    Examples
    --------
    >>> round(calc_green_speed(up_ft=9.0, down_ft=14.0)["level_ft"], 3)
    10.957
    """
    level = level_speed(up_ft=up_ft, down_ft=down_ft)
    found = {"level_ft": level.level_ft, "deceleration_mps2": level.deceleration_mps2}
    return _flagged(found, level.flags)
