"""The ways to a wanted feel: another head, a weight in the butt, another grip, a shorter shaft.

Each way alone gives what is wanted; each says how sure that is, or why it cannot.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from puttwright.club.bench import OffTheClub
from puttwright.club.limits import checked
from puttwright.club.of_build import Recorded, at_length, figures_of, recorded
from puttwright.club.putter import Putter
from puttwright.club.uncertainty import Quantity, Values, propagated
from puttwright.club.wanted import (
    Wanted,
    butt_mass_kg,
    grip_mass_kg,
    head_mass_kg,
    trimmed_length_m,
)
from puttwright.errors import UserError
from puttwright.evidence import Build

HEAD, BUTT, GRIP, TRIM = "head", "butt", "grip", "trim"
_FIELDS: Final = {
    "total mass": "total_kg",
    "balance point": "balance_m",
    "swing weight": "swing_weight_in_oz",
}


class NoSuchPart(UserError):
    """That needs {what} of {needed_g:.0f} g; {low_g:.0f} to {high_g:.0f} g can be had."""

    code = "no-such-part"


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way: what the part must come to, and the change from now [kg, or m for a trim].

    ``trouble`` says why it cannot be had so; then there is no amount.
    """

    kind: str
    amount: Quantity | None = None
    change: Quantity | None = None
    trouble: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """What the putter has now, at the length asked about, and every way to what is wanted."""

    wanted: Wanted
    length_m: float
    now: float
    at_length: float
    ways: tuple[Way, ...]


def ways_to(build: Build, /, *, wanted: Wanted, length_m: float | None = None) -> Ways:
    """Every way to a wanted swing weight, balance point or total mass.

    Parameters
    ----------
    build
        As recorded; what is missing is taken as usual and its spread carried.
    wanted
        One thing.
    length_m
        Butt to sole of the putter to make; as the build has it where not given.

    Returns
    -------
    Ways
        What was measured on the whole putter is kept to: by so much as it differs from
        what the parts make, the parts' answer is shifted.

    Raises
    ------
    OutOfRange, OffTheClub
        A length or a balance no putter has.

    Examples
    --------
    >>> build = Build(build_id="a", length_mm=864, lie_deg=70, loft_deg=3, total_mass_g=525)
    >>> found = ways_to(build, wanted=Wanted(total_kg=0.540))
    >>> [way.kind for way in found.ways if way.trouble], round(found.ways[1].change.value, 6)
    (['trim'], 0.015)
    """
    length = 1e-3 * build.length_mm if length_m is None else checked(length_m, limit="length")
    if wanted.balance_m is not None and not 0.0 < wanted.balance_m < length:
        raise OffTheClub(length_mm=1e3 * length, balance_mm=1e3 * wanted.balance_m)
    record = recorded(build)
    now = figures_of(build)
    field = _FIELDS[wanted.name]
    measured = getattr(now, field).value
    off = measured - record.putter().values()[field]
    kept = replace(wanted, over=off)
    ways = tuple(
        _way(kind, reckon, record, wanted=kept, length_m=length)
        for kind, reckon in _RECKONED.items()
    )
    at = kept.of(at_length(record.putter(), length_m=length))
    return Ways(wanted=wanted, length_m=length, now=measured, at_length=at, ways=ways)


def _way(
    kind: str, reckon: Callable[[Putter, Wanted], tuple[float, float]], record: Recorded, *,
    wanted: Wanted, length_m: float,
) -> Way:  # fmt: skip
    def model(values: Values) -> dict[str, float]:
        putter = at_length(record.putter(values), length_m=length_m)
        needed, now = reckon(putter, wanted)
        return {"amount": needed, "change": needed - now}

    try:
        found = propagated(model, record.quantities)
        _must_be_had(kind, found["amount"].value)
    except UserError as trouble:
        return Way(kind=kind, trouble=str(trouble))
    return Way(kind=kind, amount=found["amount"], change=found["change"])


def _must_be_had(kind: str, amount: float) -> None:
    low, high = _HAD_G.get(kind, (0.0, math.inf))
    if not low <= 1e3 * amount <= high:
        raise NoSuchPart(what=_PARTS[kind], needed_g=1e3 * amount, low_g=low, high_g=high)


_HAD_G: Final = {HEAD: (200.0, 700.0), BUTT: (0.0, 200.0), GRIP: (20.0, 300.0)}
"""What can be had [g]: the ranges of the record, and for the butt our judgement."""
_PARTS: Final = {HEAD: "a head", BUTT: "a weight in the butt", GRIP: "a grip"}


def _head(putter: Putter, wanted: Wanted) -> tuple[float, float]:
    return head_mass_kg(putter, wanted=wanted), putter.head.mass_kg


def _butt(putter: Putter, wanted: Wanted) -> tuple[float, float]:
    return butt_mass_kg(putter, wanted=wanted), 0.0


def _grip(putter: Putter, wanted: Wanted) -> tuple[float, float]:
    return grip_mass_kg(putter, wanted=wanted), putter.grip.mass_kg


def _trim(putter: Putter, wanted: Wanted) -> tuple[float, float]:
    return trimmed_length_m(putter, wanted=wanted), putter.length_m


_RECKONED: Final = {HEAD: _head, BUTT: _butt, GRIP: _grip, TRIM: _trim}
