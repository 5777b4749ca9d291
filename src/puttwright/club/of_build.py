"""The figures of a recorded build, and what a weight, another length or another grip would change.

A record seldom holds everything. What is missing is taken as usual, said so, and its
spread carried; what was measured on the whole putter (mass, balance, hang) wins over
what its parts add up to.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from puttwright.club.parts import Grip, Head, Shaft, Weight
from puttwright.club.putter import Figures, Putter, figures_from
from puttwright.club.swing_weight import OFFICIAL_FULCRUM_M, moment_in_oz
from puttwright.club.uncertainty import Quantity, Values, propagated
from puttwright.club.usual import BALANCE, HANG, TOTAL, Usual, usual_for
from puttwright.evidence import Build

_MASSES: Final = ("head_kg", "shaft_kg", "grip_kg", "epoxy_kg", "tape_kg")
_CAP_M: Final = 0.003
_STEEPEST_HANG_RAD: Final = math.radians(80.0)
"""Beyond it a hang no longer tells how far toward the toe the centre of gravity lies."""
_DOUBTFUL: Final = 3.0
"""Parts and scale that differ by so many standard deviations are told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """What a build's record gives: quantities by name, and a sentence for each one assumed."""

    quantities: dict[str, Quantity]
    assumed: tuple[str, ...]

    def putter(self, values: Values | None = None, /) -> Putter:
        """The putter of these values, the quantities' own if left out.

        Where the whole was weighed, what it differs from its parts by is shared among
        them by their doubt, so a part that was weighed stays as it was.
        """
        v = {name: quantity.value for name, quantity in self.quantities.items()}
        v.update(values or {})
        masses = {name: v[name] for name in _MASSES}
        if TOTAL.name in v:
            doubt = {name: self.quantities[name].sd ** 2 for name in _MASSES}
            whole = sum(doubt.values()) + self.quantities[TOTAL.name].sd ** 2
            over = v[TOTAL.name] - sum(masses.values())
            masses = {name: m + over * doubt[name] / whole for name, m in masses.items()}
        return _assembled(v, masses)


def _assembled(v: Values, masses: Values) -> Putter:
    shaft_length = v["length_m"] - v["tip_high_m"] - _CAP_M
    grip_length = v["grip_length_m"]
    glued = (
        Weight(mass_kg=max(masses["epoxy_kg"], 0.0), from_butt_m=_CAP_M + shaft_length,
               name="epoxy"),
        Weight(mass_kg=max(masses["tape_kg"], 0.0), from_butt_m=0.5 * grip_length, name="tape"),
    )  # fmt: skip
    return Putter(
        head=Head(
            mass_kg=masses["head_kg"],
            cg_from_axis_m=v["cg_from_axis_m"],
            cg_behind_face_m=v["cg_behind_face_m"],
            offset_m=v["offset_m"],
            cg_high_m=v["cg_high_m"],
            moi_vertical_kg_m2=v["moi_vertical_kg_m2"],
            tip_high_m=v["tip_high_m"],
        ),
        shaft=Shaft(
            mass_kg=masses["shaft_kg"],
            length_m=shaft_length,
            balance_m=v["shaft_balance_share"] * shaft_length,
        ),
        grip=Grip(
            mass_kg=masses["grip_kg"],
            length_m=grip_length,
            balance_m=v["grip_balance_share"] * grip_length,
            cap_m=_CAP_M,
        ),
        length_m=v["length_m"],
        lie_rad=v["lie_rad"],
        loft_rad=v["loft_rad"],
        weights=glued,
    )


def recorded(build: Build, /) -> Recorded:
    """What a build's record gives for the putter's figures, and what had to be assumed.

    Examples
    --------
    >>> found = recorded(
    ...     Build(
    ...         build_id="a",
    ...         length_mm=864,
    ...         lie_deg=70,
    ...         loft_deg=3,
    ...         head_mass_g=350,
    ...         offset_mm=10,
    ...         toe_hang_deg=45,
    ...     )
    ... )
    >>> round(found.quantities["cg_from_axis_m"].value, 3), found.assumed[0]
    (0.028, "the shaft's mass: taken as 110 g, give or take 12")
    """
    quantities: dict[str, Quantity] = {}
    assumed = []
    for each in usual_for(build.head_shape):
        value = getattr(build, each.field) if each.field else None
        if value is None:
            quantities[each.name] = each.assumed()
            assumed.append(_said(each))
        else:
            quantities[each.name] = each.measured(value)
    for whole in (TOTAL, BALANCE, HANG):
        value = getattr(build, whole.field)
        if value is not None:
            quantities[whole.name] = whole.measured(value)
    hang = quantities.get(HANG.name)
    if build.cg_from_axis_mm is None and hang and abs(hang.value) < _STEEPEST_HANG_RAD:
        quantities["cg_from_axis_m"] = _from_hang(quantities)
        assumed = [text for text in assumed if "shaft axis" not in text]
    return Recorded(quantities=quantities, assumed=tuple(assumed))


def _said(each: Usual) -> str:
    return f"{each.said}: taken as {each.value:g} {each.unit}, give or take {each.spread:g}"


