"""One putter of a fitting: its figures with their doubt, and what would change them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from puttwright.club.what_if import usual_changes
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.say_feel import EACH_ALONE, WAY_NAMES, now_words, stock_words, way_words
from puttwright.deeds.say_putter import effect_rows
from puttwright.deeds.want_feel import FeelFound
from puttwright.evidence import Build
from puttwright.fitting.putter_figures import lean_of, putter_figures
from puttwright.pictures.of_fitting import chosen_build, marks
from puttwright.web.contexts.heading import Heading, address_of, heading, quoted
from puttwright.web.forms.asking import Field, fields
from puttwright.web.forms.bench_forms import feel_questions
from puttwright.web.sentences import said_here


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeRow:
    """A change, and what it does to each figure of the table's head."""

    what: str
    effects: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FeelSaid:
    """The ways to a wanted feel: way and words, and the weights in stock."""

    now: str
    ways: tuple[tuple[str, str], ...]
    stock: str
    alone: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PutterPage:
    """The whole page."""

    heading: Heading
    address: str
    letter: str
    role: str
    name: str
    figures: tuple[tuple[str, str], ...]
    lean: str
    notes: tuple[str, ...]
    change_head: tuple[str, ...]
    changes: tuple[ChangeRow, ...]
    fields: tuple[Field, ...]
    feel: FeelSaid | None
    message: str


def builds_to_look_at(opened: OpenFitting) -> tuple[Build, ...]:
    """The builds of the fitting, and the one the decision asks for where nobody held it."""
    builds = list(opened.fitting.builds)
    chosen = chosen_build(opened.fitting, opened.decision) if opened.decision else None
    if chosen and chosen.build_id not in {build.build_id for build in builds}:
        builds.append(chosen)
    return tuple(builds)


def putter_address(fitting_id: str, build_id: str) -> str:
    """The address of a putter's page."""
    return f"{address_of(fitting_id)}/putters/{quoted(build_id)}"


def putter_page(
    opened: OpenFitting,
    build: Build,
    *,
    feel: FeelFound | None = None,
    typed: Mapping[str, str] | None = None,
    messages: Mapping[str, str] | None = None,
    message: str = "",
) -> PutterPage:
    """The page of one build at this moment."""
    fitting = opened.fitting
    mark = marks(fitting, opened.decision)[build.build_id]
    found = putter_figures(build, lean=lean_of(fitting, build_id=build.build_id))
    changes = [(each.what, effect_rows(each.effect)) for each in usual_changes(build)]
    return PutterPage(
        heading=heading(fitting, here="order"),
        address=putter_address(fitting.fitting_id, build.build_id),
        letter=mark.letter,
        role=mark.role,
        name=build.name,
        figures=found.lines(),
        lean=found.lean_words,
        notes=tuple(f"{n[0].upper()}{n[1:].removesuffix('.')}." for n in found.figures.notes),
        change_head=tuple(name for name, _ in changes[0][1]),
        changes=tuple(
            ChangeRow(what=what, effects=tuple(words for _, words in rows))
            for what, rows in changes
        ),
        fields=fields(feel_questions(), typed=typed, told=messages),
        feel=None if feel is None else _said(feel),
        message=message,
    )


def _said(feel: FeelFound) -> FeelSaid:
    return FeelSaid(
        now=now_words(feel),
        ways=tuple((WAY_NAMES[way.kind], said_here(way_words(way))) for way in feel.ways.ways),
        stock=said_here(stock_words(feel)),
        alone=EACH_ALONE,
    )
