"""The page on the green put together, as it opens or as it stands after something typed."""

from __future__ import annotations

from collections.abc import Mapping

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.web.contexts.bench import (
    BenchPage,
    Numbers,
    build_chips,
    distance_chips,
    live,
    saying,
    task_chips,
)
from puttwright.web.contexts.hand import Hand, Length
from puttwright.web.contexts.heading import heading
from puttwright.web.contexts.hour import ROLL
from puttwright.web.contexts.quick import quick_rows
from puttwright.web.contexts.surfaces import face, surface
from puttwright.web.contexts.verdict import Verdict
from puttwright.web.forms.asking import Typed, fields
from puttwright.web.forms.entry_forms import SIDES, device_questions, entry_questions
from puttwright.web.measures import measure
from puttwright.web.typed import new_key


def bench_page(
    opened: OpenFitting,
    hand: Hand,
    *,
    verdict: Verdict,
    stream: str,
    news: str,
    typed: Typed | None = None,
    told: Mapping[str, str] | None = None,
    notice: str = "",
    length: Length | None = None,
) -> BenchPage:
    """The page.

    Parameters
    ----------
    opened, hand
        The fitting and what is being taken.
    verdict
        What the readings say.
    stream, news
        Where the page listens for news, and what it has seen already.
    typed, told
        What was typed and what is wrong with it, when something is.
    notice
        A line on top of the page.
    length
        The distance or the board's, as it was typed, when it could not be read.
    """
    return BenchPage(
        heading=heading(opened.fitting, here=hand.step),
        hand=hand,
        chips=build_chips(opened, hand),
        tasks=task_chips(opened, hand),
        distances=distance_chips(opened, hand),
        surface=surface(opened, hand),
        face=face(opened, hand),
        live=live(opened, verdict, step=hand.step, news=news),
        numbers=numbers_of(hand, typed=typed, told=told),
        saying=saying(opened, hand),
        entry_key=new_key(),
        stream=stream,
        board=measure(hand.board_mm / 1000, "m", digits=1),
        length=length or Length(),
        notice=notice,
    )


def numbers_of(
    hand: Hand,
    *,
    typed: Typed | None = None,
    told: Mapping[str, str] | None = None,
) -> Numbers:
    """The entry by number for this kind of reading, empty or as it was typed.

    Parameters
    ----------
    hand
        The kind of reading, what a putt is looked at for, from where.
    typed, told
        What was typed and what is wrong with it, when something is.
    """
    return Numbers(
        by_eye=fields(entry_questions(hand.task), typed=typed, told=told),
        device=fields(device_questions(hand.task), typed=typed, told=told),
        sides={name: _side(name, typed) for name in SIDES},
        quick=quick_rows(hand.task, distance_m=hand.distance_m),
        device_first=hand.look == ROLL,
    )


def _side(name: str, typed: Typed | None) -> str:
    return (typed or {}).get(f"{name}-side", SIDES[name][0])
