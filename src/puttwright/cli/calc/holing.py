"""``puttwright calc holing``: the chance to hole a putt."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("holing")
@options.number("--distance-m", "Ball to hole", between=(0.1, 40), unit="m")
@options.number("--start-sd-deg", "Spread of the start line", between=(0, 15), unit="deg")
@options.number(
    "--start-bias-deg",
    "Mean of the start line, right positive",
    between=(-30, 30),
    unit="deg",
    default=0.0,
)
@options.number(
    "--pace-sd-pct",
    "Spread of the rolled length against what was meant",
    between=(0, 100),
    unit="%",
)
@options.number(
    "--pace-bias-pct",
    "Mean of the rolled length, long positive",
    between=(-90, 200),
    unit="%",
    default=0.0,
)
@options.number("--green-ft", "Green speed", between=(3, 16), unit="ft", default=10.0)
@options.as_json
def command(as_json: bool, **values: float) -> None:
    """Chance to hole and expected putts, from a pattern of start line and pace."""
    from puttwright.worth.calc import calc_holing

    show_figures(calc_holing(**values), as_json=as_json)
