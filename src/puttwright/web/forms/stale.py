"""A form that writes over something: what it was filled in from, and what changed since.

Beside each field stands, unseen, what was in it when the page was opened. A page
from yesterday can so be told what is different today, field by field.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from puttwright.web.forms.asking import Answers, Question, Typed, as_typed
from puttwright.web.texts import catalogue

SEEN: Final = "seen"
_WAS: Final = "was-"


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledFrom:
    """The mark of what a form was filled in from, and its fields as they stood."""

    mark: str
    was: tuple[tuple[str, str], ...]


def filled_from(mark: str, *, stood: Mapping[str, str]) -> FilledFrom:
    """What goes along with a form, unseen."""
    return FilledFrom(mark=mark, was=tuple((f"{_WAS}{name}", text) for name, text in stood.items()))


def changed_since(
    questions: Iterable[Question], typed: Typed, *, stands: Mapping[str, str]
) -> tuple[str, ...]:
    """What is different from when the page was opened, a line for each field.

    Parameters
    ----------
    questions
        The fields of the form.
    typed
        What was sent, with what the fields held when the page was opened.
    stands
        What they would hold if it were opened now.
    """
    text = catalogue()
    nothing = text("stale.nothing")
    lines = []
    for asked in questions:
        was, now = typed.get(f"{_WAS}{asked.name}", "").strip(), stands.get(asked.name, "")
        if was != now:
            before, after = _said(asked, was) or nothing, _said(asked, now) or nothing
            lines.append(text("stale.field", name=asked.label, was=before, now=after))
    return tuple(lines)


def put_right(record: Any, questions: Sequence[Question], *, answers: Answers, typed: Typed) -> Any:
    """The record with what was typed in it; a field left as it was keeps its last digit.

    A figure is shown rounded, in the unit that is spoken, and must not change by being looked at.
    """
    stands = as_typed(record, questions)
    values = {
        each.column.name: answers.values.get(each.name)
        for each in questions
        if typed.get(each.name, "").strip() != stands[each.name]
    }
    return replace(record, **values)


def _said(asked: Question, value: str) -> str:
    words = dict(asked.offered).get(value, value)
    return f"{words} {asked.unit}".strip() if value and asked.unit else words
