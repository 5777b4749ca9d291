"""The page on which a head or putter is measured for the rack."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from puttwright.club.bench import HeadSheet
from puttwright.deeds.say_part import bend_words
from puttwright.web.forms.asking import Field, fields
from puttwright.web.forms.bench_forms import bench_part_questions


@dataclass(frozen=True, slots=True, kw_only=True)
class RackBenchPage:
    """The form, and the sheet of what was measured; ``kept`` says that it is on the rack."""

    fields: tuple[Field, ...]
    lines: tuple[str, ...]
    bending: str
    name: str
    kept: bool
    wrong: bool
    message: str


def rack_bench_page(
    *,
    typed: Mapping[str, str] | None = None,
    messages: Mapping[str, str] | None = None,
    message: str = "",
    sheet: HeadSheet | None = None,
    kept: bool = False,
) -> RackBenchPage:
    """The page, empty, with what is wrong, or with a sheet."""
    return RackBenchPage(
        fields=fields(bench_part_questions(), typed=typed, told=messages),
        lines=() if sheet is None else sheet.lines(),
        bending="" if sheet is None else bend_words(sheet.part()),
        name="" if sheet is None else sheet.label or sheet.part_id,
        kept=kept,
        wrong=bool(messages),
        message=message,
    )
