from __future__ import annotations

import dataclasses

import pytest

from puttwright.evidence import Green
from puttwright.fitting.decision import Reason, RestsOn
from puttwright.paper.report import render_report
from puttwright.paper.report_context import MOST_BUILDS, report_context

HOSTILE = '#eval("1") $x$ *b* <a> & \u0007"]]> #pagebreak()'


@pytest.fixture(scope="module")
def pdf(samples):
    return render_report(samples.FITTING, samples.DECISION)


def test_the_same_input_gives_the_same_bytes(pdf, samples):
    assert render_report(samples.FITTING, samples.DECISION) == pdf


def test_another_date_gives_other_bytes(pdf, samples, read):
    later = render_report(dataclasses.replace(samples.FITTING, date="2026-06-01"), samples.DECISION)
    assert later != pdf
    assert read(later).reader.metadata.creation_date.date().isoformat() == "2026-06-01"


@pytest.mark.parametrize("sheet", ["a4", "us-letter"])
@pytest.mark.parametrize("choice", ["DECISION", "KEEP", "UNDECIDED"])
def test_two_pages_whatever_is_decided(sheet, choice, samples, read):
    pages = read(render_report(samples.FITTING, getattr(samples, choice), sheet=sheet)).pages
    assert len(pages) == 2


def test_page_one_says_it_in_plain_words(pdf, read):
    first = " ".join(read(pdf).pages[0].replace("\u2009", " ").split())
    for words in (
        "Mallet, slant neck suits you better than your own putter.",
        "About one putt in two rounds, could be none.",
        "Likely, 92 in 100, that it is better than your own.",
        "Your own putter aims 1.3° right (give or take 0.3°)",
        "Lower Meadow (9.5 ft, 70 % of your rounds)",
    ):
        assert words in first
    assert "R-hat" not in first


def test_page_two_holds_the_evidence(pdf, samples, read):
    second = " ".join(read(pdf).pages[1].split())
    for words in ("aims 1–8, 13–17", "putts 1–28", "R-hat at most 1.003", "Seed 1",
                  samples.DECISION.inputs_sha256, "27, 1 left out"):  # fmt: skip
        assert words in second


def test_nothing_is_built_while_more_putts_are_worth_taking(samples):
    asked = dataclasses.replace(samples.DECISION, next_trial=samples.UNDECIDED.next_trial)
    settled = dataclasses.replace(samples.DECISION, next_trial=None)

    assert "a few more putts" in report_context(samples.FITTING, asked).next_step
    assert "the workshop builds it to the order; then" in (
        report_context(samples.FITTING, settled).next_step
    )


def test_keep_and_undecided_say_so(samples, read):
    keep = read(render_report(samples.FITTING, samples.KEEP)).text
    assert "Keep your putter." in keep
    assert "suits you better" not in keep
    wait = read(render_report(samples.FITTING, samples.UNDECIDED)).text
    assert "Too close to call; 12 more putts are worth taking." in wait
    assert "6 putts with Half mallet, plumber's neck from 3.0 m" in wait
    assert "After it A and B, in this order." in wait


def test_what_would_change_the_answer_stands_under_why(samples, read):
    turn = Reason(text="If more putts showed it.", rests_on=(RestsOn(table="putts", seq=(1, 2)),))
    decision = dataclasses.replace(samples.DECISION, would_change=(turn, Reason(text="Greens.")))
    text = read(render_report(samples.FITTING, decision)).text

    assert "What would change the answer – If more putts showed it. Rests on putts 1–2." in text
    assert "Rests on ." not in text
    assert "What would change" not in read(render_report(samples.FITTING, samples.DECISION)).text


def test_a_left_handers_sheet_mirrors_the_words(samples, read):
    text = read(render_report(samples.LEFT_FITTING, samples.LEFT_DECISION)).text
    assert "Your own putter aims 1.3° left (give or take 0.3°)" in text
    assert "left-handed" in text
    assert "right, closed" in text


def test_it_is_accessible(pdf, read):
    reader = read(pdf).reader
    assert reader.trailer["/Root"]["/Lang"] == "en"
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]
    assert reader.metadata.title == "Putter fitting for Robin"
    assert "pdfuaid" in reader.trailer["/Root"]["/Metadata"].get_data().decode()


