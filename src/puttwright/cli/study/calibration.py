"""``puttwright study calibration``: does what we claim come true."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options
from puttwright.cli.progress import progress


@click.command("calibration", short_help="Does what we claim come true.")
@click.option("--n", type=click.IntRange(1, 10_000), required=True, help="Golfers, 1 to 10000.")
@options.seed
@click.option(
    "--plans",
    is_flag=True,
    help="Also twelve putts a head against putts where they are worth most; takes longer.",
)
@click.option(
    "--out", type=options.PATH, metavar="DIR", help="Write calibration.md and pictures there."
)
@options.show_progress
def command(n: int, seed: int, plans: bool, out: Path | None, progress_wanted: bool) -> None:
    """Invent golfers, decide each by every rule, and say what was promised and what came true.

    Prints tables in Markdown: regret, promised against delivered, coverage of
    the intervals and wrong confident claims, ours beside simple rules and a
    generic Bayesian optimiser, which needs scikit-learn. With --out the page and
    its pictures are written instead.
    """
    from puttwright.deeds.run_study import run_calibration, write_study

    with progress("Judging golfers", 2 * n if plans else n, show=progress_wanted) as tell:
        study = run_calibration(n, seed=seed, plans=plans, tell=tell)
    if out is None:
        click.echo("\n".join(study.lines()))
        return
    paths = write_study(study, out)
    click.echo(f"The study is in {paths[0]}, with {len(paths) - 1} pictures beside it.")
