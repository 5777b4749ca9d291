"""Write the generated pages of docs/reference/: commands, the fitting package, errors, priors.

What a page says is taken from the code, so the two cannot drift; tests/house compares them.
"""

from __future__ import annotations

import importlib
import inspect
import math
import re
from collections.abc import Iterator
from pathlib import Path

import click

from puttwright.address.usual import BODY, GIVES, HABITS, READ_TO, REPEATS
from puttwright.errors import UserError
from puttwright.evidence import (
    AimReading,
    Build,
    Column,
    FirstPutt,
    FittingGreen,
    Golfer,
    Green,
    Instrument,
    Part,
    Putt,
    SetupReading,
    columns_of,
)
from puttwright.fitting.levers import LEVERS
from puttwright.fitting.priors import FOLLOW_MEAN, FOLLOW_SD, PRIORS

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "docs" / "reference"
WRITTEN = "<!-- Written by `make docs`; do not edit. -->\n"

ABOUT_THE_PACKAGE = """\
A fitting is one folder, or the same folder zipped: a Data Package (`datapackage.json`) with CSV
tables in UTF-8, decimals with a dot. An empty cell means not measured. Columns we do not know are
kept. Right is positive, seen by the golfer looking at the target, for right- and left-handers
alike; toe, high, up, topspin and handle-forward are positive.
"""
ABOUT_ERRORS = """\
What a person did or gave us that can be put right; `{words}` stand for what was found. Anything
else is a fault of ours: it shows an id, and the log holds the rest.
"""

ABOUT_ADDRESS = """\
Of the body over the ball, before it is measured. Lengths over height are without shoes; nobody is
asked for their sex. How it is used is told in [address](../concepts/address.md)."""
ADDRESS_TABLES = {
    "The body": BODY,
    "How it stands": HABITS,
    "How one golfer meets another putter": GIVES,
    "How two addresses to one putter differ": REPEATS,
    "Errors of reading, where nobody did a gauge study": READ_TO,
}

ABOUT_PRIORS = """\
What the tool believes before anyone putts, and who says so. It is deliberately loose: a dozen putts
outweigh most of it. How it is used is told in [belief](../concepts/belief.md).
"""
ABOUT_QUANTITIES = """\
Aim, start and launch are in degrees, strike is in mm, roll share in percent; pace and skid are
fractions of the roll. *All builds* is how far what the builds have in common may lie from what is
usual, *one build* how far a build may lie from the others, *spread* the usual standard deviation
from putt to putt with the factor it may be off by, *spreads differ* the share by which builds'
spreads may differ, *drift* how far readings may wander from first to last. All are standard
deviations.
"""
ABOUT_LEVERS = """\
An effect is what one step of the lever does to the quantity's average, against the golfer's own
putter; a named lever has no steps, each of its kinds has an effect of its own. One figure, learnt
from the golfer's readings, scales all the ± of a quantity together: a golfer whom no lever moves
is believed. Rows marked † turn over for a left-hander.
"""

FOLLOWING = """
Of an aim bias, {mean:g} ± {sd:g} is expected to reach the start line; the golfer steers back the
rest. Common practice, no source.
"""

TABLES = {
    "builds.csv": Build,
    "setups.csv": SetupReading,
    "aims.csv": AimReading,
    "putts.csv": Putt,
    "rack.csv": Part,
}
PARTS_OF_FITTING = {
    "golfer": Golfer,
    "greens": Green,
    "fitting_green": FittingGreen,
    "first_putts": FirstPutt,
    "instruments": Instrument,
}


def commands_page() -> str:
    """Every command as `--help` tells it."""
    from puttwright.cli import main

    parts = ["# Commands\n", WRITTEN]
    for path, command in _commands(main, path="puttwright"):
        context = click.Context(command, info_name=path, max_content_width=88, terminal_width=88)
        text = "\n".join(line.rstrip() for line in command.get_help(context).splitlines())
        parts += [f"## {path}\n", f"```text\n{text.strip()}\n```\n"]
    return "\n".join(parts)


def _commands(command: click.Command, *, path: str) -> Iterator[tuple[str, click.Command]]:
    yield path, command
    if isinstance(command, click.Group):
        context = click.Context(command, info_name=path)
        for name in command.list_commands(context):
            child = command.get_command(context, name)
            if child is not None and not child.hidden:
                yield from _commands(child, path=f"{path} {name}")


def package_page() -> str:
    """The columns of every table of a fitting package."""
    parts = [
        "# The fitting package\n",
        WRITTEN,
        ABOUT_THE_PACKAGE,
        "## fitting.json\n",
        "| field | holds |\n| --- | --- |",
        "| `fitting_id` | text |",
        "| `date` | ISO 8601 date |",
        "| `own_build` | the `build_id` of the putter the golfer came with |",
    ]
    parts += [f"| `{name}` | see below |" for name in PARTS_OF_FITTING]
    for name, record in PARTS_OF_FITTING.items():
        parts += [f"\n### {name}\n", *_columns(columns_of(record))]
    for name, record in TABLES.items():
        meaning = (record.__doc__ or "").strip().splitlines()[0]
        parts += [f"\n## {name}\n", f"One row: {meaning[0].lower()}{meaning[1:]}\n"]
        parts += _columns(columns_of(record))
    return "\n".join(parts) + "\n"


