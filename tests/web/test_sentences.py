"""A page says what went wrong in its own language, with the same data; a program reads English."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from string import Formatter
from typing import Any

import pytest

import puttwright
from puttwright.club.stock import NothingFits
from puttwright.deeds.keep_settings import PageSettings
from puttwright.deeds.read_tables import NoRowFits, ToConfirm
from puttwright.errors import CannotRead, Fault, NotFound, OutOfRange, PackageFaults
from puttwright.web.manner import speaking
from puttwright.web.reworded import sections_of
from puttwright.web.sentences import (
    beside_field,
    fault_words,
    hint_of,
    said_here,
    sentence_of,
    spoken_in,
    with_hint,
)
from puttwright.web.texts import FIRST, LANGUAGES

OTHERS = tuple(each for each in LANGUAGES if each != FIRST)
ROOT = Path(puttwright.__file__).parent
FIELD = re.compile(r"\{(\w+)\}")
SAMPLES = {"size": "1.5°", "n": "7", "name": "Linnet", "who": "Linnet", "quoted": "'Linnet'"}
ELSEWHERE = {"roll", "measure_roll.py", "table_map.py", "change_package.py", "order_file.py"}
"""Reasons of clips are told where clips are; maps and orders are files of the commands."""


@cache
def _trees() -> dict[Path, ast.Module]:
    files = sorted(ROOT.rglob("*.py"))
    return {file: ast.parse(file.read_text(encoding="utf-8")) for file in files}


def _said(kind: ast.ClassDef, name: str) -> str:
    """The text that stands in a class under this name."""
    for each in kind.body:
        targets = each.targets if isinstance(each, ast.Assign) else [getattr(each, "target", None)]
        if any(isinstance(target, ast.Name) and target.id == name for target in targets):
            value = getattr(each, "value", None)
            return str(value.value) if isinstance(value, ast.Constant) else ""
    return ""


@cache
def _errors() -> dict[str, tuple[str, str]]:
    """The template and the hint of each error that a person can put right, by its code."""
    kinds = [
        node for tree in _trees().values() for node in ast.walk(tree)
        if isinstance(node, ast.ClassDef) and _said(node, "code")
    ]  # fmt: skip
    return {
        _said(kind, "code"): ((ast.get_docstring(kind) or "").splitlines()[0], _said(kind, "hint"))
        for kind in kinds
    }


def _fields(template: str) -> set[tuple[str, str]]:
    return {(name, spec or "") for _, name, spec, _ in Formatter().parse(template) if name}


@cache
def _pieces(language: str) -> dict[str, str]:
    sections = sections_of(f"errors_{language}.toml")
    return {
        said: told
        for name, each in sections.items()
        if name not in ("says", "hints")
        for said, told in each.items()
    }


@pytest.mark.slow
@pytest.mark.parametrize("language", OTHERS)
def test_every_error_is_said_with_the_same_fields(language: str) -> None:
    spoken = spoken_in(language)
    assert spoken is not None
    assert len(_errors()) > 70

    assert set(spoken.says) == set(_errors())
    assert {code for code, (_, hint) in _errors().items() if hint} == set(spoken.hints)
    wrong = {
        code
        for code, (template, _) in _errors().items()
        if _fields(template) != _fields(spoken.says[code])
    }
    assert wrong == set()


def _example(said: str, told: str, *, language: str) -> tuple[str, str]:
    """Words of this pattern in English and what they should be in the other language."""
    spoken = spoken_in(language)
    assert spoken is not None
    kinds = {name: name.rstrip("0123456789") for name in FIELD.findall(said)}
    filled = {name: SAMPLES.get(kind, "straight") for name, kind in kinds.items()}
    again = {
        name: part[1:-1] if kinds[name] == "quoted" else spoken.pieces(part)
        for name, part in filled.items()
    }
    if not filled:
        return said, told
    return said.format_map(filled), told.format_map(again)


@pytest.mark.parametrize("language", OTHERS)
def test_no_pattern_stands_in_the_way_of_another(language: str) -> None:
    spoken = spoken_in(language)
    assert spoken is not None
    examples = [_example(*each, language=language) for each in _pieces(language).items()]

    assert {english: spoken.pieces(english) for english, _ in examples} == dict(examples)


@pytest.mark.slow
@pytest.mark.parametrize("language", OTHERS)
def test_every_pattern_has_the_same_fields_and_is_still_made(language: str) -> None:
    made = "\n".join(
        node.value for tree in _trees().values() for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    ).casefold()  # fmt: skip
    theirs = set(sections_of(f"errors_{language}.toml")["system"])  # what the system says
    pieces = _pieces(language)

    wrong = {
        said
        for said, told in pieces.items()
        if sorted(FIELD.findall(said)) != sorted(FIELD.findall(told))
    }
    assert wrong == set()
    gone = {
        said
        for said in pieces.keys() - theirs
        for word in re.findall(r"[A-Za-z']{4,}", FIELD.sub(" ", said))
        if word.casefold() not in made
    }
    assert gone == set()


def _reasons() -> Iterator[str]:
    """Every reason that a reader of files or a deed gives in so many words."""
    for file, tree in _trees().items():
        if ELSEWHERE & set(file.parts) or "cli" in file.parts:
            continue
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                yield from _reasons_in(node, node.func.id)


def _reasons_in(call: ast.Call, name: str) -> Iterator[str]:
    given: list[Any] = []
    if name == "Unreadable":
        given = call.args
    elif name == "Fault":
        given = call.args[3:]
    elif name in ("NotAllowed", "CannotRead", "CannotWrite", "NothingToBuild"):
        given = [each.value for each in call.keywords if each.arg in ("what", "reason")]
    for each in given:
        if isinstance(each, ast.Constant):
            yield str(each.value)


@pytest.mark.slow
@pytest.mark.parametrize("language", OTHERS)
def test_every_reason_is_known(language: str) -> None:
    """A new one is told here, before it stands in English on a page."""
    spoken = spoken_in(language)
    assert spoken is not None
    reasons = set(_reasons())
    assert len(reasons) > 50

    assert {reason for reason in reasons if spoken.pieces.told(reason) is None} == set()


def test_what_somebody_wrote_stays_and_what_we_say_is_german() -> None:
    far = OutOfRange(name="sole length", value=9, low=20, high=200, unit="mm")
    with speaking(PageSettings(language="de")):
        assert sentence_of(far) == "Länge der Sohle: 9 mm geht nicht; möglich ist 20 bis 200 mm."
        known = "; there are right, left"
        found = sentence_of(NotFound(what="build", name="left", known=known))
        assert found == "Nicht gefunden: Putter „left“; es gibt right, left."
        empty = sentence_of(CannotRead(path="line", reason="is empty"))
        assert empty == "line: ist leer."
    assert sentence_of(far) == str(far)


def test_a_reason_of_a_library_stays() -> None:
    with speaking(PageSettings(language="de")):
        said = sentence_of(
            CannotRead(path="a.csv", reason="is not JSON (line 3, character 1: odd)")
        )
        other = sentence_of(CannotRead(path="a.csv", reason="was eaten by the dog"))

    assert said == "a.csv: ist kein JSON (Zeile 3, Zeichen 1: odd)."
    assert other == "a.csv: was eaten by the dog."


def test_an_error_that_was_kept_as_words_is_known_again() -> None:
    kept = str(NothingFits(needed_g=4.2, lightest_g=9))
    with speaking(PageSettings(language="de")):
        said = said_here(kept)

    assert said == sentence_in_german(NothingFits(needed_g=4.2, lightest_g=9))
    assert said.startswith("Kein Gewicht auf Lager kommt näher an 4 g")
    assert said_here(kept) == kept


def sentence_in_german(error: Any) -> str:
    with speaking(PageSettings(language="de")):
        return sentence_of(error)


def test_a_fault_names_row_and_column_as_they_stand_in_the_file() -> None:
    fault = Fault(
        "putts.csv", 3, "length_mm", "'5\\' 2' is not a number; write it without the unit (mm)"
    )
    nested = Fault("fitting.json", 0, "greens, entry 2, share", "is missing")
    with speaking(PageSettings(language="de")):
        assert fault_words(fault).startswith("putts.csv, Zeile 3, length_mm: „5")
        assert fault_words(fault).endswith(
            "ist keine Zahl; schreiben Sie sie ohne die Einheit (mm)"
        )
        assert fault_words(nested) == "fitting.json, greens, Eintrag 2, share: fehlt"
        both = sentence_of(PackageFaults(faults=[fault, nested]))
        assert both == f"{fault_words(fault)}\n{fault_words(nested)}"
    assert fault_words(nested) == str(nested)


def test_what_is_wrong_with_a_row_is_told_piece_by_piece() -> None:
    why = "Carry: '7 x' is not a number; Hole: 'maybe' is neither yes nor no"
    with speaking(PageSettings(language="de")):
        said = said_here(why)

    assert said == "Carry: „7 x“ ist keine Zahl; Hole: „maybe“ ist weder ja noch nein"


def test_a_message_beside_its_field_is_a_sentence() -> None:
    with speaking(PageSettings(language="de")):
        said = beside_field("40 deg is out of range; it must lie between -15 and 15 deg")

        choices = beside_field("'kopf' is not one of: head, neck")

    assert said == "40 Grad geht nicht; möglich ist -15 bis 15 Grad."
    assert choices == "„kopf“ ist keines von: head, neck."  # as the file has to say them
    assert beside_field("") == ""
    assert beside_field("is it so?") == "Is it so?"


def test_what_may_help_is_said_behind_the_sentence() -> None:
    error = NoRowFits(file="a.csv", row=2, why="Carry: is empty")
    asked = ToConfirm(file="a.csv", questions=["Which?"], proposal=Path("a.toml"))
    with speaking(PageSettings(language="de")):
        said = with_hint(error)
        assert hint_of(asked) == asked.hint  # the questions of one table, asked by a command

    assert said.startswith("Keine Zeile von a.csv passt; die erste, Zeile 2: Carry: ist leer.")
    assert said.endswith("Prüfen Sie Einheiten, Vorzeichen und die Namen der Putter.")
    assert with_hint(error) == f"{error} {error.hint}"


def _german(pages: Any) -> None:
    chosen = {
        "language": "de", "measures": "trade", "ground": "auto", "handed": "right",
        "tax_included": "no",
    }  # fmt: skip
    pages.post("/settings", data=chosen)


def test_a_german_page_says_it_in_german(pages, full: str) -> None:
    _german(pages)

    gone = pages.get("/fittings/none")
    assert "Nicht gefunden: Fitting „none“." in gone.text
    behind = {"hand": "B", "stop_past_m": "-9", "from": "3"}
    wrong = pages.post(f"{full}/take/putts", data=behind)
    assert wrong.status_code == 422
    assert "-9 m bei einem Putt aus 3 m liegt hinter dem Spieler" in wrong.text


def test_a_german_page_says_of_a_table_what_is_wrong_with_it(pages, full: str) -> None:
    _german(pages)
    table = {"table": ("stock.csv", b"part_id,kind,mass_g\nH1,head,heavy\n", "text/csv")}

    rack = pages.post("/rack/import", files=table)
    assert "stock.csv, Zeile 2, mass_g: „heavy“ ist keine Zahl" in rack.text
    picture = {"table": ("shot.png", b"\x89PNG and so on", "image/png")}
    read = pages.post(f"{full}/tables", files=picture)
    assert "shot.png: ist ein Bild, keine Tabelle" in read.text


def test_a_program_is_answered_in_english(pages) -> None:
    _german(pages)
    answer = pages.get("/fittings/none", headers={"accept": "application/json"})

    assert answer.json()["error"]["message"] == "There is no fitting called 'none'."
    sent = pages.post("/receive", json={"ball_speed_mps": 2})
    assert sent.json()["error"]["message"].startswith("No fitting is open; open one")
