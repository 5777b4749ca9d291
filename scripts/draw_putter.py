"""Draw the pictures of docs/concepts/putter.md from the models themselves.

``python scripts/draw_putter.py`` writes docs/pictures/putter-*.svg; a test holds the files to it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

from puttwright.club.bend import Set, Turns, bent, turns_for
from puttwright.club.hang import hang_rad
from puttwright.evidence import Build
from puttwright.fitting.phrases import measure
from puttwright.pictures.annotation import (
    angle_dimension,
    arrowhead,
    dimension,
    leader,
)
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import PAPER, Ink
from puttwright.pictures.hang import draw_hang
from puttwright.pictures.svg import Point

PICTURES = Path(__file__).resolve().parents[1] / "docs" / "pictures"
SCALE = 2.3
"""Units per millimetre."""
WAS = Set(
    loft_rad=math.radians(4.0), lie_rad=math.radians(70.0), offset_m=0.016,
    cg_from_axis_m=0.030, cg_behind_face_m=0.018, cg_high_m=0.013, bend_high_m=0.045,
)  # fmt: skip
HEEL_MM, TOE_MM, HIGH_MM, DEEP_MM = -14.0, 98.0, 25.0, 40.0


def _sheet(name: str, *, height: float) -> Sheet:
    return Sheet(width=720, height=height, ground=PAPER, prefix=f"putter-{name}")


def _frame(origin: Point) -> Callable[[float, float], Point]:
    return lambda across_mm, up_mm: (origin[0] + SCALE * across_mm, origin[1] - SCALE * up_mm)


def _ground(sheet: Sheet, left: Point, right: Point) -> None:
    sheet.line(left, right, weight="line")
    strip = [left, right, (right[0], right[1] + 7), (left[0], left[1] + 7)]
    sheet.hatch(strip, gap=6)


def _centre_of_gravity(sheet: Sheet, at: Point) -> None:
    sheet.circle(at, radius=5, weight="line", fill="paper")
    for x, y in ((-1, -1), (1, 1)):
        sheet.solid([at, (at[0] + 5 * x, at[1]), (at[0], at[1] + 5 * y)])


def _axes(sheet: Sheet, at: Point, *, across: str, up: str = "up") -> None:
    for way, words, shift in (((1.0, 0.0), across, (6, 4)), ((0.0, -1.0), up, (-6, -8))):
        tip = (at[0] + 34 * way[0], at[1] + 34 * way[1])
        sheet.line(at, tip, ink="own", weight="line")
        arrowhead(sheet, tip, towards=way, ink="own")
        sheet.text((tip[0] + shift[0], tip[1] + shift[1]), words, size="small", ink="own")


def _facing(sheet: Sheet, origin: Point) -> None:
    """Seen from behind, a right-hander's: head, shaft and centre of gravity."""
    at = _frame(origin)
    _ground(sheet, at(HEEL_MM - 40, 0), at(TOE_MM + 18, 0))
    box = [(HEEL_MM, 2), (HEEL_MM + 4, HIGH_MM), (TOE_MM - 4, HIGH_MM), (TOE_MM, 2)]
    sheet.path([at(*corner) for corner in box], closed=True)
    shaft = WAS.shaft
    high = 100.0
    sheet.line(at(0, 0), at(high * shaft[1], high * shaft[2]), style="centre")
    cg = 1e3 * WAS.cg_m
    along = float(cg @ shaft)
    foot = at(along * shaft[1], along * shaft[2])
    _centre_of_gravity(sheet, at(cg[1], cg[2]))
    said = measure(1e3 * WAS.cg_from_axis_m, "mm")
    dimension(sheet, (foot, at(cg[1], cg[2])), label=said, offset=-58)
    lie_deg = math.degrees(WAS.lie_rad)
    angle_dimension(sheet, at(0, 0), radius=104, from_deg=180, to_deg=180 - lie_deg,
                    label=f"lie {lie_deg:.0f}°")  # fmt: skip
    sheet.circle(at(0, 0), radius=2.5, weight="line", fill="paper")
    leader(
        sheet, at(cg[1] + 2, cg[2]), to=(at(62, 0)[0], origin[1] - 84), words="centre of gravity"
    )
    leader(
        sheet, at(0, 0), to=(at(8, 0)[0], origin[1] + 30), words="here the axis meets the ground"
    )
    _axes(sheet, at(TOE_MM - 2, 52), across="toe")


