"""Single computations about a putter in the units people use: what the ``calc`` commands print."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Final

from puttwright.club.alloys import UNKNOWN, refuse_bend
from puttwright.club.bench_steps import CAUTIONS, order_of_work
from puttwright.club.bend import Bar, Set, bent, turns_for
from puttwright.club.hang import hang_rad
from puttwright.club.limits import checked
from puttwright.club.pendulum import Swung, bifilar_pendulum, physical_pendulum
from puttwright.club.swing_weight import (
    OFFICIAL_FULCRUM_M,
    letter,
    moment_in_oz,
    on_scale,
)
from puttwright.club.uncertainty import Quantity, repeated
from puttwright.errors import UserError
from puttwright.units import parse_quantity

MASS_SD_G: Final = 0.5
DISTANCE_SD_MM: Final = 0.5
PERIOD_SD_S: Final = 0.005
"""A tenth of a second over twenty swings: one careful timing by hand."""
_INCHES_MEANT_M: Final = 0.06

Figures = dict[str, object]


class NotAPart(UserError):
    """{text!r} is no part; write its mass and its distance from the butt, as in 350@33.5in."""

    code = "not-a-part"


class NoParts(UserError):
    """A swing weight needs parts; give --part MASS@DISTANCE for each, as in --part 350@33.5in."""

    code = "no-parts"


class InchesMeant(UserError):
    """{text!r} puts a part {place_mm:g} mm from the butt, which is inside the hands; write {place_mm:g}in or {place_mm:g}mm."""  # noqa: E501

    code = "inches-meant"


class Lacking(UserError):
    """{what} needs {options}."""

    code = "lacking"


def part_of(text: str, /) -> tuple[float, float]:
    """Mass [kg] and distance from the butt [m] of ``"350@33.5in"``, ``"12oz@851mm"``.

    Examples
    --------
    >>> mass, place = part_of("350@33.5in")
    >>> round(mass, 4), round(place, 4)
    (0.35, 0.8509)
    """
    mass_text, at, place_text = text.partition("@")
    if not (at and mass_text.strip() and place_text.strip()):
        raise NotAPart(text=text)
    mass = checked(parse_quantity(mass_text, default_unit="g"), limit="mass")
    place = checked(parse_quantity(place_text, default_unit="mm"), limit="place")
    bare = not place_text.strip()[-1].isalpha() and '"' not in place_text
    if bare and 0.0 < place < _INCHES_MEANT_M:
        raise InchesMeant(text=text, place_mm=1e3 * place)
    return mass, place


def calc_swing_weight(*, parts: Sequence[str]) -> Figures:
    """Swing weight, balance point and mass of parts at their distances from the butt.

    Parameters
    ----------
    parts
        Such as ``"350@33.5in"``; grams and millimetres where no unit is written.

    Returns
    -------
    dict
        ``swing_weight`` on the 14 in scale, ``torque_in_oz``, ``balance_mm``,
        ``total_g`` and ``torque_12_in_oz``.

    Examples
    --------
    >>> calc_swing_weight(parts=["350@33.5in", "110@16.5in", "65@5in"])["swing_weight"]
    'D9.3'
    """
    found = [part_of(text) for text in parts]
    total = math.fsum(mass for mass, _ in found)
    if total <= 0.0:
        raise NoParts
    balance = math.fsum(mass * place for mass, place in found) / total
    moment = moment_in_oz(total_kg=total, balance_m=balance)
    official = moment_in_oz(total_kg=total, balance_m=balance, fulcrum_m=OFFICIAL_FULCRUM_M)
    figures: Figures = {
        "swing_weight": letter(moment),
        "torque_in_oz": moment,
        "balance_mm": 1e3 * balance,
        "total_g": 1e3 * total,
        "torque_12_in_oz": official,
    }
    beyond = "The scale's letters run from A to G; beyond them the points go on."
    return figures if on_scale(moment) else {**figures, "flags": [beyond]}


def _given(values: Mapping[str, object], what: str, /) -> None:
    """Refuse to go on without all of it, in one sentence."""
    if any(value is None or value == () for value in values.values()):
        names = [f"--{name.replace('_', '-')}" for name in values]
        raise Lacking(what=what, options=f"{', '.join(names[:-1])} and {names[-1]}")


def calc_inertia(
    *, way: str, mass_g: float | None, periods_s: Sequence[float], distance_mm: float | None = None,
    spacing_mm: float | None = None, thread_mm: float | None = None, amplitude_deg: float = 0.0,
    period_sd_s: float = PERIOD_SD_S,
) -> Figures:  # fmt: skip
    """Inertia from a physical or a bifilar pendulum.

    Parameters
    ----------
    way
        "physical" or "bifilar".
    mass_g, periods_s
        Mass, and one or more timings of one swing there and back.
    distance_mm
        Physical: pivot to balance point.
    spacing_mm, thread_mm
        Bifilar: whole distance between the threads, and their length.
    amplitude_deg
        Physical: how far it swung to one side, if not a little.
    period_sd_s
        How sure a timing is when there is only one.

    Returns
    -------
    dict
        ``inertia_cg_kg_m2, inertia_pivot_kg_m2``, the 90 % ``interval`` of the
        first, and ``flags`` where there is something to say.

    Examples
    --------
    >>> found = calc_inertia(way="physical", mass_g=520, distance_mm=620, periods_s=[1.75])
    >>> round(found["inertia_cg_kg_m2"], 6)
    0.045375
    """
    if way == "physical":
        asked = {"mass_g": mass_g, "distance_mm": distance_mm, "period_s": tuple(periods_s)}
    else:
        asked = {
            "mass_g": mass_g, "spacing_mm": spacing_mm, "thread_mm": thread_mm,
            "period_s": tuple(periods_s),
        }  # fmt: skip
    _given(asked, f"A {way} pendulum")
    mass = Quantity(value=1e-3 * (mass_g or 0.0), sd=1e-3 * MASS_SD_G)
    period = repeated(list(periods_s), name="period", single_sd=period_sd_s)
    if way == "physical":
        swung = physical_pendulum(
            mass=mass,
            distance=_length(distance_mm),
            period=period,
            amplitude_rad=math.radians(amplitude_deg),
        )
    else:
        swung = bifilar_pendulum(
            mass=mass, spacing=_length(spacing_mm), thread=_length(thread_mm), period=period
        )
    return _swung(swung, timings=len(periods_s))


def _length(value_mm: float | None) -> Quantity:
    return Quantity(value=1e-3 * (value_mm or 0.0), sd=1e-3 * DISTANCE_SD_MM)


def _swung(swung: Swung, *, timings: int) -> Figures:
    found: Figures = {
        "inertia_cg_kg_m2": swung.inertia_cg_kg_m2.value,
        "inertia_pivot_kg_m2": swung.inertia_pivot_kg_m2.value,
        "interval": list(swung.inertia_cg_kg_m2.interval()),
    }
    one = "One timing only: its error is taken as usual by hand; three timings would tell."
    flags = [*swung.flags, *([one] if timings == 1 else [])]
    return {**found, "flags": flags} if flags else found


def calc_hang(
    *, cg_depth_mm: float, offset_mm: float = 0.0, cg_from_axis_mm: float | None = None,
    cg_toe_mm: float | None = None, cg_up_mm: float | None = None, lie_deg: float | None = None,
) -> Figures:  # fmt: skip
    """Hang from where the centre of gravity lies.

    Parameters
    ----------
    cg_depth_mm, offset_mm
        Behind the face's edge; shaft axis ahead of it.
    cg_from_axis_mm
        Square to the shaft axis, toe positive. Or else
    cg_toe_mm, cg_up_mm, lie_deg
        along the ground from where the axis meets it, above the ground, and the lie.

    Returns
    -------
    dict
        ``hang_deg``: 0 the face looks at the sky, 90 the toe points at the ground.

    Examples
    --------
    >>> round(calc_hang(cg_depth_mm=15, offset_mm=5, cg_from_axis_mm=20)["hang_deg"], 6)
    45.0
    """
    if cg_from_axis_mm is None:
        asked = {"cg_toe_mm": cg_toe_mm, "cg_up_mm": cg_up_mm, "lie_deg": lie_deg}
        _given(asked, "Without --cg-from-axis-mm a hang")
        lie = checked(math.radians(lie_deg or 0.0), limit="lie")
        cg_from_axis_mm = (cg_toe_mm or 0.0) * math.sin(lie) + (cg_up_mm or 0.0) * math.cos(lie)
    hang = math.degrees(
        hang_rad(
            cg_from_axis_m=1e-3 * cg_from_axis_mm,
            cg_behind_face_m=1e-3 * cg_depth_mm,
            offset_m=1e-3 * offset_mm,
        )
    )
    near = math.hypot(cg_from_axis_mm, cg_depth_mm + offset_mm) < 2.0
    flags = ["The centre of gravity lies almost on the shaft axis: it rests anywhere."]
    return {"hang_deg": hang, **({"flags": flags} if near else {})}


def calc_bend(
    *, loft_deg: float, lie_deg: float, add_loft_deg: float = 0.0, add_lie_deg: float = 0.0,
    offset_mm: float = 0.0, length_mm: float = 863.6, cg_from_axis_mm: float = 20.0,
    cg_depth_mm: float = 20.0, bend_high_mm: float = 40.0, bar: Bar = "sole",
    alloy: str = UNKNOWN, neck: str = UNKNOWN, before_deg: float = 0.0, handed: str = "right",
) -> Figures:  # fmt: skip
    """What a bend of the neck does.

    Parameters
    ----------
    loft_deg, lie_deg, offset_mm, length_mm
        As the gauge and the rule say now.
    add_loft_deg, add_lie_deg
        Wanted: more loft, more upright.
    cg_from_axis_mm, cg_depth_mm
        Centre of gravity from the shaft axis and behind the face.
    bend_high_mm, bar
        Where the neck gives, up from the sole along the shaft; the line the loft bend turns
        about, along the "sole" or square to the "shaft".
    alloy, neck, before_deg
        What the head is made of, how the neck is joined, what it was bent before.
    handed
        Says on which side the toe is.

    Returns
    -------
    dict
        ``loft_deg, lie_deg, offset_mm, length_mm, hang_deg`` afterwards, the
        ``bend_deg`` of the neck, ``aim_soled_deg`` and ``aim_held_deg`` (right positive),
        ``toe_up_deg`` in the same hands, ``verdict``, ``why``, ``steps``, ``cautions``.

    Raises
    ------
    NotBendable, BendTooFar
        The head is never bent, or not so far.

    Examples
    --------
    >>> done = calc_bend(
    ...     loft_deg=3, lie_deg=70, add_lie_deg=2, alloy="carbon_steel", neck="one_piece"
    ... )
    >>> round(done["lie_deg"], 6), round(done["aim_held_deg"], 3), done["verdict"]
    (72.0, -0.105, 'within')
    """
    was = Set(
        loft_rad=math.radians(loft_deg),
        lie_rad=math.radians(lie_deg),
        offset_m=1e-3 * offset_mm,
        length_m=1e-3 * length_mm,
        cg_from_axis_m=1e-3 * cg_from_axis_mm,
        cg_behind_face_m=1e-3 * cg_depth_mm,
        bend_high_m=1e-3 * bend_high_mm,
    )
    turns = turns_for(
        was,
        add_loft_rad=math.radians(add_loft_deg),
        add_lie_rad=math.radians(add_lie_deg),
        bar=bar,
    )
    done = bent(was, turns=turns, handed=handed)
    verdict = refuse_bend(
        bend_rad=done.bend_rad, alloy=alloy, neck=neck, before_rad=math.radians(before_deg)
    )
    return {
        "loft_deg": math.degrees(done.after.loft_rad),
        "lie_deg": math.degrees(done.after.lie_rad),
        "offset_mm": 1e3 * done.after.offset_m,
        "length_mm": 1e3 * done.after.length_m,
        "hang_deg": math.degrees(done.hang_rad),
        "bend_deg": math.degrees(done.bend_rad),
        "aim_soled_deg": math.degrees(done.aim_soled_rad) + 0.0,
        "aim_held_deg": math.degrees(done.aim_held_rad) + 0.0,
        "toe_up_deg": math.degrees(done.toe_up_rad),
        "verdict": verdict.verdict,
        "why": verdict.why,
        "steps": list(order_of_work(done, verdict=verdict)),
        "cautions": list(CAUTIONS),
    }
