"""What is kept of a golfer, what they agreed to, and their rights, as a page shows it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from shlex import quote

from puttwright.deeds.golfers_data import GolfersData
from puttwright.store.corrections import Correction
from puttwright.store.golfer_notes import (
    GUARDIAN,
    NO,
    NOTED,
    PHOTOS,
    TOLD,
    YES,
    GolferNote,
)
from puttwright.web.contexts.golfer_pages import AT, state_words_of
from puttwright.web.contexts.heading import quoted
from puttwright.web.dates import moment_words
from puttwright.web.manner import manner
from puttwright.web.texts import catalogue

AGE, MINOR, ADULT = "age", "minor", "adult"
"""What is asked beside, and kept with the golfer's details instead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A button that notes an answer; ``stands`` when that is what was noted last."""

    kind: str
    value: str
    words: str
    stands: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is asked, with its answers."""

    title: str
    hint: str
    answers: tuple[Answer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PastLine:
    """Something noted or put right."""

    when: str
    words: str
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PeoplePage:
    """The page of a golfer's data."""

    name: str
    address: str
    golfer: str
    state: str
    told: str
    asked: tuple[Asked, ...]
    past: tuple[PastLine, ...]
    erase: str
    wrong: str = ""
    onward: str = ""


def told_words() -> str:
    """The very words a golfer is told; they are kept with the answer."""
    text, years = catalogue(), manner().keep_years
    kept = text("people.told_years", years=years) if years else text("people.told_long")
    return f"{text('people.told')} {kept} {text('people.told_rights')}"


def people_page(
    data: GolfersData, *, folder: Path, wrong: str = "", onward: str = ""
) -> PeoplePage:
    """The page; ``folder`` is the shop's, ``onward`` the way to the fitting just started."""
    past = sorted([*_noted(data), *_corrected(data)], key=lambda each: each[0], reverse=True)
    return PeoplePage(
        name=data.name,
        golfer=data.golfer,
        address=f"{AT}/{quoted(data.golfer)}",
        state=state_words_of(data),
        told=told_words(),
        asked=tuple(_asked(data)),
        past=tuple(line for _, line in past),
        erase=f"puttwright erase {data.newest} --golfer --copies --data {quote(str(folder))}",
        wrong=wrong,
        onward=onward,
    )


def words_of(kind: str, answer: str) -> str:
    """An answer in words."""
    return catalogue()(f"people.{kind}_{answer}")


def _asked(data: GolfersData) -> Iterator[Asked]:
    standing = {kind: note.answer for kind, note in data.standing.items()}
    if data.minor is not None:
        standing[AGE] = MINOR if data.minor else ADULT
    yield _asking(TOLD, (YES, NO), standing=standing)
    yield _asking(AGE, (ADULT, MINOR), standing=standing)
    if data.minor:
        yield _asking(GUARDIAN, (YES, NO), standing=standing)
        yield _asking(PHOTOS, (YES, NO), standing=standing)


def _asking(kind: str, answers: tuple[str, ...], *, standing: Mapping[str, str]) -> Asked:
    text = catalogue()
    return Asked(
        title=text(f"people.ask_{kind}"),
        hint=text(f"people.hint_{kind}"),
        answers=tuple(
            Answer(
                kind=kind, value=each, words=words_of(kind, each),
                stands=standing.get(kind) == each,
            )
            for each in answers
        ),
    )  # fmt: skip


def _noted(data: GolfersData) -> Iterator[tuple[datetime, PastLine]]:
    for each in data.notes:
        words = words_of(each.kind, each.answer) if _known(each) else each.kind
        words = f"{words} “{each.told}”" if each.told else words
        yield each.when, PastLine(when=moment_words(each.when), words=words, who=each.who)


def _known(each: GolferNote) -> bool:
    return each.kind in NOTED and each.answer in {YES, NO}


def _corrected(data: GolfersData) -> Iterator[tuple[datetime, PastLine]]:
    for each in data.corrected:
        yield each.when, PastLine(when=moment_words(each.when), words=_said(each), who=each.who)


def _said(each: Correction) -> str:
    text = catalogue()
    changed = [
        text("people.changed", name=_column(name), was=_value(was), now=_value(now))
        for name, (was, now) in each.changes.items()
    ]
    return " ".join(changed)


def _column(name: str) -> str:
    key = f"people.column_{name}"
    return catalogue()(key) if key in catalogue().keys else name


def _value(value: object) -> str:
    text = catalogue()
    if isinstance(value, bool):
        return text("people.yes" if value else "people.no")
    return text("stale.nothing") if value in {None, ""} else str(value)
