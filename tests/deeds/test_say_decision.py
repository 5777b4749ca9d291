"""A decision read out: each kind of choice, the doubt beside the figure, names as on the rack."""

from __future__ import annotations

from dataclasses import replace

import pytest

from puttwright.deeds.say_decision import (
    choice_line,
    decision_lines,
    five_lines,
    name_of,
    next_line,
    order_line,
)
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
from puttwright.fitting.decision import (
    Block,
    BuildVerdict,
    Decision,
    Estimate,
    ModelRun,
    NextTrial,
    Reason,
)


def build(build_id, label=None):
    return Build(build_id=build_id, label=label, length_mm=864, lie_deg=70, loft_deg=3)


def verdict(mean):
    saved = Estimate(mean=mean, sd=0.3, interval_90=(mean - 0.5, mean + 0.5))
    return BuildVerdict(
        strokes_saved_per_round=saved,
        probability_better=0.86,
        probability_best=0.5,
        make_pct={},
        quantities={},
        putts_used=6,
        putts_left_out=0,
    )


@pytest.fixture
def fitting() -> Fitting:
    return Fitting(
        fitting_id="F",
        date="2026-05-31",
        golfer=Golfer(alias="A", handed="left"),
        greens=(Green(name="g", speed_ft=9, share=1),),
        fitting_green=FittingGreen(speed_ft=9),
        own_build="own",
        builds=(build("own", "Old friend"), build("B", "Trial B"), build("C")),
    )


@pytest.fixture
def decision() -> Decision:
    return Decision(
        choice="B",
        spec={},
        builds={"own": verdict(0.0), "C": verdict(-0.3), "B": verdict(0.5)},
        next_trial=NextTrial(build_id="C", distance_m=3.0, putts=6, aims=0, settles="is C worse"),
        reasons=(Reason(text="B starts nearer the line."),),
        cautions=("Few readings.",),
        model=ModelRun(version="0", seed=1, draws=1, r_hat_max=1.0, ess_min=1.0),
        inputs_sha256="",
    )


def test_a_name_has_the_id_only_where_the_label_lacks_it(fitting):
    assert [name_of(each, fitting) for each in ("own", "B", "C", "new")] == [
        "Old friend (own)",
        "Trial B",
        "C",
        "new",
    ]


@pytest.mark.parametrize(
    ("fields", "line"),
    [
        ({}, "Change to Trial B."),
        ({"choice": "keep"}, "Keep the golfer's own putter, Old friend (own)."),
        (
            {"choice": "undecided", "more_putts": 12},
            "Too close to call; 12 more putts are worth taking.",
        ),
        (
            {"choice": "B-longer", "extrapolated": True},
            "Change to B-longer, a build nobody has had in hand yet.",
        ),
    ],
)
def test_the_choice_comes_first(decision, fitting, fields, line):
    changed = replace(decision, **fields)

    assert decision_lines(changed, fitting)[0] == line
    assert five_lines(changed, fitting)[0] == line
    assert len(five_lines(changed, fitting)) == 5


@pytest.mark.parametrize("label", ["own putter", "Own putter", "eigener Putter"])
def test_an_own_putter_that_is_only_called_so_is_named_once(decision, fitting, label):
    own = replace(fitting.builds[0], build_id="A", label=label)
    named = replace(fitting, own_build="A", builds=(own, *fitting.builds[1:]))

    assert choice_line(replace(decision, choice="keep"), named) == (
        "Keep the golfer's own putter (A)."
    )


@pytest.mark.parametrize(("putts", "said"), [(1, "1 putt from"), (2, "2 putts from")])
def test_one_putt_is_no_putts(decision, fitting, putts, said):
    asked = replace(decision.next_trial, putts=putts)

    assert f", {said} " in next_line(replace(decision, next_trial=asked), fitting)


def test_builds_stand_in_order_with_figure_and_interval(decision, fitting):
    text = "\n".join(decision_lines(decision, fitting))

    assert text.index("Trial B  about one putt in two rounds") < text.index("C        costs about")
    assert "0.5 strokes a round (0.0 to 1.0); better than the own putter: 86 in 100" in text
    assert "−0.3 strokes a round (−0.8 to 0.2)" in text
    assert text.endswith("Mind:\n  Few readings.")


def test_what_next_is_told_in_one_line(decision, fitting):
    assert next_line(decision, fitting) == "Try next: C, 6 putts from 3 m. Is C worse."
    nothing = replace(decision, next_trial=None)
    assert next_line(nothing, fitting) == (
        "Nothing more to try: further putts would teach too little to be worth it."
    )


def test_the_running_order_is_told_in_one_line(decision, fitting):
    blocks = (Block(build_id="C", putts=1, aims=0), Block(build_id="own", putts=4, aims=2))
    ordered = replace(decision, next_trial=replace(decision.next_trial, running_order=blocks))

    assert order_line(ordered, fitting) == (
        "Hand over now: C, 1 putt, then Old friend (own), 4 putts and 2 aims; "
        "planned anew with every putt."
    )
    assert order_line(ordered, fitting) in decision_lines(ordered, fitting)
    assert order_line(replace(decision, next_trial=None), fitting) == ""


def test_what_would_change_the_answer_stands_before_what_next(decision, fitting):
    told = replace(decision, would_change=(Reason(text="If B showed more, own would stay."),))
    lines = decision_lines(told, fitting)

    assert lines.index("What would change the answer:") < lines.index(next_line(told, fitting))
    assert "  If B showed more, own would stay." in lines


def test_with_no_other_build_there_is_still_an_answer(decision, fitting):
    alone = replace(decision, choice="keep", builds={}, reasons=(), cautions=(), next_trial=None)

    assert len(five_lines(alone, fitting)) == 5
    assert decision_lines(alone, fitting)[0].startswith("Keep")
