"""``puttwright measure``: readings out of photos."""

from __future__ import annotations

from typing import Final

from puttwright.cli.lazy import LazyGroup

_COMMANDS: Final = {
    "board": "puttwright.cli.measure.board",
    "address": "puttwright.cli.measure.address",
}

command = LazyGroup(
    "measure",
    modules=_COMMANDS,
    short_help="Read a photo.",
    help="""Read a photo: the laser's dot on the aim board, or a golfer's set-up.

    Nothing leaves this machine, and nothing of a photo is kept.
    """,
)
