"""What can be built from the rack, and which of it comes nearest to a putter that is wanted.

A combination is a head, a neck, a shaft, a grip and perhaps a weight that go with each
other and are in stock. How near it comes is counted in the workshop's tolerances: a
figure off by its tolerance counts one, another shape of head four. All combinations of
a head are judged at once, so that a hundred thousand take well under a second.
"""

from __future__ import annotations

import dataclasses
import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.club.metal import bend_limits, metal_of
from puttwright.club.targets import BEND_REFUSE_DEG, BY_FIELD
from puttwright.errors import UserError
from puttwright.evidence import Build, Part

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]
Axis = Sequence[Part | None]

KINDS: Final = ("head", "neck", "shaft", "grip", "weight")
_UNLIKE: Final = 4.0
"""Another shape of head or sight line, in tolerances; from judgement."""
_UNKNOWN: Final = 1.0
"""A figure that is wanted and that nobody measured of the part counts as one tolerance off."""
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
class Made:
    """One combination: its parts, the build it gives, how far that is from what is wanted.

    ``distance`` counts tolerances; ``price`` sums what has one, ``unpriced`` the
    parts that have none.
    """

    parts: tuple[Part, ...]
    build: Build
    distance: float
    price: float
    unpriced: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """The nearest combinations, and how many were judged."""

    combinations: int
    made: tuple[Made, ...]


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


def nearest(rack: Sequence[Part], wanted: Build, *, most: int = 10) -> Found:
    """The combinations that come nearest to a putter.

    Parameters
    ----------
    rack
        The shop's parts; what is out of stock (0) is left aside, no stock said counts as there.
        A kind the rack has nothing of is left to the shop, but there must be a head and a shaft.
    wanted
        The putter wanted; only the figures it has count.
    most
        How many to give, the nearest first.

    Raises
    ------
    NothingOfAKind, NothingGoesTogether, ShaftsTooShort, TooManyCombinations
        With what would be possible.
    """
    stock = _in_stock(rack)
    _must_be_possible(stock, wanted)
    axes: list[Axis] = [stock[kind] or [None] for kind in KINDS[1:-1]]
    axes.append([None, *stock["weight"]])
    count = len(stock["head"]) * math.prod(map(len, axes))
    if count > MOST_COMBINATIONS:
        raise TooManyCombinations(count=count)
    kinds = {part.part_id: part.kind for part in rack}
    best: list[tuple[float, tuple[Part | None, ...]]] = []
    judged = 0
    among = _among(axes, kinds)
    for head in stock["head"]:
        possible = among & _with(head, axes, kinds)
        distance = np.where(possible, _distance(head, axes, wanted), np.inf)
        judged += int(possible.sum())
        best += _least(distance, head, axes, most=most)
    if not judged:
        raise _nothing_goes(stock, kinds)
    best.sort(key=lambda pair: pair[0])
    made = tuple(_made(parts, wanted, distance=d) for d, parts in best[:most])
    return Found(combinations=judged, made=made)


def _in_stock(rack: Sequence[Part]) -> dict[str, list[Part]]:
    return {kind: [p for p in rack if p.kind == kind and p.stock != 0] for kind in KINDS}


def _must_be_possible(stock: dict[str, list[Part]], wanted: Build) -> None:
    for kind in ("head", "shaft"):
        if not stock[kind]:
            known = ", ".join(f"{len(parts)} {name}s" for name, parts in stock.items() if parts)
            raise NothingOfAKind(kind=kind, known=known or "nothing in stock")
    lengths = [part.length_mm for part in stock["shaft"]]
    longest = max((each for each in lengths if each is not None), default=math.inf)
    if None not in lengths and longest < wanted.length_mm - BY_FIELD["length_mm"].tolerance:
        raise ShaftsTooShort(wanted_mm=wanted.length_mm, longest_mm=longest)


