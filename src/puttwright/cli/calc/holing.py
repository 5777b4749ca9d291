"""``puttwright calc holing``: the chance to hole a putt."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("holing")
@options.number("--distance-m", "Ball to hole, 0.1 to 40 m.")
@options.number("--start-sd-deg", "Spread of the start line, 0 to 15 deg.")
@options.number(
    "--start-bias-deg", "Mean of the start line, right positive, -30 to 30 deg.", default=0.0
)
@options.number("--pace-sd-pct", "Spread of the rolled length, 0 to 100 % of what was meant.")
@options.number(
    "--pace-bias-pct", "Mean of the rolled length, long positive, -90 to 200 %.", default=0.0
)
@options.number("--green-ft", "Green speed, 3 to 16 ft.", default=10.0)
@options.as_json
def command(as_json: bool, **values: float) -> None:
    """Chance to hole and expected putts, from a pattern of start line and pace."""
    from puttwright.worth.calc import calc_holing

    show_figures(calc_holing(**values), as_json=as_json)
