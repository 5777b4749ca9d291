"""``puttwright calc roll``: off the face to the stop."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("roll", short_help="From the face to where the ball stops.")
@options.number("--ball-speed-mps", "Speed of the ball off the face", between=(0, 12), unit="m/s")
@options.number(
    "--launch-deg", "Launch above horizontal", between=(-15, 20), unit="deg", default=2.0
)
@options.number(
    "--spin-rpm",
    "Spin off the face, topspin positive",
    between=(-2000, 2000),
    unit="rev/min",
    default=0.0,
)
@options.number("--green-ft", "Green speed", between=(3, 16), unit="ft", default=10.0)
@options.number(
    "--sliding-friction", "Friction of the ball sliding on grass", between=(0.05, 1), default=0.4
)
@options.number("--slope-pct", "Steepness of the slope", between=(0, 25), unit="%", default=0.0)
@options.number(
    "--slope-towards-deg",
    "Where downhill points, right positive",
    between=(-360, 360),
    unit="deg",
    default=0.0,
)
@options.as_json
def command(as_json: bool, **values: float) -> None:
    """Skid, true roll, length and break of a putt on an even slope."""
    from puttwright.ball.calc import calc_roll

    show_figures(calc_roll(**values), as_json=as_json)
