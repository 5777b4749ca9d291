"""Calculators of the putter on the bench: swing weight, inertia, hang, bend, the rules."""

from __future__ import annotations

from typing import Any

from puttwright.club.alloys import ALLOYS, NECKS
from puttwright.club.bend import Bar
from puttwright.club.calc import calc_bend, calc_hang, calc_inertia, calc_swing_weight
from puttwright.club.rules import BEYOND, calc_rules
from puttwright.club.rules_table import CLAUSES, MEASURES
from puttwright.evidence import Build
from puttwright.fitting.phrases import figure
from puttwright.pictures.balance import balance
from puttwright.pictures.bend import Angles, bend_views
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import worded
from puttwright.pictures.hang import hang
from puttwright.pictures.limits import Limited, against_limits
from puttwright.pictures.pendulum import pendulum
from puttwright.pictures.tables import Table
from puttwright.web.calculators.calculator import (
    Calculator,
    Figure,
    Found,
    Values,
    asked,
    chosen,
    given,
)
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.forms.asking import Question
from puttwright.web.forms.spoken import Wrong
from puttwright.web.manner import manner
from puttwright.web.texts import catalogue

PARTS = 4
_STARTS = (("350", "850"), ("110", "420"), ("65", "130"), ("", ""))
"""A head, a shaft and a grip."""
TIMINGS = 3


def _weight_questions() -> tuple[Question, ...]:
    found = []
    for number, (mass, place) in enumerate(_STARTS, start=1):
        found += [
            asked(f"mass_{number}", unit="g", between=(0, 2000), start=mass),
            asked(f"place_{number}", unit="mm", between=(0, 1600), start=place),
        ]
    return tuple(found)


def _parts(values: Values) -> list[tuple[float, float]]:
    pairs = [(values.get(f"mass_{n}"), values.get(f"place_{n}")) for n in range(1, PARTS + 1)]
    for mass, place in pairs:
        if (mass is None) != (place is None):
            raise Wrong(catalogue()("calc.half_a_part"))
    return [(mass, place) for mass, place in pairs if mass is not None and place is not None]


def _weight(values: Values) -> Found:
    return calc_swing_weight(parts=[f"{mass:g} g@{place:g} mm" for mass, place in _parts(values)])


def _balance(values: Values, found: Found) -> Drawing:
    parts, place = _parts(values), found["balance_mm"]
    return drawing(
        lambda width, prefix: balance(
            parts, balance_mm=place, ground=PAGE, prefix=prefix, width=width
        ),
        prefix="balance",
    )


def _inertia_questions() -> tuple[Question, ...]:
    starts = ("1.75", "1.76", "1.74")
    return (
        chosen("way", "physical", "bifilar", start="physical"),
        asked("mass_g", unit="g", between=(1, 2000), start="520", needed=True),
        asked("distance_mm", unit="mm", between=(1, 2000), start="620", hint=True),
        asked("spacing_mm", unit="mm", between=(5, 1500), hint=True),
        asked("thread_mm", unit="mm", between=(20, 5000), hint=True),
        asked("amplitude_deg", unit="deg", between=(0, 60), start="0", hint=True),
        *(
            asked(f"period_{n}", unit="s", between=(0.05, 30), start=starts[n - 1], needed=n == 1)
            for n in range(1, TIMINGS + 1)
        ),
    )


def _inertia(values: Values) -> Found:
    needed = ("distance_mm",) if values["way"] == "physical" else ("spacing_mm", "thread_mm")
    if any(values.get(name) is None for name in needed):
        raise Wrong(catalogue()(f"calc.way_{values['way']}_needs"))
    periods = [values.get(f"period_{n}") for n in range(1, TIMINGS + 1)]
    named = ("distance_mm", "spacing_mm", "thread_mm", "amplitude_deg")
    return calc_inertia(
        way=values["way"], mass_g=values["mass_g"],
        periods_s=[each for each in periods if each is not None], **given(values, *named),
    )  # fmt: skip


