"""How far a long action is, on stderr: a bar in a terminal, lines when asked for, else nothing."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable, Iterator

import click


@contextlib.contextmanager
def progress(label: str, total: int, *, show: bool) -> Iterator[Callable[[int], None]]:
    """Give a function to call with how many more are done.

    Parameters
    ----------
    label
        What is being done.
    total
        How many there are.
    show
        Also when stderr is no terminal, then as a line every tenth of the way.
    """
    if sys.stderr.isatty():
        with click.progressbar(length=total, label=label, file=sys.stderr) as bar:
            yield bar.update
    elif show:
        yield _by_lines(label, total)
    else:
        yield lambda _more: None


def _by_lines(label: str, total: int) -> Callable[[int], None]:
    done = 0

    def tell(more: int) -> None:
        nonlocal done
        before, done = done, done + more
        if 10 * done // max(total, 1) > 10 * before // max(total, 1):
            click.echo(f"{label}: {done} of {total}", err=True)

    return tell
