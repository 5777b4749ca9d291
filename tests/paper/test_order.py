from __future__ import annotations

import dataclasses

import pytest

from puttwright.errors import NotAllowed, NotFound
from puttwright.paper.order import render_order
from puttwright.paper.order_context import order_context

HOSTILE = '#eval("1") $x$ *b* <a> & \u0007"]]> #pagebreak()'


@pytest.fixture(scope="module")
def pdf(samples):
    return render_order(samples.FITTING, samples.DECISION)


def test_the_same_input_gives_the_same_bytes(pdf, samples):
    assert render_order(samples.FITTING, samples.DECISION) == pdf


@pytest.mark.parametrize("sheet", ["a4", "us-letter"])
@pytest.mark.parametrize("build_id", ["own", "mallet-slant", "half-plumber"])
@pytest.mark.parametrize("hand", ["", "LEFT_"])
def test_one_page_for_every_build(sheet, build_id, hand, samples, read):
    fitting = getattr(samples, f"{hand}FITTING")
    decision = getattr(samples, f"{hand}DECISION")
    sheets = read(render_order(fitting, decision, build_id=build_id, sheet=sheet))
    assert len(sheets.pages) == 1
    assert f"{fitting.golfer.handed.upper()}-HANDED" in sheets.text


def test_it_says_what_to_build_and_how_near(pdf, read):
    text = read(pdf).text
    for words in ("864 mm ± 3 cut", "70.0° ± 0.5 bend 1.0° flat, from 71.0°",
                  "2.5° ± 0.5 bend 1.0° stronger, from 3.5°", "Offset 8 mm", "358 g",
                  "Mallet, three lines", "2 in stock", "the fitting's choice"):  # fmt: skip
        assert words in text


def test_it_warns_where_the_work_can_hurt(pdf, read):
    text = read(pdf).text
    for words in ("Eye protection", "uncured resin", "carbon", "Bending the neck", "Hot metal"):
        assert words in text


def test_it_has_room_for_names(pdf, read):
    assert all(words in read(pdf).text for words in ("built", "checked", "handed over"))


@pytest.mark.parametrize("choice", ["KEEP", "UNDECIDED"])
def test_without_a_choice_there_is_no_order_unless_a_build_is_named(choice, samples, read):
    decision = getattr(samples, choice)
    with pytest.raises(NotAllowed) as caught:
        render_order(samples.FITTING, decision)
    assert "--build" in str(caught.value)
    assert caught.value.exit_code == 2
    named = read(render_order(samples.FITTING, decision, build_id="half-plumber")).text
    assert "ordered by the fitter; the fitting says" in named


def test_what_is_undecided_says_what_would_settle_it(samples):
    with pytest.raises(NotAllowed, match="12 more putts would tell"):
        render_order(samples.FITTING, samples.UNDECIDED)


def test_an_unknown_build_is_refused_with_those_there_are(samples):
    with pytest.raises(NotFound, match="mallet-slant"):
        render_order(samples.FITTING, samples.DECISION, build_id="nope")


def test_the_build_in_the_spec_is_drawn_when_it_was_never_in_hand(samples, read):
    decision = dataclasses.replace(
        samples.DECISION, choice="new", extrapolated=True,
        spec={"label": "Never tried", "length_mm": 850.0, "lie_deg": 69.5, "loft_deg": 2.0},
    )  # fmt: skip
    text = read(render_order(samples.FITTING, decision)).text
    assert "Never tried" in text
    assert "850 mm" in text
    assert "extrapolated" in text


def test_hostile_words_are_printed_not_run(samples, read):
    builds = tuple(
        dataclasses.replace(b, label=HOSTILE, neck_style=HOSTILE, grip_id=HOSTILE)
        for b in samples.FITTING.builds
    )
    fitting = dataclasses.replace(samples.FITTING, builds=builds, rack=(), date="")
    sheets = read(render_order(fitting, samples.DECISION))
    assert len(sheets.pages) == 1
    assert '#eval("1") $x$ *b*' in sheets.text


def test_a_head_far_from_the_target_is_warned_of(samples, read):
    far = dataclasses.replace(samples.RACK[0], loft_deg=5.0, lie_deg=76.0)
    fitting = dataclasses.replace(samples.FITTING, rack=(far, *samples.RACK[1:]))
    sheets = read(render_order(fitting, samples.DECISION, sheet="us-letter"))
    assert len(sheets.pages) == 1
    assert "Ask a club repair professional before bending the loft this far." in sheets.text
    assert "Do not bend the lie this far: choose another head or neck." in sheets.text


def test_the_context_says_lead_only_where_weights_may_be_used(samples):
    decided = samples.DECISION
    build = samples.FITTING.build("mallet-slant")
    with_rack = order_context(samples.FITTING, decided, build=build)
    bare = dataclasses.replace(samples.FITTING, rack=())
    assert "Lead tape" not in [kind for kind, _ in with_rack.cautions]
    assert "Lead tape" in [kind for kind, _ in order_context(bare, decided, build=build).cautions]
