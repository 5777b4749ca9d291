"""``puttwright decide``: what a fitting says."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


@click.command("decide", short_help="Say which putter, and what it saves.")
@options.package
@options.seed
@options.as_json
@click.option("--out", type=options.PATH, metavar="DIR", help="Also write DIR/decision.json.")
def command(package: Path, seed: int, as_json: bool, out: Path | None) -> None:
    """Say which putter, how many strokes it saves, and how sure that is.

    The answer is a build, "keep" (the golfer's own putter stays) or
    "undecided". Strokes saved are against the golfer's own putter, positive
    is better. A wrong package is told whole, and nothing is written then.
    """
    from puttwright.deeds.decide_package import decide_package
    from puttwright.deeds.say_decision import decision_lines
    from puttwright.fitting.wire import to_bytes

    fitting, decision = decide_package(package, seed=seed, out=out)
    if as_json:
        click.echo(to_bytes(decision), nl=False)
    else:
        click.echo("\n".join(decision_lines(decision, fitting)))
