"""A check-in in words: the verdict, what to do about it, figure by figure."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from puttwright.club.check_in import (
    AGAIN,
    ASK,
    BEND,
    CUT,
    NEVER,
    OUTSIDE,
    PASS,
    REFUSE,
    REGRIP,
    RENECK,
    RESHAFT,
    REWORK,
    TOO_FAR,
    UNKNOWN,
    WEIGHT,
    CheckIn,
    Finding,
    Work,
)
from puttwright.club.targets import BY_FIELD
from puttwright.fitting.phrases import figure, measure

HEADLINES: Final = {
    PASS: "Pass: it is what was ordered.",
    AGAIN: "Not settled yet: {again}.",
    REWORK: "Rework it, then measure again.",
    REFUSE: "Refuse it: this cannot be put right at the bench.",
}
GUARD: Final = (
    "A figure passes inside its tolerance less the gauge's error and fails beyond the tolerance "
    "plus that error; between the two it is measured again (the rule of ISO 14253-1, second hand)."
)
AFTER_A_BEND: Final = (
    "Eye protection, padded jaws, a little at a time; a neck springs back. Loft and lie move "
    "together: measure both again, and stop at any crack or whitening."
)
_MIND: Final = {
    ASK: "That is far: ask a club repair professional first.",
    UNKNOWN: "What this head may be bent to is not on the order: find out its alloy first.",
    TOO_FAR: "That is further than anyone should bend: another head or neck.",
    OUTSIDE: "The head may not be bent to what was ordered: another head or neck.",
    NEVER: "It is never bent: another head or neck, made to what was ordered.",
}


def headline(result: CheckIn) -> str:
    """The verdict in one line."""
    return HEADLINES[result.verdict].format(again=_again(result))


def _again(result: CheckIn) -> str:
    near = [each.target.name.lower() for each in result.findings if each.verdict == AGAIN]
    missing = [BY_FIELD[name].name.lower() for name in result.missing]
    parts = [f"measure {' and '.join(missing)} too"] if missing else []
    parts += [f"measure {' and '.join(near)} again, or with a finer gauge"] if near else []
    return "; ".join(parts)


def measured_words(finding: Finding) -> str:
    """What was measured, what was ordered, how far off: "3.5°, ordered 2.5° ± 0.5; 1.0° over"."""
    target = finding.target
    digits = _digits(finding)
    ordered = measure(finding.ordered, target.unit, digits=digits)
    off = abs(finding.off)
    away = "on it" if off < 0.05 else f"{measure(off, target.unit, digits=digits)} {_side(finding)}"
    value = measure(finding.measured, target.unit, digits=digits)
    return (
        f"{value}, ordered {ordered} ± {figure(finding.tolerance, digits=_places(finding))}; {away}"
    )


def _digits(finding: Finding) -> int:
    """So many that the three figures of a line agree: a tenth where one of them is not whole."""
    digits = finding.target.digits
    told = (finding.measured, finding.ordered)
    whole = all(abs(value - round(value, digits)) < 0.05 for value in told)
    return digits if whole else max(digits, 1)


def _places(finding: Finding) -> int:
    return 0 if finding.tolerance >= 1 else 1


def _side(finding: Finding) -> str:
    return "over" if finding.off > 0 else "under"


def verdict_words(finding: Finding) -> str:
    """What follows for one figure."""
    target = finding.target
    if finding.verdict == PASS:
        return "passes"
    if finding.work is None:
        if finding.passes_within <= 0:
            return "this gauge is too coarse to pass it; take a finer one"
        room = measure(finding.passes_within, target.unit, digits=1)
        return f"too near to tell: it passes within {room}; measure again"
    return work_words(finding.work, finding)


def work_words(work: Work, finding: Finding) -> str:
    """The work that would put a figure right, and what to mind."""
    by = measure(abs(work.by), finding.target.unit, digits=finding.target.digits)
    name = finding.target.name.lower()
    said = {
        BEND: f"bend {by} {_way(finding, work)}",
        CUT: f"cut {by} off the butt; balance and swing weight go with it",
        RESHAFT: f"{by} too short: a longer shaft, and the putter made anew",
        RENECK: f"{name} comes from neck and head: fit the neck that was ordered",
        REGRIP: "fit the grip that was ordered",
        WEIGHT: _weights(finding, work, by),
    }[work.kind]
    return " ".join([f"{said}.", *(_MIND[each] for each in work.mind), *_metal_words(work)])


def _metal_words(work: Work) -> list[str]:
    """What the metal says, and what could be had by bending."""
    words = [f"{work.why[0].upper()}{work.why[1:]}."] if work.why else []
    low, high = work.possible or (0.0, 0.0)
    if high - low > _ANGLE_DEG:
        ends = [measure(each, "°", digits=1) for each in (low, high)]
        words.append(f"By bending it can be {ends[0]} to {ends[1]}.")
    return words


_ANGLE_DEG: Final = 0.05


def _way(finding: Finding, work: Work) -> str:
    more, less = {"loft_deg": ("weaker", "stronger")}.get(finding.target.field, ("upright", "flat"))
    return more if work.by > 0 else less


def _weights(finding: Finding, work: Work, by: str) -> str:
    if finding.target.field == "balance_from_butt_mm":
        end = "head" if work.by > 0 else "butt"
        return f"move the balance {by} toward the {end} with weights"
    return f"{'add' if work.by > 0 else 'take off'} {by}"


def check_in_lines(result: CheckIn) -> list[str]:
    """All a check-in says, line by line."""
    width = max(len(each.target.name) for each in result.findings)
    lines = [headline(result), ""]
    for each in result.findings:
        lines.append(f"  {each.target.name:<{width}}  {measured_words(each)}")
        lines.append(f"  {'':<{width}}  {verdict_words(each)}")
    if result.not_measured:
        names = ", ".join(BY_FIELD[name].name.lower() for name in result.not_measured)
        lines += ["", f"Not measured: {names}."]
    bent = any(each.work and each.work.kind == BEND for each in result.findings)
    return [*lines, "", GUARD, *[AFTER_A_BEND] * bent]


def check_in_json(result: CheckIn) -> Mapping[str, Any]:
    """The same for programs."""
    return {
        "verdict": result.verdict,
        "says": headline(result),
        "figures": [_figure(each) for each in result.findings],
        "not_measured": list(result.not_measured),
        "missing": list(result.missing),
        "guard_band": GUARD,
    }


def _figure(finding: Finding) -> dict[str, Any]:
    work = finding.work
    return {
        "column": finding.target.field,
        "name": finding.target.name,
        "measured_words": measured_words(finding),
        "ordered": finding.ordered,
        "tolerance": finding.tolerance,
        "measured": finding.measured,
        "off": round(finding.off, 6),
        "error": finding.error,
        "guard_band": finding.error,
        "passes_within": round(finding.passes_within, 6),
        "verdict": finding.verdict,
        "work": None
        if work is None
        else {
            "kind": work.kind,
            "by": round(work.by, 6),
            "mind": list(work.mind),
            "why": work.why,
            "possible_deg": None if work.possible is None else list(work.possible),
        },
        "says": verdict_words(finding),
    }
