"""The questions about a wanted feel, and about a head or putter on the bench."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from puttwright.club.alloys import ALLOYS, NECKS
from puttwright.deeds.measure_part import HEAD, PUTTER, READ
from puttwright.evidence import Build, Column, Part, columns_of
from puttwright.web.forms.asking import Question, question
from puttwright.web.forms.spoken import Wrong, spoken_number
from puttwright.web.texts import catalogue

SPACING: Final = Column("spacing_mm", "number", "", unit="mm", low=5, high=1500)
THREAD: Final = Column("thread_mm", "number", "", unit="mm", low=20, high=5000)
PERIOD: Final = Column("period_s", "number", "", unit="s", low=0.1, high=20)
TAPE: Final = Column("tape_g", "count", "", unit="g", low=0, high=50)
SWING: Final = Column("swing_weight", "text", "")
_LISTED: Final = Column("readings", "text", "")
_LISTED_TOO: Final = ("period_s",)


def feel_questions() -> tuple[Question, ...]:
    """One wish, perhaps at another length, and how much tape may be used."""
    text = catalogue()
    return (
        Question(name="swing_weight", column=SWING, label=text("putter.swing_weight"),
                 hint=text("putter.swing_weight_hint")),
        question(Build, "balance_from_butt_mm", label="putter.balance"),
        question(Build, "total_mass_g", label="putter.total"),
        question(Build, "length_mm", label="putter.at_length", said_in="in"),
        Question(name="tape_g", column=TAPE, label=text("putter.tape")),
    )  # fmt: skip


def metal_questions() -> tuple[Question, ...]:
    """What a head is made of, how its neck is joined, what it was bent before."""
    text = catalogue()
    alloys = tuple((key, alloy.said) for key, alloy in ALLOYS.items())
    joints = tuple((key, text(f"joint.{key}")) for key in NECKS)
    return (
        replace(question(Part, "alloy", label="rack.alloy"), offered=alloys),
        replace(question(Part, "neck_joint", label="rack.neck_joint"), offered=joints),
        question(Part, "bent_before_deg", label="rack.bent_before_deg"),
    )


def bench_part_questions() -> tuple[Question, ...]:
    """What is on the bench, and everything that can be read of it, lists for repeats."""
    text = catalogue()
    kinds = tuple((kind, text(f"rack.{kind}")) for kind in (HEAD, PUTTER))
    kind = replace(
        question(Part, "kind", label="rack.kind", needed=True), offered=kinds, start=HEAD
    )
    units = {column.name: column.unit for column in columns_of(Part)}
    read = tuple(
        replace(
            Question(name=name, column=_LISTED, label=text(f"sheet.{name}")),
            said_in=units[name],
        )
        for name in READ
    )
    return (
        question(Part, "part_id", label="rack.part_id", hint="rack.part_id_hint", needed=True),
        kind,
        question(Part, "label", label="rack.label"),
        question(Part, "head_shape", label="build.head_shape", words="build"),
        *metal_questions(),
        *read,
        Question(name="spacing_mm", column=SPACING, label=text("sheet.spacing_mm")),
        Question(name="thread_mm", column=THREAD, label=text("sheet.thread_mm")),
        Question(name="period_s", column=_LISTED, label=text("sheet.period_s"), said_in="s"),
    )


def listed(typed: Mapping[str, str]) -> tuple[dict[str, list[float]], dict[str, str]]:
    """Readings by their column from lists with blanks between, and what could not be read."""
    columns = {column.name: column for column in columns_of(Part)} | {"period_s": PERIOD}
    found: dict[str, list[float]] = {}
    messages: dict[str, str] = {}
    for name in (*READ, *_LISTED_TOO):
        words = typed.get(name, "").replace(";", " ").split()
        try:
            found[name] = [spoken_number(each, columns[name]) for each in words]
        except Wrong as wrong:
            messages[name] = wrong.sentence
    return found, messages
