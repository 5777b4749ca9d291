"""``puttwright calc hang``: how a putter hangs, from its centre of gravity."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("hang", short_help="Hang from where the centre of gravity lies.")
@options.number("--cg-depth-mm", "Centre of gravity behind the face", between=(0, 150), unit="mm")
@options.number(
    "--offset-mm", "Shaft axis ahead of the face", between=(-30, 80), unit="mm", default=0.0
)
@options.number(
    "--cg-from-axis-mm",
    "Centre of gravity from the shaft axis, square to it, toe positive",
    between=(-80, 120),
    unit="mm",
    needed=False,
)
@options.number(
    "--cg-toe-mm",
    "Or along the ground from where the shaft axis meets it",
    between=(-80, 120),
    unit="mm",
    needed=False,
)
@options.number(
    "--cg-up-mm", "with its height above the ground", between=(0, 100), unit="mm", needed=False
)
@options.number("--lie-deg", "and the lie", between=(50, 90), unit="deg", needed=False)
@options.as_json
def command(as_json: bool, **values: float) -> None:
    """Hang of a putter balanced across a finger: 0 the face looks up, 90 the toe points down.

    Slightly negative: the heel hangs a little lower than the toe.
    """
    from puttwright.club.calc import calc_hang

    show_figures(calc_hang(**values), as_json=as_json)
