"""``puttwright study stopping``: is it honest to look after every block and stop when told."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.progress import progress


@click.command("stopping", short_help="Is it honest to stop when told.")
@click.option("--n", type=click.IntRange(1, 10_000), required=True, help="Golfers, 1 to 10000.")
@options.seed
@options.show_progress
def command(n: int, seed: int, progress_wanted: bool) -> None:
    """Let invented golfers putt block by block, look after each and stop when told.

    Prints a table in Markdown: how often intervals held the truth, what was
    promised against what came true, and what was left on the table, beside
    the same golfers after twelve putts a build. Takes some seconds a golfer.
    """
    from puttwright.deeds.run_study import run_stopping

    with progress("Letting golfers putt", n, show=progress_wanted) as tell:
        lines = run_stopping(n, seed=seed, tell=tell)
    click.echo("\n".join(lines))
