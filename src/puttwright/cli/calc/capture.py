"""``puttwright calc capture``: the fastest ball the hole takes."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("capture", short_help="How fast a ball may reach the hole.")
@options.number(
    "--offset-mm",
    "How far off the centre the ball comes, right positive",
    between=(-200, 200),
    unit="mm",
)
@options.number(
    "--slope-pct", "Slope, uphill putts positive", between=(-25, 25), unit="%", default=0.0
)
@options.as_json
def command(as_json: bool, **values: float) -> None:
    """The greatest speed at the rim with which the hole still takes the ball."""
    from puttwright.ball.calc import calc_capture

    show_figures(calc_capture(**values), as_json=as_json)
