"""The questions about golfer, greens and putters."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from puttwright.evidence import Build, FittingGreen, Golfer, Green
from puttwright.web.forms.asking import Question, question, renamed
from puttwright.web.manner import manner
from puttwright.web.texts import catalogue

GREENS: Final = 3
BUILDS: Final = 3
"""So many rows stand on a new fitting; more builds are added on the green."""


def golfer_questions() -> tuple[Question, ...]:
    """Who is being fitted."""
    return (
        question(
            Golfer, "alias", prefix="golfer-", label="new.alias", hint="new.alias_hint", needed=True
        ),
        question(
            Golfer,
            "handed",
            prefix="golfer-",
            label="new.handed",
            needed=True,
            words="new",
            start=manner().handed,
        ),
        question(
            Golfer,
            "stature_mm",
            prefix="golfer-",
            label="new.stature",
            hint="new.stature_hint",
            said_in="cm",
        ),
        _yes_or_no(
            question(Golfer, "stature_told", prefix="golfer-", label="new.stature_told"),
            yes="new.told",
            no="new.taped",
        ),
        question(
            Golfer,
            "wrist_height_mm",
            prefix="golfer-",
            label="new.wrist",
            hint="new.wrist_hint",
            said_in="cm",
        ),
        replace(
            question(
                Golfer, "handicap", prefix="golfer-", label="new.handicap", hint="new.handicap_hint"
            ),
            plus_is_below=True,
        ),
        _yes_or_no(
            question(Golfer, "minor", prefix="golfer-", label="new.age", hint="new.age_hint"),
            yes="new.minor",
            no="new.adult",
        ),
    )


def _yes_or_no(asked: Question, *, yes: str, no: str) -> Question:
    """A question with two answers, in words."""
    text = catalogue()
    return replace(asked, offered=(("yes", text(yes)), ("no", text(no))))


def green_questions(number: int) -> tuple[Question, ...]:
    """One of the greens they play; a row without a name is left out."""
    prefix = f"green-{number}-"
    first = number == 1
    home = catalogue()("new.home") if first else ""
    return (
        question(Green, "name", prefix=prefix, label="new.green_name", start=home),
        question(
            Green, "speed_ft", prefix=prefix, label="new.green_speed", start="9" if first else ""
        ),
        question(
            Green,
            "share",
            prefix=prefix,
            label="new.green_share",
            said_in="%",
            start="100" if first else "",
        ),
    )


def here_questions() -> tuple[Question, ...]:
    """The green the readings are taken on."""
    return (
        question(
            FittingGreen,
            "speed_ft",
            prefix="here-",
            label="new.here_speed",
            needed=True,
            start="10",
        ),
        question(
            FittingGreen,
            "slope_pct",
            prefix="here-",
            label="new.here_slope",
            hint="new.here_slope_hint",
            start="0",
        ),
        question(
            FittingGreen,
            "slope_towards_deg",
            prefix="here-",
            label="new.here_towards",
            hint="new.here_towards_hint",
        ),
    )


def build_questions(
    *, prefix: str, own: bool = False, needed: bool = False
) -> tuple[Question, ...]:
    """A build in the measures a fitter speaks: inches along the shaft, degrees."""
    name = catalogue()("build.own_name") if own else ""
    asked = (
        question(Build, "label", label="build.label", start=name),
        question(
            Build,
            "length_mm",
            label="build.length",
            said_in="in",
            needed=needed,
            start="34" if own else "",
        ),
        question(Build, "lie_deg", label="build.lie", needed=needed, start="70" if own else ""),
        question(Build, "loft_deg", label="build.loft", needed=needed, start="3" if own else ""),
    )
    return tuple(renamed(each, prefix=prefix) for each in asked)


def more_build_questions(*, prefix: str) -> tuple[Question, ...]:
    """What else may be said of a build."""
    asked = (
        question(Build, "head_shape", label="build.head_shape", words="build"),
        question(Build, "sight_line", label="build.sight_line", words="build"),
        question(Build, "offset_mm", label="build.offset"),
        question(Build, "toe_hang_deg", label="build.toe_hang"),
        question(Build, "head_mass_g", label="build.head_mass"),
    )
    return tuple(renamed(each, prefix=prefix) for each in asked)
