"""The other way round: what mass, grip or trim gives a wanted swing weight, balance or mass.

Adding m at s from the butt moves the moment about f by m(s - f); so each answer is
exact. Ask for one thing at a time: a swing weight, a balance point or a total mass.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from scipy.optimize import brentq

from puttwright.club.limits import RANGES, checked
from puttwright.club.parts import Weight
from puttwright.club.putter import Putter
from puttwright.club.swing_weight import FULCRUM_M, IN_OZ, letter
from puttwright.errors import UserError

NO_LEVER_M: Final = 0.02
"""Nearer to the fulcrum (or the wanted balance) a mass does next to nothing."""


class OneThing(UserError):
    """Ask for one of swing weight, balance point or total mass at a time; got {got}."""

    code = "one-thing"


class NoLever(UserError):
    """A mass {place_mm:.0f} mm from the butt hardly moves the {what}; put it nearer to the head or to the butt."""  # noqa: E501

    code = "no-lever"


class CannotTakeOff(UserError):
    """That needs {needed_g:.0f} g taken off, and only {there_g:.0f} g can come off; so far the {what} comes to {reached}."""  # noqa: E501

    code = "cannot-take-off"


class NoTrim(UserError):
    """No length this shaft allows gives a {what} of {wanted}; from {low_mm:.0f} to {high_mm:.0f} mm it runs from {low} to {high}."""  # noqa: E501

    code = "no-trim"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One thing that is wanted of a putter; the others stay ``None``.

    ``over`` is what the whole putter measured over what its parts make; it stays
    whatever is changed.
    """

    swing_weight_in_oz: float | None = None
    balance_m: float | None = None
    total_kg: float | None = None
    over: float = 0.0

    def __post_init__(self) -> None:
        """Refuse several wishes at once, and a balance no putter has."""
        asked = {name: value for name, value in self._all().items() if value is not None}
        if len(asked) != 1:
            raise OneThing(got=", ".join(asked).replace("_", " ") or "none")
        if self.total_kg is not None:
            checked(self.total_kg, limit="total mass")

    def _all(self) -> dict[str, float | None]:
        return {
            "swing_weight": self.swing_weight_in_oz,
            "balance_point": self.balance_m,
            "total_mass": self.total_kg,
        }

    @property
    def name(self) -> str:
        """What is wanted, in words."""
        return next(n.replace("_", " ") for n, value in self._all().items() if value is not None)

    @property
    def value(self) -> float:
        """How much of it is wanted."""
        return next(value for value in self._all().values() if value is not None)

    def of(self, putter: Putter, /) -> float:
        """How much of it a putter has."""
        values = putter.values()
        if self.total_kg is not None:
            return values["total_kg"] + self.over
        name = "balance_m" if self.balance_m is not None else "swing_weight_in_oz"
        return values[name] + self.over

    def said(self, value: float, /) -> str:
        """A value of it as people say it."""
        if self.swing_weight_in_oz is not None:
            return letter(value)
        return f"{1e3 * value:.0f} {'g' if self.total_kg is not None else 'mm'}"


def mass_needed_kg(putter: Putter, /, *, wanted: Wanted, from_butt_m: float) -> float:
    """Mass to add at a place on the shaft axis; negative, to take off.

    Parameters
    ----------
    putter, wanted
        As it is, and what it should come to.
    from_butt_m
        Where the mass goes; for one in the head see :func:`head_place_m`.

    Returns
    -------
    float
        Exact.

    Raises
    ------
    NoLever
        A mass there does next to nothing for what is wanted.

    Examples
    --------
    >>> from puttwright.club.parts import Grip, Head, Shaft
    >>> putter = Putter(
    ...     head=Head(mass_kg=0.35, cg_from_axis_m=0.02, cg_behind_face_m=0.02),
    ...     shaft=Shaft(mass_kg=0.12, length_m=0.9), grip=Grip(mass_kg=0.065),
    ...     length_m=0.8636, lie_rad=1.222, loft_rad=0.0524,
    ... )  # fmt: skip
    >>> round(1e3 * mass_needed_kg(putter, wanted=Wanted(total_kg=0.54), from_butt_m=0.02), 1)
    16.9
    """
    missing = wanted.value - wanted.of(putter)
    if wanted.total_kg is not None:
        return missing
    if wanted.balance_m is not None:
        lever = from_butt_m - wanted.balance_m
        moment = putter.values()["total_kg"] * missing
    else:
        lever = from_butt_m - FULCRUM_M
        moment = missing * IN_OZ
    if abs(lever) < NO_LEVER_M:
        raise NoLever(place_mm=1e3 * from_butt_m, what=wanted.name)
    return moment / lever


def head_place_m(putter: Putter, /) -> float:
    """Where the head's centre of gravity lies, from the butt along the shaft axis [m]."""
    return putter.length_m - float(putter.in_head().cg_m @ putter.up)


