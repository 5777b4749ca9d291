"""``puttwright calc impact``: head to ball."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("impact", short_help="From the head at impact to the ball.")
@options.number("--head-speed-mps", "Speed of the head at impact, 0.05 to 10 m/s.")
@options.number("--loft-deg", "Loft of the putter, -15 to 15 deg.", default=3.0)
@options.number("--attack-deg", "Head rising (positive) or falling, -20 to 20 deg.", default=0.0)
@options.number("--face-deg", "Where the face looks, right positive, -30 to 30 deg.", default=0.0)
@options.number("--path-deg", "Where the head travels, right positive, -45 to 45 deg.", default=0.0)
@options.number(
    "--lean-deg", "Handle toward the target; takes loft off, -25 to 25 deg.", default=0.0
)
@options.number("--head-mass-g", "Mass of the head, 200 to 700 g.", default=350.0)
@options.number(
    "--moi-g-cm2", "Inertia about the vertical axis, 1000 to 20000 g cm².", default=5000.0
)
@options.number("--cg-depth-mm", "Centre of gravity behind the face, 0 to 100 mm.", default=20.0)
@options.number(
    "--strike-toe-mm", "Strike from the sweet spot, toe positive, -80 to 80 mm.", default=0.0
)
@options.number(
    "--strike-high-mm", "Strike from the sweet spot, high positive, -40 to 40 mm.", default=0.0
)
@options.number("--restitution", "How much the ball springs off the face, 0.5 to 1.", default=0.8)
@options.as_json
def command(as_json: bool, **values: float) -> None:
    """Ball speed, launch, start line, spin and twist of the head, from the head at impact."""
    from puttwright.ball.calc import calc_impact

    show_figures(calc_impact(**values), as_json=as_json)
