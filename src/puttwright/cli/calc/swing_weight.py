"""``puttwright calc swing-weight``: how heavy a putter swings, from its parts."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("swing-weight", short_help="Swing weight and balance point from the parts.")
@click.option(
    "--part",
    "parts",
    multiple=True,
    metavar="MASS@DISTANCE",
    help="Mass at its distance from the butt, as in 350@33.5in; grams and mm where no unit is "
    "written. Once for each part.",
)
@options.as_json
def command(as_json: bool, parts: tuple[str, ...]) -> None:
    """Swing weight (14 in scale, and 12 in), balance point from the butt and total mass."""
    from puttwright.club.calc import calc_swing_weight

    show_figures(calc_swing_weight(parts=parts), as_json=as_json)