def _nothing_goes(stock: dict[str, list[Part]], kinds: dict[str, str]) -> NothingGoesTogether:
    """The first pair of kinds of which nothing goes together, and what the rack says of it."""
    present = [kind for kind in KINDS if stock[kind]]
    for i, one in enumerate(present):
        for other in present[i + 1 :]:
            pairs = [(a, b) for a in stock[one] for b in stock[other]]
            if not any(goes_together(a, b, kinds=kinds) for a, b in pairs):
                asks = next(each for pair in pairs for each in pair if each.fits)
                hint = f"{asks.part_id} goes with {asks.fits}"
                return NothingGoesTogether(one=one, other=other, hint=hint)
    hint = "each pair has partners, yet no head, neck, shaft and grip all go with each other"
    return NothingGoesTogether(one="head", other="set of parts", hint=hint)


def _distance(head: Part, axes: Sequence[Axis], wanted: Build) -> Floats:
    """Of every combination with a head, shape (necks, shafts, grips, weights)."""
    necks, shafts, grips, weights = axes
    total = np.full([len(axis) for axis in axes], _of_the_head(head, wanted))
    total += _along(0, [_of_the_neck(head, neck, wanted) for neck in necks])
    total += _along(1, [_of_the_shaft(shaft, wanted) for shaft in shafts])
    total += _along(2, [_off("grip_diameter_mm", _value(g, "grip_diameter_mm"), wanted)
                        for g in grips])  # fmt: skip
    head_g = head.mass_g
    heavy = [None if head_g is None else head_g + (_value(w, "mass_g") or 0.0) for w in weights]
    total += _along(3, [_off("head_mass_g", each, wanted) for each in heavy])
    return np.sqrt(total + _of_the_mass(heavy, axes, wanted))


def _along(axis: int, values: Sequence[float]) -> Floats:
    shape = [1, 1, 1, 1]
    shape[axis] = -1
    return np.asarray(values, dtype=float).reshape(shape)


def _value(part: Part | None, name: str) -> float | None:
    return None if part is None else getattr(part, name)


def _off(field: str, value: float | None, wanted: Build) -> float:
    """A figure's share of the squared distance."""
    asked = getattr(wanted, field)
    if asked is None:
        return 0.0
    if value is None:
        return _UNKNOWN
    return float(((value - asked) / BY_FIELD[field].tolerance) ** 2)


def _of_the_head(head: Part, wanted: Build) -> float:
    unlike = [
        asked is not None and asked != getattr(head, name)
        for name, asked in (("head_shape", wanted.head_shape), ("sight_line", wanted.sight_line))
    ]
    angles = [_off(f"{name}_deg", _bent(head, name, wanted), wanted) for name in ("loft", "lie")]
    return float(sum(unlike) * _UNLIKE**2 + sum(angles))


def _bent(head: Part, name: str, wanted: Build) -> float | None:
    """The angle nearest to the wanted one that this head may be bent to."""
    supplied = getattr(head, f"{name}_deg")
    limits = bend_limits(head, name)
    if supplied is None:
        return None
    if limits is None:
        return float(supplied)
    metal = metal_of(head)
    most = 2.0 * metal.usual_deg if metal.known else BEND_REFUSE_DEG
    low, high = max(limits[0], supplied - most), min(limits[1], supplied + most)
    return float(min(max(getattr(wanted, f"{name}_deg"), low), high))


def _of_the_neck(head: Part, neck: Part | None, wanted: Build) -> float:
    style = _style(head, neck)
    unlike = wanted.neck_style is not None and style != wanted.neck_style
    numbers = [_off(name, _either(head, neck, name), wanted) for name in _NECKS]
    return sum(numbers) + unlike * _UNLIKE**2


_NECKS: Final = ("offset_mm", "toe_hang_deg")


def _either(head: Part, neck: Part | None, name: str) -> float | None:
    """The neck's figure, else the head's own."""
    of_neck = _value(neck, name)
    return of_neck if of_neck is not None else getattr(head, name)


