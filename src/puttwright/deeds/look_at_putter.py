"""Look at one putter of a fitting: what it weighs, how it balances, and what a change would do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from puttwright.club.calc import part_of
from puttwright.club.of_build import effect_of
from puttwright.club.parts import Weight
from puttwright.club.uncertainty import Quantity
from puttwright.errors import NotFound
from puttwright.evidence import Build, Fitting
from puttwright.fitting.putter_figures import PutterFigures, lean_of, putter_figures
from puttwright.readers.package import read_package


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """A putter's figures, and what the change asked about would do; nothing where none was."""

    found: PutterFigures
    effect: Mapping[str, Quantity]


def look_at_putter(
    package: Path,
    *,
    build_id: str | None = None,
    lean_deg: float | None = None,
    add: Sequence[str] = (),
    length_mm: float | None = None,
) -> Looked:
    """The figures of a build of a package.

    Parameters
    ----------
    package
        Folder or zip of the fitting.
    build_id
        Which one; the golfer's own where not given.
    lean_deg
        Handle toward the target; as the golfer was seen to lean it where not given.
    add
        Weights as ``"10@33.5in"``, mass at its distance from the butt.
    length_mm
        Another length to tell the effect of.

    Raises
    ------
    PackageFaults, NotFound, NotAPart, InchesMeant, OutOfRange
        Nothing to look at, or nothing a putter could be.
    """
    fitting = read_package(package)
    build = named_build(fitting, build_id or fitting.own_build)
    seen = lean_of(fitting, build_id=build.build_id)
    lean = seen if lean_deg is None else Quantity(value=lean_deg)
    weights = [Weight(mass_kg=mass, from_butt_m=place) for mass, place in map(part_of, add)]
    effect: Mapping[str, Quantity] = {}
    if weights or length_mm is not None:
        length_m = None if length_mm is None else 1e-3 * length_mm
        effect = effect_of(build, weights=weights, length_m=length_m)
    return Looked(found=putter_figures(build, lean=lean), effect=effect)


def named_build(fitting: Fitting, build_id: str, /) -> Build:
    """The build of that id.

    Raises
    ------
    NotFound
        With those there are.
    """
    known = {build.build_id: build for build in fitting.builds}
    if build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
    return known[build_id]