def _pendulum(values: Values, _found: Found) -> Drawing:
    named = ("distance_mm", "spacing_mm", "thread_mm", "amplitude_deg")
    return drawing(
        lambda width, prefix: pendulum(
            values["way"], ground=PAGE, prefix=prefix, width=width, **given(values, *named)
        ),
        prefix="pendulum",
    )


def _hang_questions() -> tuple[Question, ...]:
    return (
        asked("cg_depth_mm", unit="mm", between=(0, 150), start="15", needed=True),
        asked("offset_mm", unit="mm", between=(-30, 80), start="5"),
        asked("cg_from_axis_mm", unit="mm", between=(-80, 120), start="20", needed=True, hint=True),
        chosen("handed", "right", "left", start=manner().handed),
    )


def _hang(values: Values) -> Found:
    return calc_hang(**given(values, "cg_depth_mm", "offset_mm", "cg_from_axis_mm"))


def _hung(values: Values, found: Found) -> Drawing:
    build = Build(
        build_id="asked", length_mm=864, lie_deg=70, loft_deg=3, head_shape="half_mallet",
        offset_mm=values.get("offset_mm"), toe_hang_deg=found["hang_deg"],
    )  # fmt: skip
    return drawing(
        lambda width, prefix: hang(
            build, handed=values["handed"], ground=PAGE, prefix=prefix, width=min(width, 360.0)
        ),
        prefix="hang",
    )


def _bend_questions() -> tuple[Question, ...]:
    return (
        asked("loft_deg", unit="deg", between=(-15, 20), start="3", needed=True),
        asked("lie_deg", unit="deg", between=(50, 90), start="70", needed=True),
        asked("add_loft_deg", unit="deg", between=(-10, 10), start="0", hint=True),
        asked("add_lie_deg", unit="deg", between=(-10, 10), start="1", hint=True),
        chosen("alloy", "unknown", *ALLOYS, start="carbon_steel"),
        chosen("neck", "unknown", *NECKS, start="one_piece"),
        chosen("bar", "sole", "shaft", start="sole"),
        asked("before_deg", unit="deg", between=(0, 20), start="0"),
        asked("offset_mm", unit="mm", between=(-30, 80), start="0"),
        asked("length_mm", unit="mm", between=(457.2, 1600), start="863.6"),
        asked("cg_from_axis_mm", unit="mm", between=(-80, 120), start="20", hint=True),
        asked("cg_depth_mm", unit="mm", between=(0, 150), start="20"),
        asked("bend_high_mm", unit="mm", between=(5, 127), start="40", hint=True),
        chosen("handed", "right", "left", start=manner().handed),
    )


def _bend(values: Values) -> Found:
    said = {name: value for name, value in values.items() if value is not None}
    bar: Bar = said.pop("bar", "sole")
    return calc_bend(bar=bar, **said)


def _bent(values: Values, found: Found) -> Drawing:
    was = Angles(loft_deg=values["loft_deg"], lie_deg=values["lie_deg"])
    done = Angles(loft_deg=found["loft_deg"], lie_deg=found["lie_deg"])
    return drawing(
        lambda width, prefix: bend_views(
            was, after=done, handed=values["handed"], ground=PAGE, prefix=prefix, width=width
        ),
        prefix="bend",
    )


def _bend_words(found: Found) -> tuple[str, ...]:
    return tuple(worded(each) for each in (found["why"], *found["steps"], *found["cautions"]))


_RULED = {
    "length_mm": ((1, 3000), "864"), "lie_deg": ((0, 90), "70"), "loft_deg": ((-45, 60), "3"),
    "shaft_lean_deg": ((-60, 60), ""), "straight_above_sole_mm": ((0, 1000), ""),
    "neck_length_mm": ((1, 500), ""), "grip_length_mm": ((1, 1500), "265"),
    "grip_width_mm": ((1, 200), "34"), "grip_gap_mm": ((1, 1500), ""),
    "upper_grip_mm": ((1, 1500), ""), "head_width_mm": ((1, 500), "102"),
    "head_depth_mm": ((1, 500), "70"), "head_height_mm": ((1, 500), ""),
    "face_width_mm": ((1, 500), ""), "second_loft_deg": ((-45, 60), ""),
    "face_shore_a": ((1, 100), ""), "insert_proud_mm": ((-10, 10), ""),
    "groove_width_mm": ((0.01, 20), ""), "groove_depth_mm": ((0.01, 20), ""),
}  # fmt: skip


