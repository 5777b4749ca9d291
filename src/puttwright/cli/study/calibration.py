"""``puttwright study calibration``: does what we claim come true."""

from __future__ import annotations

import click

from puttwright.cli import options
from puttwright.cli.progress import progress


@click.command("calibration", short_help="Does what we claim come true.")
@click.option("--n", type=click.IntRange(1, 10_000), required=True, help="Golfers, 1 to 10000.")
@options.seed
@options.show_progress
def command(n: int, seed: int, progress_wanted: bool) -> None:
    """Invent golfers, decide each by every rule, and say what was promised and what came true.

    Prints tables in Markdown: regret, promised against delivered, coverage of
    the intervals and wrong confident claims, ours beside simple rules.
    """
    from puttwright.deeds.run_study import run_calibration

    with progress("Judging golfers", n, show=progress_wanted) as tell:
        lines = run_calibration(n, seed=seed, tell=tell)
    click.echo("\n".join(lines))
