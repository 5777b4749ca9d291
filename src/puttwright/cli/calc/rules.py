"""``puttwright calc rules``: a putter against the equipment rules."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

import click

from puttwright.cli import options


@click.command("rules", short_help="A putter against the equipment rules.")
@options.number("--length-mm", "Butt to sole", between=(1, 3000), unit="mm", needed=False)
@options.number("--lie-deg", "Shaft to ground", between=(0, 90), unit="deg", needed=False)
@options.number("--loft-deg", "Face to vertical", between=(-45, 60), unit="deg", needed=False)
@options.number(
    "--shaft-lean-deg", "Handle forward positive", between=(-60, 60), unit="deg", needed=False
)
@options.number(
    "--straight-above-sole-mm",
    "Sole to where the shaft is straight, along its bends",
    between=(0, 1000),
    unit="mm",
    needed=False,
)
@options.number(
    "--neck-length-mm", "Sole to top of neck", between=(1, 500), unit="mm", needed=False
)
@options.number(
    "--grip-length-mm", "The grip, end to end", between=(1, 1500), unit="mm", needed=False
)
@options.number(
    "--grip-width-mm", "Widest section of the grip", between=(1, 200), unit="mm", needed=False
)
@options.number("--grip-gap-mm", "Between two grips", between=(1, 1500), unit="mm", needed=False)
@options.number(
    "--upper-grip-mm", "Upper of two grips, end to end", between=(1, 1500), unit="mm", needed=False
)
@options.number("--head-width-mm", "Head, heel to toe", between=(1, 500), unit="mm", needed=False)
@options.number("--head-depth-mm", "Head, face to back", between=(1, 500), unit="mm", needed=False)
@options.number("--head-height-mm", "Head, sole to top", between=(1, 500), unit="mm", needed=False)
@options.number("--face-width-mm", "Face, heel to toe", between=(1, 500), unit="mm", needed=False)
@options.number(
    "--second-loft-deg", "Loft of a second face", between=(-45, 60), unit="deg", needed=False
)
@options.number("--face-shore-a", "Hardness of the face", between=(1, 100), needed=False)
@options.number(
    "--insert-proud-mm", "Insert proud of the face", between=(-10, 10), unit="mm", needed=False
)
@options.number(
    "--groove-width-mm", "A groove's width", between=(0.01, 20), unit="mm", needed=False
)
@options.number(
    "--groove-depth-mm", "A groove's depth", between=(0.01, 20), unit="mm", needed=False
)
@options.number(
    "--length-error-mm",
    "How far lengths may be from the truth",
    between=(0, 50),
    unit="mm",
    default=0.0,
)
@options.number(
    "--angle-error-deg",
    "How far angles may be from the truth",
    between=(0, 10),
    unit="deg",
    default=0.0,
)
@options.as_json
def command(
    as_json: bool, length_error_mm: float, angle_error_deg: float, **values: float | None
) -> None:
    """Hold what was measured against each clause: within, beyond, or for a person to look at.

    What is left out is told as not measured. The governing bodies decide.
    """
    from puttwright.club.rules import calc_rules

    measured = {name: value for name, value in values.items() if value is not None}
    by_ending = {"_mm": length_error_mm, "_deg": angle_error_deg}
    error = {name: by_ending.get("_" + name.rsplit("_", 1)[1], 0.0) for name in measured}
    told = calc_rules(measured, error=error)
    click.echo(json.dumps(told, indent=2) if as_json else "\n".join(_lines(told)))


def _lines(told: Mapping[str, Any]) -> Iterator[str]:
    """One line a clause, the verdict first."""
    for each in told["clauses"]:
        measured, unit = each["measured"], "°" if each["unit"] == "deg" else f" {each['unit']}"
        value = "not measured" if measured is None else f"{measured:.5g}{unit}".rstrip()
        memory = "" if each["status"] == "seen" else f" ({each['status']})"
        note = f" {each['note']}" if each["note"] else ""
        limit = each["limit"]
        yield f"{each['verdict']:<6}  {each['clause']}: {value}; {limit}{memory}.{note}"
    yield from filter(None, (told["anchoring"], told["decides"]))
