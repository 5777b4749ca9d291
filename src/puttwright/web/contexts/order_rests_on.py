"""What an order rests on, the answer and the figures: told apart by value, said in words.

Beside the form stand, unseen, marks of both as they were when the page was opened.
Another language or another unit changes the words of a page and no mark; a figure
that changed by less than is shown changes the mark and no word.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final
from urllib.parse import parse_qsl, urlencode

from puttwright.deeds.change_fitting import state_mark
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.say_decision import choice_line
from puttwright.evidence import Build
from puttwright.fitting.decision import Decision
from puttwright.web.contexts.details_page import gauge_questions
from puttwright.web.contexts.putter_page import builds_to_look_at
from puttwright.web.forms.asking import as_typed
from puttwright.web.forms.stale import changed_since as fields_changed
from puttwright.web.texts import catalogue

_MARK: Final = "mark-"
_WAS: Final = "was-"
_ANSWER_MARK: Final = "mark."
_ANSWER_WAS: Final = "was."


def as_it_stands(opened: OpenFitting) -> dict[str, str]:
    """The unseen fields: a mark of the answer and of every putter, and how each was said."""
    stands = {}
    for build in builds_to_look_at(opened):
        stands[f"{_MARK}{build.build_id}"] = state_mark(build)
        stands[f"{_WAS}{build.build_id}"] = urlencode(_figures(build))
    if opened.decision:
        stands[_ANSWER_MARK] = _mark_of(opened.decision)
        stands[_ANSWER_WAS] = choice_line(opened.decision, opened.fitting)
    return stands


def changed_since(opened: OpenFitting, typed: Mapping[str, str]) -> tuple[str, ...]:
    """What is different from when the page was opened, of what the order would rest on.

    Parameters
    ----------
    opened
        The fitting as it stands.
    typed
        What was sent, with the unseen fields of then; without them nothing is held against it.
    """
    return (*_answer_changed(opened, typed), *_putter_changed(opened, typed))


def _figures(build: Build) -> dict[str, str]:
    return as_typed(build, gauge_questions())


def _mark_of(decision: Decision) -> str:
    """What is to be built; how many more putts would tell is another matter."""
    spec = sorted(decision.spec.items()) if decision.extrapolated else []
    return state_mark((decision.choice, spec))


def _answer_changed(opened: OpenFitting, typed: Mapping[str, str]) -> list[str]:
    seen, decision = typed.get(_ANSWER_MARK), opened.decision
    if not seen or (decision and seen == _mark_of(decision)):
        return []
    text = catalogue()
    now = choice_line(decision, opened.fitting) if decision else text("stale.nothing")
    return [text("stale.decision", was=typed.get(_ANSWER_WAS, ""), now=now)]


def _putter_changed(opened: OpenFitting, typed: Mapping[str, str]) -> tuple[str, ...]:
    text = catalogue()
    ordered = typed.get("build", "")
    seen = typed.get(f"{_MARK}{ordered}")
    build = next((each for each in builds_to_look_at(opened) if each.build_id == ordered), None)
    if not seen or (build and seen == state_mark(build)):
        return ()
    if build is None:
        return (text("stale.gone", name=ordered),)
    then = parse_qsl(typed.get(f"{_WAS}{ordered}", ""), keep_blank_values=True)
    was = {f"{_WAS}{name}": value for name, value in then}
    lines = fields_changed(gauge_questions(), was, stands=_figures(build))
    return lines or (text("stale.little", name=build.name),)
