from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.fitting.decision import Estimate
from puttwright.fitting.phrases import (
    chances,
    figure,
    give_or_take,
    interval,
    measure,
    more_putts_phrase,
    pace_phrase,
    rate_phrase,
    sideways_phrase,
    strokes_phrase,
    sureness_phrase,
)


def _estimate(mean, half):
    return Estimate(mean=mean, sd=half / 1.645, interval_90=(mean - half, mean + half))


@pytest.mark.parametrize(
    ("mean", "limits", "words"),
    [
        (0.5, (-0.1, 1.1), "about one putt in two rounds, could be none"),
        (0.5, (-0.6, 1.6),
         "about one putt in two rounds, could be none, could even cost two putts in three rounds"),
        (1.1, (0.4, 1.8), "about one putt a round, at the least one putt in three rounds"),
        (2.6, (1.9, 3.3), "about five putts in two rounds, at the least two putts a round"),
        (0.01, (-0.5, 0.5),
         "no difference we could see, at most one putt in two rounds either way"),
        (0.0, (0.0, 0.0), "no difference"),
        (-0.5, (-1.1, 0.1), "costs about one putt in two rounds, could be none"),
        (-0.5, (-0.9, -0.1),
         "costs about one putt in two rounds, at the least one putt in ten rounds"),
        (-0.3, (-1.1, 1.0),
         "costs about one putt in three rounds, could be none, could even gain one putt a round"),
    ],
)  # fmt: skip
def test_strokes_in_plain_words(mean, limits, words):
    assert strokes_phrase(mean, limits) == words


@given(st.floats(0.04, 12.0))
def test_a_loss_is_said_as_a_gain_of_its_size(amount):
    gain = strokes_phrase(amount, (0.9 * amount, 1.1 * amount))
    loss = strokes_phrase(-amount, (-1.1 * amount, -0.9 * amount))
    assert loss == f"costs {gain}"


@given(st.floats(0.05, 10.0))
def test_the_rate_is_within_a_third_of_the_figure(amount):
    words = rate_phrase(amount).split()
    count = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10,
             "twenty": 20}  # fmt: skip
    rounds = count[words[3]] if words[-1] == "rounds" else 1
    said = count[words[0]] / rounds
    assert 0.7 < said / amount < 1.45


def test_extremes_of_a_rate():
    assert rate_phrase(math.inf) == "next to nothing"
    assert rate_phrase(50.0) == "ten putts a round"
    assert rate_phrase(1.0) == "one putt a round"


@pytest.mark.parametrize(
    ("probability", "words"),
    [
        (0.999, "as good as certain, more than 99 in 100"),
        (0.96, "very likely, 96 in 100"),
        (0.8, "likely, 80 in 100"),
        (0.7, "more likely than not, 70 in 100"),
        (0.5, "a coin toss, 50 in 100"),
        (0.3, "less likely than not, 30 in 100"),
        (0.1, "unlikely, 10 in 100"),
        (0.001, "very unlikely, less than 1 in 100"),
        (7.0, "as good as certain, more than 99 in 100"),
        (-1.0, "very unlikely, less than 1 in 100"),
    ],
)
def test_sureness_in_words(probability, words):
    assert sureness_phrase(probability) == words


@given(st.floats(0.0, 1.0))
def test_nothing_is_ever_said_to_be_sure(probability):
    assert chances(probability).removesuffix(" in 100") not in {"0", "100"}


@pytest.mark.parametrize(
    ("mean", "half", "words"),
    [
        (0.8, 0.3, "0.8° right, give or take 0.3°"),
        (-1.24, 0.02, "1.2° left, give or take 0.1°"),
        (0.01, 0.4, "straight, give or take 0.4°"),
    ],
)
def test_directions_to_a_tenth(mean, half, words):
    assert sideways_phrase(_estimate(mean, half)) == words


@given(st.floats(0.06, 20.0), st.floats(0.1, 5.0))
def test_the_other_hand_swaps_right_and_left_and_nothing_else(mean, half):
    said = sideways_phrase(_estimate(mean, half))
    assert sideways_phrase(_estimate(-mean, half)) == said.replace("right", "left")


def test_pace_to_whole_percent():
    assert pace_phrase(_estimate(-6.2, 4.1)).replace("\u2009", " ") == (
        "6 % shorter than meant, give or take 4 %"
    )
    assert "6\u2009% longer than meant" in pace_phrase(_estimate(6.2, 4.1))
    assert pace_phrase(_estimate(0.3, 0.2)).replace("\u2009", " ") == "on pace, give or take 1 %"


@pytest.mark.parametrize(
    ("putts", "words"),
    [
        (12, "Too close to call; 12 more putts are worth taking."),
        (1, "Too close to call; 1 more putt is worth taking."),
        (None, "Too close to call."),
        (0, "Too close to call."),
    ],
)
def test_what_would_settle_it(putts, words):
    assert more_putts_phrase(putts) == words


def test_figures():
    assert figure(-0.04, sign=True) == "0.0"
    assert figure(math.nan) == "–"
    assert figure(-12.6, digits=0) == "−13"
    assert interval((-0.13, 0.92), sign=True) == "−0.1 to +0.9"
    assert give_or_take((-0.5, 0.5)) == 0.5
    assert measure(2.0, "%") == "2\u2009%"