def test_only_our_type_is_used(pdf, read):
    fonts = {
        font.get_object()["/BaseFont"].split("+")[-1]
        for page in read(pdf).reader.pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert fonts
    assert all(font.startswith("Inter") for font in fonts)


def test_hostile_words_are_printed_not_run(samples, read):
    builds = tuple(dataclasses.replace(b, label=HOSTILE) for b in samples.FITTING.builds)
    fitting = dataclasses.replace(
        samples.FITTING, fitting_id=HOSTILE, date="not a date", builds=builds,
        golfer=dataclasses.replace(samples.FITTING.golfer, alias=HOSTILE),
        greens=(Green(name=HOSTILE, speed_ft=10, share=1),),
    )  # fmt: skip
    decision = dataclasses.replace(
        samples.DECISION, cautions=(HOSTILE,), reasons=(Reason(text=HOSTILE),)
    )
    sheets = read(render_report(fitting, decision))
    assert len(sheets.pages) == 2
    assert '#eval("1") $x$ *b*' in sheets.text


def _crowded(samples):
    many = tuple(
        dataclasses.replace(samples.FITTING.builds[1], build_id=f"b{n}", label=f"Mallet {n} " * 5)
        for n in range(12)
    )
    verdict = samples.DECISION.builds["mallet-slant"]
    seq = tuple(range(0, 400, 2))
    decision = dataclasses.replace(
        samples.DECISION,
        builds={**samples.DECISION.builds, **{build.build_id: verdict for build in many}},
        reasons=tuple(Reason(text="Very much " * 60, rests_on=(RestsOn(table="putts", seq=seq),))
                      for _ in range(12)),
        would_change=3 * (Reason(text="If " * 99, rests_on=(RestsOn(table="putts", seq=seq),)),),
        cautions=("Read this too " * 40,) * 12,
    )  # fmt: skip
    return dataclasses.replace(samples.FITTING, builds=(*samples.FITTING.builds, *many)), decision


@pytest.mark.parametrize("sheet", ["a4", "us-letter"])
def test_a_crowded_fitting_still_fits_two_pages(sheet, samples, read):
    fitting, decision = _crowded(samples)
    sheets = read(render_report(fitting, decision, sheet=sheet))
    assert len(sheets.pages) == 2
    assert "9 more are in the decision file." in sheets.text


@pytest.mark.parametrize("sheet", ["a4", "us-letter"])
@pytest.mark.parametrize(
    ("reasons", "cautions"),
    [
        ((80,) * 3, (50,) * 3),
        ((100,) * 4, (200,)),
        ((100,) * 2, (110,) * 3),
        ((220,) * 3, (55,) * 6),
        ((200,) * 6, (150,) * 6),
        ((), ()),
    ],
)
@pytest.mark.parametrize("more", range(4))
def test_any_amount_of_words_fits_two_pages(sheet, reasons, cautions, more, samples, read):
    verdict = samples.DECISION.builds["mallet-slant"]
    decision = dataclasses.replace(
        samples.DECISION,
        builds={**samples.DECISION.builds, **{f"more-{n}": verdict for n in range(more)}},
        reasons=tuple(Reason(text="Many words " * (n // 11)) for n in reasons),
        cautions=tuple("Take care " * (n // 10) for n in cautions),
    )
    assert len(read(render_report(samples.FITTING, decision, sheet=sheet)).pages) == 2


@pytest.mark.parametrize(
    "alias", ["山田太郎", "Zoë Ångström", "Ольга", "🏌️ Sam", "a" * 300, "\u202eevil"]
)
def test_a_name_in_any_script_is_printed(alias, samples, read):
    golfer = dataclasses.replace(samples.FITTING.golfer, alias=alias)
    fitting = dataclasses.replace(samples.FITTING, golfer=golfer)
    assert len(read(render_report(fitting, samples.DECISION)).pages) == 2


def test_own_and_choice_are_always_among_those_shown(samples):
    fitting, decision = _crowded(samples)
    rows = report_context(fitting, decision).evidence
    assert len(rows) == MOST_BUILDS
    assert [row.role for row in rows[:2]] == ["own putter", "the choice"]


def test_a_fitting_with_nothing_in_it_is_printed(samples, read):
    fitting = dataclasses.replace(
        samples.FITTING, builds=samples.FITTING.builds[:1], aims=(), putts=(), rack=(), greens=()
    )
    own = dataclasses.replace(
        samples.DECISION.builds["own"], quantities={}, make_pct={}, putts_used=0
    )
    decision = dataclasses.replace(
        samples.UNDECIDED, builds={"own": own}, reasons=(), next_trial=None, more_putts=None
    )
    text = read(render_report(fitting, decision)).text
    assert "nothing to hold yours against" in text


def test_a_build_never_in_hand_is_said_to_be_a_guess(samples, read):
    verdict = samples.DECISION.builds["mallet-slant"]
    decision = dataclasses.replace(
        samples.DECISION, choice="new", extrapolated=True,
        spec={"label": "Never tried", "length_mm": 850.0, "lie_deg": 70.0, "loft_deg": 2.0},
        builds={**samples.DECISION.builds, "new": verdict},
    )  # fmt: skip
    text = read(render_report(samples.FITTING, decision)).text
    assert "It was not in your hands, so this is a guess." in text
    assert "850 mm" in text
