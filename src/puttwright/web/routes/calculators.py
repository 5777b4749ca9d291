"""The calculators: one page each, the figures typed, the drawing, what follows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter, Request, Response

from puttwright.errors import NotFound, UserError
from puttwright.web.calculators.calculator import Calculator, told
from puttwright.web.calculators.of_the_putt import OF_THE_PUTT
from puttwright.web.calculators.of_the_putter import OF_THE_PUTTER
from puttwright.web.drawings.drawing import Drawing
from puttwright.web.forms.asking import Field, fields, read
from puttwright.web.forms.spoken import Wrong
from puttwright.web.pages import render
from puttwright.web.sentences import hint_of, sentence_of
from puttwright.web.texts import catalogue

router = APIRouter()

AT: Final = "/calculators"
GROUPS: Final = {"putt": OF_THE_PUTT, "putter": OF_THE_PUTTER}
_EVERY: Final = {each.key: each for group in GROUPS.values() for each in group}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A calculator in the list."""

    address: str
    title: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CalculatorsPage:
    """The list, group by group."""

    groups: tuple[tuple[str, tuple[Line, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """What was reckoned: figures with their names, a drawing, flags, and more in words."""

    figures: tuple[tuple[str, str], ...]
    drawing: Drawing
    flags: tuple[str, ...]
    more: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CalculatorPage:
    """One calculator; ``message`` tells what no single field can."""

    address: str
    title: str
    words: str
    fields: tuple[Field, ...]
    result: Result | None
    message: str = ""
    hint: str = ""


@router.get(AT)
def show_calculators(request: Request) -> Response:
    """The list."""
    text = catalogue()
    groups = tuple(
        (text(f"calc.group_{name}"), tuple(map(_line, group))) for name, group in GROUPS.items()
    )
    return render(request, "calculators.html", page=CalculatorsPage(groups=groups))


@router.get(AT + "/{key}")
def show_calculator(request: Request, key: str) -> Response:
    """One of them; its figures stand in the address, so that they can be kept and sent on."""
    found = _EVERY.get(key)
    if found is None:
        raise NotFound(what="calculator", name=key, known=", ".join(_EVERY))
    asked = found.questions()
    typed = {each.name: each.first for each in asked}
    if request.query_params:
        typed = {each.name: request.query_params.get(each.name, "") for each in asked}
    answers = read(asked, typed)
    page = _page(found, typed, messages=answers.messages)
    if answers.good:
        try:
            page = _page(found, typed, result=_result(found, answers.values))
        except UserError as error:
            page = _page(found, typed, message=sentence_of(error), hint=hint_of(error))
        except Wrong as wrong:
            page = _page(found, typed, message=wrong.sentence)
    return render(request, "calculator.html", page=page, status=200 if page.result else 422)


def _line(each: Calculator) -> Line:
    text = catalogue()
    key = each.key.replace("-", "_")
    return Line(
        address=f"{AT}/{each.key}", title=text(f"calc.{key}"), words=text(f"calc.{key}_about")
    )


def _page(
    found: Calculator,
    typed: Mapping[str, str],
    *,
    messages: Mapping[str, str] | None = None,
    result: Result | None = None,
    message: str = "",
    hint: str = "",
) -> CalculatorPage:
    line = _line(found)
    return CalculatorPage(
        address=line.address,
        title=line.title,
        words=line.words,
        fields=fields(found.questions(), typed=typed, told=messages),
        result=result,
        message=message,
        hint=hint,
    )


def _result(found: Calculator, values: Mapping[str, object]) -> Result:
    text = catalogue()
    reckoned = found.reckon(values)
    flags = reckoned.get("flags") or ()
    return Result(
        figures=tuple(
            (text(f"calc.out_{each.name}"), told(each, reckoned)) for each in found.figures
        ),
        drawing=found.draw(values, reckoned),
        flags=tuple(str(each) for each in flags),
        more=tuple(found.more(reckoned)),
    )
