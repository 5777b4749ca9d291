"""How sure a figure is: readings, and what follows from several of them.

The one place where the club room carries uncertainty: standard deviations through
any function by its slopes, degrees of freedom with them, as in the Guide to the
expression of uncertainty in measurement (JCGM 100:2008, equations 10 and G.2b).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from scipy.special import stdtrit

from puttwright.errors import UserError

Values = Mapping[str, float]
_STEP: Final = 0.01
"""Share of a standard deviation over which a slope is taken."""
_RECTANGLE: Final = math.sqrt(12.0)
_EXACT: Final = 1e-12
"""A share of a value too small to be anything but rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A value, its standard deviation, and the degrees of freedom that one rests on.

    Examples
    --------
    >>> low, high = Quantity(value=1.0, sd=0.1).interval()
    >>> round(low, 3), round(high, 3)
    (0.836, 1.164)
    """

    value: float
    sd: float = 0.0
    dof: float = math.inf

    def interval(self, *, probability: float = 0.90) -> tuple[float, float]:
        """The middle ``probability`` of Student's t about the value."""
        reach = float(stdtrit(self.dof, 0.5 + 0.5 * probability)) * self.sd
        return self.value - reach, self.value + reach


class NoReading(UserError):
    """There is no reading of the {name}; take one, better three."""

    code = "no-reading"


def repeated(
    readings: Sequence[float], *, name: str, resolution: float = 0.0, single_sd: float = 0.0
) -> Quantity:
    """The mean of repeated readings and how sure it is.

    Parameters
    ----------
    readings
        One or more, each taken anew.
    name
        What was read, for the sentence if there is nothing.
    resolution
        Smallest step the instrument shows, in the readings' unit.
    single_sd
        Standard deviation of one reading, taken where only one was made.

    Returns
    -------
    Quantity
        Spread of the mean by Student's t; the rounding of the instrument added in.

    Raises
    ------
    NoReading
        There is none.

    Examples
    --------
    >>> mean = repeated([3.0, 3.5, 3.25], name="loft")
    >>> round(mean.value, 3), round(mean.sd, 3), mean.dof
    (3.25, 0.144, 2.0)
    """
    count = len(readings)
    if not count:
        raise NoReading(name=name)
    mean = math.fsum(readings) / count
    rounding = resolution / _RECTANGLE
    if count == 1:
        return Quantity(value=mean, sd=math.hypot(single_sd, rounding))
    spread = math.sqrt(math.fsum((reading - mean) ** 2 for reading in readings) / (count - 1))
    return _pooled(mean, [(spread / math.sqrt(count), count - 1.0), (rounding, math.inf)])


def _pooled(value: float, parts: Sequence[tuple[float, float]]) -> Quantity:
    """Independent parts (sd, degrees of freedom) of one value's uncertainty, as one."""
    sd = math.hypot(*(part for part, _ in parts))
    weight = math.fsum((part / sd) ** 4 / dof for part, dof in parts) if sd else 0.0
    return Quantity(value=value, sd=sd, dof=1.0 / weight if weight else math.inf)


def propagated(
    model: Callable[[Values], Values], inputs: Mapping[str, Quantity], /
) -> dict[str, Quantity]:
    """What a model makes of its inputs, each figure with its uncertainty.

    Parameters
    ----------
    model
        From named numbers to named numbers.
    inputs
        What goes in, each independent of the others.

    Returns
    -------
    dict
        The model's figures in its order. First order: a spread so wide that the
        model bends within it is understated.

    Examples
    --------
    >>> area = propagated(
    ...     lambda v: {"area": v["a"] * v["b"]},
    ...     {"a": Quantity(value=2.0, sd=0.1), "b": Quantity(value=3.0, sd=0.2)},
    ... )["area"]
    >>> round(area.value, 6), round(area.sd, 6)
    (6.0, 0.5)
    """
    values = {name: quantity.value for name, quantity in inputs.items()}
    middle = model(values)
    parts: dict[str, list[tuple[float, float]]] = {name: [] for name in middle}
    for name, quantity in inputs.items():
        if quantity.sd > 0.0:
            for figure, slope in _slopes(model, values, name, quantity.sd).items():
                share = abs(slope) * quantity.sd
                if share > _EXACT * abs(middle[figure]):
                    parts[figure].append((share, quantity.dof))
    return {name: _pooled(value, parts[name]) for name, value in middle.items()}


def _slopes(
    model: Callable[[Values], Values], values: dict[str, float], name: str, sd: float
) -> dict[str, float]:
    """Slope of every figure in one input, from both sides, or one at the edge of a range."""
    step = _STEP * sd
    ends = []
    for side in (step, -step):
        try:
            ends.append((side, model({**values, name: values[name] + side})))
        except UserError:
            ends.append((0.0, model(values)))
    (above, high), (below, low) = ends
    return {
        figure: (high[figure] - low[figure]) / (above - below) if above > below else 0.0
        for figure in high
    }
