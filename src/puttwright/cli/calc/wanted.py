"""``puttwright calc wanted``: what gives a putter a wanted swing weight, balance or mass."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from puttwright.cli import options


@click.command("wanted", short_help="What gives a wanted swing weight, balance or mass.")
@options.package
@click.option("--build", metavar="ID", help="Which one; the golfer's own unless given.")
@click.option(
    "--swing-weight", default="", metavar="D5", help="Wanted on the 14 in scale, or as in·oz."
)
@options.number(
    "--balance-mm", "Or the balance from the butt", between=(1, 1600), unit="mm", needed=False
)
@options.number(
    "--total-g", "Or the mass of the putter", between=(200, 2500), unit="g", needed=False
)
@options.number(
    "--length-mm",
    "Length to make it; as it is unless given",
    between=(457.2, 1600),
    unit="mm",
    needed=False,
)
@click.option(
    "--rack",
    type=options.PATH,
    metavar="FILE",
    help="A rack to take weights from, instead of the package's own.",
)
@click.option(
    "--ports",
    type=click.IntRange(0, 8),
    default=2,
    show_default=True,
    help="How many screws the head takes; they go in by equal pairs.",
)
@click.option(
    "--tape-g",
    type=click.IntRange(0, 50),
    default=0,
    show_default=True,
    help="Whole grams of tape that may come on top.",
)
@options.as_json
def command(
    package: Path, build: str | None, rack: Path | None, as_json: bool, **asked: Any
) -> None:
    """Head, weight in the butt, grip or cut that gives one wanted thing, each with its interval.

    A heavier head is put together from the weights in stock, in whole grams.
    """
    from puttwright.deeds.say_feel import feel_json, feel_lines
    from puttwright.deeds.want_feel import Feel, want_feel

    found = want_feel(package, build_id=build, feel=Feel(**asked), rack=rack)
    if as_json:
        click.echo(json.dumps(feel_json(found), indent=2))
    else:
        click.echo("\n".join(feel_lines(found)))
