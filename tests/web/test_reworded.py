"""What the pure rooms say is said in another language, with the same figures and names."""

from __future__ import annotations

import ast
import dataclasses
import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import resources
from pathlib import Path

import pytest

import puttwright
from puttwright.deeds.say_decision import OWN_NAMES, block_words, choice_line, next_line
from puttwright.evidence import Fitting, SetupReading
from puttwright.fitting.address_words import address_cautions, address_words
from puttwright.fitting.at_address import at_address
from puttwright.fitting.decide import decide
from puttwright.fitting.decision import Decision, Estimate
from puttwright.fitting.phrases import (
    chances,
    more_putts_phrase,
    pace_phrase,
    sideways_phrase,
    strokes_phrase,
    sureness_phrase,
)
from puttwright.paper.report_context import report_context
from puttwright.virtual.golfers import invent
from puttwright.virtual.rack import invent_rack
from puttwright.web.reworded import Rewording, rewording
from puttwright.web.texts import FIRST, LANGUAGES, words_of

OTHERS = tuple(each for each in LANGUAGES if each != FIRST)
FIELD = re.compile(r"\{(\w+)\}")
SAMPLES = {
    "scale": "D4.5",
    "runs": "1–3, 7",
    "size": "1.5°",
    "n": "7",
    "name": "Linnet",
    "who": "Linnet",
    "letter": "A",
}
ROOMS = (
    "club",
    "fitting",
    "pictures",
    "paper",
    "readers",
    "deeds",
    "evidence",
    "web/drawings",
    "web/contexts",
)


@cache
def _sentences(language: str) -> Mapping[str, str]:
    file = resources.files("puttwright.web.texts").joinpath(f"sentences_{language}.toml")
    sections = tomllib.loads(file.read_text(encoding="utf-8"))
    return {said: told for each in sections.values() for said, told in each.items()}


def _spoken(language: str) -> Rewording:
    found = rewording(language)
    assert found is not None
    return found


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_has_the_same_fields(language: str) -> None:
    wrong = {
        said
        for said, told in _sentences(language).items()
        if sorted(FIELD.findall(said)) != sorted(FIELD.findall(told))
    }

    assert wrong == set()


def _example(said: str, told: str, *, spoken: Rewording) -> tuple[str, str]:
    """An English sentence of this pattern and what it should be in the other language."""
    filled = {}
    for name in FIELD.findall(said):
        kind = name.rstrip("0123456789")
        filled[name] = "B, C" if kind == "letters" else SAMPLES.get(kind, "straight")
    again = {name: spoken(part) for name, part in filled.items()}
    return said.format_map(filled), told.format_map(again)


@pytest.mark.parametrize("language", OTHERS)
def test_no_pattern_stands_in_the_way_of_another(language: str) -> None:
    """Else a sentence would be said by the wrong one."""
    spoken = _spoken(language)
    examples = [_example(said, told, spoken=spoken) for said, told in _sentences(language).items()]

    assert {english: spoken(english) for english, _ in examples} == dict(examples)


def _texts(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


@cache
def _said_somewhere() -> str:
    """Every string of the rooms whose words reach a page."""
    root = Path(puttwright.__file__).parent
    files = [file for room in ROOMS for file in sorted((root / room).rglob("*.py"))]
    return "\n".join(
        text for file in files for text in _texts(ast.parse(file.read_text(encoding="utf-8")))
    ).casefold()


@pytest.mark.parametrize("language", OTHERS)
def test_every_pattern_is_still_made(language: str) -> None:
    """A sentence whose English was changed is told here, before it stands in English on a page."""
    gone = set()
    for said in _sentences(language):
        words = re.findall(r"[A-Za-z']{4,}", FIELD.sub(" ", said))
        if not all(word.casefold() in _said_somewhere() for word in words):
            gone.add(said)

    assert gone == set()


def _estimate(mean: float, half: float) -> Estimate:
    return Estimate(mean=mean, sd=half / 2, interval_90=(mean - half, mean + half))


def _phrases() -> Iterator[str]:
    for tenth in range(-40, 41):
        for half in (0.02, 0.4, 1.5):
            yield strokes_phrase(tenth / 10, (tenth / 10 - half, tenth / 10 + half))
            yield sideways_phrase(_estimate(tenth / 10, half))
            yield pace_phrase(_estimate(tenth, 10 * half))
    for hundredth in range(101):
        yield chances(hundredth / 100)
        yield sureness_phrase(hundredth / 100)
    yield from (more_putts_phrase(putts) for putts in (None, 1, 12))


@pytest.mark.parametrize("language", OTHERS)
def test_every_phrase_is_known(language: str) -> None:
    spoken = _spoken(language)

    assert [phrase for phrase in _phrases() if spoken.told(phrase) is None] == []


def _said_by(fitting: Fitting, decision: Decision) -> Iterator[str]:
    yield choice_line(decision, fitting)
    yield next_line(decision, fitting)
    yield from (each.text for each in (*decision.reasons, *decision.would_change))
    yield from decision.cautions
    trial = decision.next_trial
    yield from (block_words(each) for each in (trial.running_order if trial else ()))
    told = report_context(fitting, decision)
    yield from filter(None, (told.headline, told.worth, told.worth_figure, told.sure, told.greens))
    yield from (told.next_step, *told.saw)
    found = at_address(fitting)
    yield from (*address_words(found), *address_cautions(found))


def _invented() -> Iterator[Fitting]:
    """With and without a rack, a handicap, putts and addresses."""
    for putts, aims, seed in ((12, 6, 3), (2, 2, 4), (0, 4, 6)):
        for number, golfer in enumerate(invent(3, seed=seed, putts=putts, aims=aims)):
            fitting = golfer.fitting
            if number == 1:
                rack = invent_rack(fitting.builds)
                nobody = dataclasses.replace(fitting.golfer, handicap=None)
                fitting = dataclasses.replace(fitting, rack=rack, golfer=nobody)
            if number == 2:
                setups = tuple(
                    SetupReading(seq=k + 1, build_id=build.build_id, eye_inside_mm=40.0 - 35.0 * k)
                    for k, build in enumerate(fitting.builds[:3])
                )
                fitting = dataclasses.replace(fitting, setups=setups)
            yield fitting


@pytest.mark.slow
@pytest.mark.parametrize("language", OTHERS)
def test_whatever_a_decision_says_is_known(language: str) -> None:
    spoken = _spoken(language)
    said = {
        sentence
        for fitting in _invented()
        for sentence in _said_by(fitting, decide(fitting, worth_draws=300))
    }

    assert {sentence for sentence in said if spoken.told(sentence) is None} == set()


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_a_page_calls_the_own_putter_is_known_to_say_no_more(language: str) -> None:
    """Else the answer would say it twice: keep the own putter, own putter."""
    assert words_of(language)["build.own_name"].casefold() in OWN_NAMES


def test_an_own_putter_is_named_once_in_german_too() -> None:
    said = _spoken("de")("Keep the golfer's own putter (A).")

    assert said == "Den eigenen Putter behalten (A)."


def test_names_and_figures_stay_as_they_are() -> None:
    german = _spoken("de")

    said = german("Line & left, <right> starts more alike: 1.2° to Straight's 1.9°.")

    assert said == "Line & left, <right> startet gleichmäßiger: 1.2° gegen 1.9° mit Straight."


@pytest.mark.parametrize("text", ["", "Linnet", "7", "x" * 5000, "a and b: c; " * 50])
def test_what_nobody_of_us_says_stays(text: str) -> None:
    assert _spoken("de")(text) == text
