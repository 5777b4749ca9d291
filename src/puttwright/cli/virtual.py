"""``puttwright virtual``: invented golfers whose truth is known."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options
from puttwright.cli.progress import progress


@click.command("virtual", short_help="Invent golfers whose truth is known.")
@click.option("--n", type=click.IntRange(1, 10_000), required=True, help="How many, 1 to 10000.")
@options.seed
@click.option("--out", type=options.PATH, required=True, metavar="DIR", help="Where they go.")
@options.show_progress
def command(n: int, seed: int, out: Path, progress_wanted: bool) -> None:
    """Invent golfers, right- and left-handed, each a fitting package with its truth.

    DIR gets a folder a golfer; truth.json in it says what each build really
    saves, which a decision may be held against.
    """
    from puttwright.deeds.invent_golfers import invent_golfers

    with progress("Inventing golfers", n, show=progress_wanted) as tell:
        invent_golfers(n, seed=seed, out=out, tell=tell)
    click.echo(f"{n} invented {'golfer is' if n == 1 else 'golfers are'} in {out}")