def _of_the_shaft(shaft: Part | None, wanted: Build) -> float:
    length = _value(shaft, "length_mm")
    return _off("length_mm", length and min(length, wanted.length_mm), wanted)


def _of_the_mass(heavy: Sequence[float | None], axes: Sequence[Axis], wanted: Build) -> Floats:
    """The whole putter's mass against the one wanted; nothing where a part was never weighed."""
    if wanted.total_mass_g is None:
        return np.zeros((1, 1, 1, 1))
    necks, shafts, grips, _ = axes
    masses = (
        _along(0, [0.0 if neck is None else _weighed(neck.mass_g) for neck in necks])
        + _along(1, [_weighed(_cut_mass(shaft, wanted)) for shaft in shafts])
        + _along(2, [_weighed(_value(grip, "mass_g")) for grip in grips])
        + _along(3, [_weighed(each) for each in heavy])
    )
    off = ((masses - wanted.total_mass_g) / BY_FIELD["total_mass_g"].tolerance) ** 2
    return np.where(np.isnan(off), _UNKNOWN, off)


def _weighed(mass_g: float | None) -> float:
    return math.nan if mass_g is None else mass_g


def _cut_mass(shaft: Part | None, wanted: Build) -> float | None:
    """What is left of the shaft's mass when it is cut, an even shaft assumed."""
    if shaft is None or shaft.mass_g is None or shaft.length_mm is None:
        return _value(shaft, "mass_g")
    return shaft.mass_g * min(wanted.length_mm / shaft.length_mm, 1.0)


def _with(head: Part, axes: Sequence[Axis], kinds: dict[str, str]) -> Mask:
    """Which combinations go with a head."""
    possible = np.ones([1, 1, 1, 1], dtype=bool)
    for i, axis in enumerate(axes):
        possible = possible & _along(
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


def _made(parts: Sequence[Part | None], wanted: Build, *, distance: float) -> Made:
    head, neck, shaft, grip, weight = parts
    assert head is not None
    taken = tuple(part for part in parts if part is not None)
    priced = [part for part in taken if part.price is not None]
    length = _value(shaft, "length_mm")
    extra = _value(weight, "mass_g") or 0.0
    loft, lie = _bent(head, "loft", wanted), _bent(head, "lie", wanted)
    build = dataclasses.replace(
        wanted,
        build_id="+".join(part.part_id for part in taken)[:64],
        label=None,
        head_id=head.part_id,
        head_shape=head.head_shape,
        sight_line=head.sight_line,
        neck_id=None if neck is None else neck.part_id,
        neck_style=_style(head, neck),
        offset_mm=_either(head, neck, "offset_mm"),
        length_mm=wanted.length_mm if length is None else min(length, wanted.length_mm),
        lie_deg=wanted.lie_deg if lie is None else lie,
        loft_deg=wanted.loft_deg if loft is None else loft,
        head_mass_g=None if head.mass_g is None else head.mass_g + extra,
        cg_from_axis_mm=head.cg_from_axis_mm,
        cg_depth_mm=head.cg_depth_mm,
        moi_vertical_axis_g_cm2=head.moi_vertical_axis_g_cm2,
        toe_hang_deg=_either(head, neck, "toe_hang_deg"),
        grip_id=None if grip is None else grip.part_id,
        grip_diameter_mm=_value(grip, "grip_diameter_mm"),
        grip_mass_g=_value(grip, "mass_g"),
        shaft_mass_g=_cut_mass(shaft, wanted),
        total_mass_g=None,
        balance_from_butt_mm=None,
        price=None,
        extra={},
    )
    return Made(
        parts=taken,
        build=build,
        distance=distance,
        price=float(sum(part.price or 0.0 for part in priced)),
        unpriced=tuple(part.part_id for part in taken if part.price is None),
    )


def _style(head: Part, neck: Part | None) -> str | None:
    return (neck.neck_style if neck else None) or head.neck_style
