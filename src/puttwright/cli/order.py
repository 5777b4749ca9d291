"""``puttwright order``: the build order for the workshop as a PDF."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("order", short_help="Print the build order.")
@options.package
@click.option("--build", metavar="ID", help="Order this build, whatever the decision says.")
@options.seed
@options.out_file("Where the order goes.")
def command(package: Path, build: str | None, seed: int, out: Path) -> None:
    """Print the build order: a drawing with dimensions, parts, tolerances and cautions.

    Without --build it orders what the decision says. The same package and
    seed give the same file, byte for byte.
    """
    from puttwright.deeds.write_order import write_order

    write_order(package, out=out, seed=seed, build_id=build)
    click.echo(f"The build order is in {out}")
