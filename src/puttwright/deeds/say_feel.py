"""The ways to a wanted feel in words and as data."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from puttwright.club.stock import Filled
from puttwright.club.uncertainty import Quantity
from puttwright.club.ways import BUTT, GRIP, HEAD, TRIM, Way
from puttwright.deeds.want_feel import FeelFound
from puttwright.fitting.phrases import interval, measure

WAY_NAMES: Final = {
    HEAD: "Head",
    BUTT: "Weight in the butt",
    GRIP: "Grip",
    TRIM: "Cut at the butt",
}
EACH_ALONE: Final = "Each way alone gives it. In brackets where nine in ten lie."


def now_words(found: FeelFound) -> str:
    """What it has, what it has at the length asked about, what is wanted."""
    ways, wanted = found.ways, found.ways.wanted
    now = f"{found.build.name} has a {wanted.name} of {wanted.said(ways.now)}"
    length_mm = 1e3 * ways.length_m
    if abs(length_mm - found.build.length_mm) > 0.05:
        at = wanted.said(ways.at_length)
        now += f"; made {measure(length_mm, 'mm')} long with the same parts, {at}"
    return f"{now}. Wanted: {wanted.said(wanted.value)}."


def way_words(way: Way) -> str:
    """What this way comes to, or why it cannot."""
    if way.amount is None or way.change is None:
        return way.trouble
    unit = "mm" if way.kind == TRIM else "g"
    amount, change = 1e3 * way.amount.value, 1e3 * way.change.value
    low, high = _interval(way, way.amount)
    words = f"{measure(amount, unit)} ({interval((1e3 * low, 1e3 * high), digits=0)})"
    if way.kind == BUTT:
        return words
    if way.kind == TRIM:
        return f"{words}, {measure(-change, unit)} off"
    return f"{words}, {measure(change, unit, sign=True)}"


def _interval(way: Way, amount: Quantity) -> tuple[float, float]:
    """The amount's interval; a weight is never less than none."""
    low, high = amount.interval()
    return (max(low, 0.0), high) if way.kind == BUTT else (low, high)


def stock_words(found: FeelFound) -> str:
    """Which weights in stock make the head heavy enough; nothing where none are needed."""
    if found.no_weights:
        return found.no_weights
    return "" if found.filled is None else _filled(found.filled)


def _filled(filled: Filled) -> str:
    picks = [
        f"{pick.count} g of tape" if pick.part_id == "tape" else f"{pick.count} × {pick.part_id}"
        for pick in filled.picks
    ]
    if abs(filled.missing_g) < 0.5:
        rest = "that is it to the gram"
    else:
        side = "short" if filled.missing_g > 0 else "too much"
        rest = f"{measure(abs(filled.missing_g), 'g')} {side}"
    return (
        f"From stock into the head: {' and '.join(picks)}, {measure(filled.mass_g, 'g')}; {rest}."
    )


def feel_lines(found: FeelFound) -> list[str]:
    """All of it, line by line."""
    width = max(map(len, WAY_NAMES.values()))
    lines = [now_words(found), EACH_ALONE]
    lines += [f"  {WAY_NAMES[way.kind]:<{width}}  {way_words(way)}" for way in found.ways.ways]
    return [*lines, *[stock_words(found)] * bool(stock_words(found))]


def feel_json(found: FeelFound) -> Mapping[str, Any]:
    """The same for programs."""
    ways = found.ways
    return {
        "build": found.build.build_id,
        "wanted": {"what": ways.wanted.name, "value": _rounded(ways.wanted.value),
                   "said": ways.wanted.said(ways.wanted.value)},
        "length_mm": _rounded(1e3 * ways.length_m),
        "now": _rounded(ways.now),
        "at_length": _rounded(ways.at_length),
        "ways": {way.kind: _way(way) for way in ways.ways},
        "stock": None if found.filled is None else {
            "picks": [
                {"part_id": pick.part_id, "count": pick.count, "mass_g": pick.mass_g}
                for pick in found.filled.picks
            ],
            "mass_g": found.filled.mass_g,
            "missing_g": round(found.filled.missing_g, 3),
        },
        "trouble": found.no_weights or None,
    }  # fmt: skip


def _way(way: Way) -> dict[str, Any]:
    if way.amount is None or way.change is None:
        return {"trouble": way.trouble}
    unit = "mm" if way.kind == TRIM else "g"
    low, high = _interval(way, way.amount)
    return {
        f"amount_{unit}": _rounded(1e3 * way.amount.value),
        f"change_{unit}": _rounded(1e3 * way.change.value),
        "interval": [_rounded(1e3 * low), _rounded(1e3 * high)],
    }


def _rounded(value: float) -> float:
    return float(f"{value:.6g}")
