"""The address page: where the eyes are with each putter, and what length and lie they want."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import Fitting
from puttwright.evidence.columns import Column
from puttwright.fitting.address_words import address_cautions, address_words
from puttwright.fitting.at_address import USUAL_WINDOW_MM, AtAddress, at_address
from puttwright.paper.figures import runs
from puttwright.pictures.address import address_drawing, address_table, address_view
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import worded
from puttwright.pictures.of_fitting import marks
from puttwright.store.readings import SETUPS
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.forms.asking import Field, Question, Typed, fields, read
from puttwright.web.forms.entry_forms import entry_questions
from puttwright.web.texts import catalogue
from puttwright.web.typed import new_key

_EDGE: Final = Column("edge", "number", "", unit="mm", low=-200, high=300)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandChoice:
    """A putter that may be in hand."""

    build_id: str
    words: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class AddressPage:
    """What is shown: the conclusion, the window asked for, and the form of one address."""

    heading: Heading
    words: tuple[str, ...]
    cautions: tuple[str, ...]
    rests_on: str
    drawing: Drawing
    window: tuple[Field, ...]
    hands: tuple[HandChoice, ...]
    fields: tuple[Field, ...]
    entry_key: str
    wrong: bool


def address_page(
    opened: OpenFitting,
    *,
    query: Mapping[str, str],
    typed: Typed | None = None,
    told: Mapping[str, str] | None = None,
) -> AddressPage:
    """The page, as it opens or with what was typed and what is wrong with it.

    Parameters
    ----------
    opened
        The fitting.
    query
        The window in ``from`` and ``to`` [mm]; one that cannot be read is the usual one.
    typed, told
        What was typed into the form, and what is wrong with it.
    """
    fitting = opened.fitting
    asked = window_questions()
    answers = read(asked, query)
    edges = (answers.values.get("from"), answers.values.get("to"))
    low, high = (
        usual if edge is None else edge for usual, edge in zip(USUAL_WINDOW_MM, edges, strict=True)
    )
    found = at_address(fitting, window_mm=(low, high))
    last = opened.last
    in_hand = (typed or {}).get("hand") or (last.reading.build_id if last else fitting.own_build)
    shown = {"from": f"{low:g}", "to": f"{high:g}"} | {
        name: query[name] for name in answers.messages
    }
    return AddressPage(
        heading=heading(fitting, here="address"),
        words=tuple(worded(each) for each in address_words(found)),
        cautions=tuple(worded(each) for each in address_cautions(found)),
        rests_on=_rests_on(found),
        drawing=_drawing(fitting, found),
        window=fields(asked, typed=shown, told=answers.messages),
        hands=hand_choices(fitting, in_hand),
        fields=fields(entry_questions(SETUPS), typed=typed, told=told),
        entry_key=new_key(),
        wrong=bool(told),
    )


def window_questions() -> tuple[Question, ...]:
    """Between what the eyes are wanted, inside positive."""
    text = catalogue()
    start, end = USUAL_WINDOW_MM
    return (
        Question(
            name="from", column=_EDGE, label=text("address.want_from"),
            hint=text("address.want_hint"), start=f"{start:g}",
        ),
        Question(
            name="to", column=replace(_EDGE, name="to"), label=text("address.want_to"),
            start=f"{end:g}",
        ),
    )  # fmt: skip


def hand_choices(fitting: Fitting, in_hand: str) -> tuple[HandChoice, ...]:
    """The putters that may be in hand."""
    return tuple(
        HandChoice(build_id=build_id, words=mark.called, here=build_id == in_hand)
        for build_id, mark in marks(fitting).items()
    )


def _rests_on(found: AtAddress) -> str:
    if not found.seqs:
        return ""
    text = catalogue()
    return text(
        "decision.rests_on", rows=text("decision.rows_setups", numbers=worded(runs(found.seqs)))
    )


def _drawing(fitting: Fitting, found: AtAddress) -> Drawing:
    every = marks(fitting)
    in_order = [every[each.build.build_id] for each in found.builds]
    view = address_view(found, in_order)
    return drawing(
        lambda width, prefix: address_drawing(view, ground=PAGE, prefix=prefix, width=width),
        prefix="address",
        table=address_table(found, in_order),
    )