def _columns(columns: tuple[Column, ...]) -> Iterator[str]:
    yield "| column | meaning | holds | from | to | must be there |"
    yield "| --- | --- | --- | --: | --: | --- |"
    for column in columns:
        yield (
            f"| `{column.name}` | {column.meaning} | {_holds(column)} | {_end(column.low)} "
            f"| {_end(column.high)} | {'yes' if column.required else ''} |"
        )


def _holds(column: Column) -> str:
    if column.choices:
        return " / ".join(f"`{choice}`" for choice in column.choices)
    kind = {"yes_no": "`true` / `false`", "count": "whole number"}.get(column.kind, column.kind)
    return f"{kind}, {column.unit}" if column.unit else kind


def _end(value: float | None) -> str:
    return "" if value is None else f"{value:g}".replace("-", "−")


def errors_page() -> str:
    """Every error a person can meet and put right."""
    parts = [
        "# Errors\n",
        WRITTEN,
        ABOUT_ERRORS,
        "| code | says | exit | page |",
        "| --- | --- | --: | --: |",
    ]
    for error in sorted(user_errors(), key=lambda error: error.code):
        sentence = " ".join(inspect.cleandoc(error.__doc__ or "").split("\n\n")[0].split())
        says = f"{sentence} {error.hint}".strip().replace("|", "\\|")
        parts.append(f"| `{error.code}` | {says} | {error.exit_code} | {error.http_status} |")
    return "\n".join(parts) + "\n"


def user_errors() -> set[type[UserError]]:
    """The whole family, wherever a member is defined."""
    source = ROOT / "src"
    defines = re.compile(r"^class \w+\((\w+, *)*\w+\):\n    \"\"\"", re.MULTILINE)
    for path in sorted(source.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        if "puttwright.errors" in text and defines.search(text):
            parts = path.relative_to(source).with_suffix("").parts
            importlib.import_module(".".join(parts).removesuffix(".__init__"))
    return set(_family(UserError))


def _family(root: type[UserError]) -> Iterator[type[UserError]]:
    yield root
    for child in root.__subclasses__():
        if child.__module__.startswith("puttwright"):
            yield from _family(child)


def priors_page() -> str:
    """What is believed before the readings, with the source of each figure."""
    parts = [
        "# What is believed beforehand\n",
        WRITTEN,
        ABOUT_PRIORS,
        "## Quantities\n",
        ABOUT_QUANTITIES,
        "| quantity | usual | all builds | one build | spread | spreads differ | drift | source |",
        "| --- | --: | --: | --: | --: | --: | --: | --- |",
    ]
    parts += [
        f"| {row.name} | {_end(row.usual)} | {row.common_sd:g} | {row.effect_sd:g} "
        f"| {row.spread:g} ×/÷ {row.spread_factor:g} | {row.spread_effect:.0%} | {row.drift_sd:g} "
        f"| {row.source} |"
        for row in PRIORS
    ]
    parts += [
        FOLLOWING.format(mean=FOLLOW_MEAN, sd=FOLLOW_SD),
        "## Levers\n",
        ABOUT_LEVERS,
        "| lever | moves | step | effect of a step | source |",
        "| --- | --- | --: | --: | --- |",
    ]
    for lever in LEVERS:
        step = f"{lever.per:g}" if lever.per else "each kind"
        mark = " †" if lever.mirrors else ""
        effect = f"{_end(lever.expected)} ± {lever.sd:g}{mark}"
        parts.append(f"| `{lever.lever}` | {lever.quantity} | {step} | {effect} | {lever.source} |")
    return "\n".join([*parts, *_address_tables()]) + "\n"


def _address_tables() -> list[str]:
    """What is believed of a body and of how it stands, in mm, degrees and fractions."""
    parts = ["\n## At address\n", ABOUT_ADDRESS]
    for title, table in ADDRESS_TABLES.items():
        parts += [f"\n{title}:\n", "| what | usual | spread (sd) | source |"]
        parts.append("| --- | --: | --: | --- |")
        for row in table:
            name, factor, unit = _said(row.name)
            parts.append(
                f"| {name} | {_end(round(factor * row.mean, 3))}{unit} "
                f"| {round(factor * row.sd, 4):g}{unit} | {row.source} |"
            )
    return parts


def _said(name: str) -> tuple[str, float, str]:
    for ending, factor, unit in (("_rad", 180 / math.pi, "°"), ("_m", 1e3, " mm")):
        if name.endswith(ending):
            return name.removesuffix(ending).replace("_", " "), factor, unit
    return name.removesuffix("_share").replace("_", " ") + " over height", 1.0, ""


PAGES = {
    "package.md": package_page,
    "errors.md": errors_page,
    "commands.md": commands_page,
    "priors.md": priors_page,
}

if __name__ == "__main__":
    for page_name, write in PAGES.items():
        (FOLDER / page_name).write_text(write(), encoding="utf-8")
        print(f"docs/reference/{page_name}")
