"""``puttwright calc green-speed``: two readings of a ramp to the level."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("green-speed", short_help="Green speed from two readings on a slope.")
@options.number("--up-ft", "Roll uphill off the ramp", between=(1, 60), unit="ft")
@options.number("--down-ft", "Roll downhill off the ramp", between=(1, 60), unit="ft")
@options.as_json
def command(as_json: bool, **values: float) -> None:
    """Green speed on the level, and how hard the green brakes the ball."""
    from puttwright.ball.calc import calc_green_speed

    show_figures(calc_green_speed(**values), as_json=as_json)