def head_mass_kg(putter: Putter, /, *, wanted: Wanted) -> float:
    """Mass the head must have, all else as it is.

    Raises
    ------
    CannotTakeOff
        The head would have to be lighter than any putter head.
    """
    needed = mass_needed_kg(putter, wanted=wanted, from_butt_m=head_place_m(putter))
    lightest = 1e-3 * RANGES["head mass"].low
    if putter.head.mass_kg + needed < lightest:
        there = putter.head.mass_kg - lightest
        place = head_place_m(putter)
        _refuse(putter, wanted, needed_kg=needed, there_kg=there, place_m=place)
    return putter.head.mass_kg + needed


def butt_mass_kg(putter: Putter, /, *, wanted: Wanted, from_butt_m: float = 0.02) -> float:
    """Mass to put into the butt (a counterweight), all else as it is.

    Parameters
    ----------
    putter, wanted
        As it is, and what it should come to.
    from_butt_m
        Where the counterweight's middle sits.

    Returns
    -------
    float
        0 or more.

    Raises
    ------
    CannotTakeOff
        Mass would have to come off the butt, and there is none to take.
    """
    needed = mass_needed_kg(putter, wanted=wanted, from_butt_m=from_butt_m)
    near = [w for w in putter.weights if (w.from_butt_m or 9.0) < 2.0 * from_butt_m]
    there = sum(weight.mass_kg for weight in near)
    if needed < -there - 1e-9:
        _refuse(putter, wanted, needed_kg=needed, there_kg=there, place_m=from_butt_m)
    return max(needed, -there)


def _refuse(
    putter: Putter, wanted: Wanted, *, needed_kg: float, there_kg: float, place_m: float
) -> None:
    taken = putter.whole()
    mass = taken.mass_kg - there_kg
    balance = putter.length_m - float(taken.cg_m @ putter.up)
    balance = (taken.mass_kg * balance - there_kg * place_m) / mass
    reached = {
        "total mass": mass,
        "balance point": balance,
        "swing weight": mass * (balance - FULCRUM_M) / IN_OZ,
    }[wanted.name]
    raise CannotTakeOff(
        needed_g=-1e3 * needed_kg,
        there_g=1e3 * there_kg,
        what=wanted.name,
        reached=wanted.said(reached + wanted.over),
    )


def grip_mass_kg(putter: Putter, /, *, wanted: Wanted) -> float:
    """Mass a grip of the same length must have.

    Raises
    ------
    CannotTakeOff
        It would have to weigh less than nothing.
    """
    grip = putter.grip
    place = grip.balance_m or 0.5 * grip.length_m
    needed = mass_needed_kg(putter, wanted=wanted, from_butt_m=place)
    if grip.mass_kg + needed < 0.0:
        _refuse(putter, wanted, needed_kg=needed, there_kg=grip.mass_kg, place_m=place)
    return grip.mass_kg + needed


def trimmed_length_m(putter: Putter, /, *, wanted: Wanted) -> float:
    """Length, cut at the butt, that gives what is wanted with the same parts.

    Parameters
    ----------
    putter, wanted
        As it is, and what it should come to; a weight in the butt moves with the butt.

    Returns
    -------
    float
        Between the shortest putter and the longest this shaft makes.

    Raises
    ------
    NoTrim
        No length gives it; the sentence says what is possible.
    """
    low = 1e-3 * RANGES["length"].low
    high = putter.length_m + putter.cut_m
    off = _distance(putter, wanted)
    at_low, at_high = off(low), off(high)
    if at_low * at_high > 0.0:
        raise NoTrim(
            what=wanted.name,
            wanted=wanted.said(wanted.value),
            low_mm=1e3 * low,
            high_mm=1e3 * high,
            low=wanted.said(at_low + wanted.value),
            high=wanted.said(at_high + wanted.value),
        )
    return float(brentq(off, low, high, xtol=1e-9))


def _distance(putter: Putter, wanted: Wanted) -> Callable[[float], float]:
    def off(length_m: float) -> float:
        return wanted.of(replace(putter, length_m=length_m)) - wanted.value

    return off


def with_mass(putter: Putter, /, *, mass_kg: float, from_butt_m: float, name: str) -> Putter:
    """The putter with a mass added on the shaft axis.

    Parameters
    ----------
    putter
        As it is.
    mass_kg, from_butt_m
        How much, and where.
    name
        What it is, for the sheet.

    Returns
    -------
    Putter
        With one weight more.

    Examples
    --------
    >>> from puttwright.club.parts import Grip, Head, Shaft
    >>> putter = Putter(
    ...     head=Head(mass_kg=0.35, cg_from_axis_m=0.02, cg_behind_face_m=0.02),
    ...     shaft=Shaft(mass_kg=0.12, length_m=0.9), grip=Grip(mass_kg=0.065),
    ...     length_m=0.8636, lie_rad=1.222, loft_rad=0.0524,
    ... )  # fmt: skip
    >>> heavier = with_mass(putter, mass_kg=0.02, from_butt_m=0.02, name="plug")
    >>> round(1e3 * (heavier.values()["total_kg"] - putter.values()["total_kg"]), 6)
    20.0
    """
    weight = Weight(mass_kg=mass_kg, from_butt_m=from_butt_m, name=name)
    return replace(putter, weights=(*putter.weights, weight))
