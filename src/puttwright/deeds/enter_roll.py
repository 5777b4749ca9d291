"""Enter a filmed putt into a fitting package."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from puttwright.deeds.measure_roll import Figure, RollReading
from puttwright.errors import CannotRead, NotFound, UserError
from puttwright.evidence import Instrument
from puttwright.readers.change_package import (
    change_package,
    file_of,
    head_with_instruments,
    manifest_with,
    table_place,
)
from puttwright.readers.files import Unreadable
from puttwright.readers.package import read_package

INSTRUMENT = "phone video"
_FILM = "film"
"""Stands for a table's header in the log of files read."""
MEASURED = ("ball_speed_mps", "launch_deg", "spin_rpm", "skid_m", "roll_share_pct")
_SDS_IN_90 = 2.0 * 1.645
"""Standard deviations that a central 90 % interval of a normal is wide."""


class WhichBuild(UserError):
    """The fitting has {count} builds; say which was in hand with --build ({known})."""

    code = "which-build"


class SameClip(UserError):
    """{video} is in this fitting already, and one clip is one putt."""

    code = "same-clip"
    hint = "Nothing was entered. Another build was in hand? Put build_id right in putts.csv."


def enter_roll(
    reading: RollReading, *, package: Path, build_id: str | None, distance_m: float
) -> int:
    """Add the putt below the others; what the clip does not carry stays empty.

    How well the film tells each figure goes into the fitting's instruments; the widest of the
    clips entered so far stands for all.

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
    WhichBuild, SameClip, NotFound, CannotRead, PackageFaults, CannotWrite
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
    log = _logged(package, reading)
    tables = (fitting.putts, fitting.aims, fitting.setups)
    seq = 1 + max((row.seq for table in tables for row in table), default=0)
    row = {"seq": str(seq), "build_id": build_id, "distance_m": f"{distance_m:g}"}
    for name in MEASURED:
        value = getattr(reading, name).value
        if value is not None:
            row[name] = f"{value:.4g}"
    row["instrument"] = INSTRUMENT
    place = table_place(package, "putts")
    table = Appended(file_of(package, place), columns=tuple(row))
    table.add(pl.DataFrame({name: [text] for name, text in row.items()}))
    changes = {place: table.whole(), **log}
    changes |= manifest_with(package, "putts", place=place, header=table.header)
    changes |= head_with_instruments(package, as_instruments(reading, known=fitting.instruments))
    change_package(package, changes)
    return seq


def _logged(package: Path, reading: RollReading) -> dict[str, bytes]:
    """The log of files read with this clip in it, under any name the same."""
    import numpy as np  # noqa: PLC0415 - starts slowly

    from puttwright.readers.tables.seen_before import (  # noqa: PLC0415 - starts numpy
        READ_LOG,
        Source,
        log_bytes,
        sources_from,
    )

    try:
        sources = sources_from(file_of(package, READ_LOG))
    except Unreadable as trouble:
        reason = f"a file of earlier readings {trouble}"
        raise CannotRead(path=package, reason=reason) from trouble
    key = int(reading.sha256[:16], 16)
    if any(each.header == _FILM and each.among([key]) for each in sources):
        raise SameClip(video=reading.video)
    clip = Source(
        file=Path(reading.video).name, header=_FILM, keys=np.array([key], dtype="<u8")
    )  # fmt: skip
    return {READ_LOG: log_bytes([*sources, clip])}


def as_instruments(reading: RollReading, *, known: Sequence[Instrument]) -> list[Instrument]:
    """The film as an instrument for each figure that the clip carries.

    Of the clips so far, in ``known``, the widest stands for all; what else is noted there stays.
    """
    films = {each.quantity: each for each in known if each.name == INSTRUMENT}
    entries = []
    for name in MEASURED:
        figure: Figure = getattr(reading, name)
        if figure.value is None:
            continue
        new = Instrument(name=INSTRUMENT, quantity=name, repeatability_sd=0.0)
        entry = films.get(name, new)
        sd = max((figure.high - figure.low) / _SDS_IN_90, entry.repeatability_sd)
        entries.append(replace(entry, repeatability_sd=float(f"{sd:.3g}")))
    return entries
