"""A fitting's records as the linkage takes them: heights, putters held, addresses measured."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

import numpy as np

from puttwright.address.linkage import Held
from puttwright.address.pose import Floats
from puttwright.address.posterior import MEASURED, Address, AddressBelief, Heights, learn
from puttwright.address.usual import READ_TO
from puttwright.evidence import Build, Fitting, Golfer, Instrument, SetupReading

_COLUMNS = {
    "eye_inside_m": ("eye_inside_mm", 1e-3),
    "eye_behind_m": ("eye_behind_mm", 1e-3),
    "hands_height_m": ("hands_height_mm", 1e-3),
    "sole_tilt_rad": ("sole_tilt_deg", math.pi / 180.0),
}
"""What is measured: the column it comes from and the factor to SI."""


def heights_of(golfer: Golfer) -> Heights:
    """What is known of the body; where nobody said how the height was found, it was told."""
    return Heights(
        stature_m=_metres(golfer.stature_mm),
        told=golfer.stature_told is not False,
        shoulder_m=_metres(golfer.shoulder_height_mm),
        wrist_m=_metres(golfer.wrist_height_mm),
        hip_m=_metres(golfer.hip_height_mm),
    )


def held_of(build: Build, *, setups: Sequence[SetupReading] = (), style: str | None = None) -> Held:
    """The build as the golfer holds it; lean is the mean of what was read with it."""
    leans = [
        setup.shaft_lean_deg
        for setup in setups
        if setup.build_id == build.build_id and setup.shaft_lean_deg is not None
    ]
    return Held(
        length_m=build.length_mm / 1e3,
        lie_rad=math.radians(build.lie_deg),
        name=build.build_id,
        axis_to_ball_m=_metres(build.cg_from_axis_mm),
        lean_rad=math.radians(sum(leans) / len(leans)) if leans else 0.0,
        style=style,
    )


def usual_style(setups: Sequence[SetupReading], *, build_id: str | None = None) -> str | None:
    """The grip style seen most often, with one build or with all."""
    seen = Counter(
        setup.grip_style for setup in setups if setup.grip_style and _is(setup, build_id)
    )
    return seen.most_common(1)[0][0] if seen else None


def _is(setup: SetupReading, build_id: str | None) -> bool:
    return build_id is None or setup.build_id == build_id


def addresses_of(fitting: Fitting) -> tuple[Address, ...]:
    """The addresses measured, those with a figure in them."""
    found = []
    for setup in fitting.setups:
        values = {name: _read(setup, column, factor) for name, (column, factor) in _COLUMNS.items()}
        if any(value is not None for value in values.values()):
            build = fitting.build(setup.build_id)
            held = held_of(build, setups=fitting.setups, style=setup.grip_style)
            found.append(Address(held=held, seq=setup.seq, **values))
    return tuple(found)


def _read(setup: SetupReading, column: str, factor: float) -> float | None:
    value = getattr(setup, column)
    return None if value is None else factor * float(value)


def read_to(instruments: Sequence[Instrument]) -> Floats:
    """Errors of reading: from a gauge study where there was one, else the usual."""
    errors = np.array([row.sd for row in READ_TO])
    for instrument in instruments:
        for index, name in enumerate(MEASURED):
            column, factor = _COLUMNS[name]
            if instrument.quantity == column and instrument.repeatability_sd > 0.0:
                errors[index] = factor * instrument.repeatability_sd
    return errors


def learn_fitting(fitting: Fitting) -> AddressBelief:
    """What this fitting's heights and addresses teach of the golfer."""
    return learn(
        heights_of(fitting.golfer), addresses_of(fitting), read_to=read_to(fitting.instruments)
    )


def _metres(value_mm: float | None) -> float | None:
    return None if value_mm is None else value_mm / 1e3
