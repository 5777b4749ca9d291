from __future__ import annotations

import dataclasses

import pytest

from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import Part
from puttwright.paper.order import render_order
from puttwright.paper.order_context import order_context

HOSTILE = '#eval("1") $x$ *b* <a> & \u0007"]]> #pagebreak()'


@pytest.fixture(scope="module")
def pdf(samples, make):
    return render_order(make(samples.FITTING, samples.DECISION))


def test_the_same_input_gives_the_same_bytes(pdf, samples, make):
    assert render_order(make(samples.FITTING, samples.DECISION)) == pdf


@pytest.mark.parametrize("sheet", ["a4", "us-letter"])
@pytest.mark.parametrize("build_id", ["own", "mallet-slant", "half-plumber"])
@pytest.mark.parametrize("hand", ["", "LEFT_"])
def test_one_page_for_every_build(sheet, build_id, hand, samples, read, make):
    fitting = getattr(samples, f"{hand}FITTING")
    decision = getattr(samples, f"{hand}DECISION")
    sheets = read(render_order(make(fitting, decision, build_id=build_id), sheet=sheet))
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
def test_without_a_choice_there_is_no_order_unless_a_build_is_named(choice, samples, read, make):
    decision = getattr(samples, choice)
    with pytest.raises(NotAllowed) as caught:
        render_order(make(samples.FITTING, decision))
    assert "--build" in str(caught.value)
    assert caught.value.exit_code == 2
    named = read(render_order(make(samples.FITTING, decision, build_id="half-plumber"))).text
    assert "ordered by the fitter; the fitting says" in named


def test_what_is_undecided_says_what_would_settle_it(samples, make):
    with pytest.raises(NotAllowed, match="12 more putts are worth taking"):
        render_order(make(samples.FITTING, samples.UNDECIDED))


def test_an_unknown_build_is_refused_with_those_there_are(samples, make):
    with pytest.raises(NotFound, match="mallet-slant"):
        render_order(make(samples.FITTING, samples.DECISION, build_id="nope"))


def test_the_build_in_the_spec_is_drawn_when_it_was_never_in_hand(samples, read, make):
    decision = dataclasses.replace(
        samples.DECISION, choice="new", extrapolated=True,
        spec={"label": "Never tried", "length_mm": 850.0, "lie_deg": 69.5, "loft_deg": 2.0},
    )  # fmt: skip
    text = read(render_order(make(samples.FITTING, decision))).text
    assert "Never tried" in text
    assert "850 mm" in text
    assert "extrapolated" in text


def test_hostile_words_are_printed_not_run(samples, read, make):
    builds = tuple(
        dataclasses.replace(b, label=HOSTILE, neck_style=HOSTILE, grip_id=HOSTILE)
        for b in samples.FITTING.builds
    )
    fitting = dataclasses.replace(samples.FITTING, builds=builds, rack=(), date="")
    sheets = read(render_order(make(fitting, samples.DECISION)))
    assert len(sheets.pages) == 1
    assert '#eval("1") $x$ *b*' in sheets.text


def test_a_head_far_from_the_target_is_warned_of(samples, read, make):
    far = dataclasses.replace(samples.RACK[0], loft_deg=5.0, lie_deg=76.0)
    fitting = dataclasses.replace(samples.FITTING, rack=(far, *samples.RACK[1:]))
    sheets = read(render_order(make(fitting, samples.DECISION), sheet="us-letter"))
    assert len(sheets.pages) == 1
    assert "Ask a club repair professional before bending the loft this far." in sheets.text
    assert "Do not bend the lie this far: choose another head or neck." in sheets.text


def test_the_context_says_lead_only_where_weights_may_be_used(samples, make):
    with_rack = order_context(make(samples.FITTING, samples.DECISION))
    bare = dataclasses.replace(samples.FITTING, rack=())
    assert "Lead tape" not in [kind for kind, _ in with_rack.cautions]
    told = order_context(make(bare, samples.DECISION)).cautions
    assert "Lead tape" in [kind for kind, _ in told]


def test_it_says_what_the_rules_say_and_who_decides(pdf, read):
    text = read(pdf).text
    assert "Within, anywhere in tolerance: length, loft, lie" in text
    assert "The governing bodies decide" in text
    assert "anchor" not in text


def test_a_long_putter_hears_of_anchoring_and_a_loft_near_the_limit_is_to_be_looked_at(
    samples, make, read
):
    builds = tuple(
        dataclasses.replace(build, length_mm=1220, loft_deg=9.8) for build in samples.FITTING.builds
    )
    fitting = dataclasses.replace(samples.FITTING, builds=builds)
    sheets = read(render_order(make(fitting, samples.DECISION)))
    assert len(sheets.pages) == 1
    assert "limits the stroke, not the club" in sheets.text
    assert "Look at or measure: loft" in sheets.text


def test_a_camera_finds_the_orders_page(samples, make):
    order = make(samples.FITTING, samples.DECISION)
    with_code = render_order(order, page="http://127.0.0.1:8417/orders/F-0007-mallet-slant")
    assert len(with_code) > len(render_order(order))


@pytest.mark.parametrize("sheet", ["a4", "us-letter"])
def test_one_page_holds_it_all(samples, make, read, sheet):
    far = dataclasses.replace(samples.RACK[0], loft_deg=5.0, lie_deg=76.0)
    weight = Part(part_id="W1", kind="weight", mass_g=5)
    builds = tuple(
        dataclasses.replace(build, length_mm=1220, loft_deg=9.8, balance_from_butt_mm=700)
        for build in samples.FITTING.builds
    )
    rack = (far, *samples.RACK[1:], weight)
    fitting = dataclasses.replace(samples.FITTING, rack=rack, builds=builds)
    order = make(fitting, samples.DECISION)
    page = "http://127.0.0.1:8417/orders/" + "F-0007-mallet-slant" * 2
    assert len(read(render_order(order, page=page, sheet=sheet)).pages) == 1
