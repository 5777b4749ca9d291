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

    With --json, the "next_trial" of decision.json: null when nothing more
    would change the decision.
    """
    from puttwright.deeds.decide_package import decide_package
    from puttwright.deeds.say_decision import next_line
    from puttwright.fitting.wire import to_json

    fitting, decision = decide_package(package, seed=seed)
    if as_json:
        click.echo(json.dumps(to_json(decision)["next_trial"], indent=2, ensure_ascii=False))
    else:
        click.echo(next_line(decision, fitting))
