"""``puttwright calc impact``: head to ball."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("impact", short_help="From the head at impact to the ball.")
@options.number("--head-speed-mps", "Speed of the head at impact", between=(0.05, 10), unit="m/s")
@options.number("--loft-deg", "Loft of the putter", between=(-15, 20), unit="deg", default=3.0)
@options.number(
    "--attack-deg", "Head rising (positive) or falling", between=(-45, 45), unit="deg", default=0.0
)
@options.number(
    "--face-deg", "Where the face looks, right positive", between=(-45, 45), unit="deg", default=0.0
)
@options.number(
    "--path-deg",
    "Where the head travels, right positive",
    between=(-45, 45),
    unit="deg",
    default=0.0,
)
@options.number(
    "--lean-deg",
    "Handle toward the target; takes loft off",
    between=(-25, 25),
    unit="deg",
    default=0.0,
)
@options.number("--head-mass-g", "Mass of the head", between=(200, 700), unit="g", default=350.0)
@options.number(
    "--moi-g-cm2",
    "Inertia about the vertical axis",
    between=(1000, 20000),
    unit="g cm²",
    default=5000.0,
)
@options.number(
    "--cg-depth-mm", "Centre of gravity behind the face", between=(0, 100), unit="mm", default=20.0
)
@options.number(
    "--strike-toe-mm",
    "Strike from the sweet spot, toe positive",
    between=(-80, 80),
    unit="mm",
    default=0.0,
)
@options.number(
    "--strike-high-mm",
    "Strike from the sweet spot, high positive",
    between=(-40, 40),
    unit="mm",
    default=0.0,
)
@options.number(
    "--restitution", "How much the ball springs off the face", between=(0.5, 1), default=0.8
)
@click.option(
    "--handed",
    type=click.Choice(["right", "left"]),
    default="right",
    show_default=True,
    help="Which hand: it says on which side the toe is.",
)
@options.as_json
def command(as_json: bool, handed: str, **values: float) -> None:
    """Ball speed, launch, start line, spin and twist of the head, from the head at impact."""
    from puttwright.ball.calc import calc_impact

    show_figures(calc_impact(handed=handed, **values), as_json=as_json)
