"""``puttwright gauge``: how well a board, a gauge or a sensor measures."""

from __future__ import annotations

import json
from pathlib import Path

import click

from puttwright.cli import options


@click.command("gauge", short_help="How well an instrument measures.")
@click.argument("file", type=options.PATH)
@click.option("--quantity", metavar="COLUMN",
              help="The column it reads, such as reading_mm or start_deg.")  # fmt: skip
@click.option("--name", metavar="NAME", help="What it is called in the fitting's tables.")
@options.number("--step", "Smallest step it shows, in the column's unit", between=(1e-9, 1e6),
                needed=False)  # fmt: skip
@options.number("--distance-m", "From where the light leaves to the board: says it in degrees",
                between=(0.2, 20), unit="m", needed=False)  # fmt: skip
@click.option("--mirror", is_flag=True, help="The beam comes off a mirror on the face.")
@click.option("--into", "package", type=options.PATH, metavar="PACKAGE",
              help="Write the instrument into this package's fitting.json.")  # fmt: skip
@options.as_json
def command(
    file: Path, quantity: str | None, name: str | None, step: float | None,
    distance_m: float | None, mirror: bool, package: Path | None, as_json: bool,
) -> None:  # fmt: skip
    """Say what an instrument can tell apart, from repeat readings.

    FILE is a table: a reading a row, who read it (operator), what was read
    (part), and what is true of it (reference) where that is known. Two or three
    people who read five to ten parts three times each, in mixed order and
    without looking at what they read before, make a good study.
    """
    from puttwright.deeds.say_gauge import gauge_json, gauge_lines
    from puttwright.deeds.study_gauge import study_gauge

    if package is not None and quantity is None:
        raise click.UsageError("--into needs --quantity: the column that the instrument reads")
    gauge = study_gauge(
        file, quantity=quantity, name=name, step=step, board_distance_m=distance_m, mirror=mirror,
        package=package,
    )  # fmt: skip
    if as_json:
        click.echo(json.dumps(gauge_json(gauge), indent=2, ensure_ascii=False))
    else:
        click.echo("\n".join(gauge_lines(gauge)))