def _rules_questions() -> tuple[Question, ...]:
    units = {"mm": "mm", "deg": "deg"}
    return tuple(
        asked(name, unit=units.get(name.rsplit("_", 1)[1], ""), between=between, start=start)
        for name, (between, start) in _RULED.items()
    )


def _rules(values: Values) -> Found:
    return calc_rules(given(values, *MEASURES))


def _limits(values: Values, _found: Found) -> Drawing:
    said = given(values, *MEASURES)
    found = {each["clause"]: each for each in calc_rules(said)["clauses"]}  # type: ignore[attr-defined]
    shown = []
    for clause in CLAUSES:
        ruled = found.get(clause.name)
        if ruled is None or ruled["measured"] is None:
            continue
        unit = "°" if clause.unit == "deg" else f" {clause.unit}".rstrip()
        shown.append(
            Limited(
                name=clause.name, value=ruled["measured"], low=clause.low, high=clause.high,
                words=f"{figure(ruled['measured'])}{unit}; {clause.limit}",
                within=ruled["verdict"] != BEYOND,
            )
        )  # fmt: skip
    rows = tuple((each.name, each.words, _verdict(found[each.name])) for each in shown)
    head = tuple(catalogue()(f"workshop.{each}") for each in ("clause", "measured", "verdict"))
    return drawing(
        lambda width, prefix: against_limits(shown, ground=PAGE, prefix=prefix, width=width),
        prefix="limits",
        table=Table(caption=catalogue()("workshop.rules"), head=head, rows=rows),
    )


def _verdict(ruled: dict[str, Any]) -> str:
    return catalogue()(f"workshop.{ruled['verdict']}")


def _rules_words(found: Found) -> tuple[str, ...]:
    text = catalogue()
    told = []
    for each in found["clauses"]:
        verdict = text(f"workshop.{each['verdict']}")
        clause, limit, note = (worded(each[name]) for name in ("clause", "limit", "note"))
        told.append(f"{clause}: {verdict}. {limit}. {note}".strip())
    return (*told, *(worded(each) for each in (found["anchoring"], found["decides"]) if each))


OF_THE_PUTTER = (
    Calculator(
        key="swing-weight", questions=_weight_questions, reckon=_weight, draw=_balance,
        figures=(
            Figure(name="swing_weight"),
            Figure(name="balance_mm", unit="mm", digits=0),
            Figure(name="total_g", unit="g", digits=0),
            Figure(name="torque_in_oz", unit="in oz"),
        ),
    ),
    Calculator(
        key="inertia", questions=_inertia_questions, reckon=_inertia, draw=_pendulum,
        figures=(
            Figure(name="inertia_cg_kg_m2", unit="kg m²", digits=5),
            Figure(name="interval", unit="kg m²", digits=5),
            Figure(name="inertia_pivot_kg_m2", unit="kg m²", digits=5),
        ),
    ),
    Calculator(
        key="hang", questions=_hang_questions, reckon=_hang, draw=_hung,
        figures=(Figure(name="hang_deg", unit="°", digits=0),),
    ),
    Calculator(
        key="bend", questions=_bend_questions, reckon=_bend, draw=_bent, more=_bend_words,
        figures=(
            Figure(name="loft_deg", unit="°"),
            Figure(name="lie_deg", unit="°"),
            Figure(name="bend_deg", unit="°"),
            Figure(name="aim_held_deg", unit="°", digits=2, sign=True),
            Figure(name="aim_soled_deg", unit="°", digits=2, sign=True),
            Figure(name="toe_up_deg", unit="°", sign=True),
            Figure(name="offset_mm", unit="mm"),
            Figure(name="length_mm", unit="mm"),
            Figure(name="hang_deg", unit="°", digits=0),
        ),
    ),
    Calculator(
        key="rules", questions=_rules_questions, reckon=_rules, draw=_limits, figures=(),
        more=_rules_words,
    ),
)  # fmt: skip