def _from_hang(quantities: dict[str, Quantity]) -> Quantity:
    """How far toward the toe the centre of gravity lies, from a measured hang."""
    names = ("cg_behind_face_m", "offset_m", HANG.name)

    def model(v: Values) -> dict[str, float]:
        return {"toe": (v["cg_behind_face_m"] + v["offset_m"]) * math.tan(v[HANG.name])}

    return propagated(model, {name: quantities[name] for name in names})["toe"]


def figures_of(build: Build, /, *, lean_rad: float = 0.0, lean_sd_rad: float = 0.0) -> Figures:
    """Every figure of a recorded build.

    Parameters
    ----------
    build
        With as much measured as there is.
    lean_rad, lean_sd_rad
        How far the golfer leans the handle toward the target, and how sure that is.

    Returns
    -------
    Figures
        Its notes say what was taken as usual, and whether parts and scale disagree.

    Examples
    --------
    >>> build = Build(
    ...     build_id="a",
    ...     length_mm=864,
    ...     lie_deg=70,
    ...     loft_deg=3,
    ...     total_mass_g=525,
    ...     balance_from_butt_mm=670.8,
    ... )
    >>> figures_of(build).swing_weight
    'D9.3'
    """
    record = recorded(build)
    lean = {"lean_rad": Quantity(value=lean_rad, sd=lean_sd_rad)}

    def model(values: Values) -> dict[str, float]:
        parts = {name: value for name, value in values.items() if name not in lean}
        return _measured_wins(record.putter(parts).values(lean_rad=values["lean_rad"]), values)

    notes = [*record.assumed, *_disagreement(record)]
    return figures_from(propagated(model, {**record.quantities, **lean}), notes=notes)


def _measured_wins(found: dict[str, float], values: Values) -> dict[str, float]:
    found.update({whole.name: values[whole.name] for whole in (TOTAL, BALANCE, HANG)
                  if whole.name in values})  # fmt: skip
    total, balance = found["total_kg"], found["balance_m"]
    found["swing_weight_in_oz"] = moment_in_oz(total_kg=total, balance_m=balance)
    found["swing_weight_12_in_oz"] = moment_in_oz(
        total_kg=total, balance_m=balance, fulcrum_m=OFFICIAL_FULCRUM_M
    )
    return found


def _disagreement(record: Recorded) -> list[str]:
    """A note where the parts do not add up to what the scale said of the whole."""
    total = record.quantities.get(TOTAL.name)
    if total is None:
        return []
    parts = [record.quantities[name] for name in _MASSES]
    added = sum(part.value for part in parts)
    doubt = math.hypot(total.sd, *(part.sd for part in parts))
    if abs(total.value - added) <= _DOUBTFUL * doubt:
        return []
    said = f"{1e3 * added:.0f} g and the scale said {1e3 * total.value:.0f} g"
    return [f"the parts add up to {said}: weigh again"]


def effect_of(
    build: Build, /, *, weights: Sequence[Weight] = (), length_m: float | None = None,
    grip: Grip | None = None,
) -> dict[str, Quantity]:  # fmt: skip
    """What a change would do to a build's figures.

    Parameters
    ----------
    build
        As it is.
    weights
        What is added, in the head or down the shaft.
    length_m
        Another length, with a shaft as heavy a metre; other weights on it keep their
        places from the butt but for the epoxy.
    grip
        Another grip.

    Returns
    -------
    dict
        Change of each figure of :class:`~puttwright.club.putter.Figures`, new less
        old. What was assumed is assumed alike for both, so it mostly cancels.

    Examples
    --------
    >>> build = Build(build_id="a", length_mm=864, lie_deg=70, loft_deg=3, head_mass_g=350)
    >>> change = effect_of(build, weights=[Weight(mass_kg=0.01, from_butt_m=0.0254 * 33.5)])
    >>> round(change["swing_weight_in_oz"].value / 1.75, 2)
    3.93
    """
    record = recorded(build)

    def model(values: Values) -> dict[str, float]:
        old = record.putter(values)
        new = old if length_m is None else at_length(old, length_m=length_m)
        new = replace(new, grip=grip or new.grip, weights=(*new.weights, *weights))
        before, after = old.values(), new.values()
        return {name: after[name] - before[name] for name in before}

    return propagated(model, record.quantities)


def at_length(putter: Putter, /, *, length_m: float) -> Putter:
    """A recorded putter's kinds of part at another length, longer or shorter.

    Parameters
    ----------
    putter
        As :meth:`Recorded.putter` gives it, its epoxy and tape first among its weights.
    length_m
        Butt to sole.

    Returns
    -------
    Putter
        With a shaft as heavy a metre; the epoxy stays at the tip, the tape under the grip.
    """
    by = length_m - putter.length_m
    shaft, epoxy, tape = putter.shaft, *putter.weights[:2]
    longer = (shaft.length_m + by) / shaft.length_m
    return replace(
        putter,
        length_m=length_m,
        shaft=replace(
            shaft,
            mass_kg=longer * shaft.mass_kg,
            length_m=shaft.length_m + by,
            balance_m=longer * shaft.balance_or_middle_m,
        ),
        weights=(replace(epoxy, from_butt_m=(epoxy.from_butt_m or 0.0) + by), tape),
    )
