"""What tape and plumb line teach of one golfer: a posterior over body, habits and putters met.

The prior is the table of :mod:`puttwright.address.usual`. Measured heights and set-ups are
readings with an error; with each putter measured the hands of the body meet the grip.
The posterior's middle is found by least squares (SciPy), its spread by the curvature
there (Laplace). The linkage bends so little over the prior's width that this agrees
with sampling; a test holds it to that.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.optimize import least_squares

from puttwright.address.linkage import (
    GOLFER_SIZE,
    MET_SIZE,
    OUTPUTS,
    Held,
    heights_m,
    outputs,
    posed,
)
from puttwright.address.pose import Floats
from puttwright.address.usual import (
    CLOSES_TO_M,
    HEIGHT_SD_M,
    MEASURED_SD_M,
    READ_TO,
    REPEATS,
    TOLD_OVER_M,
    TOLD_SD_M,
)

MEASURED: Final = OUTPUTS[:4]
_STEP: Final = 1e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """What is known of the body, shoes on [m]; ``None`` was not measured.

    A ``told`` stature is one from memory: without shoes, and more than the tape says.
    """

    stature_m: float | None = None
    told: bool = False
    shoulder_m: float | None = None
    wrist_m: float | None = None
    hip_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Address:
    """One address, measured; ``None`` was not. ``seq`` is the row of the table."""

    held: Held
    eye_inside_m: float | None = None
    eye_behind_m: float | None = None
    hands_height_m: float | None = None
    sole_tilt_rad: float | None = None
    seq: int = 0

    @property
    def read(self) -> Floats:
        """In the order of :data:`MEASURED`; NaN was not."""
        values = [getattr(self, name) for name in MEASURED]
        return np.array([np.nan if value is None else value for value in values])


@dataclass(frozen=True, slots=True, kw_only=True)
class AddressBelief:
    """Posterior of a golfer, in prior standard deviations.

    ``mean`` (P,) and ``covariance`` (P, P): first the rows of ``linkage.GOLFER``, then those of
    ``usual.GIVES`` for each of the putters ``met``. ``read_to`` (4,) are the errors of
    reading. ``settled`` is false when the search did not converge.
    """

    mean: Floats
    covariance: Floats
    met: tuple[Held, ...]
    read_to: Floats
    heights: Heights
    addresses: tuple[Address, ...]
    settled: bool

    @property
    def noise(self) -> Floats:
        """How far one reading lies from the mean address (sd), in the order of what is measured."""
        return noise_of(self.read_to)

    def columns_of(self, held: Held) -> slice:
        """Where the putter's rows are; it must be one of ``met``."""
        first = GOLFER_SIZE + MET_SIZE * self.met.index(held)
        return slice(first, first + MET_SIZE)


def learn(
    heights: Heights, addresses: Sequence[Address] = (), *, read_to: Floats | None = None
) -> AddressBelief:
    """Posterior from heights and measured addresses.

    Parameters
    ----------
    heights
        What is known of the body; where nothing is, the widths of the table remain.
    addresses
        Any number, in any order.
    read_to
        Errors (sd) of reading, in the order of :data:`MEASURED`; the table's when left out.

    Returns
    -------
    AddressBelief
        Always; doubt is in its covariance.

    Examples
    --------
    >>> told = learn(Heights(stature_m=1.80, told=True))
    >>> taped = learn(Heights(stature_m=1.80))
    >>> bool(taped.covariance[0, 0] < told.covariance[0, 0])
    True
    """
    error = np.array([row.sd for row in READ_TO]) if read_to is None else read_to
    met = tuple(dict.fromkeys(address.held for address in addresses))
    residuals = residuals_of(heights, addresses, noise=noise_of(error))

    def slope_at(unknown: Floats) -> Floats:
        return slopes(residuals, unknown)

    start = np.zeros(GOLFER_SIZE + MET_SIZE * len(met))
    found = least_squares(residuals, start, jac=slope_at, xtol=1e-10, ftol=1e-10)
    slope = np.asarray(found.jac)
    return AddressBelief(
        mean=np.asarray(found.x),
        covariance=np.asarray(np.linalg.inv(slope.T @ slope)),
        met=met,
        read_to=error,
        heights=heights,
        addresses=tuple(addresses),
        settled=bool(found.success),
    )


def noise_of(read_to: Floats) -> Floats:
    """Errors of reading and what two addresses differ by, together (sd)."""
    return np.hypot(read_to, [row.sd for row in REPEATS])


def residuals_of(
    heights: Heights, addresses: Sequence[Address], *, noise: Floats
) -> Callable[[Floats], Floats]:
    """The function whose half sum of squares is minus the log posterior, up to a constant.

    Its argument is laid out as ``AddressBelief.mean``, with any axes in front.
    """
    met = tuple(dict.fromkeys(address.held for address in addresses))

    def residuals(unknown: Floats) -> Floats:
        golfer, rest = unknown[..., :GOLFER_SIZE], unknown[..., GOLFER_SIZE:]
        parts = [unknown, *_height_residuals(golfer, heights)]
        for count, held in enumerate(met):
            how = rest[..., MET_SIZE * count : MET_SIZE * (count + 1)]
            gap = posed(golfer, how, held=held).misses_m / CLOSES_TO_M
            shown = outputs(golfer, how, held=held)[..., : len(MEASURED)]
            parts.append(gap[..., None])
            for address in addresses:
                if address.held == held:
                    wrong = (shown - address.read) / noise
                    parts.append(wrong[..., ~np.isnan(address.read)])
        return np.concatenate(parts, axis=-1)

    return residuals


def _height_residuals(golfer: Floats, heights: Heights) -> list[Floats]:
    stand = heights_m(golfer)
    found = []
    if heights.stature_m is not None and heights.told:
        found.append((stand["barefoot"] + TOLD_OVER_M - heights.stature_m) / TOLD_SD_M)
    elif heights.stature_m is not None:
        found.append((stand["stature"] - heights.stature_m) / MEASURED_SD_M)
    for name in ("shoulder", "wrist", "hip"):
        read = getattr(heights, f"{name}_m")
        if read is not None:
            found.append((stand[name] - read) / HEIGHT_SD_M)
    return [each[..., None] for each in found]


def slopes(function: Callable[[Floats], Floats], at: Floats) -> Floats:
    """Derivatives by central differences, shape (outputs, inputs); all steps in one call."""
    step = _STEP * np.eye(at.size)
    return np.asarray((function(at + step) - function(at - step)).T / (2.0 * _STEP))
