"""``puttwright calc inertia``: inertia from a pendulum on the bench."""

from __future__ import annotations

from typing import Any

import click

from puttwright.cli import options
from puttwright.cli.figures import show_figures


@click.command("inertia", short_help="Inertia from a pendulum on the bench.")
@click.option(
    "--physical/--bifilar",
    "physical",
    default=None,
    help="Hung from a pivot and swung, or on two threads and turned.",
)
@options.number("--mass-g", "Mass", between=(1, 2000), unit="g", needed=False)
@options.number(
    "--distance-mm", "Physical: pivot to balance point", between=(1, 2000), unit="mm", needed=False
)
@options.number(
    "--spacing-mm",
    "Bifilar: whole distance between the threads",
    between=(5, 1500),
    unit="mm",
    needed=False,
)
@options.number(
    "--thread-mm", "Bifilar: length of each thread", between=(20, 5000), unit="mm", needed=False
)
@click.option(
    "--period-s",
    "periods_s",
    multiple=True,
    type=options.read_number,
    metavar="SECONDS",
    help="One swing there and back; give it once for each timing.",
)
@options.number(
    "--amplitude-deg",
    "Physical: how far it swung to one side, if not a little",
    between=(0, 60),
    unit="deg",
    default=0.0,
)
@options.number(
    "--period-sd-s",
    "How sure one timing is, where there is only one",
    between=(0, 1),
    unit="s",
    default=0.005,
)
@options.as_json
def command(as_json: bool, physical: bool | None, **values: Any) -> None:
    """Inertia about the centre of gravity and about the axis of the swing, with a 90 % interval.

    The interval carries the scale (0.5 g), the rule (0.5 mm) and the timings.
    """
    from puttwright.club.calc import calc_inertia

    if physical is None:
        raise click.UsageError("say which pendulum: --physical or --bifilar")
    way = "physical" if physical else "bifilar"
    show_figures(calc_inertia(way=way, **values), as_json=as_json)
