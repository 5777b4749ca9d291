"""What can be built from the rack, and which of it comes nearest to a putter that is wanted.

A combination is a head, a neck, a shaft, a grip and perhaps a weight that go with each
other and are in stock; beside them stand putters that are built. All combinations of a
head are judged at once, so that a hundred thousand take well under a second.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.club.along import Floats
from puttwright.club.targets import BY_FIELD
from puttwright.errors import NotFound, UserError
from puttwright.evidence import Build, Part
from puttwright.fitting.rack_distance import Axis, along, distance_of_built, distances
from puttwright.fitting.rack_made import Made, built, made_of

Mask = NDArray[np.bool_]

KINDS: Final = ("head", "neck", "shaft", "grip", "weight")
PUTTER: Final = "putter"
MOST_COMBINATIONS: Final = 50_000_000


class NothingOfAKind(UserError):
    """There is no {kind} in stock, so nothing can be built; the rack has {known}."""

    code = "nothing-of-a-kind"


class NothingGoesTogether(UserError):
    """No {one} in stock goes with any {other}: {hint}."""

    code = "nothing-goes-together"


class ShaftsTooShort(UserError):
    """No shaft in stock gives {wanted_mm:.0f} mm; the longest gives {longest_mm:.0f} mm."""

    code = "shafts-too-short"


class TooManyCombinations(UserError):
    """The rack makes {count:,} combinations; name a head or a grip to search among fewer."""

    code = "too-many-combinations"


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The nearest putters, how many were judged, and why parts make none where only built do."""

    combinations: int
    made: tuple[Made, ...]
    why_none_of_parts: str = ""


def goes_together(one: Part, other: Part, *, kinds: dict[str, str]) -> bool:
    """Whether two parts fit: neither names parts of the other's kind without naming the other.

    Parameters
    ----------
    one, other
        Two parts of different kinds.
    kinds
        The kind of each part of the rack, by id.
    """
    for a, b in ((one, other), (other, one)):
        named = {each for each in (a.fits or "").split() if kinds.get(each) == b.kind}
        if named and b.part_id not in named:
            return False
    return True


def nearest(
    rack: Sequence[Part], wanted: Build, *, most: int = 10, only: Collection[str] = ()
) -> Found:
    """The putters, of parts or built, that come nearest to one that is wanted.

    Parameters
    ----------
    rack
        The shop's parts; what is out of stock (0) is left aside, no stock said counts as there.
        A kind the rack has nothing of is left to the shop, but there must be a head and a
        shaft, or a putter that stands there built.
    wanted
        The putter wanted; only the figures it has count.
    most
        How many to give, the nearest first.
    only
        Ids of parts it must have; others of their kinds are left aside.

    Raises
    ------
    NothingOfAKind, NothingGoesTogether, ShaftsTooShort, TooManyCombinations, NotFound
        With what would be possible.
    """
    rack = _only(rack, only)
    there = [part for part in rack if part.kind == PUTTER and part.stock != 0]
    standing = [(distance_of_built(each, wanted), each) for each in there]
    try:
        judged, best = _of_parts(rack, wanted, most=most)
    except (NothingOfAKind, NothingGoesTogether, ShaftsTooShort) as trouble:
        if not standing:
            raise
        judged, best, why = 0, [], str(trouble)
    else:
        why = ""
    ways = [(d, made_of(parts, wanted, distance=d)) for d, parts in best]
    ways += [(d, built(putter, wanted, distance=d)) for d, putter in standing]
    ways.sort(key=lambda pair: pair[0])
    return Found(
        combinations=judged + len(standing),
        made=tuple(made for _, made in ways[:most]),
        why_none_of_parts=why,
    )


def longest_or_refuse(rack: Sequence[Part], /, *, length_mm: float) -> None:
    """Refuse a length that no shaft in stock gives.

    Parameters
    ----------
    rack
        Where it has no shafts, or one of unknown length, nothing is refused.
    length_mm
        Butt to sole.

    Raises
    ------
    ShaftsTooShort
        With the longest there is.
    """
    lengths = [p.length_mm for p in rack if p.kind == "shaft" and p.stock != 0]
    longest = max((each for each in lengths if each is not None), default=math.inf)
    if None not in lengths and longest < length_mm - BY_FIELD["length_mm"].tolerance:
        raise ShaftsTooShort(wanted_mm=length_mm, longest_mm=longest)


