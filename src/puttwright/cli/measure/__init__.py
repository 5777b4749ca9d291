"""``puttwright measure``: readings out of photos and off the bench."""

from __future__ import annotations

from typing import Final

from puttwright.cli.lazy import LazyGroup

_COMMANDS: Final = {
    "board": "puttwright.cli.measure.board",
    "address": "puttwright.cli.measure.address",
    "part": "puttwright.cli.measure.part",
}

command = LazyGroup(
    "measure",
    modules=_COMMANDS,
    short_help="Read a photo or the bench.",
    help="""Read a photo (the laser's dot on the aim board, a golfer's set-up) or the bench.

    Nothing leaves this machine, and nothing of a photo is kept.
    """,
)