def _side(sheet: Sheet, origin: Point) -> None:
    """Seen from the toe, the target to the right: offset, depth and loft."""
    at = _frame(origin)
    offset, behind = 1e3 * WAS.offset_m, 1e3 * WAS.cg_behind_face_m
    _ground(sheet, at(-offset - DEEP_MM - 12, 0), at(46, 0))
    lean = HIGH_MM * math.tan(WAS.loft_rad)
    head = [(-offset, 1), (-offset - lean, HIGH_MM), (-offset - DEEP_MM, HIGH_MM - 9),
            (-offset - DEEP_MM, 3)]  # fmt: skip
    sheet.path([at(*corner) for corner in head], closed=True)
    sheet.line(at(-offset, 1), at(-offset - lean, HIGH_MM), weight="bold")
    sheet.line(at(0, 0), at(0, 94), style="centre")
    sheet.path([at(-offset - 8, HIGH_MM), at(-offset - 8, 38), at(0, 38), at(0, 60)], ink="muted")
    _centre_of_gravity(sheet, at(-offset - behind, 1e3 * WAS.cg_high_m))
    dimension(sheet, (at(-offset, 0), at(0, 0)), label=f"offset {offset:.0f}", offset=26)
    dimension(sheet, (at(-offset - behind, 0), at(-offset, 0)), label=f"{behind:.0f}", offset=46)
    top = at(-offset, 76)
    sheet.line(at(-offset, 30), top, ink="faint", weight="hair", style="hidden")
    loft_deg = math.degrees(WAS.loft_rad)
    far = 74.0
    sheet.line(at(-offset - lean, HIGH_MM), at(-offset - far * math.tan(WAS.loft_rad), far),
               ink="faint", weight="hair", style="hidden")  # fmt: skip
    words = (at(-offset - 8, 0)[0], at(0, 84)[1])
    sheet.text(words, f"loft {loft_deg:.0f}°", size="small", anchor="end", halo=True)
    _axes(sheet, at(18, 64), across="target")


def axes() -> str:
    """The putter's axes, from behind and from the toe."""
    sheet = _sheet("axes", height=330)
    _facing(sheet, (158.0, 262.0))
    _side(sheet, (585.0, 262.0))
    sheet.text((20, 24), "a right-hander's, seen from behind", size="small", ink="muted")
    sheet.text((480, 24), "seen from the toe, mm", size="small", ink="muted")
    return sheet.svg(
        title="The putter's axes",
        description="Axes run to the target, to the toe and up from where the shaft axis meets the "
        "ground. The centre of gravity lies toward the toe of the shaft axis and behind the face.",
    )


def _hanging(toe_mm: float, behind_mm: float) -> Build:
    hang_deg = math.degrees(
        hang_rad(cg_from_axis_m=1e-3 * toe_mm, cg_behind_face_m=1e-3 * behind_mm)
    )
    return Build(
        build_id="a", length_mm=864, lie_deg=70, loft_deg=3, head_shape="half_mallet",
        cg_from_axis_mm=toe_mm, cg_depth_mm=behind_mm, toe_hang_deg=hang_deg,
    )  # fmt: skip


def hang() -> str:
    """Three ways to hang, seen along the shaft from the grip."""
    sheet = _sheet("hang", height=300)
    for number, (toe_mm, words) in enumerate(
        ((-3.0, "a little heel-down"), (0.0, "face up"), (30.0, "toe-down"))
    ):
        build = _hanging(toe_mm, 24.0)
        centre = (125.0 + 235.0 * number, 130.0)
        draw_hang(sheet, build, centre=centre, room=112)
        turn = math.radians(build.toe_hang_deg or 0.0)
        # The head's own axes, turned: the toe to the right, the face up.
        x = toe_mm * math.cos(turn) - 24.0 * math.sin(turn)
        y = toe_mm * math.sin(turn) + 24.0 * math.cos(turn)
        _centre_of_gravity(sheet, (centre[0] + x, centre[1] + y))
        said = measure(build.toe_hang_deg or 0.0, "°")
        sheet.text((centre[0], 268), f"{words}, {said}", anchor="middle", bold=True)
    sheet.text((360, 292), "seen along the shaft from the grip; the centre of gravity settles "
               "below the axis", size="small", ink="muted", anchor="middle")  # fmt: skip
    return sheet.svg(
        title="Three ways to hang",
        description="With the centre of gravity straight behind the shaft axis the face looks at "
        "the sky; toward the toe, the toe drops; a little toward the heel, the heel drops.",
    )


def _bent_shaft(
    sheet: Sheet, at: Callable[[float, float], Point], *, turn_rad: float, way: Point, ink: Ink
) -> Point:
    """The shaft above the bend point, turned; ``way`` is its direction before."""
    bend = 1e3 * WAS.bend_high_m
    start = (bend * way[0], bend * way[1])
    cos, sin = math.cos(turn_rad), math.sin(turn_rad)
    along = (way[0] * cos + way[1] * sin, -way[0] * sin + way[1] * cos)
    end = (start[0] + 62 * along[0], start[1] + 62 * along[1])
    sheet.line(at(*start), at(*end), ink=ink, style="centre" if ink == "accent" else "hidden",
               weight="bold" if ink == "accent" else "line")  # fmt: skip
    return at(*end)


