from __future__ import annotations

import dataclasses
import math

import pytest

from puttwright.evidence import Build
from puttwright.pictures.drafting import UNIT_MM
from puttwright.pictures.grounds import PAPER
from puttwright.pictures.hang import hang, said_hang
from puttwright.pictures.putter import HALF_SIZE, putter_drawing, putter_table
from puttwright.pictures.putter_forms import head_form, neck_form, ribbon

PLAIN = Build(build_id="b", length_mm=864, lie_deg=70, loft_deg=3)
FULL = Build(
    build_id="c", length_mm=889, lie_deg=72, loft_deg=4, head_shape="blade", offset_mm=16,
    toe_hang_deg=42, cg_from_axis_mm=34, cg_depth_mm=11, sight_line="line",
)  # fmt: skip


def _draw(build, **how):
    return putter_drawing(build, **({"handed": "right", "ground": PAPER} | how))


def _points(drawing):
    return [
        (float(line.get("x1")), float(line.get("x2")), float(line.get("y1")))
        for line in drawing.all("line")
    ]


@pytest.mark.parametrize("build", [PLAIN, FULL], ids=["plain", "full"])
def test_a_left_handers_drawing_is_the_mirror_image(build, parsed):
    right, left = parsed(_draw(build)), parsed(_draw(build, handed="left"))
    width = float(right.root.get("width"))
    mirrored = [(width - x1, width - x2, y1) for x1, x2, y1 in _points(right)]
    flat = [value for point in mirrored for value in point]
    assert [value for point in _points(left) for value in point] == pytest.approx(flat, abs=0.011)
    assert left.words == right.words


def test_lettering_is_never_mirrored_or_upside_down(parsed):
    for handed in ("right", "left"):
        for item in parsed(_draw(FULL, handed=handed)).all("text"):
            turn = item.get("transform") or "rotate(0 "
            assert "scale" not in turn
            assert -91.0 < float(turn.split("(")[1].split()[0]) < 91.0


def test_every_recorded_dimension_is_written(parsed):
    words = " ".join(filter(None, parsed(_draw(FULL)).words)).replace("\u2009", " ")
    for said in ("length 889 mm", "lie 72.0°", "loft 4.0°", "offset 16 mm", "42°", "11 mm"):
        assert said in words


def test_what_was_not_recorded_is_not_dimensioned(parsed):
    words = " ".join(filter(None, parsed(_draw(PLAIN)).words))
    assert "offset" not in words
    assert "hang not measured" in words


def test_half_size_prints_half_size(parsed):
    drawing = parsed(_draw(FULL, scale=HALF_SIZE))
    face = max(abs(x2 - x1) for x1, x2, y1 in _points(drawing) if y1 > 0 and x1 != x2)
    assert face * UNIT_MM >= 0.5 * head_form(FULL).length_mm
    assert "1:2, this bar prints 50\u2009mm" in drawing.words


def test_the_shaft_leans_by_the_lie(parsed):
    for lie_deg in (60.0, 79.0):
        build = dataclasses.replace(PLAIN, lie_deg=lie_deg)
        axis = next(
            line for line in parsed(_draw(build)).all("line")
            if line.get("stroke-dasharray") == "14 3 3 3"
        )  # fmt: skip
        rise = float(axis.get("y1")) - float(axis.get("y2"))
        run = float(axis.get("x2")) - float(axis.get("x1"))
        assert math.degrees(math.atan2(rise, run)) == pytest.approx(lie_deg, abs=0.1)


def test_what_is_to_be_worked_stands_out(parsed):
    drawing = parsed(_draw(FULL, changed=frozenset({"loft_deg"})))
    bold = [item.text for item in drawing.all("text") if item.get("font-weight") == "600"]
    assert bold == ["loft 4.0°"]


@pytest.mark.parametrize("style", [
    None, "plumber's neck", "slant neck", "double bend", "centre-shafted", "spud", "flow", "??",
])  # fmt: skip
@pytest.mark.parametrize("shape", [None, "blade", "half_mallet", "mallet"])
@pytest.mark.parametrize("offset_mm", [None, -20.0, -9.0, 0.0, 60.0])
def test_every_neck_on_every_head_can_be_drawn(style, shape, offset_mm, parsed):
    build = dataclasses.replace(PLAIN, neck_style=style, head_shape=shape, offset_mm=offset_mm)
    assert parsed(_draw(build)).all("path")
    assert abs(neck_form(build).axis_from_middle_mm) < head_form(build).length_mm / 2


def test_a_centre_shafted_putter_is_drawn_centred():
    assert neck_form(dataclasses.replace(PLAIN, neck_style="centre shaft")).axis_from_middle_mm == 0


def test_a_ribbon_keeps_its_width_round_a_corner():
    outline = ribbon([(0, 0), (0, 10), (10, 10)], half=2.0)
    assert sorted(outline) == sorted([(-2, 0), (-2, 12), (10, 12), (10, 8), (2, 8), (2, 0)])


@pytest.mark.parametrize("hang_deg", [-90.0, 0.0, 1.0, 45.0, 90.0, 180.0])
def test_hang_turns_the_toe_down(hang_deg, parsed):
    build = dataclasses.replace(FULL, toe_hang_deg=hang_deg)
    assert parsed(hang(build, handed="left", ground=PAPER)).all("path")
    assert f"{hang_deg:.0f}".replace("-", "−") in said_hang(build)


def test_the_table_gives_lie_to_a_tenth():
    assert ("Lie", "72.0°") in putter_table(FULL, handed="right").rows