def _only(rack: Sequence[Part], ids: Collection[str]) -> Sequence[Part]:
    """The rack without the other parts of the kinds that were named."""
    kinds = {part.part_id: part.kind for part in rack}
    for part_id in ids:
        if part_id not in kinds:
            raise NotFound(what="part", name=part_id, known=f"; there are {', '.join(kinds)}")
    named = {kinds[part_id] for part_id in ids}
    if PUTTER in named:
        return [part for part in rack if part.part_id in ids]
    # What is built already holds none of them.
    others = named | {PUTTER} if named else set()
    return [part for part in rack if part.kind not in others or part.part_id in ids]


_Best = list[tuple[float, tuple[Part | None, ...]]]


def _of_parts(rack: Sequence[Part], wanted: Build, *, most: int) -> tuple[int, _Best]:
    """How many putters the parts make, and the nearest of them."""
    stock = _in_stock(rack)
    _must_be_possible(stock, wanted)
    axes: list[Axis] = [stock[kind] or [None] for kind in KINDS[1:-1]]
    axes.append([None, *stock["weight"]])
    count = len(stock["head"]) * math.prod(map(len, axes))
    if count > MOST_COMBINATIONS:
        raise TooManyCombinations(count=count)
    kinds = {part.part_id: part.kind for part in rack}
    best: _Best = []
    judged = 0
    among = _among(axes, kinds)
    for head in stock["head"]:
        possible = among & _with(head, axes, kinds)
        distance = np.where(possible, distances(head, axes, wanted=wanted), np.inf)
        judged += int(possible.sum())
        best += _least(distance, head, axes, most=most)
    if not judged:
        raise _nothing_goes(stock, kinds)
    best.sort(key=lambda pair: pair[0])
    return judged, best[:most]


def _in_stock(rack: Sequence[Part]) -> dict[str, list[Part]]:
    return {kind: [p for p in rack if p.kind == kind and p.stock != 0] for kind in KINDS}


def _must_be_possible(stock: dict[str, list[Part]], wanted: Build) -> None:
    for kind in ("head", "shaft"):
        if not stock[kind]:
            known = ", ".join(f"{len(parts)} {name}s" for name, parts in stock.items() if parts)
            raise NothingOfAKind(kind=kind, known=known or "nothing in stock")
    longest_or_refuse(stock["shaft"], length_mm=wanted.length_mm)


def _nothing_goes(stock: dict[str, list[Part]], kinds: dict[str, str]) -> NothingGoesTogether:
    """The first pair of kinds of which nothing goes together, and what the rack says of it."""
    present = [kind for kind in KINDS if stock[kind]]
    for i, one in enumerate(present):
        for other in present[i + 1 :]:
            pairs = [(a, b) for a in stock[one] for b in stock[other]]
            if not any(goes_together(a, b, kinds=kinds) for a, b in pairs):
                asks = next(each for pair in pairs for each in pair if each.fits)
                facing = other if asks.kind == one else one
                there = ", ".join(part.part_id for part in stock[facing])
                hint = f"{asks.part_id} goes with {asks.fits}, in stock are {there}"
                return NothingGoesTogether(one=one, other=other, hint=hint)
    hint = "each pair has partners, yet no head, neck, shaft and grip all go with each other"
    return NothingGoesTogether(one="head", other="set of parts", hint=hint)


def _with(head: Part, axes: Sequence[Axis], kinds: dict[str, str]) -> Mask:
    """Which combinations go with a head."""
    possible = np.ones([1, 1, 1, 1], dtype=bool)
    for i, axis in enumerate(axes):
        possible = possible & along(
            i, [part is None or goes_together(head, part, kinds=kinds) for part in axis]
        ).astype(bool)
    return possible


def _among(axes: Sequence[Axis], kinds: dict[str, str]) -> Mask:
    """Which necks, shafts, grips and weights go with each other."""
    possible = np.ones([len(axis) for axis in axes], dtype=bool)
    for (i, rows), (j, columns) in itertools.combinations(enumerate(axes), 2):
        pairs = [
            [a is None or b is None or goes_together(a, b, kinds=kinds) for b in columns]
            for a in rows
        ]
        shape = [1, 1, 1, 1]
        shape[i], shape[j] = len(rows), len(columns)
        possible &= np.array(pairs).reshape(shape)
    return possible


def _least(
    distance: Floats, head: Part, axes: Sequence[Axis], *, most: int
) -> list[tuple[float, tuple[Part | None, ...]]]:
    flat = distance.ravel()
    some = min(most, flat.size)
    # a stable order among equals, so that the same rack gives the same answer
    nearest_first = np.argsort(flat, kind="stable")[:some]
    found = []
    for index in nearest_first:
        if np.isfinite(flat[index]):
            places = np.unravel_index(int(index), distance.shape)
            parts = tuple(axis[int(place)] for axis, place in zip(axes, places, strict=True))
            found.append((float(flat[index]), (head, *parts)))
    return found
