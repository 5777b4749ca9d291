"""What the points in a photo said: figures with their intervals, lines over the picture, a form."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from puttwright.address.posture import Measured, Posture
from puttwright.fitting.address_words import with_range
from puttwright.fitting.decision import Estimate
from puttwright.web.texts import catalogue

Spot = tuple[float, float]
_SD_90: Final = 1.645
_SHARP_MM, _SHARP_DEG = 25.0, 1.5
"""An interval no wider than this to each side may be entered beside a tape's; a guess."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure with its interval in words."""

    label: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line over the picture, in its pixels."""

    kind: str
    start: Spot
    end: Spot


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Words over the picture; ``anchor`` says which end of them is at the place."""

    at: Spot
    words: str
    anchor: str = "middle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A field of an address reading that may be entered; ``sharp`` when it is near a tape's."""

    name: str
    value: str
    words: str
    sharp: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredPhoto:
    """What is shown of a measured photo, and what of it may be entered."""

    figures: tuple[Figure, ...]
    doubt: str
    blurred: bool
    lines: tuple[Line, ...]
    words: tuple[Words, ...]
    letters_px: int
    hand: str
    offers: tuple[Offer, ...]
    note: str


def measured_photo(
    found: Posture, points: dict[str, Spot], *, size: tuple[int, int], hand: str,
    eye_behind_mm: float | None,
) -> MeasuredPhoto:  # fmt: skip
    """A set-up as the page says and draws it.

    Parameters
    ----------
    found
        What the points said.
    points
        Where they were tapped, in pixels.
    size
        Width and height of the picture.
    hand
        The putter in hand.
    eye_behind_mm
        What a tape said of the eyes behind the ball, entered with the rest.
    """
    text = catalogue()
    offers = _offers(found, eye_behind_mm=eye_behind_mm)
    lines, words = _drawn(found, points, size=size)
    return MeasuredPhoto(
        figures=_figures(found),
        doubt=text("shot.most_doubt", what=found.most_doubt),
        blurred=not all(each.sharp for each in offers),
        lines=lines,
        words=words,
        letters_px=round(0.038 * size[0]),
        hand=hand,
        offers=offers,
        note=text("shot.note", doubt=f"{_SD_90 * found.eye_inside_mm.sd:.0f}"),
    )


def _figures(found: Posture) -> tuple[Figure, ...]:
    text = catalogue()
    rows = [
        ("shot.eyes", _sided(found.eye_inside_mm, ends=("shot.inside", "shot.outside"))),
        ("shot.eye_height", with_range(_estimate(found.eye_height_mm), "mm")),
        ("shot.hands_height", with_range(_estimate(found.hands_height_mm), "mm")),
        ("shot.hands_in", _sided(found.hands_inside_mm, ends=("shot.inside", "shot.outside"))),
        ("shot.shaft", with_range(_estimate(found.shaft_deg), "°", digits=1)),
    ]
    if found.sole_tilt_deg is not None:
        ends = ("shot.toe_up", "shot.heel_up")
        rows.append(("shot.sole", _sided(found.sole_tilt_deg, ends=ends, unit="°", digits=1)))
    rows.append(("shot.camera_found", with_range(_estimate(found.camera_m), "m", digits=1)))
    return tuple(Figure(label=text(label), words=words) for label, words in rows)


def _estimate(value: Measured, *, turned: bool = False) -> Estimate:
    mean = -value.mean if turned else value.mean
    half = _SD_90 * value.sd
    return Estimate(mean=mean, sd=value.sd, interval_90=(mean - half, mean + half))


def _sided(value: Measured, *, ends: tuple[str, str], unit: str = "mm", digits: int = 0) -> str:
    """The size, its interval, and in words which way."""
    turned = value.mean < 0
    size = with_range(_estimate(value, turned=turned), unit, digits=digits)
    return catalogue()(ends[1] if turned else ends[0], size=size)


def _offers(found: Posture, *, eye_behind_mm: float | None) -> tuple[Offer, ...]:
    text = catalogue()
    rows = [
        ("eye_inside_mm", "shot.eyes", found.eye_inside_mm, _SHARP_MM),
        ("hands_height_mm", "shot.hands_height", found.hands_height_mm, _SHARP_MM),
    ]
    if found.sole_tilt_deg is not None:
        rows.append(("sole_tilt_deg", "shot.sole", found.sole_tilt_deg, _SHARP_DEG))
    offers = [
        Offer(
            name=name, value=f"{value.mean:.1f}" if name.endswith("deg") else f"{value.mean:.0f}",
            words=text(label), sharp=_SD_90 * value.sd <= widest,
        )
        for name, label, value, widest in rows
    ]  # fmt: skip
    if eye_behind_mm is not None:
        behind = f"{eye_behind_mm:g}"
        words = text("bench.eye_behind")
        offers.append(Offer(name="eye_behind_mm", value=behind, words=words, sharp=True))
    return tuple(offers)


def _drawn(
    found: Posture, points: dict[str, Spot], *, size: tuple[int, int]
) -> tuple[tuple[Line, ...], tuple[Words, ...]]:
    """Plumb lines through eyes, hands and ball, as upright as the photo's plumb line says."""
    up = _upright(points)
    ball = _along(points["ball_near"], points["ball_far"], share=0.5)
    eye, hands = points["eye"], points["hands"]
    eye_foot, hands_foot = (_level(at, ball, up=up) for at in (eye, hands))
    eye_level = _level(ball, eye, up=up)
    lines = (
        Line(kind="ball", start=ball, end=eye_level),
        Line(kind="plumb", start=eye, end=eye_foot),
        Line(kind="plumb", start=hands, end=hands_foot),
        Line(kind="shaft", start=points["grip_end"], end=points["shaft_foot"]),
        Line(kind="between", start=eye, end=eye_level),
    )
    beside = 0.025 * size[0]
    outward = 1.0 if hands[0] < ball[0] else -1.0
    ends = ("start", "end") if outward > 0 else ("end", "start")
    shaft = _along(points["grip_end"], points["shaft_foot"], share=0.45)
    middle = _along(hands, hands_foot, share=0.5)
    words = (
        Words(at=(ball[0] + outward * beside, max(eye[1], 3 * beside)),
              words=f"{abs(found.eye_inside_mm.mean):.0f} mm", anchor=ends[0]),
        Words(at=(max(shaft[0] * outward, ball[0] * outward) * outward + outward * beside,
                  shaft[1]), words=f"{found.shaft_deg.mean:.1f}°", anchor=ends[0]),
        Words(at=(middle[0] - outward * beside, middle[1]),
              words=f"{found.hands_height_mm.mean:.0f} mm", anchor=ends[1]),
    )  # fmt: skip
    return lines, words


def _upright(points: dict[str, Spot]) -> Spot:
    if "plumb_top" not in points:
        return (0.0, -1.0)
    top, foot = points["plumb_top"], points["plumb_foot"]
    long = math.dist(top, foot)
    return ((top[0] - foot[0]) / long, (top[1] - foot[1]) / long)


def _along(start: Spot, end: Spot, *, share: float) -> Spot:
    return (start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))


def _level(at: Spot, other: Spot, *, up: Spot) -> Spot:
    """The point above or below ``at`` that is as high as ``other``."""
    rise = (other[0] - at[0]) * up[0] + (other[1] - at[1]) * up[1]
    return (at[0] + rise * up[0], at[1] + rise * up[1])
