"""Draw ball speed and turning of a filmed putt into a file."""

from __future__ import annotations

from pathlib import Path

from puttwright.deeds.measure_roll import RollReading
from puttwright.deeds.write_whole import write_whole
from puttwright.pictures.filmed_roll import FilmedRoll, draw_filmed_roll
from puttwright.pictures.grounds import PAPER


def filmed_of(reading: RollReading) -> FilmedRoll:
    """The reading as the drawing takes it."""
    skid = reading.skid_m
    middle = skid.value if skid.value is not None else 0.5 * (skid.low + skid.high)
    return FilmedRoll(
        seen_m=reading.seen_m, seen_speed_mps=reading.seen_speed_mps,
        seen_surface_mps=reading.seen_surface_mps, fitted_m=reading.fitted_m,
        fitted_speed_mps=reading.fitted_speed_mps, fitted_surface_mps=reading.fitted_surface_mps,
        skid_m=(middle, skid.low, skid.high), meets_m=reading.meets_m,
    )  # fmt: skip


def draw_roll(reading: RollReading, path: Path) -> None:
    """Write the drawing as SVG.

    Raises
    ------
    CannotWrite
        The disk is full or the folder closed; nothing is written then.
    """
    svg = draw_filmed_roll(filmed_of(reading), ground=PAPER)
    write_whole(path, svg.encode("utf-8"))
