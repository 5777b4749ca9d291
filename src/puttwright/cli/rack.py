"""``puttwright rack``: what can be built from the parts there are."""

from __future__ import annotations

import json
from pathlib import Path

import click

from puttwright.cli import options


@click.command("rack", short_help="What can be built from the rack.")
@options.package
@click.option(
    "--rack",
    "rack_file",
    type=options.PATH,
    metavar="FILE",
    help="A rack as CSV or spreadsheet, instead of the package's own.",
)
@click.option("--build", metavar="ID", help="Come near to this build, whatever the decision says.")
@click.option(
    "--with",
    "only",
    multiple=True,
    metavar="ID",
    help="Only putters with this part. Once for each.",
)
@click.option(
    "--most", type=click.IntRange(1, 40), default=5, show_default=True, help="How many to tell."
)
@click.option("--strokes", is_flag=True, help="Order the nearest by the strokes they would save.")
@options.seed
@options.as_json
def command(
    package: Path,
    rack_file: Path | None,
    build: str | None,
    only: tuple[str, ...],
    most: int,
    strokes: bool,
    seed: int,
    as_json: bool,
) -> None:
    """Find the combinations of parts that come nearest to what the fitting asks for.

    Parts must go with each other and be in stock; heads are bent no further
    than the rack and their metal allow. Putters that stand there built are
    among them. Prices are those of the rack.
    """
    from puttwright.deeds.say_rack import rack_json, rack_lines
    from puttwright.deeds.search_rack import search_package

    searched = search_package(
        package, rack=rack_file, build_id=build, most=most, strokes=strokes, only=only, seed=seed
    )
    if as_json:
        click.echo(json.dumps(rack_json(searched), indent=2))
    else:
        click.echo("\n".join(rack_lines(searched)))
