"""Enter a filmed putt into a fitting package."""

from __future__ import annotations

from pathlib import Path

from puttwright.deeds.measure_roll import Figure, RollReading
from puttwright.errors import NotFound, UserError
from puttwright.evidence import Fitting, Instrument
from puttwright.readers.change_package import (
    change_package,
    file_of,
    head_with_instrument,
    manifest_with,
    table_place,
)
from puttwright.readers.package import read_package

INSTRUMENT = "phone video"
_SPEED = "ball_speed_mps"
_MEASURED = (_SPEED, "launch_deg", "spin_rpm", "skid_m", "roll_share_pct")
_SDS_IN_90 = 2.0 * 1.645
"""Standard deviations that a central 90 % interval of a normal is wide."""


class WhichBuild(UserError):
    """The fitting has {count} builds; say which was in hand with --build ({known})."""

    code = "which-build"


def enter_roll(
    reading: RollReading, *, package: Path, build_id: str | None, distance_m: float
) -> int:
    """Add the putt below the others; what the clip does not carry stays empty.

    How well the film tells ball speed goes into the fitting's instruments, for pace is read
    from it; the widest of the clips entered so far stands for all.

    Parameters
    ----------
    reading
        From :func:`puttwright.deeds.measure_roll.measure_roll`.
    package
        Folder or zip of the fitting.
    build_id
        The putter in hand; may be left out where the fitting has one.
    distance_m
        From ball to hole.

    Returns
    -------
    int
        The putt's ``seq``.

    Raises
    ------
    WhichBuild, NotFound, CannotRead, PackageFaults, CannotWrite
        Nothing is entered then.
    """
    import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

    from puttwright.readers.tables.append import Appended  # noqa: PLC0415 - as above

    fitting = read_package(package)
    known = [build.build_id for build in fitting.builds]
    if build_id is None:
        if len(known) != 1:
            raise WhichBuild(count=len(known), known=", ".join(known))
        build_id = known[0]
    elif build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
    tables = (fitting.putts, fitting.aims, fitting.setups)
    seq = 1 + max((row.seq for table in tables for row in table), default=0)
    row = {"seq": str(seq), "build_id": build_id, "distance_m": f"{distance_m:g}"}
    for name in _MEASURED:
        value = getattr(reading, name).value
        if value is not None:
            row[name] = f"{value:.4g}"
    row["instrument"] = INSTRUMENT
    place = table_place(package, "putts")
    table = Appended(file_of(package, place), columns=tuple(row))
    table.add(pl.DataFrame({name: [text] for name, text in row.items()}))
    changes = {place: table.bytes()}
    changes |= manifest_with(package, "putts", place=place, header=table.header)
    if reading.ball_speed_mps.value is not None:
        entry = _film(fitting, reading.ball_speed_mps)
        changes |= head_with_instrument(package, entry)
    change_package(package, changes)
    return seq


def _film(fitting: Fitting, speed: Figure) -> Instrument:
    """The film as an instrument for ball speed."""
    sds = [(speed.high - speed.low) / _SDS_IN_90]
    sds += [
        each.repeatability_sd
        for each in fitting.instruments
        if (each.name, each.quantity) == (INSTRUMENT, _SPEED)
    ]
    return Instrument(name=INSTRUMENT, quantity=_SPEED, repeatability_sd=float(f"{max(sds):.3g}"))
