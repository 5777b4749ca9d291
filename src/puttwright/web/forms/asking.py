"""A question of a form: which column it fills, how it is asked, what was typed, what was wrong."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from puttwright.evidence import Column, columns_of
from puttwright.evidence.ranges import unfit
from puttwright.pictures.hand import worded
from puttwright.web.forms.spoken import Wrong, shown_number, spoken_number
from puttwright.web.measures import handicap_words, spoken_unit
from puttwright.web.sentences import beside_field
from puttwright.web.texts import catalogue

Typed = Mapping[str, str]
"""What a form sent, by the names of its fields."""

_SAID: Mapping[str, str] = {"deg": "°"}
"""Units as they stand beside a field, where that differs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One field of a form.

    ``name`` is the field's; ``said_in`` the unit people speak there, when that is
    not the column's; ``offered`` maps choices to the words for them. A handicap is
    said with a plus where it is below nought, ``plus_is_below``.
    """

    name: str
    column: Column
    label: str
    hint: str = ""
    said_in: str = ""
    needed: bool = False
    start: str = ""
    offered: tuple[tuple[str, str], ...] = ()
    plus_is_below: bool = False

    @property
    def spoken(self) -> str:
        """The unit that is meant when none is typed."""
        return spoken_unit(self.said_in or self.column.unit)

    @property
    def unit(self) -> str:
        """The unit beside the field."""
        return _SAID.get(self.spoken) or worded(self.spoken)

    @property
    def first(self) -> str:
        """What stands in the field at first, in the unit that is spoken here."""
        meant = self.said_in or self.column.unit
        if not self.start or self.spoken == meant:
            return self.start
        value = spoken_number(self.start, self.column, said_in=meant)
        return shown_number(value, self.column, said_in=self.spoken)


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A question with what stands in it, ready to be drawn."""

    question: Question
    value: str
    message: str = ""

    @property
    def name(self) -> str:
        """The field's name."""
        return self.question.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What was read, by the names of the fields, and what could not be."""

    values: Mapping[str, Any]
    messages: Mapping[str, str] = field(default_factory=dict)

    @property
    def good(self) -> bool:
        """Whether everything could be read."""
        return not self.messages


def question(
    record: type,
    column: str,
    *,
    prefix: str = "",
    label: str,
    hint: str = "",
    said_in: str = "",
    needed: bool = False,
    start: str = "",
    words: str = "",
) -> Question:
    """A question for one column of a record; ``words`` is where the names of its choices are."""
    found = next(each for each in columns_of(record) if each.name == column)
    text = catalogue()
    return Question(
        name=prefix + column,
        column=found,
        label=text(label),
        hint=text(hint) if hint else "",
        said_in=said_in,
        needed=needed,
        start=start,
        offered=tuple((choice, text(f"{words}.{choice}")) for choice in found.choices if words),
    )


def fields(
    questions: Sequence[Question],
    *,
    typed: Typed | None = None,
    told: Mapping[str, str] | None = None,
) -> tuple[Field, ...]:
    """The questions as they are drawn: with what was typed, or as they stand at first."""
    messages = told or {}
    return tuple(
        Field(
            question=each,
            value=each.first if typed is None else typed.get(each.name, ""),
            message=messages.get(each.name, ""),
        )
        for each in questions
    )


def read(questions: Iterable[Question], typed: Typed, *, tapped: bool = False) -> Answers:
    """Read what was typed; every question is judged, so that all is told at once.

    What was ``tapped`` on a drawing comes in the columns' own units.
    """
    values: dict[str, Any] = {}
    messages: dict[str, str] = {}
    for each in questions:
        try:
            values[each.name] = _answer(each, typed.get(each.name, "").strip(), tapped=tapped)
        except Wrong as wrong:
            messages[each.name] = wrong.sentence
    return Answers(values=values, messages=messages)


def _answer(asked: Question, text: str, *, tapped: bool) -> Any:
    if not text:
        if asked.needed:
            raise Wrong(catalogue()("form.missing"))
        return None
    if asked.column.kind == "number":
        text = f"-{text[1:]}" if asked.plus_is_below and text.startswith("+") else text
        return spoken_number(text, asked.column, said_in="" if tapped else asked.spoken)
    if asked.column.kind == "count":
        return _count(text, asked)
    if asked.column.choices and text not in asked.column.choices:
        raise Wrong(catalogue()("form.not_a_choice"))
    if asked.column.kind == "yes_no":
        return text == "yes"
    wrong = unfit(text, asked.column)
    if wrong:
        raise Wrong(beside_field(wrong))
    return text


def _count(text: str, asked: Question) -> int:
    value = spoken_number(text, asked.column)
    if not value.is_integer():
        raise Wrong(catalogue()("form.not_a_count", text=text[:40]))
    return int(value)


def under_columns(answers: Answers, questions: Iterable[Question]) -> dict[str, Any]:
    """What was read, by the names of the columns instead of the fields."""
    return {each.column.name: answers.values.get(each.name) for each in questions}


def as_typed(record: object, questions: Iterable[Question]) -> dict[str, str]:
    """What a form would hold had the record been typed in."""
    return {each.name: _typed(getattr(record, each.column.name), each) for each in questions}


def _typed(value: Any, asked: Question) -> str:
    if value is None:
        return ""
    if asked.column.kind == "yes_no":
        return "yes" if value else "no"
    if asked.plus_is_below:
        return handicap_words(value)
    if asked.column.kind == "number":
        return shown_number(value, asked.column, said_in=asked.spoken)
    return str(value)


def renamed(asked: Question, *, prefix: str) -> Question:
    """The same question for one of several records on a form."""
    return replace(asked, name=prefix + asked.name)
