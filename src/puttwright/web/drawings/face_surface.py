"""The face as a surface to tap on: one build seen from the front, where its putts were struck."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from typing import Final

from puttwright.evidence import Build
from puttwright.evidence.records import LEFT
from puttwright.evidence.signs import toe_side
from puttwright.fitting.phrases import figure
from puttwright.pictures.annotation import digits_of, plumb_line, scale_line, ticks
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import in_spoken, measure, spoken_unit
from puttwright.pictures.putter_forms import HeadForm, head_form
from puttwright.pictures.svg import Point
from puttwright.web.drawings.tap_surface import Frame, TapSurface, dots

_SIDE: Final = 12.0
_TOP: Final = 56.0
_FOOT: Final = 44.0
_STEP_MM: Final = 1.0
_ROUND_MM: Final = 5.0
_SHAFT_AT_MM: Final = 42.0
"""Where the neck stands; it is drawn so that heel and toe are told apart at a glance."""


def face_surface(
    strikes: Sequence[Point],
    *,
    build: Build,
    handed: str,
    latest: bool,
    width: float,
    prefix: str,
) -> TapSurface:
    """Draw the face from the front, the sweet spot at zero; a left-hander's is mirrored.

    Parameters
    ----------
    strikes
        Toe of the sweet spot and above it [mm] of the putts with this build, in the order hit.
    build
        The build in hand, for the kind of its head.
    handed
        Says on which side the toe is drawn.
    latest
        Whether the last of them was the last reading of all.
    width, prefix
        As for every drawing.
    """
    head = head_form(build)
    scale = (width - 2 * _SIDE) / head.length_mm
    height = _TOP + head.height_mm * scale + _FOOT
    zero = (width / 2, _TOP + head.height_mm * scale / 2)
    sheet = Sheet(width=width, height=height, ground=PAGE, prefix=prefix, mirrored=handed == LEFT)
    frame = Frame(width=width, height=height, zero=zero, scale=scale)
    _head(sheet, frame, head=head)
    _scale(sheet, frame, head=head)
    dots(sheet, [frame.at(-toe, up=high) for toe, high in strikes], latest=latest)
    surface = frame.surface(
        sheet,
        title=f"Face of {build.name}, seen from the front",
        told=f"Strikes so far: {_told(strikes)}.",
        step=_STEP_MM,
    )
    # seen from the front a right-hander's toe is on the left
    return dataclasses.replace(surface, span_x=-toe_side(handed) * surface.span_x)


def _told(strikes: Sequence[Point]) -> str:
    told = (
        f"{measure(toe, 'mm', sign=True)} toe, {measure(high, 'mm', sign=True)} high"
        for toe, high in strikes
    )
    return "; ".join(told) or "none yet"


def _head(sheet: Sheet, frame: Frame, *, head: HeadForm) -> None:
    half, tall, cut = head.length_mm / 2, head.height_mm / 2, _ROUND_MM
    outline = [
        (-half + cut, tall), (half - cut, tall), (half, tall - cut), (half, cut - tall),
        (half - cut, -tall), (cut - half, -tall), (-half, cut - tall), (-half, tall - cut),
    ]  # fmt: skip
    sheet.path([frame.at(x, up=y) for x, y in outline], closed=True, weight="bold")
    left, right = frame.at(_SHAFT_AT_MM - 6), frame.at(_SHAFT_AT_MM + 6)
    top = frame.at(0.0, up=tall)[1]
    for x, lean in ((left[0], 6.0), (right[0], 6.0)):
        sheet.line((x, top), (x + lean, 14.0), ink="muted")
    for across in (-0.25, 0.0, 0.25):
        level = frame.at(0.0, up=across * head.height_mm)[1]
        start, end = frame.at(-0.3 * head.length_mm)[0], frame.at(0.3 * head.length_mm)[0]
        sheet.line((start, level), (end, level), ink="faint", weight="hair")
    plumb_line(
        sheet, (frame.zero[0], top + 2), length=head.height_mm * frame.scale - 4, weight="hair"
    )


def _scale(sheet: Sheet, frame: Frame, *, head: HeadForm) -> None:
    bottom = frame.at(0.0, up=-head.height_mm / 2)[1] + 8
    times = in_spoken("mm")
    values = ticks((-40.0 * times, 40.0 * times), about=max(4, round(frame.width / 70)))
    digits = digits_of(values)
    scale_line(
        sheet,
        values,
        place=lambda v: frame.at(-v / times)[0],
        level=bottom,
        label=lambda v: figure(abs(v), digits=digits),
    )
    foot = frame.height - 6
    sheet.text((_SIDE, foot), "toe", size="small", ink="muted")
    sheet.text((frame.width - _SIDE, foot), "heel", size="small", ink="muted", anchor="end")
    sheet.text((frame.zero[0], foot), spoken_unit("mm"), size="small", ink="muted", anchor="middle")
