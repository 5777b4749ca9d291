"""Measure a head or a built putter on the bench, and put its sheet on the rack."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from puttwright.club.alloys import UNKNOWN
from puttwright.club.bench import (
    RAIL_SD_MM,
    HeadSheet,
    Point,
    Read,
    balance_on_rail,
    hang_from_photo,
)
from puttwright.club.calc import DISTANCE_SD_MM, MASS_SD_G, PERIOD_SD_S
from puttwright.club.metal import metal_of
from puttwright.club.pendulum import bifilar_pendulum
from puttwright.club.uncertainty import Quantity, repeated
from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.keep_rack import look_at_rack, put_on_rack
from puttwright.deeds.write_whole import write_whole
from puttwright.errors import OutOfRange, PackageFaults, UserError
from puttwright.evidence import Part, columns_of
from puttwright.evidence.sheet import sheet_of
from puttwright.evidence.tables import table_faults
from puttwright.readers.rack_file import rack_csv, read_rack
from puttwright.store import Store

HEAD, PUTTER = "head", "putter"
READ: Final = (
    "loft_deg", "lie_deg", "mass_g", "offset_mm", "cg_depth_mm", "cg_from_axis_mm",
    "toe_hang_deg", "length_mm", "balance_from_butt_mm", "grip_diameter_mm",
)  # fmt: skip
_OF_PUTTER: Final = {
    "length_mm": "length",
    "balance_from_butt_mm": "balance point from a butt",
    "grip_diameter_mm": "grip",
}


class NothingRead(UserError):
    """Nothing was measured; give at least one reading, as in --loft-deg 3.0, better three."""

    code = "nothing-read"


class NotOfAHead(UserError):
    """A head has no {name}; measure it on a built putter (kind putter)."""

    code = "not-of-a-head"


class BalanceNeedsLength(UserError):
    """A balance point needs the length of the putter too, measured from the same butt."""

    code = "balance-needs-length"


class ThreadsNeeded(UserError):
    """Timings on two threads need the mass, the spacing of the threads and their length too."""

    code = "threads-needed"


@dataclass(frozen=True, slots=True, kw_only=True)
class OnBench:
    """What was read of one head or putter; lists hold one reading or several, each taken anew.

    ``readings`` goes by the rack's columns. ``face_px`` and ``plumb_px`` are points of a
    photo taken along the shaft; the threads are those of a bifilar pendulum.
    """

    part_id: str
    kind: str = HEAD
    label: str | None = None
    alloy: str = ""
    neck_joint: str = ""
    bent_before_deg: float = 0.0
    head_shape: str | None = None
    fits: str | None = None
    readings: Mapping[str, Sequence[float]] = field(default_factory=dict)
    spacing_mm: float | None = None
    thread_mm: float | None = None
    periods_s: Sequence[float] = ()
    face_px: tuple[Point, Point] | None = None
    plumb_px: tuple[Point, Point] | None = None


def bench_sheet(bench: OnBench, /) -> HeadSheet:
    """The sheet of what was read.

    Raises
    ------
    NothingRead, NotOfAHead, BalanceNeedsLength, ThreadsNeeded, OutOfRange, OffTheClub, OneSpot
        With what is lacking, or what no putter could be.
    """
    readings = {name: tuple(values) for name, values in bench.readings.items() if values}
    _possible(readings, kind=bench.kind)
    reads = [_read(name, values) for name, values in readings.items()]
    if bench.face_px is not None:
        hang = hang_from_photo(face_px=bench.face_px, plumb_px=bench.plumb_px)
        reads.append(
            Read(name="toe_hang_deg", unit="°", readings=(math.degrees(hang.value),),
                 single_sd=math.degrees(hang.sd))
        )  # fmt: skip
    inertia = _inertia(bench, readings) if bench.periods_s else None
    if not reads and inertia is None:
        raise NothingRead
    metal = metal_of(_said(bench))
    return HeadSheet(
        part_id=bench.part_id,
        kind=bench.kind,
        label=bench.label,
        alloy=_known(metal.alloy, bench.alloy),
        neck=_known(metal.joint, bench.neck_joint),
        readings=tuple(reads),
        inertia=inertia,
        bent_before_deg=bench.bent_before_deg,
        head_shape=bench.head_shape,
        fits=bench.fits,
    )  # fmt: skip


def _known(key: str, said: str) -> str:
    """The key we know it by; what was said where we know none, so that it is told."""
    return key if key != UNKNOWN else said or UNKNOWN


def _said(bench: OnBench) -> Part:
    return Part(
        part_id=bench.part_id, kind=bench.kind, alloy=bench.alloy, neck_joint=bench.neck_joint
    )


def _possible(readings: Mapping[str, Sequence[float]], *, kind: str) -> None:
    ranges = {column.name: column for column in columns_of(Part)}
    for name, values in readings.items():
        column = ranges[name]
        if kind == HEAD and name in _OF_PUTTER:
            raise NotOfAHead(name=_OF_PUTTER[name])
        low, high = column.low, column.high
        assert low is not None
        assert high is not None
        for value in values:
            if not low <= value <= high:
                raise OutOfRange(name=name, value=value, low=low, high=high, unit=column.unit)
    if "balance_from_butt_mm" in readings:
        if "length_mm" not in readings:
            raise BalanceNeedsLength
        length = sum(readings["length_mm"]) / len(readings["length_mm"])
        balance_on_rail(readings["balance_from_butt_mm"], length_m=1e-3 * length)


def _read(name: str, values: Sequence[float]) -> Read:
    unit = {"_deg": "°", "_mm": "mm"}.get(name[name.rindex("_") :], "g")
    single = RAIL_SD_MM if name == "balance_from_butt_mm" else None
    return Read(name=name, unit=unit, readings=tuple(values), single_sd=single)


def _inertia(bench: OnBench, readings: Mapping[str, Sequence[float]]) -> Quantity:
    """About the upright axis, from turning on two threads."""
    masses = readings.get("mass_g")
    if not masses or bench.spacing_mm is None or bench.thread_mm is None:
        raise ThreadsNeeded
    mass = repeated(list(masses), name="mass", single_sd=MASS_SD_G)
    return bifilar_pendulum(
        mass=Quantity(value=1e-3 * mass.value, sd=1e-3 * mass.sd, dof=mass.dof),
        spacing=Quantity(value=1e-3 * bench.spacing_mm, sd=1e-3 * DISTANCE_SD_MM),
        thread=Quantity(value=1e-3 * bench.thread_mm, sd=1e-3 * DISTANCE_SD_MM),
        period=repeated(list(bench.periods_s), name="period", single_sd=PERIOD_SD_S),
    ).inertia_cg_kg_m2


def with_sheet(parts: Sequence[Part], sheet: HeadSheet, /) -> tuple[Part, ...]:
    """The rack with the sheet's part on it.

    What a part of that id had and nobody measured now (stock, price, what it goes
    with) stays. Bend limits follow what was measured.
    """
    new = sheet.part()
    old = next((part for part in parts if part.part_id == new.part_id), None)
    if old is None:
        return (*parts, new)
    said = {
        column.name: value
        for column in columns_of(Part)
        if (value := getattr(new, column.name)) is not None and value != UNKNOWN
    }
    kept = dataclasses.replace(old, **said)
    return tuple(kept if part is old else part for part in parts)


def put_sheet_into(path: Path, sheet: HeadSheet, /) -> None:
    """Put a sheet's part into a rack file; the file is made if it is not there.

    Raises
    ------
    PackageFaults, CannotWrite
        The file is no rack, the part cannot be, the disk is full; the file is untouched then.
    """
    parts = with_sheet(read_rack(path) if path.exists() else (), sheet)
    faults = table_faults({"rack": sheet_of(parts, table="rack", record=Part)})
    if faults:
        raise PackageFaults(faults=faults)
    write_whole(path, rack_csv(parts))


def keep_sheet(store: Store, clock: Clock, *, sheet: HeadSheet, who: str) -> Part:
    """Put a sheet's part on the shop's rack.

    Raises
    ------
    PackageFaults
        The part cannot be; nothing is kept then.
    """
    rack = with_sheet(look_at_rack(store), sheet)
    part = next(each for each in rack if each.part_id == sheet.part_id)
    put_on_rack(store, clock, parts=[part], who=who)
    return part
