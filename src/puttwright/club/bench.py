"""A head or putter on the bench: what was read, how often, and its sheet for the rack."""

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
TAP_SD_PX: Final = 2.0
ALONG_SHAFT_SD_RAD: Final = math.radians(1.0)
"""How far the camera looks past the shaft's line, held by hand; from judgement."""
Point = tuple[float, float]

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


class OneSpot(UserError):
    """The two points of the {name} lie on one spot; tap them again, further apart."""

    code = "one-spot"


def hang_from_photo(
    *, face_px: tuple[Point, Point], plumb_px: tuple[Point, Point] | None = None
) -> Quantity:
    """Hang from a photo taken along the shaft from the butt, the putter at rest on two rails.

    Parameters
    ----------
    face_px
        The face's edge at the heel and at the toe, pixels right and down.
    plumb_px
        A plumb line's top and foot; the picture's own upright where there was none.

    Returns
    -------
    Quantity
        In radians, toe down positive, the same for both hands. A face that looks down
        cannot be told from one that looks up, so it stays within a quarter turn.

    Raises
    ------
    OneSpot
        Two points that should be apart.

    Examples
    --------
    >>> found = hang_from_photo(face_px=((100.0, 100.0), (300.0, 300.0)))
    >>> round(math.degrees(found.value), 3)
    45.0
    """
    face, size = _unit(face_px, "face")
    down, plumb_size = ((0.0, 1.0), math.inf) if plumb_px is None else _unit(plumb_px, "plumb line")
    sine = face[0] * down[0] + face[1] * down[1]
    taps = TAP_SD_PX * math.sqrt(2.0) * math.hypot(1.0 / size, 1.0 / plumb_size)
    sd = math.hypot(taps, ALONG_SHAFT_SD_RAD)
    return Quantity(value=math.asin(max(-1.0, min(sine, 1.0))), sd=sd)


def _unit(ends: tuple[Point, Point], name: str) -> tuple[Point, float]:
    (x0, y0), (x1, y1) = ends
    size = math.hypot(x1 - x0, y1 - y0)
    if size < 2.0 * TAP_SD_PX:
        raise OneSpot(name=name)
    return ((x1 - x0) / size, (y1 - y0) / size), size


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """Readings of one thing, in the unit people say.

    ``single_sd`` is how sure one reading is; as usual on a bench where it is not given.
    """

    name: str
    unit: str
    readings: tuple[float, ...]
    resolution: float = 0.0
    single_sd: float | None = None

    def quantity(self) -> Quantity:
        """Mean and its uncertainty, in the same unit."""
        usual = PROTRACTOR_SD_DEG if self.name == "toe_hang_deg" else _SINGLE.get(self.unit, 0.0)
        single = usual if self.single_sd is None else self.single_sd
        return repeated(
            self.readings,
            name=self.name.replace("_", " "),
            resolution=self.resolution,
            single_sd=single,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadSheet:
    """All that is known of a head or a built putter, for the rack.

    ``readings`` are named as the rack's columns (``loft_deg``, ``mass_g``, ...);
    ``inertia`` comes from a pendulum [kg m²]. Where the hang was read and nobody
    measured the centre of gravity from the shaft axis, the one gives the other.
    """

    part_id: str
    kind: str = "head"
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
        toe = self._cg_from_axis(found)
        return found if toe is None else {**found, "cg_from_axis_mm": toe}

    def _cg_from_axis(self, found: dict[str, Quantity]) -> Quantity | None:
        """From hang, depth and offset, where all three were read; too steep, it tells nothing."""
        hang, depth, offset = map(found.get, ("toe_hang_deg", "cg_depth_mm", "offset_mm"))
        if "cg_from_axis_mm" in found or not (hang and depth and offset):
            return None
        if abs(hang.value) > _STEEPEST_HANG_DEG:
            return None
        return _scaled(
            cg_from_hang(
                hang=_scaled(hang, by=math.radians(1.0)),
                cg_behind_face=_scaled(depth, by=1e-3),
                offset=_scaled(offset, by=1e-3),
            ),
            by=1e3,
        )

    def part(self) -> Part:
        """It as a line of the rack."""
        means = {name: round(quantity.value, 3) for name, quantity in self.quantities().items()}
        return Part(
            part_id=self.part_id,
            kind=self.kind,
            label=self.label,
            head_shape=self.head_shape,
            fits=self.fits,
            alloy=self.alloy,
            neck_joint=self.neck,
            bent_before_deg=self.bent_before_deg or None,
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
        units = {column.name: column.unit for column in columns_of(Part)}
        return tuple(
            _line(name, quantity, counts.get(name, 0), unit=units[name])
            for name, quantity in self.quantities().items()
        )


_STEEPEST_HANG_DEG: Final = 80.0


def _scaled(quantity: Quantity, *, by: float) -> Quantity:
    return Quantity(value=by * quantity.value, sd=by * quantity.sd, dof=quantity.dof)


def _line(name: str, quantity: Quantity, count: int, *, unit: str) -> str:
    low, high = quantity.interval()
    times = f"read {count} times" if count > 1 else "read once" if count else "reckoned"
    degree = "°" if unit == "deg" else f" {unit}"
    ending = "_g_cm2" if name.endswith("_g_cm2") else f"_{name.rsplit('_', 1)[-1]}"
    said = name.removesuffix(ending).replace("_", " ")
    return f"{said}: {quantity.value:.4g}{degree} ({low:.4g} to {high:.4g}), {times}"
