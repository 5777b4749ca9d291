"""``puttwright study``: many invented fittings at once."""

from __future__ import annotations

from typing import Final

import click

from puttwright.cli.lazy import LazyGroup

_MODULES: Final = {
    "calibration": "puttwright.cli.study.calibration",
    "stopping": "puttwright.cli.study.stopping",
}


@click.group("study", cls=LazyGroup, modules=_MODULES, short_help="Hold our claims to the truth.")
def command() -> None:
    """Hold what we claim against invented golfers whose truth is known."""
