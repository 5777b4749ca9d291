"""Study a gauge: repeat readings to what it can tell apart, and to an entry of ``instruments``."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path
from typing import Final

import numpy as np

from puttwright.address.laser import face_angle_rad
from puttwright.belief.gauge import Study, study
from puttwright.belief.mean_squares import Span
from puttwright.errors import UserError
from puttwright.evidence import AimReading, Column, Instrument, Putt, SetupReading, columns_of
from puttwright.readers.change_package import change_package, head_with_instruments
from puttwright.readers.gauge_file import GaugeReadings, read_gauge
from puttwright.readers.package import read_package
from puttwright.readers.tables.factors import factor

READINGS: Final = 5
"""Told apart with so many readings: what a fitter takes of each build."""
_FEWEST: Final = 2


class NothingReadTwice(UserError):
    """Nothing was read twice by the same hand; read each part twice or more, in mixed order."""

    code = "nothing-read-twice"


class PartNotRead(UserError):
    """{appraiser!r} has no reading of part {part!r}; everybody must read every part."""

    code = "part-not-read"


class NotReadInThat(UserError):
    """The readings are in {unit}, which is no unit of {quantity} ({column_unit})."""

    code = "not-read-in-that"


class UnknownQuantity(UserError):
    """There is no column {quantity!r} that an instrument reads; there are {known}."""

    code = "unknown-quantity"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """A study in the unit of a column, and what it says in degrees where it is a board's.

    ``unit``: of all spans of ``study``. ``deg_per_unit``: face degrees for a unit of reading.
    """

    file: str
    name: str
    quantity: str | None
    unit: str
    study: Study
    readings: GaugeReadings
    deg_per_unit: float | None = None

    @property
    def instrument(self) -> Instrument | None:
        """The entry for ``fitting.json``; ``None`` when no column is named that it reads.

        The bias stands in it only when its interval leaves out nought: a bias that
        is not sure to be there would move every reading for nothing.
        """
        if self.quantity is None:
            return None
        bias = self.study.bias.mean if self.study.bias else None
        return Instrument(
            name=self.name,
            quantity=self.quantity,
            repeatability_sd=_short(self.study.repeatability_sd),
            resolution=None if self.study.step is None else _short(self.study.step),
            bias=_short(bias.value) if bias and sure(bias) else None,
        )


def sure(span: Span) -> bool:
    """Whether an interval leaves out nought.

    Examples
    --------
    >>> sure(Span(value=1.0, low=0.5, high=1.5)), sure(Span(value=1.0, low=-0.5, high=2.5))
    (True, False)
    """
    return span.low > 0.0 or span.high < 0.0


def _short(value: float) -> float:
    return float(f"{value:.4g}")


def study_gauge(
    file: Path, *, quantity: str | None = None, name: str | None = None, step: float | None = None,
    board_distance_m: float | None = None, mirror: bool = False, package: Path | None = None,
) -> Gauge:  # fmt: skip
    """Read a table of repeat readings and say how well the instrument measures.

    Parameters
    ----------
    file
        The table, of any kind; its columns are known by their meaning.
    quantity
        The column of the fitting package that the instrument reads, such as ``reading_mm``.
    name
        What the instrument is called in the fitting's tables; the file's name when not given.
    step
        Smallest step it shows, in the column's unit; from the readings when not given.
    board_distance_m, mirror
        Turns millimetres on a board into degrees of the face.
    package
        A fitting package to write the entry into; another one of the same name and
        quantity is replaced.

    Raises
    ------
    CannotRead, PackageFaults
        The table or the package.
    NothingReadTwice, PartNotRead, NotReadInThat, UnknownQuantity
        Nothing is written then.
    """
    column = None if quantity is None else _column(quantity)
    readings = read_gauge(file)
    _whole_study(readings)
    times, unit = _unit(readings, column)
    found = study(
        readings.values * times, part=readings.part, appraiser=readings.appraiser,
        reference=None if readings.reference is None else readings.reference * times, step=step,
    )  # fmt: skip
    gauge = Gauge(
        file=file.name, name=name or file.stem, quantity=quantity, unit=unit, study=found,
        readings=readings, deg_per_unit=_deg_per_unit(unit, board_distance_m, mirror=mirror),
    )  # fmt: skip
    if package is not None:
        _keep(gauge, package)
    return gauge


def _column(quantity: str) -> Column:
    known = {
        column.name: column
        for record in (AimReading, Putt, SetupReading)
        for column in columns_of(record)
        if column.kind == "number" and column.name not in ("distance_m", "board_distance_mm")
    }
    if quantity not in known:
        raise UnknownQuantity(quantity=quantity, known=", ".join(known))
    return known[quantity]


def _unit(readings: GaugeReadings, column: Column | None) -> tuple[float, str]:
    if column is None:
        return 1.0, readings.unit or ""
    if readings.unit is None:
        return 1.0, column.unit
    times = factor(readings.unit, column.unit)
    if times is None:
        raise NotReadInThat(unit=readings.unit, quantity=column.name, column_unit=column.unit)
    return times, column.unit


def _deg_per_unit(unit: str, distance_m: float | None, *, mirror: bool) -> float | None:
    per_m = {"mm": 1e-3, "cm": 1e-2, "m": 1.0}.get(unit)
    if distance_m is None or per_m is None:
        return None
    small_m = 1e-6
    small = face_angle_rad(reading_m=small_m, board_distance_m=distance_m, mirror=mirror)
    return math.degrees(small) / small_m * per_m


def _whole_study(readings: GaugeReadings) -> None:
    shape = (len(readings.parts), len(readings.appraisers))
    counts = np.zeros(shape, dtype=int)
    np.add.at(counts, (readings.part, readings.appraiser), 1)
    gaps = np.argwhere(counts == 0)
    if counts.max() < _FEWEST:
        raise NothingReadTwice
    if len(gaps):
        part, appraiser = gaps[0]
        raise PartNotRead(part=readings.parts[part], appraiser=readings.appraisers[appraiser])


def _keep(gauge: Gauge, package: Path) -> None:
    entry = gauge.instrument
    if entry is None:
        raise UnknownQuantity(quantity="", known="reading_mm, start_deg, ... (--quantity)")
    read_package(package)
    change_package(package, head_with_instruments(package, [entry]))
