"""What several commands ask for in the same words."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final, TypeVar

import click

from puttwright.errors import OutOfRange
from puttwright.readers.cells import not_a_number

Command = TypeVar("Command", bound=Callable[..., Any])


def read_number(text: str) -> float:
    """A finite number with a dot; a decimal comma gets its own sentence.

    Raises
    ------
    click.BadParameter
        The text is no such number.

    Examples
    --------
    >>> read_number("-2.5")
    -2.5
    """
    try:
        value = float(text.strip().replace("\N{MINUS SIGN}", "-"))
    except ValueError:
        raise click.BadParameter(not_a_number(text).split("; leave")[0]) from None
    if not math.isfinite(value):
        raise click.BadParameter(f"{text!r} is not a finite number")
    return value


PATH: Final = click.Path(path_type=Path)
package = click.argument("package", type=PATH)
seed = click.option(
    "--seed",
    type=click.IntRange(0, 2**31 - 1),
    default=1,
    show_default=True,
    help="The same seed on the same package gives the same bytes.",
)
data = click.option(
    "--data",
    type=PATH,
    metavar="DIR",
    help="Where the fittings are kept; your own data folder unless given.",
)
database = click.option(
    "--database",
    envvar="PUTTWRIGHT_DATABASE",
    metavar="ADDRESS",
    help="The records lie in this database instead: postgresql://user@host/name.",
)
as_json = click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else.")
show_progress = click.option(
    "--progress",
    "progress_wanted",
    is_flag=True,
    help="Show progress even when this is no terminal.",
)


def out_file(meaning: str) -> Callable[[Command], Command]:
    """The option ``--out FILE.pdf``."""
    return click.option("--out", type=PATH, required=True, metavar="FILE.pdf", help=meaning)


def number(
    name: str,
    meaning: str,
    *,
    between: tuple[float, float],
    unit: str = "",
    default: float | None = None,
    needed: bool = True,
) -> Callable[[Command], Command]:
    """A number option that says its range; without a default it must be given if ``needed``."""
    low, high = between
    span = f"{low:g} to {high:g} {unit}".rstrip()
    settings: dict[str, Any] = {"required": needed}
    if default is not None:
        settings = {"default": f"{default:g}", "show_default": True}

    def read(text: str) -> float:
        value = read_number(text)
        if not low <= value <= high:
            raise OutOfRange(name=name, value=value, low=low, high=high, unit=unit)
        return value

    return click.option(name, type=read, metavar="NUMBER", help=f"{meaning}, {span}.", **settings)
