"""``puttwright calc putter``: every figure of a build, with the doubt of what goes into it."""

from __future__ import annotations

import json
from pathlib import Path

import click

from puttwright.cli import options


@click.command("putter", short_help="What a build weighs, how it balances, turns and hangs.")
@options.package
@click.option("--build", metavar="ID", help="Which one; the golfer's own unless given.")
@options.number(
    "--lean-deg",
    "Handle toward the target; as the golfer was seen to lean it unless given",
    between=(-25, 25),
    unit="deg",
    needed=False,
)
@click.option(
    "--add",
    multiple=True,
    metavar="MASS@DISTANCE",
    help="What a weight there would change, as in 10@33.5in from the butt. Once for each.",
)
@options.number(
    "--length-mm",
    "What another length would change",
    between=(457.2, 1600),
    unit="mm",
    needed=False,
)
@options.as_json
def command(
    package: Path,
    build: str | None,
    lean_deg: float | None,
    add: tuple[str, ...],
    length_mm: float | None,
    as_json: bool,
) -> None:
    """Mass, balance, swing weight, hang, loft as leaned and inertias, each with a 90 % interval.

    What the package does not say is taken as usual, and said so.
    """
    from puttwright.deeds.look_at_putter import look_at_putter
    from puttwright.deeds.say_putter import putter_json, putter_lines

    looked = look_at_putter(
        package, build_id=build, lean_deg=lean_deg, add=add, length_mm=length_mm
    )
    if as_json:
        click.echo(json.dumps(putter_json(looked), indent=2))
    else:
        click.echo("\n".join(putter_lines(looked)))
