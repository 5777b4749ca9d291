"""The questions about one reading, and the reading their answers make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from puttwright.evidence import AimReading, Putt, SetupReading
from puttwright.store.readings import AIMS, PUTTS, Reading
from puttwright.web.forms.asking import Answers, Question, Typed, question, read
from puttwright.web.texts import catalogue

TAPPED: Final = "tap"
NEGATIVE: Final = frozenset({"left", "short"})
SIDES: Final[Mapping[str, tuple[str, str]]] = {
    "reading_mm": ("right", "left"),
    "stop_past_m": ("past", "short"),
    "stop_right_m": ("right", "left"),
}
"""Figures that people say with a side instead of a sign; the first is the positive one."""

_ENDS: Final = ("stop_past_m", "stop_right_m")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A reading as typed, or what is wrong with it."""

    reading: Reading | None = None
    messages: Mapping[str, str] = field(default_factory=dict)


def entry_questions(kind: str) -> tuple[Question, ...]:
    """What is asked about a reading of this kind, the figures taken by eye."""
    if kind == AIMS:
        return (question(AimReading, "reading_mm", label="bench.reading", needed=True),)
    if kind == PUTTS:
        return (
            question(Putt, "stop_past_m", label="bench.stopped_along"),
            question(Putt, "stop_right_m", label="bench.stopped_aside"),
        )
    return (
        question(
            SetupReading, "eye_inside_mm", label="bench.eye_inside", hint="bench.eye_inside_hint"
        ),
        question(
            SetupReading, "hands_height_mm", label="bench.hands_height", hint="bench.hands_hint"
        ),
        question(
            SetupReading, "shaft_lean_deg", label="bench.shaft_lean", hint="bench.shaft_lean_hint"
        ),
        question(
            SetupReading, "sole_tilt_deg", label="bench.sole_tilt", hint="bench.sole_tilt_hint"
        ),
        question(
            SetupReading, "eye_behind_mm", label="bench.eye_behind", hint="bench.eye_behind_hint"
        ),
        question(SetupReading, "grip_style", label="bench.grip_style", words="grip"),
        question(SetupReading, "posture_note", label="bench.posture_note"),
    )


def device_questions(kind: str) -> tuple[Question, ...]:
    """What a device may have measured of it."""
    if kind != PUTTS:
        return ()
    return (
        question(Putt, "ball_speed_mps", label="bench.ball_speed"),
        question(Putt, "start_deg", label="bench.start_deg", hint="bench.start_deg_hint"),
        question(Putt, "launch_deg", label="bench.launch"),
        question(Putt, "skid_m", label="bench.skid"),
        question(Putt, "roll_share_pct", label="bench.roll_share", hint="bench.roll_share_hint"),
        question(Putt, "strike_toe_mm", label="bench.strike_toe", hint="bench.strike_toe_hint"),
        question(Putt, "strike_high_mm", label="bench.strike_high", hint="bench.strike_high_hint"),
        question(Putt, "note", label="bench.note"),
    )


def read_entry(
    kind: str, typed: Typed, *, build_id: str, distance_m: float, board_mm: float, mirror: bool
) -> Entry:
    """The reading a form sent.

    Parameters
    ----------
    kind
        Which table it belongs to.
    typed
        The form.
    build_id, distance_m, board_mm, mirror
        What is in hand and how the reading is taken.
    """
    asked = (*entry_questions(kind), *device_questions(kind))
    answers = read(asked, typed, tapped=typed.get("via") == TAPPED)
    if not answers.good:
        return Entry(messages=answers.messages)
    values = _signed(answers, typed)
    if kind == AIMS:
        reading: Reading = AimReading(
            seq=0, build_id=build_id, board_distance_mm=board_mm, mirror=mirror, **values
        )
    elif kind == PUTTS:
        return _putt(values, typed, build_id=build_id, distance_m=distance_m)
    elif any(value is not None for value in values.values()):
        reading = SetupReading(seq=0, build_id=build_id, **values)
    else:
        return Entry(messages={"eye_inside_mm": catalogue()("bench.nothing_said")})
    return Entry(reading=reading)


def read_end(typed: Typed, *, prefix: str, build_id: str, distance_m: float) -> Entry:
    """A putt of which nothing but where it ended may be said, and need not be.

    Parameters
    ----------
    typed
        The form.
    prefix
        What stands before the names of its fields.
    build_id, distance_m
        The putter in hand, and from where.
    """
    said = {
        name.removeprefix(prefix): told for name, told in typed.items() if name.startswith(prefix)
    }
    if said.get("holed") != "yes" and not any(said.get(each.name) for each in end_questions()):
        return Entry(reading=Putt(seq=0, build_id=build_id, distance_m=distance_m))
    said = {name: said.get(name, "") for name in ("holed", *_ENDS, *(f"{n}-side" for n in _ENDS))}
    entry = read_entry(
        PUTTS, said, build_id=build_id, distance_m=distance_m, board_mm=0.0, mirror=False
    )
    told = {f"{prefix}{name}": message for name, message in entry.messages.items()}
    return Entry(reading=entry.reading, messages=told)


def end_questions() -> tuple[Question, ...]:
    """Where a putt stopped, along its way and across it."""
    return entry_questions(PUTTS)


def _signed(answers: Answers, typed: Typed) -> dict[str, Any]:
    """A figure typed without a sign gets that of its side; one with a minus keeps it."""
    values = dict(answers.values)
    for name in SIDES:
        value = values.get(name)
        if value is not None and value > 0 and typed.get(f"{name}-side") in NEGATIVE:
            values[name] = -value
    return values


def _putt(values: dict[str, Any], typed: Typed, *, build_id: str, distance_m: float) -> Entry:
    holed = typed.get("holed") == "yes"
    if holed:
        values |= {"stop_past_m": None, "stop_right_m": None}
    elif all(value is None for value in values.values()):
        return Entry(messages={"stop_past_m": catalogue()("bench.nothing_said")})
    missed = False if values["stop_past_m"] is not None else None
    putt = Putt(
        seq=0,
        build_id=build_id,
        distance_m=distance_m,
        holed=holed or missed,
        **values,
    )
    return Entry(reading=putt)
