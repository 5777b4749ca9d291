"""``puttwright demo``: the whole job on an invented golfer."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("demo", short_help="The whole job on an invented golfer.")
@click.option(
    "--out",
    type=options.PATH,
    default=Path("puttwright-demo"),
    show_default=True,
    metavar="DIR",
    help="Where the results go.",
)
def command(out: Path) -> None:
    """Fit an invented golfer, from readings to a decision, a sheet and a build order.

    DIR gets the packages of a right-hander and of a left-hander, and the
    right-hander's decision.json, report.pdf and order.pdf. The same every time.
    """
    from puttwright.deeds.run_demo import run_demo

    done = run_demo(out, tell=lambda step: click.echo(step, err=True))
    click.echo("\n".join(done.lines))
    click.echo()
    for path, meaning in done.files.items():
        click.echo(f"{meaning:<18} {path}")
    click.echo("\nTo enter a fitting of your own: puttwright serve")
