"""``puttwright calc``: single computations."""

from __future__ import annotations

from typing import Final

from puttwright.cli.lazy import LazyGroup

_COMMANDS: Final = {
    name: f"puttwright.cli.calc.{name.replace('-', '_')}"
    for name in (
        "impact",
        "roll",
        "capture",
        "green-speed",
        "holing",
        "swing-weight",
        "inertia",
        "putter",
        "wanted",
        "hang",
        "bend",
        "rules",
        "address",
        "sole",
    )
}

command = LazyGroup(
    "calc",
    modules=_COMMANDS,
    short_help="Compute one thing.",
    help="""Compute one thing: of a putt, a putter on the bench, the address, or the rules.

    Right is positive, for right- and left-handers alike; up, toe, high,
    topspin and handle-forward are positive. Units are in the names.
    """,
)
