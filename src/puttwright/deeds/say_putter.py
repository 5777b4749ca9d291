"""One putter's figures in words and as data."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from puttwright.club.swing_weight import POINT_IN_OZ
from puttwright.club.uncertainty import Quantity
from puttwright.deeds.look_at_putter import Looked
from puttwright.fitting.phrases import figure, measure
from puttwright.fitting.putter_figures import SHOWN, figures_json

_TOLD: Final = ("total_kg", "balance_m", "swing_weight_in_oz", "inertia_butt_kg_m2", "hang_rad")


def putter_lines(looked: Looked) -> list[str]:
    """Name, figure and 90 % interval, a line each; then what was taken as usual."""
    found = looked.found
    rows = found.lines()
    width = max(len(name) for name, _ in rows)
    lines = [f"{found.build.name}, in brackets where nine in ten lie:"]
    lines += [f"  {name:<{width}}  {words}" for name, words in rows]
    if looked.effect:
        lines += ["", "The change does:"]
        lines += [f"  {name:<{width}}  {words}" for name, words in effect_rows(looked.effect)]
    lines += ["", found.lean_words]
    return [*lines, *(f"{note[0].upper()}{note[1:]}." for note in map(_bare, found.figures.notes))]


def _bare(note: str) -> str:
    return note.removesuffix(".")


def effect_rows(effect: Mapping[str, Quantity]) -> list[tuple[str, str]]:
    """What a change does to the figures that a hand feels."""
    rows = []
    for each in SHOWN:
        if each.field not in _TOLD:
            continue
        change = effect[each.field].value
        if each.field == "swing_weight_in_oz":
            rows.append((each.name, f"{figure(change / POINT_IN_OZ, sign=True)} points"))
            continue
        by = each.times * each.said_times * change
        rows.append((each.name, measure(by, each.unit, digits=each.digits, sign=True)))
    return rows


def putter_json(looked: Looked) -> Mapping[str, Any]:
    """The same for programs."""
    effect = {
        each.key: float(f"{each.times * looked.effect[each.field].value:.6g}")
        for each in SHOWN
        if each.field in looked.effect
    }
    build = looked.found.build.build_id
    return {"build": build, **figures_json(looked.found), **({"change": effect} if effect else {})}
