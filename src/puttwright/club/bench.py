"""A head on the bench: what was read, how often, and the sheet that goes with it to the rack."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from puttwright.club.alloys import ALLOYS, NECKS, UNKNOWN
from puttwright.club.limits import checked
from puttwright.club.uncertainty import Quantity, Values, propagated, repeated
from puttwright.errors import UserError
from puttwright.evidence import Part, columns_of

GAUGE_SD_DEG: Final = 0.25
"""One reading of a loft and lie gauge; common practice, no source. Three are better."""
PROTRACTOR_SD_DEG: Final = 2.0
RAIL_SD_MM: Final = 1.5
SCALE_SD_G: Final = 0.5
RULE_SD_MM: Final = 0.5

_SINGLE: Final = {"°": GAUGE_SD_DEG, "mm": RULE_SD_MM, "g": SCALE_SD_G}


class OffTheClub(UserError):
    """A putter of {length_mm:.0f} mm cannot balance {balance_mm:.0f} mm from its butt; measure from the top of the grip."""  # noqa: E501

    code = "off-the-club"


class NoSuchMetal(UserError):
    """{name!r} is no {what} we know; use one of {known}."""

    code = "no-such-metal"


def balance_on_rail(
    readings_mm: Sequence[float], /, *, length_m: float, resolution_mm: float = 1.0
) -> Quantity:
    """Balance point from the butt, the putter laid on a rail and turned end for end between.

    Parameters
    ----------
    readings_mm
        Butt to rail, each time balanced anew.
    length_m
        Of the putter; it balances within.
    resolution_mm
        Of the rule.

    Returns
    -------
    Quantity
        In metres.

    Raises
    ------
    OffTheClub, NoReading
        A point the putter does not have, or nothing read.

    Examples
    --------
    >>> point = balance_on_rail([670.0, 671.0, 672.0], length_m=0.864)
    >>> round(point.value, 3), round(1e3 * point.sd, 2)
    (0.671, 0.65)
    """
    for reading in readings_mm:
        if not 0.0 < reading < 1e3 * length_m:
            raise OffTheClub(length_mm=1e3 * length_m, balance_mm=reading)
    found = repeated(
        readings_mm, name="balance point", resolution=resolution_mm, single_sd=RAIL_SD_MM
    )
    return Quantity(value=1e-3 * found.value, sd=1e-3 * found.sd, dof=found.dof)


def cg_from_hang(*, hang: Quantity, cg_behind_face: Quantity, offset: Quantity) -> Quantity:
    """Centre of gravity from the shaft axis, from a hang read with a protractor or on a photo.

    Parameters
    ----------
    hang
        [rad], within 80 degrees of the face up: steeper, it tells nothing.
    cg_behind_face, offset
        [m].

    Returns
    -------
    Quantity
        In metres, toe positive.

    Examples
    --------
    >>> found = cg_from_hang(
    ...     hang=Quantity(value=math.pi / 4, sd=0.035),
    ...     cg_behind_face=Quantity(value=0.02),
    ...     offset=Quantity(value=0.0),
    ... )
    >>> round(found.value, 4), round(found.sd, 4)
    (0.02, 0.0014)
    """

    def model(v: Values) -> dict[str, float]:
        return {"toe": (v["behind"] + v["offset"]) * math.tan(v["hang"])}

    inputs = {"hang": hang, "behind": cg_behind_face, "offset": offset}
    return propagated(model, inputs)["toe"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """Readings of one thing, in the unit people say."""

    name: str
    unit: str
    readings: tuple[float, ...]
    resolution: float = 0.0

    def quantity(self) -> Quantity:
        """Mean and its uncertainty, in the same unit."""
        single = PROTRACTOR_SD_DEG if self.name == "toe_hang_deg" else _SINGLE.get(self.unit, 0.0)
        return repeated(
            self.readings,
            name=self.name.replace("_", " "),
            resolution=self.resolution,
            single_sd=single,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadSheet:
    """All that is known of a head, for the rack: readings, metal, neck, bends made, notes.

    ``readings`` are named as the rack's columns (``loft_deg``, ``mass_g``, ...);
    ``inertia`` comes from a pendulum [kg m²].
    """

    part_id: str
    label: str | None = None
    alloy: str = UNKNOWN
    neck: str = UNKNOWN
    readings: tuple[Read, ...] = ()
    inertia: Quantity | None = None
    bent_before_deg: float = 0.0
    head_shape: str | None = None
    fits: str | None = None
    notes: tuple[str, ...] = field(default=())

    def __post_init__(self) -> None:
        """Refuse a metal, a neck or a column nobody knows."""
        columns = {column.name for column in columns_of(Part)}
        for what, name, known in (
            ("alloy", self.alloy, {*ALLOYS, UNKNOWN}),
            ("neck", self.neck, {*NECKS, UNKNOWN}),
            *(("column of the rack", each.name, columns) for each in self.readings),
        ):
            if name not in known:
                raise NoSuchMetal(name=name, what=what, known=", ".join(sorted(known)))

    def quantities(self) -> dict[str, Quantity]:
        """Each thing read, mean with its uncertainty, in the rack's units."""
        found = {each.name: each.quantity() for each in self.readings}
        if self.inertia:
            checked(self.inertia.value, limit="inertia")
            found["moi_vertical_axis_g_cm2"] = Quantity(
                value=1e7 * self.inertia.value, sd=1e7 * self.inertia.sd, dof=self.inertia.dof
            )
        return found

    def part(self) -> Part:
        """The head as a line of the rack."""
        means = {name: quantity.value for name, quantity in self.quantities().items()}
        return Part(
            part_id=self.part_id,
            kind="head",
            label=self.label,
            head_shape=self.head_shape,
            fits=self.fits,
            alloy=self.alloy,
            neck_joint=self.neck,
            bent_before_deg=self.bent_before_deg,
            **{**self._bend_limits(means), **means},  # type: ignore[arg-type]  # columns checked
        )

    def _bend_limits(self, means: dict[str, float]) -> dict[str, float]:
        """Loft and lie it may be bent to without asking, less what it was bent before."""
        metal = ALLOYS.get(self.alloy)
        if metal is None or NECKS.get(self.neck, "unknown"):
            return {}
        room = max(metal.cap_deg - self.bent_before_deg, 0.0)
        return {
            f"{angle}_{end}_deg": means[f"{angle}_deg"] + side * room
            for angle in ("loft", "lie")
            if f"{angle}_deg" in means
            for end, side in (("min", -1.0), ("max", 1.0))
        }

    def lines(self) -> tuple[str, ...]:
        """The sheet in words: name, value, 90 % interval, how often it was read."""
        counts = {each.name: len(each.readings) for each in self.readings}
        return tuple(
            _line(name, quantity, counts.get(name, 0))
            for name, quantity in self.quantities().items()
        )


def _line(name: str, quantity: Quantity, count: int) -> str:
    low, high = quantity.interval()
    times = f", read {count} times" if count > 1 else ", read once" if count else ""
    return f"{name.replace('_', ' ')}: {quantity.value:.4g} ({low:.4g} to {high:.4g}){times}"
