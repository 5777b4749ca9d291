"""``puttwright measure``: readings out of photos, videos and off the bench."""

from __future__ import annotations

from typing import Final

from puttwright.cli.lazy import LazyGroup

_COMMANDS: Final = {
    "board": "puttwright.cli.measure.board",
    "address": "puttwright.cli.measure.address",
    "part": "puttwright.cli.measure.part",
    "roll": "puttwright.cli.measure.roll",
}

command = LazyGroup(
    "measure",
    modules=_COMMANDS,
    short_help="Read a photo, a video or the bench.",
    help="""Read a photo (the laser's dot on the aim board, a golfer's set-up), a putt's video, or
    the bench.

    Nothing leaves this machine, and nothing of a photo or video is kept.
    """,
)
