"""Inertia from a swing: hung from a pivot, or on two threads.

The traps of the bench are told by name: the spacing of the threads is the whole of it,
not half (half gives a quarter of the inertia, a whole taken for half four times), and
a period is there and back (half of it gives a quarter, too).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from scipy.special import ellipk

from puttwright.club.limits import checked
from puttwright.club.uncertainty import Quantity, Values, propagated
from puttwright.errors import UserError
from puttwright.units import GRAVITY_MPS2

UNSURE_SHARE: Final = 0.05
"""An inertia less sure than this is told; our choice."""
SHORT_THREADS: Final = 5.0
"""Threads shorter than so many spacings are told; our choice, the formula wants L >> D."""


class PeriodTooShort(UserError):
    """A putter of {mass_g:.0f} g hung {distance_mm:.0f} mm from its balance point swings slower than {period_s:.3f} s, at least {least_s:.3f} s; count a period there and back, and measure to the balance point."""  # noqa: E501

    code = "period-too-short"


@dataclass(frozen=True, slots=True, kw_only=True)
class Swung:
    """Inertia about the centre of gravity and about the axis of the swing [kg m²]."""

    inertia_cg_kg_m2: Quantity
    inertia_pivot_kg_m2: Quantity
    flags: tuple[str, ...] = ()


def small_swing_s(*, period_s: float, amplitude_rad: float) -> float:
    """Period a pendulum would have if it hardly swung.

    Parameters
    ----------
    period_s
        As timed, there and back.
    amplitude_rad
        From the middle to one side.

    Returns
    -------
    float
        Exact, by the complete elliptic integral of the first kind.

    Examples
    --------
    >>> round(small_swing_s(period_s=1.01741, amplitude_rad=math.radians(30.0)), 5)
    1.0
    """
    return period_s * math.pi / (2.0 * float(ellipk(math.sin(0.5 * amplitude_rad) ** 2)))


def physical_pendulum(
    *, mass: Quantity, distance: Quantity, period: Quantity, amplitude_rad: float = 0.0,
    gravity_mps2: float = GRAVITY_MPS2,
) -> Swung:  # fmt: skip
    """Hung from a pivot and swung.

    Parameters
    ----------
    mass, distance, period
        Mass [kg], pivot to centre of gravity [m], period there and back [s].
    amplitude_rad
        From the middle to one side, 0 if it hardly swung.
    gravity_mps2
        Where the bench stands.

    Returns
    -------
    Swung
        Pivot m g d T²/4π²; about the centre of gravity less m d², the small
        difference of two large numbers, so watch its interval.

    Raises
    ------
    PeriodTooShort
        No body of that mass and distance swings so fast.

    Examples
    --------
    >>> swung = physical_pendulum(
    ...     mass=Quantity(value=0.520), distance=Quantity(value=0.620), period=Quantity(value=1.750)
    ... )
    >>> round(swung.inertia_pivot_kg_m2.value, 6), round(swung.inertia_cg_kg_m2.value, 6)
    (0.245263, 0.045375)
    """
    checked(mass.value, limit="mass", name="mass")
    checked(distance.value, limit="distance", name="distance")
    checked(period.value, limit="period", name="period")
    checked(amplitude_rad, limit="amplitude")

    def model(v: Values) -> Mapping[str, float]:
        still = small_swing_s(period_s=v["period"], amplitude_rad=amplitude_rad)
        pivot = v["mass"] * gravity_mps2 * v["distance"] * still**2 / (4.0 * math.pi**2)
        return {"pivot": pivot, "cg": pivot - v["mass"] * v["distance"] ** 2}

    found = propagated(model, {"mass": mass, "distance": distance, "period": period})
    if found["cg"].value <= 0.0:
        raise PeriodTooShort(
            mass_g=1e3 * mass.value,
            distance_mm=1e3 * distance.value,
            period_s=period.value,
            least_s=2.0 * math.pi * math.sqrt(distance.value / gravity_mps2),
        )
    return Swung(
        inertia_cg_kg_m2=found["cg"], inertia_pivot_kg_m2=found["pivot"], flags=_unsure(found["cg"])
    )


def _unsure(inertia: Quantity) -> tuple[str, ...]:
    if inertia.sd < UNSURE_SHARE * inertia.value:
        return ()
    return ("The interval is wide: time more swings, or hang it nearer to its balance point.",)


def bifilar_pendulum(
    *, mass: Quantity, spacing: Quantity, thread: Quantity, period: Quantity,
    gravity_mps2: float = GRAVITY_MPS2,
) -> Swung:  # fmt: skip
    """Hung level on two equal upright threads and turned about the upright axis.

    Parameters
    ----------
    mass, spacing, thread, period
        Mass [kg], whole distance between the threads [m], length of each [m],
        period there and back [s]. The centre of gravity hangs midway between them.
    gravity_mps2
        Where the bench stands.

    Returns
    -------
    Swung
        m g D² T²/16π² L; the axis goes through the centre of gravity, so both
        inertias are the same. Flagged where the threads are short for their spacing.

    Examples
    --------
    >>> swung = bifilar_pendulum(
    ...     mass=Quantity(value=0.350),
    ...     spacing=Quantity(value=0.100),
    ...     thread=Quantity(value=0.600),
    ...     period=Quantity(value=1.100),
    ... )
    >>> round(1e7 * swung.inertia_cg_kg_m2.value, 1)
    4383.3
    """
    checked(mass.value, limit="mass", name="mass")
    checked(spacing.value, limit="spacing")
    checked(thread.value, limit="thread")
    checked(period.value, limit="period", name="period")

    def model(v: Values) -> Mapping[str, float]:
        top = v["mass"] * gravity_mps2 * v["spacing"] ** 2 * v["period"] ** 2
        return {"cg": top / (16.0 * math.pi**2 * v["thread"])}

    inputs = {"mass": mass, "spacing": spacing, "thread": thread, "period": period}
    found = propagated(model, inputs)["cg"]
    short = thread.value < SHORT_THREADS * spacing.value
    flags = (
        (f"The threads are shorter than {SHORT_THREADS:g} spacings; the formula wants them long.",)
        if short
        else ()
    )
    return Swung(inertia_cg_kg_m2=found, inertia_pivot_kg_m2=found, flags=flags)
