"""What the rack makes for a fitting: the nearest putters, or the best for this golfer."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlencode

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.say_rack import (
    distance_words,
    price_words,
    spec_words,
    stands_words,
    worth_words,
)
from puttwright.deeds.search_rack import Searched, parts_said
from puttwright.evidence import Build
from puttwright.fitting.rack_best import MOST_WEIGHED
from puttwright.fitting.rack_made import Made
from puttwright.pictures.of_fitting import marks
from puttwright.web.contexts.heading import Heading, address_of, heading
from puttwright.web.contexts.putter_page import builds_to_look_at
from puttwright.web.sentences import said_here
from puttwright.web.texts import catalogue

NEAREST, STROKES = "nearest", "strokes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Something to choose with one touch."""

    words: str
    address: str
    here: bool
    letter: str = ""
    role: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeLine:
    """A putter the rack makes; ``try_address`` hands it to the golfer as a build."""

    parts: str
    spec: str
    near: str
    price: str
    worth: str
    stands: str
    try_address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RackSearchPage:
    """The whole page; ``words`` says what was searched, or why the rack makes nothing."""

    heading: Heading
    builds: tuple[Choice, ...]
    ways: tuple[Choice, ...]
    words: str
    lines: tuple[MadeLine, ...] = ()
    why_not: str = ""


def rack_search_address(fitting_id: str, *, build_id: str = "", by: str = NEAREST) -> str:
    """The address of a search."""
    query = urlencode({"near": build_id, "by": by} if build_id else {"by": by})
    return f"{address_of(fitting_id)}/rack?{query}"


def rack_search_page(
    opened: OpenFitting, wanted: Build, *, by: str, searched: Searched | None, trouble: str = ""
) -> RackSearchPage:
    """The page of a search, or of why there is none."""
    fitting_id, text = opened.fitting.fitting_id, catalogue()
    page = RackSearchPage(
        heading=heading(opened.fitting, here="order"),
        builds=_builds(opened, wanted, by=by),
        ways=tuple(
            Choice(
                words=text(f"made.{way}"),
                address=rack_search_address(fitting_id, build_id=wanted.build_id, by=way),
                here=way == by,
            )
            for way in (NEAREST, STROKES)
        ),
        words=trouble or text("made.empty"),
    )
    if searched is None:
        return page
    found = searched.found
    words = text(
        f"made.words_{by}",
        count=f"{found.combinations:,}",
        name=wanted.name,
        some=min(MOST_WEIGHED, found.combinations),
    )
    worth = {id(each.made): worth_words(each) for each in searched.valued}
    lines = tuple(
        _line(made, fitting_id, near=wanted.build_id, worth=worth.get(id(made), ""))
        for made in searched.made
    )
    return RackSearchPage(
        heading=page.heading, builds=page.builds, ways=page.ways, words=words, lines=lines,
        why_not=said_here(found.why_none_of_parts),
    )  # fmt: skip


def _builds(opened: OpenFitting, wanted: Build, *, by: str) -> tuple[Choice, ...]:
    known = marks(opened.fitting, opened.decision)
    return tuple(
        Choice(
            words=build.name,
            address=rack_search_address(opened.fitting.fitting_id, build_id=build.build_id, by=by),
            here=build.build_id == wanted.build_id,
            letter=known[build.build_id].letter,
            role=known[build.build_id].role,
        )
        for build in builds_to_look_at(opened)
    )


def _line(made: Made, fitting_id: str, *, near: str, worth: str) -> MadeLine:
    query = urlencode([*(("part", part.part_id) for part in made.parts), ("near", near)])
    return MadeLine(
        parts=parts_said(made.parts),
        spec=spec_words(made),
        near=distance_words(made),
        price=price_words(made),
        worth=worth,
        stands=stands_words(made),
        try_address=f"{address_of(fitting_id)}/builds/new?{query}",
    )
