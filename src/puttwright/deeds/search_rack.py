"""Search the rack for the putter a fitting asks for: the nearest, and the best for this golfer."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from pathlib import Path

from puttwright.deeds.keep_rack import look_at_rack
from puttwright.errors import NotFound
from puttwright.evidence import Build, Fitting, Part
from puttwright.fitting.decide import decide, weigh
from puttwright.fitting.rack import Found, nearest
from puttwright.fitting.rack_best import MOST_WEIGHED, Valued, by_strokes
from puttwright.fitting.rack_made import Made
from puttwright.pictures.of_fitting import chosen_build
from puttwright.readers.package import read_package
from puttwright.readers.rack_file import read_rack
from puttwright.store import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class Searched:
    """What was wanted, what the rack makes of it, and its worth when that was asked for."""

    wanted: Build
    found: Found
    valued: tuple[Valued, ...] = ()

    @property
    def made(self) -> tuple[Made, ...]:
        """The combinations in the order they are told."""
        return tuple(each.made for each in self.valued) or self.found.made


def search_package(
    package: Path,
    *,
    rack: Path | None = None,
    build_id: str | None = None,
    most: int = 5,
    strokes: bool = False,
    only: Collection[str] = (),
    seed: int = 1,
) -> Searched:
    """Search a package's rack, or another one, for the build decided or named.

    Parameters
    ----------
    package
        Folder or zip of the fitting.
    rack
        A rack file to search instead of the package's own.
    build_id
        A build of the fitting to come near to; what the decision asks for when not
        given, and the golfer's own when it asks for none.
    most
        How many to tell.
    strokes
        Order the nearest by the strokes they are expected to save.
    only
        Ids of parts it must have.
    seed
        Of the decision.

    Raises
    ------
    PackageFaults, NotFound
        The package or the rack cannot be read; there is no such build.
    NothingOfAKind, NothingGoesTogether, ShaftsTooShort, TooManyCombinations
        The rack cannot make it, and what it could.
    """
    fitting = read_package(package)
    parts = fitting.rack if rack is None else read_rack(rack)
    wanted = _wanted(fitting, build_id=build_id, seed=seed)
    return _searched(
        fitting, parts, wanted=wanted, most=most, strokes=strokes, only=only, seed=seed
    )


def _searched(
    fitting: Fitting, parts: Sequence[Part], *, wanted: Build, most: int, strokes: bool, seed: int,
    only: Collection[str] = (),
) -> Searched:  # fmt: skip
    found = nearest(parts, wanted, most=max(most, MOST_WEIGHED) if strokes else most, only=only)
    if not strokes:
        return Searched(wanted=wanted, found=found)
    valued = by_strokes(weigh(fitting, seed=seed), found.made, seed=seed)
    return Searched(wanted=wanted, found=found, valued=valued[:most])


def search_fitting(
    store: Store, fitting: Fitting, *, wanted: Build, most: int, strokes: bool, seed: int = 1
) -> Searched | None:
    """What fitting and shop have on their racks for a build; nothing when both are empty.

    Parameters
    ----------
    store, fitting
        The shop's rack stands behind the fitting's own.
    wanted
        The build to come near to.
    most
        How many to tell.
    strokes
        Order the nearest by the strokes they are expected to save this golfer.
    seed
        Of the weighing.

    Raises
    ------
    NothingOfAKind, NothingGoesTogether, ShaftsTooShort, TooManyCombinations
        The rack cannot make it, and what it could.
    """
    parts = rack_behind(fitting, look_at_rack(store))
    if not parts:
        return None
    return _searched(fitting, parts, wanted=wanted, most=most, strokes=strokes, seed=seed)


def made_with(
    store: Store, fitting: Fitting, *, wanted: Build, part_ids: Collection[str]
) -> Build | None:
    """The build that exactly these parts give, as near as can be to a build.

    Raises
    ------
    NotFound
        There is no such part.
    """
    parts = rack_behind(fitting, look_at_rack(store))
    found = nearest(parts, wanted, most=MOST_WEIGHED, only=part_ids)
    named = set(part_ids)
    exact = [made for made in found.made if {part.part_id for part in made.parts} == named]
    return exact[0].build if exact else None


def search_shop(store: Store, fitting: Fitting, *, wanted: Build, most: int = 3) -> Found | None:
    """What the shop's rack makes nearest to a build; nothing when the rack is empty.

    Raises
    ------
    NothingOfAKind, NothingGoesTogether, ShaftsTooShort, TooManyCombinations
        The rack cannot make it, and what it could.
    """
    parts = rack_behind(fitting, look_at_rack(store))
    return nearest(parts, wanted, most=most) if parts else None


def rack_behind(fitting: Fitting, on_rack: Sequence[Part]) -> tuple[Part, ...]:
    """The parts of the fitting, and the shop's behind them."""
    own = {part.part_id for part in fitting.rack}
    return (*fitting.rack, *(part for part in on_rack if part.part_id not in own))


def _wanted(fitting: Fitting, *, build_id: str | None, seed: int) -> Build:
    if build_id is None:
        chosen = chosen_build(fitting, decide(fitting, seed=seed))
        return chosen or fitting.build(fitting.own_build)
    known = {build.build_id: build for build in fitting.builds}
    if build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
    return known[build_id]


def parts_said(parts: tuple[Part, ...]) -> str:
    """The parts by their labels."""
    return ", ".join(part.label or part.part_id for part in parts)