def bending() -> str:
    """A bend of lie, and a bend of loft, before and after."""
    sheet, wide = _sheet("bend", height=330), 5.0
    upright = Turns(lie_rad=math.radians(2.0), loft_rad=0.0)
    held = bent(WAS, turns=upright)
    weaker = bent(WAS, turns=turns_for(WAS, add_loft_rad=math.radians(2.0)))
    at = _frame((140.0, 258.0))
    _ground(sheet, at(HEEL_MM - 40, 0), at(TOE_MM + 18, 0))
    box = [(HEEL_MM, 2), (HEEL_MM + 4, HIGH_MM), (TOE_MM - 4, HIGH_MM), (TOE_MM, 2)]
    sheet.path([at(*corner) for corner in box], closed=True)
    way = (float(WAS.shaft[1]), float(WAS.shaft[2]))
    _bent_shaft(sheet, at, turn_rad=0.0, way=way, ink="muted")
    tip = _bent_shaft(sheet, at, turn_rad=wide * upright.lie_rad, way=way, ink="accent")
    neck = at(1e3 * WAS.bend_high_m * way[0], 1e3 * WAS.bend_high_m * way[1])
    sheet.line(at(0, 0), neck, ink="muted")
    sheet.circle(neck, radius=3.5, weight="line", fill="paper")
    sheet.text((tip[0] + 12, tip[1] + 6), "2° upright", size="small", ink="accent")
    leader(sheet, neck, to=(neck[0] + 84, neck[1] - 26), words="the neck gives here")
    aim = abs(math.degrees(held.aim_held_rad))
    said = f"same hands: toe 2° up, a face of 4° loft looks {aim:.2f}° to the heel side"
    sheet.text((20, 300), said, size="small")
    at = _frame((600.0, 258.0))
    offset = 1e3 * WAS.offset_m
    _ground(sheet, at(-offset - DEEP_MM - 12, 0), at(40, 0))
    lean = HIGH_MM * math.tan(WAS.loft_rad)
    head = [(-offset, 1), (-offset - lean, HIGH_MM), (-offset - DEEP_MM, HIGH_MM - 9),
            (-offset - DEEP_MM, 3)]  # fmt: skip
    sheet.path([at(*corner) for corner in head], closed=True)
    neck = at(0, 1e3 * WAS.bend_high_m)
    sheet.path([at(-offset - 8, HIGH_MM), at(-offset - 8, 34), at(0, 34), neck], ink="muted")
    _bent_shaft(sheet, at, turn_rad=0.0, way=(0.0, 1.0), ink="muted")
    turn = wide * weaker.turns.loft_rad
    tip = _bent_shaft(sheet, at, turn_rad=turn, way=(0.0, 1.0), ink="accent")
    sheet.circle(neck, radius=3.5, weight="line", fill="paper")
    sheet.text((tip[0] + 10, tip[1] + 8), "2° weaker", size="small", ink="accent")
    lost = offset - 1e3 * weaker.after.offset_m
    sheet.text((700, 300), f"shaft upright again: 2° more loft, {lost:.1f} mm less offset",
               size="small", anchor="end")  # fmt: skip
    sheet.text((215, 24), "a right-hander's, seen from behind", size="small", ink="muted")
    sheet.text((450, 24), "seen from the toe", size="small", ink="muted")
    sheet.text((360, 322), "bends drawn five times as far", size="small", ink="muted",
               anchor="middle")  # fmt: skip
    return sheet.svg(
        title="What a bend does",
        description="A lie bend lifts the toe in the same hands and turns a lofted face a little "
        "to the heel side; a loft bend leans the handle forward of the head and takes offset off.",
    )


DRAWINGS: dict[str, Callable[[], str]] = {"axes": axes, "hang": hang, "bend": bending}


def drawn(name: str) -> str:
    """A drawing as its file holds it: on its own paper, so that a dark page does not hide it."""
    backing = f'<rect width="100%" height="100%" fill="{PAPER.paper}"/>'
    return DRAWINGS[name]().replace("</desc>", f"</desc>{backing}", 1) + "\n"


if __name__ == "__main__":
    for name in DRAWINGS:
        (PICTURES / f"putter-{name}.svg").write_text(drawn(name), encoding="utf-8")
        print(f"docs/pictures/putter-{name}.svg")
