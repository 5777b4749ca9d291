"""What a build weighs, how it balances, turns and hangs, said with the doubt of its inputs."""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from puttwright.club.of_build import figures_of
from puttwright.club.putter import Figures
from puttwright.club.swing_weight import letter
from puttwright.club.uncertainty import Quantity
from puttwright.evidence import Build, Fitting
from puttwright.fitting.phrases import interval, measure

_ONE_READING_DEG: Final = 1.0
"""How sure one reading of the lean is; from judgement."""
_G, _MM, _G_CM2, _DEG = 1e3, 1e3, 1e7, 180.0 / math.pi


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """How a figure is told: its field of :class:`Figures`, key for programs, name, unit."""

    field: str
    key: str
    name: str
    unit: str
    times: float
    digits: int = 0
    said_times: float = 1.0

    def words(self, quantity: Quantity, /) -> str:
        """The figure and its 90 % interval: "525 g (510 to 540)"."""
        low, high = quantity.interval()
        if self.field == _SWING:
            return f"{letter(quantity.value)} ({letter(low)} to {letter(high)})"
        by = self.times * self.said_times
        said = measure(by * quantity.value, self.unit, digits=self.digits)
        return f"{said} ({interval((by * low, by * high), digits=self.digits)})"


_SWING: Final = "swing_weight_in_oz"
SHOWN: Final = (
    Shown(field="total_kg", key="total_g", name="Mass", unit="g", times=_G),
    Shown(field="head_kg", key="head_g", name="Mass of head", unit="g", times=_G),
    Shown(field="balance_m", key="balance_mm", name="Balance from the butt", unit="mm",
          times=_MM),
    Shown(field=_SWING, key="torque_in_oz", name="Swing weight", unit="in·oz", times=1.0,
          digits=1),
    Shown(field="swing_weight_12_in_oz", key="torque_12_in_oz", name="Moment about 12 in",
          unit="in·oz", times=1.0, digits=0),
    Shown(field="hang_rad", key="hang_deg", name="Hang", unit="°", times=_DEG),
    Shown(field="loft_rad", key="loft_at_lean_deg", name="Loft as leaned", unit="°", times=_DEG,
          digits=1),
    Shown(field="offset_m", key="offset_mm", name="Offset", unit="mm", times=_MM, digits=1),
    Shown(field="inertia_butt_kg_m2", key="inertia_butt_kg_m2", name="Inertia about the butt",
          unit="kg m²", times=1.0, digits=3),
    Shown(field="inertia_shaft_kg_m2", key="inertia_shaft_kg_m2",
          name="Inertia about the shaft", unit="g cm²", times=1.0, said_times=_G_CM2),
    Shown(field="inertia_vertical_kg_m2", key="inertia_vertical_kg_m2",
          name="Inertia about upright", unit="g cm²", times=1.0, said_times=_G_CM2),
    Shown(field="head_inertia_vertical_kg_m2", key="head_inertia_vertical_kg_m2",
          name="Inertia of the head about upright", unit="g cm²", times=1.0,
          said_times=_G_CM2),
)  # fmt: skip
_IN_SHORT: Final = ("total_kg", "balance_m", _SWING, "hang_rad")
_TARGETED: Final = {
    "total_kg": "total_mass_g",
    "balance_m": "balance_from_butt_mm",
    "hang_rad": "toe_hang_deg",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PutterFigures:
    """A build's figures, the lean its loft is told at, and whether anybody read that lean."""

    build: Build
    figures: Figures
    lean_deg: float
    lean_read: bool

    def lines(self) -> tuple[tuple[str, str], ...]:
        """Name and words of every figure."""
        return tuple((each.name, each.words(self.quantity(each))) for each in SHOWN)

    def quantity(self, shown: Shown, /) -> Quantity:
        """The figure, in SI."""
        found: Quantity = getattr(self.figures, shown.field)
        return found

    @property
    def lean_words(self) -> str:
        """At which lean the loft is told."""
        said = measure(abs(self.lean_deg), "°", digits=1)
        if not self.lean_read:
            return "No lean was read: the loft is that of an upright shaft."
        way = "toward the target" if self.lean_deg >= 0 else "away from it"
        return f"Leaned as this golfer does, handle {said} {way}."


def lean_of(fitting: Fitting, /, *, build_id: str) -> Quantity | None:
    """How far this golfer leans the handle toward the target [deg]; ``None`` if nobody read it.

    Parameters
    ----------
    fitting
        Addresses first, putts where there are none.
    build_id
        Its own readings where it has any, else those of all builds.
    """
    read = [(s.build_id, s.shaft_lean_deg) for s in fitting.setups if s.shaft_lean_deg is not None]
    if not read:
        read = [
            (putt.build_id, putt.shaft_lean_deg)
            for putt in fitting.used_putts
            if putt.shaft_lean_deg is not None
        ]
    own = [lean for build, lean in read if build == build_id]
    leans = own or [lean for _, lean in read]
    if not leans:
        return None
    spread = statistics.stdev(leans) / math.sqrt(len(leans)) if len(leans) > 1 else 0.0
    floor = _ONE_READING_DEG / math.sqrt(len(leans))
    return Quantity(value=statistics.fmean(leans), sd=max(spread, floor))


def putter_figures(build: Build, /, *, lean: Quantity | None = None) -> PutterFigures:
    """Every figure of a build, at the golfer's lean [deg] where it was read."""
    leaned = lean or Quantity(value=0.0)
    return PutterFigures(
        build=build,
        figures=figures_of(
            build, lean_rad=math.radians(leaned.value), lean_sd_rad=math.radians(leaned.sd)
        ),
        lean_deg=leaned.value,
        lean_read=lean is not None,
    )


def in_short(found: PutterFigures, /) -> tuple[str, ...]:
    """What the workshop cannot read off the targets: what it comes out at, computed."""
    shown = [each for each in SHOWN if each.field in _IN_SHORT]
    told = [each for each in shown if not _targeted(found.build, each)]
    leaned = [each for each in SHOWN if each.field == "loft_rad" and found.lean_read]
    return tuple(
        f"{each.name[0].lower()}{each.name[1:]} {each.words(found.quantity(each))}"
        for each in (*told, *leaned)
    )


def _targeted(build: Build, shown: Shown) -> bool:
    column = _TARGETED.get(shown.field)
    return column is not None and getattr(build, column) is not None


def assumed_of(notes: Sequence[str], /) -> tuple[str, ...]:
    """What was taken as usual, by name, and what is to be looked at, whole."""
    return tuple(note.split(": taken as ")[0] for note in notes)


def figures_json(found: PutterFigures, /) -> dict[str, Any]:
    """The same for programs: figures, 90 % intervals, what was taken as usual."""
    values: dict[str, Any] = {"swing_weight": found.figures.swing_weight}
    intervals = {}
    for each in SHOWN:
        quantity = found.quantity(each)
        values[each.key] = _rounded(each.times * quantity.value)
        intervals[each.key] = [_rounded(each.times * end) for end in quantity.interval()]
    return {
        **values,
        "lean_deg": _rounded(found.lean_deg) if found.lean_read else None,
        "intervals": intervals,
        "notes": list(found.figures.notes),
    }


def _rounded(value: float) -> float:
    return float(f"{value:.6g}")
