"""What the first steps of the hour say: the golfer asked, their putter gauged, their address."""

from __future__ import annotations

from typing import Final

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import Build, Fitting, SetupReading
from puttwright.pictures.of_fitting import marks
from puttwright.web.contexts import hour
from puttwright.web.contexts.says import Said
from puttwright.web.measures import handicap_words, measure, spoken_unit
from puttwright.web.texts import catalogue

_ASKED: Final = ("wrist_height_mm", "stature_mm", "handicap")
"""What may be missing of a golfer, what tells most first: the wrist stands for the length."""


def interview_says(opened: OpenFitting) -> Said:
    """The golfer and their greens."""
    fitting, text = opened.fitting, catalogue()
    golfer = fitting.golfer
    greens = [
        text("hour.green", name=green.name, speed=measure(green.speed_ft, "ft", digits=1))
        if len(fitting.greens) == 1
        else text(
            "hour.green_share",
            name=green.name,
            speed=measure(green.speed_ft, "ft", digits=1),
            share=measure(100 * green.share, "%"),
        )
        for green in fitting.greens
    ]
    told = [text("hour.greens", greens="; ".join(greens))] if greens else []
    body = [
        text(f"hour.{name}", value=measure(value / 10, "cm"))
        for name in ("stature_mm", "wrist_height_mm")
        if (value := getattr(golfer, name)) is not None
    ]
    if golfer.handicap is not None:
        body.append(text("hour.handicap", value=handicap_words(golfer.handicap)))
    told += [_sentence("; ".join(body))] if body else []
    lacking = [name for name in _ASKED if getattr(golfer, name) is None]
    names = ", ".join(text(f"hour.name_{name}") for name in lacking)
    doubt = [text("hour.not_asked", names=names)] if lacking else []
    if not fitting.first_putts:
        doubt.append(text("hour.first_putts"))
    return Said(
        known=tuple(told),
        doubt=tuple(doubt),
        next=text(f"hour.ask_{lacking[0]}") if lacking else "",
        way="/interview",
    )


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."


def gauge_says(opened: OpenFitting) -> Said:
    """The putter they came with, as measured."""
    text = catalogue()
    own = opened.fitting.build(opened.fitting.own_build)
    lacking = [name for name in hour.GAUGED if getattr(own, name) is None]
    names = ", ".join(text(f"hour.name_{name}") for name in lacking)
    return Said(
        known=(text("hour.gauged", letter=_letter(opened.fitting), spec=spec_words(own)),),
        doubt=(text("hour.not_gauged", names=names),) if lacking else (),
        next=text("hour.next_gauge", name=text(f"hour.name_{lacking[0]}")) if lacking else "",
        way="/gauge",
    )


def spec_words(build: Build) -> str:
    """Length, lie and loft of a build in a line."""
    in_inches = spoken_unit("in") == "in"
    length = (
        measure(build.length_mm / 25.4, "in", digits=1)
        if in_inches
        else measure(build.length_mm, "mm")
    )
    return catalogue()(
        "hour.spec",
        length=length,
        lie=measure(build.lie_deg, "°", digits=1),
        loft=measure(build.loft_deg, "°", digits=1),
    )


def _letter(fitting: Fitting) -> str:
    return marks(fitting)[fitting.own_build].letter


def address_says(opened: OpenFitting) -> Said:
    """Where the eyes were, build by build."""
    fitting, text = opened.fitting, catalogue()
    every = marks(fitting)
    seen: dict[str, list[SetupReading]] = {}
    for setup in fitting.setups:
        seen.setdefault(setup.build_id, []).append(setup)
    lacking = [build_id for build_id in every if build_id not in seen]
    letters = ", ".join(every[build_id].letter for build_id in lacking)
    wanted = lacking[0] if lacking else fitting.own_build
    return Said(
        known=tuple(
            text(
                "hour.of_build",
                letter=every[build_id].letter,
                count=text("hour.taken", count=len(rows)),
                told=_eyes(rows),
            )
            for build_id, rows in seen.items()
        ),
        doubt=(text("hour.lacking", letters=letters),) if lacking else (),
        next=text("hour.next_address", letter=every[wanted].letter),
        way="/address",
    )


def _eyes(rows: list[SetupReading]) -> str:
    text = catalogue()
    inside = [row.eye_inside_mm for row in rows if row.eye_inside_mm is not None]
    if not inside:
        return text("hour.no_eyes")
    mean = sum(inside) / len(inside)
    size = measure(abs(mean), "mm")
    return text("hour.eyes_inside" if mean >= 0 else "hour.eyes_outside", size=size)
