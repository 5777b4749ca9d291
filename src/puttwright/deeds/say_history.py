"""The history of a fitting in lines: every reading, and who took one back, when and why."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from puttwright.evidence import columns_of
from puttwright.store.readings import Kept

_NAMES = {"setups": "set-up", "aims": "aim", "putts": "putt"}


def history_lines(history: Sequence[Kept]) -> list[str]:
    """One line a reading, in the order in which they were taken, times in UTC."""
    return [_line(kept) for kept in history] or ["There is no reading yet."]


def _line(kept: Kept) -> str:
    line = f"{_when(kept)}  {kept.who}  {_NAMES[kept.kind]} {kept.seq}  {_said(kept)}"
    void = kept.void
    if void is None:
        return line
    instead = f", {_NAMES[kept.kind]} {void.replaced_by} in its place" if void.replaced_by else ""
    return (
        f"{line}\n    taken back {void.when:%Y-%m-%d %H:%M:%S} by {void.who}: {void.why}{instead}"
    )


def _when(kept: Kept) -> str:
    return f"{kept.when:%Y-%m-%d %H:%M:%S}"


def _said(kept: Kept) -> str:
    """What was read, as ``column=value``; what goes without saying is left out."""
    silent = {item.name: item.default for item in dataclasses.fields(kept.reading)}
    said = []
    for column in columns_of(type(kept.reading)):
        value = getattr(kept.reading, column.name)
        if column.name not in {"seq", "void"} and value != silent.get(column.name):
            said.append(f"{column.name}={value}")
    return " ".join(said)
