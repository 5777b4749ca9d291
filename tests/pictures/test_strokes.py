from __future__ import annotations

import dataclasses

from puttwright.fitting.decision import Estimate
from puttwright.pictures.builds import BuildMark
from puttwright.pictures.drafting import DASHES
from puttwright.pictures.grounds import PAPER
from puttwright.pictures.of_fitting import saved_rows
from puttwright.pictures.strokes import SavedRow, strokes_saved, strokes_table

SAVED = Estimate(mean=0.46, sd=0.3, interval_90=(-0.03, 0.95), interval_50=(0.26, 0.66))


def _row(role="other", **how):
    return SavedRow(mark=BuildMark(letter="B", name="New", role=role, **how), saved=SAVED)


def test_the_figure_and_its_interval_stand_beside(parsed):
    words = parsed(strokes_saved([_row()], ground=PAPER)).words
    assert {"+0.5", "0.0 to 0.9"} <= set(words) or {"+0.5", "0.0 to 1.0"} <= set(words)


def test_no_more_than_tenths_are_shown(samples, parsed):
    rows = saved_rows(samples.FITTING, samples.DECISION)
    words = " ".join(filter(None, parsed(strokes_saved(rows, ground=PAPER)).words))
    assert not [word for word in words.split() if "." in word and len(word.split(".")[1]) > 1]


def test_a_guess_is_dashed_and_open(parsed):
    seen, guessed = (strokes_saved([_row(guess=guess)], ground=PAPER) for guess in (False, True))
    dashes = DASHES["hidden"]
    assert dashes not in seen
    assert guessed.count(dashes) >= 2
    assert "not in hand: a guess" in parsed(guessed).words


def test_the_choice_is_told_by_form_not_only_colour(parsed):
    chosen, other = (
        parsed(strokes_saved([_row(role)], ground=PAPER)) for role in ("choice", "other")
    )
    assert "the choice" in chosen.words
    assert "the choice" not in other.words
    bold = [item for item in chosen.all("text") if item.get("font-weight") == "600"]
    assert "New" in [item.text for item in bold]


def test_the_own_putter_is_the_zero_line_and_has_no_interval(samples, parsed):
    rows = saved_rows(samples.FITTING, samples.DECISION)
    assert rows[0].saved is None
    assert "own putter" in parsed(strokes_saved(rows[:1], ground=PAPER)).words
    assert strokes_table(rows).rows[0][1] == "0 by definition"


def test_an_interval_without_its_middle_half_takes_a_normals(parsed):
    bare = dataclasses.replace(SAVED, interval_50=None)
    drawn = strokes_saved([dataclasses.replace(_row(), saved=bare)], ground=PAPER)
    assert parsed(drawn).all("path")
