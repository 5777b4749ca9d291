"""Readings less what the gauge study says the instrument reads too much."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any, TypeVar

from puttwright.evidence import AimReading, Fitting, Putt

Read = TypeVar("Read", AimReading, Putt)


def without_bias(fitting: Fitting) -> Fitting:
    """The same fitting with the known bias of each instrument taken off what it read.

    Examples
    --------
    >>> from puttwright.evidence import FittingGreen, Golfer, Instrument
    >>> fitting = Fitting(
    ...     fitting_id="F", date="2026-05-01", golfer=Golfer(alias="A", handed="left"), greens=(),
    ...     fitting_green=FittingGreen(speed_ft=10), own_build="own", builds=(),
    ...     instruments=(
    ...         Instrument(name="laser", quantity="reading_mm", repeatability_sd=1.0, bias=2.0),
    ...     ),
    ...     aims=(
    ...         AimReading(
    ...             seq=1, build_id="own", board_distance_mm=3e3, reading_mm=5.0, instrument="laser"
    ...         ),
    ...     ),
    ... )  # fmt: skip
    >>> without_bias(fitting).aims[0].reading_mm
    3.0
    """
    biases: dict[str, dict[str, float]] = {}
    for each in fitting.instruments:
        if each.bias:
            biases.setdefault(each.name, {})[each.quantity] = each.bias
    if not biases:
        return fitting
    return dataclasses.replace(
        fitting,
        aims=tuple(_corrected(aim, biases.get(aim.instrument or "", {})) for aim in fitting.aims),
        putts=tuple(
            _corrected(putt, biases.get(putt.instrument or "", {})) for putt in fitting.putts
        ),
    )


def _corrected(reading: Read, biases: Mapping[str, float]) -> Read:
    found = ((name, getattr(reading, name, None), bias) for name, bias in biases.items())
    less: dict[str, Any] = {name: value - bias for name, value, bias in found if value is not None}
    return dataclasses.replace(reading, **less) if less else reading
