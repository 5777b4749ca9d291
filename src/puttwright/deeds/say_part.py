"""The sheet of a head or putter on the bench in words and as data."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from puttwright.club.alloys import ALLOYS, NECKS
from puttwright.club.bench import HeadSheet
from puttwright.club.metal import bend_limits, metal_of
from puttwright.evidence import Part
from puttwright.fitting.phrases import measure


def sheet_lines(sheet: HeadSheet) -> list[str]:
    """Each figure with its interval, then what it may be bent to."""
    part = sheet.part()
    return [f"{sheet.label or sheet.part_id}, {sheet.kind}:", *(f"  {each}" for each in
            sheet.lines()), bend_words(part)]  # fmt: skip


def bend_words(part: Part) -> str:
    """What may be bent, or why nothing is."""
    metal = metal_of(part)
    why = NECKS.get(metal.joint) or (
        f"{ALLOYS[metal.alloy].said} {ALLOYS[metal.alloy].why}"
        if metal.alloy in ALLOYS and ALLOYS[metal.alloy].never
        else ""
    )
    if why:
        return f"Never bent: {why}."
    said = []
    for name in ("loft", "lie"):
        limits = bend_limits(part, name)
        if limits is not None and limits[1] > limits[0]:
            low, high = (measure(each, "°", digits=1) for each in limits)
            said.append(f"{name} {low} to {high}")
    if said:
        return f"May be bent to {', '.join(said)}; then measure again."
    if metal.known:
        return "It has been bent as far as it may."
    return "Not bent before alloy and neck are known."


def sheet_json(sheet: HeadSheet) -> Mapping[str, Any]:
    """The same for programs: the rack's columns, and the doubt of each figure."""
    part = sheet.part()
    columns = {
        name: value
        for name, value in dataclasses.asdict(part).items()
        if value is not None and name != "extra"
    }
    return {
        "part": columns,
        "intervals": {
            name: [float(f"{end:.6g}") for end in quantity.interval()]
            for name, quantity in sheet.quantities().items()
        },
        "bending": bend_words(part),
    }
