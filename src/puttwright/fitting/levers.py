"""What each lever of a putter is believed to do before anyone putts: one readable table.

A row says how a quantity's location moves with a lever: the expected effect and
its spread, per unit of a numeric lever or between two kinds of a named one.
Published effects are small or absent, so most rows expect nothing and allow a
little; the strength of all of them together is learnt from the golfer.
"Common practice" means fitters say so and no source was found.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence import Build
from puttwright.evidence.signs import toe_side

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """One row: ``per`` units of ``lever`` move ``quantity`` by ``expected`` ± ``sd``.

    ``per`` is 0 for a named lever, whose ``sd`` is each kind's own effect. Angles in
    degrees, pace as a fraction of the roll, strike in mm. ``mirrors`` rows flip for
    a left-hander.
    """

    lever: str
    quantity: str
    sd: float
    source: str
    expected: float = 0.0
    per: float = 0.0
    mirrors: bool = False


LEVERS: Final = (
    Lever(lever="head_shape", quantity="aim", sd=0.35,
          source="Karlsen & Nilsson (second hand): shapes aim differently; size from judgement"),
    Lever(lever="sight_line", quantity="aim", sd=0.20, source="common practice, no source"),
    Lever(lever="head_id", quantity="aim", sd=0.25, source="common practice, no source"),
    Lever(lever="neck_style", quantity="aim", sd=0.15, source="common practice, no source"),
    Lever(lever="offset_mm", quantity="aim", per=10.0, sd=0.30,
          source="common practice, no source"),
    Lever(lever="loft_deg", quantity="aim", per=1.0, expected=-0.10, sd=0.15, mirrors=True,
          source="common practice, no source: less loft aims a right-hander right"),
    Lever(lever="length_mm", quantity="aim", per=25.4, sd=0.15,
          source="common practice, no source"),
    Lever(lever="lie_deg", quantity="aim", per=2.0, sd=0.15,
          source="loft and lie: 0.1° for 2°"),
    Lever(lever="head_shape", quantity="start", sd=0.15, source="common practice, no source"),
    Lever(lever="head_id", quantity="start", sd=0.15, source="common practice, no source"),
    Lever(lever="toe_hang_deg", quantity="start", per=45.0, sd=0.30,
          source="MacKenzie & Henrikson 2018: direction only, face more open with toe hang"),
    Lever(lever="grip_diameter_mm", quantity="start", per=10.0, sd=0.10,
          source="Taiwan 2011: no difference in skilled players"),
    Lever(lever="length_mm", quantity="start", per=25.4, sd=0.10,
          source="Sherwin & Kenny 2017: no significant difference"),
    Lever(lever="head_mass_g", quantity="pace", per=20.0, sd=0.015,
          source="common practice, no source"),
    Lever(lever="head_id", quantity="pace", sd=0.015, source="common practice, no source"),
    Lever(lever="length_mm", quantity="pace", per=25.4, sd=0.01,
          source="common practice, no source"),
    Lever(lever="loft_deg", quantity="launch", per=1.0, expected=0.83, sd=0.10,
          source="rigid impact: launch is 0.83 of dynamic loft"),
)  # fmt: skip


def expected_location(builds: Sequence[Build], *, quantity: str, handed: str) -> Floats:
    """Expected location of each build against the first, from the table [unit of the quantity]."""
    mean = np.zeros(len(builds))
    for lever in _of(quantity):
        if lever.expected and lever.per:
            sign = toe_side(handed) if lever.mirrors else 1
            mean += sign * lever.expected * steps_from_first(builds, lever)
    return mean


def lever_covariance(builds: Sequence[Build], *, quantity: str) -> Floats:
    """Covariance of the builds' locations that the table's levers would give, shape (B, B)."""
    n = len(builds)
    total = np.zeros((n, n))
    for lever in _of(quantity):
        if lever.per:
            x = steps_from_first(builds, lever)
            total += lever.sd**2 * np.outer(x, x)
        else:
            total += lever.sd**2 * _same_kind(builds, lever.lever)
    return total


def levers_that_differ(one: Build, other: Build) -> tuple[str, ...]:
    """Names of the levers by which two builds differ, each once."""
    names = dict.fromkeys(lever.lever for lever in LEVERS)
    return tuple(
        name
        for name in names
        if None not in (getattr(one, name), getattr(other, name))
        and getattr(one, name) != getattr(other, name)
    )


def _of(quantity: str) -> tuple[Lever, ...]:
    return tuple(lever for lever in LEVERS if lever.quantity == quantity)


def steps_from_first(builds: Sequence[Build], lever: Lever) -> Floats:
    """Numeric lever against the first build, in table units; unmeasured counts as no difference."""
    base = getattr(builds[0], lever.lever)
    values = [getattr(build, lever.lever) for build in builds]
    if base is None:
        measured = [value for value in values if value is not None]
        base = measured[0] if measured else 0.0
    return np.array([0.0 if value is None else (value - base) / lever.per for value in values])


def _same_kind(builds: Sequence[Build], name: str) -> Floats:
    kinds = [getattr(build, name) for build in builds]
    return np.array(
        [[1.0 if a == b and a is not None else 0.0 for b in kinds] for a in kinds], dtype=float
    )
