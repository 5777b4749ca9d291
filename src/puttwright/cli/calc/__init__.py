"""``puttwright calc``: single computations."""

from __future__ import annotations

from typing import Final

from puttwright.cli.lazy import LazyGroup

_COMMANDS: Final = {
    name: f"puttwright.cli.calc.{name.replace('-', '_')}"
    for name in ("impact", "roll", "capture", "green-speed", "holing", "rules")
}

command = LazyGroup(
    "calc",
    modules=_COMMANDS,
    short_help="Compute one thing.",
    help="""Compute one thing: impact, roll, capture, green speed, the chance to hole, or the rules.

    Right is positive, for right- and left-handers alike; up, toe, high,
    topspin and handle-forward are positive. Units are in the names.
    """,
)
