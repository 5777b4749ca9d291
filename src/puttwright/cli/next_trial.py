"""``puttwright next``: which putts are worth most to know."""

from __future__ import annotations

import json
from pathlib import Path

import click

from puttwright.cli import options


@click.command("next", short_help="Say what to try next.")
@options.package
@options.seed
@options.as_json
def command(package: Path, seed: int, as_json: bool) -> None:
    """Say which build to try next, from where, how often, and what that would settle.

    The running order says what to hand over now and after it, so that no build
    gains from what was in hand before it. It is planned anew with every reading.
    With --json, the "next_trial" of decision.json: null when no further putts
    are worth taking.
    """
    from puttwright.deeds.decide_package import decide_package
    from puttwright.deeds.say_decision import next_line, order_line
    from puttwright.fitting.wire import to_json

    fitting, decision = decide_package(package, seed=seed)
    if as_json:
        click.echo(json.dumps(to_json(decision)["next_trial"], indent=2, ensure_ascii=False))
    else:
        lines = (next_line(decision, fitting), order_line(decision, fitting))
        click.echo("\n".join(line for line in lines if line))
