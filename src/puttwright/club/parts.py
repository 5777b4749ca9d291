"""The parts of a putter, as they lie on the bench: head, neck, shaft, grip, weights, glue."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from puttwright.club.limits import checked
from puttwright.errors import UserError

HEAD_HEIGHT_M: Final = 0.025
"""Height of a head taken for the inertias nobody measures; from memory."""
Tensor = tuple[tuple[float, float, float], ...]


class NoSuchBalance(UserError):
    """The {name} cannot balance {balance_mm:.0f} mm from its top; its {length_mm:.0f} mm allow {low_mm:.0f} to {high_mm:.0f} mm."""  # noqa: E501

    code = "no-such-balance"


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """The head, neck and all, as the scale and the bench see it.

    Parameters
    ----------
    mass_kg
        0.15 to 0.9 kg.
    cg_from_axis_m
        Centre of gravity from the shaft axis, square to it, toe positive.
    cg_behind_face_m, cg_high_m
        Centre of gravity behind the leading edge and above the sole.
    offset_m
        Shaft axis ahead of the leading edge, shaft upright seen from the toe.
    moi_vertical_kg_m2
        About the upright axis through its centre of gravity, sole flat.
    tip_high_m
        Where the shaft's tip ends, from the sole up along the shaft axis.
    tensor_kg_m2
        The whole inertia tensor about target, toe and up; without it the other two
        axes are those of a box.
    """

    mass_kg: float
    cg_from_axis_m: float
    cg_behind_face_m: float
    offset_m: float = 0.0
    cg_high_m: float = 0.012
    moi_vertical_kg_m2: float = 5.0e-4
    tip_high_m: float = 0.05
    tensor_kg_m2: Tensor | None = None

    def __post_init__(self) -> None:
        """Refuse what is no putter head."""
        checked(self.mass_kg, limit="head mass")
        checked(self.cg_from_axis_m, limit="from axis")
        checked(self.cg_behind_face_m, limit="behind face")
        checked(self.offset_m, limit="offset")
        checked(self.cg_high_m, limit="high", name="centre of gravity")
        checked(self.moi_vertical_kg_m2, limit="inertia")
        checked(self.tip_high_m, limit="high", name="tip of the shaft")


@dataclass(frozen=True, slots=True, kw_only=True)
class Neck:
    """A neck weighed apart from the head; its mass is taken to lie along the shaft axis."""

    mass_kg: float
    low_m: float = 0.02
    length_m: float = 0.05
    radius_m: float = 0.006

    def __post_init__(self) -> None:
        """Refuse a mass below nothing."""
        checked(self.mass_kg, limit="mass", name="mass of the neck")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shaft:
    """A shaft: ``length_m`` long now, balancing ``balance_m`` from its butt end."""

    mass_kg: float
    length_m: float
    balance_m: float | None = None
    radius_m: float = 0.0065

    def __post_init__(self) -> None:
        """Refuse a balance no even taper has."""
        checked(self.mass_kg, limit="mass", name="mass of the shaft")
        checked(self.length_m, limit="shaft length")
        _check_balance("shaft", self.length_m, self.balance_m)

    @property
    def balance_or_middle_m(self) -> float:
        """Where it balances, the middle if nobody looked."""
        return 0.5 * self.length_m if self.balance_m is None else self.balance_m

    def cut(self, *, butt_m: float = 0.0, tip_m: float = 0.0) -> Shaft:
        """The shaft with so much cut off its ends.

        Parameters
        ----------
        butt_m, tip_m
            How much comes off each end.

        Returns
        -------
        Shaft
            Lighter by the mass of what came off, under an even taper.

        Examples
        --------
        >>> cut = Shaft(mass_kg=0.120, length_m=0.9, balance_m=0.45).cut(butt_m=0.09)
        >>> round(cut.mass_kg, 6), round(cut.balance_m, 6)
        (0.108, 0.405)
        """
        low, high = butt_m / self.length_m, 1.0 - tip_m / self.length_m
        taper = 6.0 * (self.balance_or_middle_m / self.length_m - 0.5)
        share = _moment(high, taper, power=0) - _moment(low, taper, power=0)
        middle = (_moment(high, taper, power=1) - _moment(low, taper, power=1)) / share
        return replace(
            self,
            mass_kg=self.mass_kg * share,
            length_m=self.length_m * (high - low),
            balance_m=self.length_m * (middle - low),
        )


def _moment(end: float, taper: float, *, power: int) -> float:
    """Integral of s**power (1 + taper (2s - 1)) from 0 to ``end``."""
    even, rising = power + 1, power + 2
    return float((1.0 - taper) * end**even / even + 2.0 * taper * end**rising / rising)


def _check_balance(name: str, length_m: float, balance_m: float | None) -> None:
    if balance_m is None or length_m / 3.0 <= balance_m + 1e-12 <= 2.0 * length_m / 3.0 + 1e-9:
        return
    length = 1e3 * length_m
    raise NoSuchBalance(
        name=name,
        balance_mm=1e3 * balance_m,
        length_mm=length,
        low_mm=length / 3.0,
        high_mm=2.0 * length / 3.0,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """A grip, balancing ``balance_m`` from its top; ``cap_m`` stands above the shaft's end."""

    mass_kg: float
    length_m: float = 0.27
    balance_m: float | None = None
    radius_m: float = 0.014
    cap_m: float = 0.003

    def __post_init__(self) -> None:
        """Refuse a balance no even taper has."""
        checked(self.mass_kg, limit="mass", name="mass of the grip")
        _check_balance("grip", self.length_m, self.balance_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """Something small with a mass: a screw, tape, a plug in the butt, epoxy, tape under the grip.

    On the shaft it lies ``from_butt_m`` down the axis. In the head (``from_butt_m``
    left out) it lies behind the leading edge, from the axis and above the sole.
    """

    mass_kg: float
    from_butt_m: float | None = None
    behind_face_m: float = 0.0
    from_axis_m: float = 0.0
    high_m: float = 0.0
    name: str = "weight"

    def __post_init__(self) -> None:
        """Refuse a mass below nothing."""
        checked(self.mass_kg, limit="mass", name=f"mass of the {self.name}")
        if self.from_butt_m is not None:
            checked(self.from_butt_m, limit="place", name=f"place of the {self.name}")
