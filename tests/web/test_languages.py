"""Another language says all of it: every key and none of its own, the same fields in each."""

from __future__ import annotations

import re
from string import Formatter

import pytest

from puttwright.deeds.keep_settings import PageSettings
from puttwright.fitting.decide import decide
from puttwright.pictures.lettering import width_of
from puttwright.virtual.golfers import invent
from puttwright.web.contexts.verdict import saved_drawing
from puttwright.web.drawings.aim_surface import aim_surface
from puttwright.web.forms.fitting_forms import build_questions, green_questions
from puttwright.web.manner import speaking
from puttwright.web.texts import FIRST, LANGUAGES, catalogue, words_of

OTHERS = tuple(each for each in LANGUAGES if each != FIRST)


def _fields(words: str) -> tuple[set[str], set[str]]:
    filled = {name for _, name, _, _ in Formatter().parse(words) if name}
    return filled, set(re.findall(r"\{\{(\w+)\}\}", words))


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_every_word_and_none_of_its_own(language: str) -> None:
    """Both ways: one that is missing would be said in English, one too many is said nowhere."""
    first, other = words_of(FIRST), words_of(language)

    assert set(first) - set(other) == set()
    assert set(other) - set(first) == set()


@pytest.mark.parametrize("language", OTHERS)
def test_no_word_is_empty(language: str) -> None:
    assert [key for key, words in words_of(language).items() if not words.strip()] == []


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_has_the_same_fields(language: str) -> None:
    first, other = words_of(FIRST), words_of(language)
    wrong = {key for key in other if _fields(other[key]) != _fields(first.get(key, ""))}

    assert wrong == set()


@pytest.mark.parametrize("language", OTHERS)
def test_nobody_is_shouted_at(language: str) -> None:
    assert not [words for words in words_of(language).values() if "!" in words]


def test_the_catalogue_speaks_as_the_shop_has_set_it() -> None:
    with speaking(PageSettings(language="de")):
        assert catalogue()("list.new") == "Ein Fitting beginnen"
        assert catalogue().keys == catalogue(FIRST).keys


def test_the_pages_speak_it(pages, full: str) -> None:
    chosen = {
        "language": "de", "measures": "trade", "ground": "auto", "handed": "right",
        "tax_included": "no",
    }  # fmt: skip
    pages.post("/settings", data=chosen)
    page = pages.get(full).text

    assert '<html lang="de"' in page
    assert "Letzte Messung" in page
    assert "rechtshändig · 1. Mai 2026" in page
    wrong = pages.post(f"{full}/take/putts", data={"hand": "B", "stop_past_m": "weit"})
    assert "„weit“ ist keine Zahl." in wrong.text


def test_a_new_fitting_begins_in_the_language_of_the_shop() -> None:
    with speaking(PageSettings(language="de")):
        own = build_questions(prefix="build-0-", own=True)
        greens = green_questions(1)

    assert own[0].first == "eigener Putter"
    assert greens[0].first == "Heimplatz"


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("handed", ["right", "left"])
def test_the_sides_of_the_board_keep_clear_of_its_unit(language: str, handed: str) -> None:
    with speaking(PageSettings(language=language)):
        board = aim_surface(
            (), board_distance_mm=2000, handed=handed, latest=False, width=356, prefix="a"
        )
        ends = {
            said.rpartition(" ")[2]: float(x)
            for x, said in re.findall(
                r'<text x="([\d.]+)"[^>]*text-anchor="end"[^>]*>([^<]+)', board.svg
            )
        }

    side = next(x for said, x in ends.items() if said != "mm")
    assert ends["mm"] - side > width_of("mm", size="small")


def test_a_drawing_is_kept_for_the_next_page_in_its_own_language() -> None:
    fitting = invent(1, seed=2, putts=2, aims=1)[0].fitting
    decision = decide(fitting, worth_draws=20)
    english = saved_drawing(fitting, decision)
    with speaking(PageSettings(language="de")):
        german = saved_drawing(fitting, decision)

    assert saved_drawing(fitting, decision) is english
    assert "strokes saved a round" in english.wide
    assert "strokes saved a round" not in german.wide
