"""Find what gives a putter a wanted feel, and which weights in stock come nearest to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from puttwright.club.stock import Filled, pick_weights
from puttwright.club.swing_weight import moment_of
from puttwright.club.wanted import Wanted
from puttwright.club.ways import HEAD, Ways, ways_to
from puttwright.deeds.look_at_putter import named_build
from puttwright.errors import UserError
from puttwright.evidence import Build, Part
from puttwright.fitting.rack import longest_or_refuse
from puttwright.readers.package import read_package
from puttwright.readers.rack_file import read_rack


@dataclass(frozen=True, slots=True, kw_only=True)
class Feel:
    """What is asked: one of swing weight ("D5"), balance or mass, perhaps at another length.

    ``ports`` is how many screws the head takes, ``tape_g`` how much tape may come on top.
    """

    swing_weight: str = ""
    balance_mm: float | None = None
    total_g: float | None = None
    length_mm: float | None = None
    ports: int = 2
    tape_g: int = 0

    @property
    def wanted(self) -> Wanted:
        """The one thing.

        Raises
        ------
        OneThing, NotASwingWeight, OutOfRange
            Nothing or several are asked, or it is none.
        """
        text = self.swing_weight.strip()
        return Wanted(
            swing_weight_in_oz=moment_of(text) if text else None,
            balance_m=None if self.balance_mm is None else 1e-3 * self.balance_mm,
            total_kg=None if self.total_g is None else 1e-3 * self.total_g,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class FeelFound:
    """The ways to it, and the weights from stock for a heavier head, or why there are none."""

    build: Build
    ways: Ways
    filled: Filled | None = None
    no_weights: str = ""


def want_feel(
    package: Path, *, build_id: str | None, feel: Feel, rack: Path | None = None
) -> FeelFound:
    """The ways of a build of a package to a wanted feel.

    Parameters
    ----------
    package
        Folder or zip of the fitting.
    build_id
        Which build; the golfer's own where not given.
    feel
        What is asked.
    rack
        A rack file to take weights from, instead of the package's own.

    Raises
    ------
    PackageFaults, NotFound, OneThing, NotASwingWeight, OutOfRange, OffTheClub, ShaftsTooShort
        Nothing to look at, or nothing a putter could be.
    """
    fitting = read_package(package)
    parts = fitting.rack if rack is None else read_rack(rack)
    build = named_build(fitting, build_id or fitting.own_build)
    return feel_of(build, feel, rack=parts)


def feel_of(build: Build, feel: Feel, *, rack: Sequence[Part]) -> FeelFound:
    """The ways of a build to a wanted feel, with the weights of a rack.

    Raises
    ------
    OneThing, NotASwingWeight, OutOfRange, OffTheClub, ShaftsTooShort
        It could not be a putter, or no shaft in stock makes it.
    """
    length_m = None if feel.length_mm is None else 1e-3 * feel.length_mm
    ways = ways_to(build, wanted=feel.wanted, length_m=length_m)
    if feel.length_mm is not None:
        longest_or_refuse(rack, length_mm=feel.length_mm)
    head = next(way for way in ways.ways if way.kind == HEAD)
    if head.change is None or 1e3 * head.change.value < 0.5:
        return FeelFound(build=build, ways=ways)
    try:
        filled = pick_weights(
            rack, needed_g=1e3 * head.change.value, ports=feel.ports, tape_g=feel.tape_g
        )
    except UserError as trouble:
        return FeelFound(build=build, ways=ways, no_weights=str(trouble))
    return FeelFound(build=build, ways=ways, filled=filled)
