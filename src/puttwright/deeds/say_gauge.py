"""A gauge study in words: what it can tell apart first, then the figures behind it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any, Final

from puttwright.belief.mean_squares import Span
from puttwright.deeds.study_gauge import READINGS, Gauge, sure
from puttwright.evidence import Instrument
from puttwright.evidence.signs import side_word

_FEW: Final = 10
"""With fewer repeats than so many to go by, the spread itself is hardly known."""
_SIDEWAYS: Final = ("reading_mm", "start_deg", "face_deg", "path_deg")


def gauge_lines(gauge: Gauge) -> list[str]:
    """All of it for people."""
    return [
        verdict(gauge), "", *(f"  {line}" for line in _figures(gauge)), *_cautions(gauge),
        *_entry(gauge),
    ]  # fmt: skip


def verdict(gauge: Gauge) -> str:
    """What it can tell apart with a fitter's number of readings, in degrees on a board."""
    same = gauge.study.told_apart(READINGS)
    sentence = f"{gauge.name} can tell {_apart(gauge, same)} apart with five readings"
    if not gauge.study.reproducibility:
        return f"{sentence}, in the same hands."
    other = gauge.study.told_apart(READINGS, other_hands=True)
    if _apart(gauge, other) == _apart(gauge, same):
        return f"{sentence}, whoever reads it."
    return f"{sentence} in the same hands, {_apart(gauge, other)} from one reader to another."


def _apart(gauge: Gauge, value: float) -> str:
    if gauge.deg_per_unit:
        return f"{_figure(value * gauge.deg_per_unit)}° ({_with_unit(gauge, value)})"
    return _with_unit(gauge, value)


def _figure(value: float) -> str:
    """Two digits are all that a spread from some dozen readings deserves."""
    rounded = float(f"{value:.2g}")
    return f"{rounded:.0f}" if abs(rounded) >= 10 else f"{rounded:g}"


def _with_unit(gauge: Gauge, value: float) -> str:
    space = "" if gauge.unit == "deg" else " "
    return f"{_figure(value)}{space}{'°' if gauge.unit == 'deg' else gauge.unit}".strip()


def _spread(gauge: Gauge, span: Span) -> str:
    low, high = _figure(span.low), _with_unit(gauge, span.high)
    return f"{_with_unit(gauge, span.value)} (90 %: {low} to {high})"


def _figures(gauge: Gauge) -> list[str]:
    found = gauge.study
    lines = [f"Repeatability, the same hand again: sd {_spread(gauge, found.repeatability)}."]
    if found.reproducibility:
        lines.append(
            f"Reproducibility, a change of hands: sd {_spread(gauge, found.reproducibility)}."
        )
        lines.append(f"Both together, anybody's single reading: sd {_spread(gauge, found.both)}.")
    if found.step:
        lines.append(f"Resolution, the smallest step it shows: {_with_unit(gauge, found.step)}.")
    return [*lines, *_bias(gauge)]


def _bias(gauge: Gauge) -> list[str]:
    bias = gauge.study.bias
    if bias is None:
        return ["Bias: not known; no reference stands beside the readings."]
    span = f"90 %: {_figure(bias.mean.low)} to {_with_unit(gauge, bias.mean.high)}"
    if not sure(bias.mean):
        return [f"Bias against the reference: none that is sure ({span})."]
    too = "too much" if bias.mean.value > 0 else "too little"
    if gauge.quantity in _SIDEWAYS:
        too = f"too far {side_word(bias.mean.value)}"
    return [f"Bias: it reads {_with_unit(gauge, abs(bias.mean.value))} {too} ({span})."]


def _cautions(gauge: Gauge) -> list[str]:
    found = gauge.study
    said = []
    if found.step and found.repeatability.value < found.step:
        said.append("It repeats to within a step of what it shows: read it finer, if it can be.")
    if found.squares.error.df < _FEW:
        said.append("Few repeats: the spread itself is hardly known. Ten readings more would help.")
    if found.interaction_probability is not None and found.interaction_probability < 0.05:
        said.append("Readers differ more on some parts than on others: agree on how to read it.")
    slope = found.bias.slope if found.bias else None
    if slope and sure(slope):
        said.append(
            f"The bias changes with the reading, {100 * slope.value:+.1f} % of it "
            f"(90 %: {100 * slope.low:+.1f} to {100 * slope.high:+.1f} %): one figure "
            "does not hold everywhere."
        )
    return ["", *(f"  {each}" for each in said)] if said else []


def _entry(gauge: Gauge) -> list[str]:
    entry = gauge.instrument
    if entry is None:
        return [
            "",
            "  Name the column it reads (--quantity reading_mm) for an instruments entry.",
        ]
    fields = _fields(entry)
    return ["", f"  instruments: {', '.join(f'{name} {value}' for name, value in fields.items())}"]


def gauge_json(gauge: Gauge) -> Mapping[str, Any]:
    """The same for programs."""
    found, entry = gauge.study, gauge.instrument
    spans = ("repeatability", "reproducibility", "both", "parts")
    degrees = gauge.deg_per_unit
    apart = found.told_apart(READINGS)
    return {
        "says": verdict(gauge),
        "readings": found.readings,
        "parts": len(gauge.readings.parts),
        "appraisers": len(gauge.readings.appraisers),
        "unit": gauge.unit,
        **{f"{name}_sd": _span(getattr(found, name)) for name in spans},
        "interaction": {"probability": found.interaction_probability, "pooled": found.pooled},
        "resolution": found.step,
        "bias": _span(found.bias.mean) if found.bias else None,
        "bias_slope": _span(found.bias.slope) if found.bias else None,
        "told_apart": {
            "readings": READINGS,
            "same_hands": _round(apart),
            "other_hands": _round(found.told_apart(READINGS, other_hands=True)),
            "same_hands_deg": None if degrees is None else _round(apart * degrees),
        },
        "instrument": None if entry is None else _fields(entry),
    }  # fmt: skip


def _span(span: Span | None) -> dict[str, Any] | None:
    if span is None:
        return None
    return {"value": _round(span.value), "interval_90": [_round(span.low), _round(span.high)]}


def _round(value: float) -> float:
    return float(f"{value:.6g}")


def _fields(entry: Instrument) -> dict[str, Any]:
    fields = dataclasses.asdict(entry).items()
    return {name: value for name, value in fields if value is not None and name != "extra"}
