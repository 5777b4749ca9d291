"""The program: its commands, and what a person sees when something goes wrong."""

from __future__ import annotations

import os
import sys
from typing import Any, Final

import click

from puttwright import __version__
from puttwright.cli.fault import keep_trace
from puttwright.cli.lazy import LazyGroup
from puttwright.deeds.cache_folder import settle_cache
from puttwright.errors import UserError

_OUR_FAULT: Final = 70
_COMMANDS: Final = {
    "demo": "puttwright.cli.demo",
    "decide": "puttwright.cli.decide",
    "next": "puttwright.cli.next_trial",
    "report": "puttwright.cli.report",
    "rack": "puttwright.cli.rack",
    "order": "puttwright.cli.order",
    "check-in": "puttwright.cli.check_in",
    "check-again": "puttwright.cli.check_again",
    "board": "puttwright.cli.board",
    "measure": "puttwright.cli.measure",
    "read": "puttwright.cli.read",
    "gauge": "puttwright.cli.gauge",
    "virtual": "puttwright.cli.virtual",
    "serve": "puttwright.cli.serve",
    "check": "puttwright.cli.check",
    "backup": "puttwright.cli.backup",
    "restore": "puttwright.cli.restore",
    "history": "puttwright.cli.history",
    "trail": "puttwright.cli.trail",
    "export": "puttwright.cli.export",
    "import": "puttwright.cli.import_shop",
    "copy": "puttwright.cli.copy_golfer",
    "erase": "puttwright.cli.erase",
    "doctor": "puttwright.cli.doctor",
    "study": "puttwright.cli.study",
    "calc": "puttwright.cli.calc",
}


class Program(LazyGroup):
    """The group that phrases errors: code 2 for what a person can put right, 70 for our faults."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; whatever it raises becomes a sentence, never a trace."""
        _let_any_letter_through()
        _leave_the_cores_to_us()
        _keep_what_is_compiled()
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort, BrokenPipeError):
            raise
        except UserError as trouble:
            sentence = "\n".join(filter(None, (str(trouble), trouble.hint)))
            click.echo(sentence, err=True)
            ctx.exit(trouble.exit_code)
        except Exception as fault:  # noqa: BLE001 - the last door: an id for a person, the rest to the log
            click.echo(keep_trace(fault), err=True)
            ctx.exit(_OUR_FAULT)


def _leave_the_cores_to_us() -> None:
    """Our own threads use every core; those of the linear algebra below them would stand in line.

    It must be said before NumPy is loaded; who sets it otherwise is obeyed.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


def _keep_what_is_compiled() -> None:
    """Where no folder can be written the compiler refuses to start; a line says the cost."""
    sentence = settle_cache()
    if sentence:
        click.echo(sentence, err=True)


def _let_any_letter_through() -> None:
    """A console that lacks a letter shows ``?`` for it instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure:
            reconfigure(errors="replace")


@click.group(cls=Program, modules=_COMMANDS, context_settings={"help_option_names": ["--help"]})
@click.version_option(__version__, prog_name="puttwright", message="%(prog)s %(version)s")
def main() -> None:
    """Fit a putter to a golfer: readings in, an honest decision and a build order out.

    PACKAGE is the folder of a fitting, or that folder zipped. Angles and
    distances to the right are positive, for right- and left-handers alike.
    """
