"""The words of the pages, the numbers people type, the surfaces they tap on."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import puttwright.web
from puttwright.address.posture import PLUMB, SCALE_ENDS, TAPPED
from puttwright.club.alloys import NECKS
from puttwright.deeds.keep_settings import CHOICES
from puttwright.deeds.measure_part import READ
from puttwright.evidence import Build, Column, Golfer, columns_of
from puttwright.store.golfer_notes import NO, NOTED, YES
from puttwright.store.trail import Deed
from puttwright.web.contexts.hour import GAUGED, STEPS
from puttwright.web.contexts.step_says import FIGURES, MEASURED
from puttwright.web.drawings.aim_surface import aim_surface
from puttwright.web.drawings.face_surface import face_surface
from puttwright.web.drawings.green_surface import green_surface
from puttwright.web.drawings.tap_surface import TapSurface
from puttwright.web.forms.spoken import Wrong, shown_number, spoken_number
from puttwright.web.routes.calculators import GROUPS
from puttwright.web.texts import catalogue

WEB = Path(puttwright.web.__file__).parent
CALC = [each for group in GROUPS.values() for each in group]
ASKED = [asked for each in CALC for asked in each.questions()]
CALC_WORDS = (
    *(f"group_{name}" for name in GROUPS),
    *(each.key.replace("-", "_") for each in CALC),
    *(f"{each.key.replace('-', '_')}_about" for each in CALC),
    *(asked.name for asked in ASKED),
    *(f"{asked.name}_hint" for asked in ASKED if asked.hint),
    *(f"{asked.name}_{choice}" for asked in ASKED for choice, _ in asked.offered),
    *(f"out_{shown.name}" for each in CALC for shown in each.figures),
    "way_physical_needs",
    "way_bifilar_needs",
)
SOURCES = [*WEB.rglob("*.py"), *WEB.rglob("*.html")]
POINTS = (*TAPPED, *PLUMB, *SCALE_ENDS)
BUILT = {  # keys put together from a prefix and a value
    "site.ground_": ("auto", "paper", "sun", "bay"),
    "sections.": ("fittings", "golfers", "calculators", "practice", "rack", "guide", "settings"),
    "calc.": CALC_WORDS,
    "guide.part_": ("guide", "concepts", "reference", "more"),
    "settings.": (*CHOICES, "shop", "currency", "tax"),
    **{f"settings.{name}_": each for name, each in CHOICES.items() if name != "language"},
    "list.": ("right", "left"),
    "new.": ("right", "left"),
    "build.": ("blade", "half_mallet", "mallet", "none", "dot", "line", "multi"),
    "fitting.": ("hour", "readings", "client"),
    "hour.": (
        *STEPS,
        *(f"name_{name}" for name in (*GAUGED, "wrist_height_mm", "stature_mm", "handicap")),
        *(f"ask_{name}" for name in ("wrist_height_mm", "stature_mm", "handicap")),
        *(f"next_{step}" for step in MEASURED),
        *(figure.quantity for figures in FIGURES.values() for figure in figures),
        "stature_mm",
        "wrist_height_mm",
    ),
    "compare.": (
        "putter",
        "saved",
        "better",
        "aim",
        "start",
        "start_spread",
        "pace",
        "pace_spread",
        "putts",
    ),
    "rack.": (
        "putters",
        "heads",
        "necks",
        "shafts",
        "grips",
        "weights",
        "putter",
        "head",
        "neck",
        "shaft",
        "grip",
        "weight",
        "length_mm",
        "lie_deg",
        "loft_deg",
        "loft_min_deg",
        "loft_max_deg",
        "lie_min_deg",
        "lie_max_deg",
        "offset_mm",
        "toe_hang_deg",
        "mass_g",
        "grip_diameter_mm",
        "cg_from_axis_mm",
        "cg_depth_mm",
        "balance_from_butt_mm",
        "stock",
        "price",
    ),
    "joint.": tuple(NECKS),
    "trail.": tuple(deed.value.replace("-", "_") for deed in Deed),
    "backups.": ("taken", "unchanged"),
    "people.": (
        *(f"{kind}_{answer}" for kind in NOTED for answer in (YES, NO)),
        *(f"{asked}_{kind}" for kind in (*NOTED, "age") for asked in ("ask", "hint")),
        "age_minor",
        "age_adult",
        *(f"column_{each.name}" for each in columns_of(Golfer)),
    ),
    "sheet.": READ,
    "made.": ("nearest", "strokes"),
    "made.words_": ("nearest", "strokes"),
    "workshop.": ("within", "beyond", "look"),
    "workshop.state_": ("pass", "again", "rework", "refuse"),
    "grip.": ("conventional", "cross_handed", "claw", "split", "arm_lock"),
    "bench.": ("aims", "putts", "setups", "right", "left", "past", "short"),
    "shot.scale_": ("club", "ball", "card"),
    "shot.point_": POINTS,
    "shot.where_": POINTS,
    "tables.": ("putts", "aims", "setups", "yes", "no"),
    **{f"tables.{kind}_": ("one", "many") for kind in ("builds", "putts", "aims", "setups")},
    "decision.rows_": ("putts", "aims", "setups", "builds"),
    "readings.why_": ("slip", "distracted", "instrument", "practice"),
}


def _named() -> set[str]:
    text = "\n".join(path.read_text(encoding="utf-8") for path in SOURCES)
    found = set(re.findall(r"""["']([a-z]+\.[a-z_0-9]+)["']""", text))
    return found & catalogue().keys | {p + v for p, values in BUILT.items() for v in values}


def test_every_word_asked_for_is_in_the_catalogue() -> None:
    text = "\n".join(path.read_text(encoding="utf-8") for path in SOURCES)
    asked = set(
        re.findall(r"""(?:\bt|\btext|catalogue\(\))\(\s*["']([a-z]+\.[a-z_0-9]+)["']""", text)
    )
    asked |= set(re.findall(r"""(?:label|hint)=["']([a-z]+\.[a-z_0-9]+)["']""", text))

    asked = {key for key in asked if not key.endswith("_")}
    assert asked
    assert asked <= catalogue().keys
    assert {p + v for p, values in BUILT.items() for v in values} <= catalogue().keys


def test_no_word_is_left_over() -> None:
    assert catalogue().keys - _named() == frozenset()


def test_nobody_is_shouted_at() -> None:
    words = (WEB / "texts" / "en.toml").read_text(encoding="utf-8")

    assert "!" not in words


LENGTH = next(each for each in columns_of(Build) if each.name == "length_mm")


@pytest.mark.parametrize(
    ("typed", "said_in", "value"),
    [
        ("34", "in", 863.6),
        ("34in", "in", 863.6),
        (" 34,5 ", "in", 876.3),
        ("864 mm", "in", 864),
        ("86.4 cm", "in", 864),
        ("0.864 m", "in", 864),
        ("2 ft 10 in", "in", 863.6),
        ("2'10\"", "in", 863.6),
        ("864", "", 864),
    ],
)
def test_a_length_is_read_as_people_say_it(typed: str, said_in: str, value: float) -> None:
    assert spoken_number(typed, LENGTH, said_in=said_in) == pytest.approx(value)


@pytest.mark.parametrize(
    "typed", ["", "long", "34 kg", "1,2,3", "12", "--5", "inf", "nan", "1e999", "34 34"]
)
def test_what_is_no_length_is_told(typed: str) -> None:
    with pytest.raises(Wrong) as told:
        spoken_number(typed, LENGTH, said_in="in")

    assert told.value.sentence.endswith(".")


@given(st.floats(457.2, 1600), st.sampled_from(["in", "mm", "cm", ""]))
def test_what_is_shown_reads_back(value: float, unit: str) -> None:
    shown = shown_number(value, LENGTH, said_in=unit)
    clipped = Column("length_mm", "number", "", unit="mm")

    assert spoken_number(shown, clipped, said_in=unit) == pytest.approx(value, abs=0.02)


@given(st.text(max_size=30))
def test_anything_typed_is_a_number_or_a_sentence(typed: str) -> None:
    try:
        value = spoken_number(typed, LENGTH, said_in="in")
    except Wrong as told:
        value, sentence = 500.0, told.sentence
    else:
        sentence = "none"
    assert sentence
    assert 457.2 <= value <= 1600


def _tapped(surface: TapSurface, x_share: float, y_share: float) -> tuple[float, float]:
    """What a tap means, as the script on the page reckons it."""
    right = (x_share - surface.zero_x) * surface.span_x
    up = -(y_share - surface.zero_y) * surface.span_y
    return right, up


def _dots(surface: TapSurface, kind: str) -> list[tuple[float, float]]:
    width, height = map(float, re.findall(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', surface.svg)[0])
    found = re.findall(rf'class="{kind}" cx="([-\d.]+)" cy="([-\d.]+)"', surface.svg)
    return [(float(x) / width, float(y) / height) for x, y in found]


@pytest.mark.parametrize("width", [356.0, 620.0])
def test_a_tap_on_a_drawn_stop_means_that_stop(width: float) -> None:
    stops = [(0.3, -0.25), (-0.41, 0.6)]
    surface = green_surface(stops, distance_m=3, latest=False, width=width, prefix="t")

    for drawn, stop in zip(_dots(surface, "pw-reading"), stops, strict=True):
        assert _tapped(surface, *drawn) == pytest.approx(stop, abs=0.002)


@pytest.mark.parametrize("width", [356.0, 620.0])
@pytest.mark.parametrize("handed", ["right", "left"])
def test_a_tap_on_a_drawn_aim_means_that_aim(width: float, handed: str) -> None:
    readings = [12.0, -31.0]
    surface = aim_surface(
        readings, board_distance_mm=2000, handed=handed, latest=True, width=width, prefix="t"
    )
    drawn = [*_dots(surface, "pw-reading"), *_dots(surface, "pw-new")]

    for dot, reading in zip(drawn, readings, strict=True):
        assert _tapped(surface, *dot)[0] == pytest.approx(reading, abs=0.2)


@pytest.mark.parametrize("width", [356.0, 620.0])
@pytest.mark.parametrize(("handed", "toe_is_right"), [("right", False), ("left", True)])
def test_a_tap_on_a_drawn_strike_means_that_strike(
    width: float, handed: str, toe_is_right: bool
) -> None:
    build = Build(build_id="A", length_mm=864, lie_deg=70, loft_deg=3)
    strikes = [(14.0, 3.0), (-6.0, -4.0)]
    surface = face_surface(
        strikes, build=build, handed=handed, latest=True, width=width, prefix="t"
    )
    drawn = [*_dots(surface, "pw-reading"), *_dots(surface, "pw-new")]

    for dot, strike in zip(drawn, strikes, strict=True):
        assert _tapped(surface, *dot) == pytest.approx(strike, abs=0.2)
    # seen from the front
    assert (drawn[0][0] > 0.5) is toe_is_right


@given(st.lists(st.tuples(st.floats(-20, 20), st.floats(-40, 40)), max_size=5), st.floats(0.2, 40))
def test_any_green_can_be_drawn(stops: list[tuple[float, float]], distance_m: float) -> None:
    surface = green_surface(stops, distance_m=distance_m, latest=True, width=356, prefix="t")

    assert surface.svg.startswith("<svg")
    assert surface.span_x > 0


@given(st.lists(st.floats(-3000, 3000), max_size=60), st.floats(200, 20000))
def test_any_board_can_be_drawn(readings: list[float], board_mm: float) -> None:
    surface = aim_surface(
        readings, board_distance_mm=board_mm, handed="left", latest=True, width=356, prefix="t"
    )

    assert surface.svg.startswith("<svg")


def test_one_putt_gone_astray_does_not_shrink_the_rest() -> None:
    tame = green_surface([(0, 0.3)], distance_m=3, latest=False, width=356, prefix="t")
    wild = green_surface([(0, 0.3), (0, 9)], distance_m=3, latest=False, width=356, prefix="t")

    assert wild.span_y <= 2.6 * tame.span_y
