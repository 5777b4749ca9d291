"""One calculator: its questions, its figures, its drawing."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from puttwright.evidence import Column
from puttwright.fitting.phrases import figure
from puttwright.web.drawings.drawing import Drawing
from puttwright.web.forms.asking import Question
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue

Values = Mapping[str, Any]
"""What was typed, by the names of the questions, in the units of the commands."""
Found = Mapping[str, Any]
"""What was reckoned, as the command prints it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A figure that is told: its name among the found ones, its unit and digits."""

    name: str
    unit: str = ""
    digits: int = 1
    sign: bool = False
    times: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Calculator:
    """A calculator under its key; ``figures`` are told in this order."""

    key: str
    questions: Callable[[], Sequence[Question]]
    reckon: Callable[[Values], Found]
    figures: tuple[Figure, ...]
    draw: Callable[[Values, Found], Drawing]
    more: Callable[[Found], Sequence[str]] = lambda _found: ()


def asked(
    name: str, *, unit: str = "", between: tuple[float, float] | None = None, start: str = "",
    needed: bool = False, hint: bool = False, kind: str = "number",
) -> Question:  # fmt: skip
    """A question under the name of the command's option."""
    text = catalogue()
    low, high = between or (None, None)
    return Question(
        name=name,
        column=Column(name, kind, "", unit=unit, low=low, high=high),
        label=text(f"calc.{name}"),
        hint=text(f"calc.{name}_hint") if hint else "",
        needed=needed,
        start=start,
    )


def chosen(name: str, *choices: str, start: str = "", needed: bool = True) -> Question:
    """A question with choices, in words."""
    text = catalogue()
    return Question(
        name=name,
        column=Column(name, "text", "", choices=choices),
        label=text(f"calc.{name}"),
        needed=needed,
        start=start,
        offered=tuple((each, text(f"calc.{name}_{each}")) for each in choices),
    )


def told(shown: Figure, found: Found) -> str:
    """A figure as it stands on the page; a dash where there is none."""
    value = found.get(shown.name)
    if value is None:
        return "–"
    if isinstance(value, str):
        return value
    if isinstance(value, list):
        low, high = (
            figure(end * shown.times, digits=shown.digits, sign=shown.sign) for end in value
        )
        return catalogue()("calc.interval", low=low, high=high)
    if not shown.unit:
        return figure(value * shown.times, digits=shown.digits, sign=shown.sign)
    return measure(value * shown.times, shown.unit, digits=shown.digits, sign=shown.sign)


def given(values: Values, *names: str) -> dict[str, Any]:
    """Those of the values that were said."""
    return {name: values[name] for name in names if values.get(name) is not None}
