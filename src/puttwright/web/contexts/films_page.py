"""Filmed putts: what is asked before a clip is sent, and what each one said."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Final

from puttwright.deeds.draw_roll import filmed_of
from puttwright.deeds.enter_roll import MEASURED
from puttwright.deeds.measure_roll import Figure, RollAsk, RollReading
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.record_film import clip_known
from puttwright.evidence import Column, FittingGreen, Putt
from puttwright.fitting.phrases import THIN
from puttwright.pictures.filmed_roll import draw_filmed_roll, filmed_table
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import worded
from puttwright.web.clips import ASKS, READ, READING, REFUSED, Filmed, Round
from puttwright.web.contexts.hand import Hand, hand_of
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.contexts.hour import ROLL
from puttwright.web.contexts.said import name_of
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.forms.asking import (
    Answers,
    Field,
    Question,
    Typed,
    fields,
    question,
    read,
    renamed,
)
from puttwright.web.forms.entry_forms import SIDES, end_questions
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue
from puttwright.web.typed import new_key

RATE: Final = Column("fps", "number", "pictures a second", low=50, high=1000)
WENT: Final = Column("went_m", "number", "how far it went", unit="m", low=0.3, high=40)
RATES: Final = (120, 240)
"""What phones take in slow motion; common practice, no source."""
_HEIGHT: Final = 300.0
_NUMBER: Final = re.compile(r"\d+")
_OPTION: Final = "--"
"""A sentence with an option in it is for who types commands; the page has its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One figure in plain words, with its interval."""

    label: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """A field for where the putt stopped, with its two sides and the one that is meant."""

    field: Field
    sides: tuple[str, str]
    here: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmRow:
    """One clip on the page; ``rate`` is the field for its pictures a second, where it is asked."""

    number: int
    name: str
    state: str
    words: str
    share: int
    again: str
    rate_at: str
    rate: Field | None = None
    rates: tuple[int, ...] = RATES
    figures: tuple[Told, ...] = ()
    ends: tuple[End, ...] = ()
    notes: tuple[str, ...] = ()
    drawn: Drawing | None = None
    entered: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmsPage:
    """The form, and what the clips said."""

    heading: Heading
    hand: Hand
    builds: tuple[tuple[str, str], ...]
    fields: tuple[Field, ...]
    entry_key: str
    read: str
    at: str
    rows: tuple[FilmRow, ...] = ()
    told: str = ""
    message: str = ""

    @property
    def open(self) -> bool:
        """Whether there is, or may yet be, something to enter."""
        return any(row.state != REFUSED and not row.entered for row in self.rows)


def film_questions(opened: OpenFitting, hand: Hand) -> tuple[Question, ...]:
    """What is asked before clips are sent."""
    speed = f"{opened.fitting.fitting_green.speed_ft:g}"
    start = f"{hand.distance_m:g}"
    text = catalogue()
    return (
        question(Putt, "distance_m", label="films.distance", needed=True, start=start),
        rate_question(),
        question(
            FittingGreen, "speed_ft", label="films.green", hint="films.green_hint", start=speed
        ),
        Question(
            name=WENT.name, column=WENT, label=text("films.went"), hint=text("films.went_hint")
        ),
    )


def rate_question(number: int | None = None) -> Question:
    """How many pictures a second were taken; of one clip, or of all before they are sent."""
    text = catalogue()
    if number is None:
        return Question(
            name=RATE.name, column=RATE, label=text("films.rate"), hint=text("films.rate_hint")
        )
    return Question(name=f"{RATE.name}-{number}", column=RATE, label=text("films.rate"))


def read_asked(opened: OpenFitting, typed: Typed, *, hand: Hand) -> tuple[Answers, RollAsk]:
    """What was typed, and what it means for the reading of the clips."""
    answers = read(film_questions(opened, hand), typed)
    said = answers.values
    ask = RollAsk(
        fps=said.get("fps"), green_ft=said.get("speed_ft"), went_m=said.get("went_m")
    )  # fmt: skip
    return answers, ask


def films_page(
    opened: OpenFitting, typed: Mapping[str, str], *, name: str = "", sent: Round | None = None,
    told: Mapping[str, str] | None = None, message: str = "", files: str = "",
    keep: bool = False,
) -> FilmsPage:  # fmt: skip
    """The page.

    Parameters
    ----------
    opened
        The fitting.
    typed
        The address's query, or what was typed.
    name, sent
        Clips that were sent, and the name they are known by.
    told
        What is wrong, by field.
    message, files
        What is wrong with the whole, and with the files that were chosen.
    keep
        Whether the fields show what was typed.
    """
    hand = hand_of(opened, dict(typed) | {"task": "putts", "look": ROLL})
    asked = film_questions(opened, hand)
    at = heading(opened.fitting, here=ROLL)
    return FilmsPage(
        heading=at,
        hand=hand,
        builds=tuple((build.build_id, build.name) for build in opened.fitting.builds),
        fields=fields(asked, typed=typed if keep else None, told=told),
        entry_key=new_key(),
        read=name,
        at=f"{at.address}/films",
        rows=tuple(
            film_row(
                clip, opened, number=number, at=f"{at.address}/films/{name}", typed=typed, told=told
            )
            for number, clip in enumerate(sent.clips if sent else ())
        ),
        told=files,
        message=message,
    )


def film_row(
    clip: Filmed, opened: OpenFitting, *, number: int, at: str, typed: Typed | None = None,
    told: Mapping[str, str] | None = None,
) -> FilmRow:  # fmt: skip
    """One clip as it stands now.

    Parameters
    ----------
    clip, opened
        The clip, and the fitting it was sent to.
    number, at
        Its place among those sent together, and their address.
    typed, told
        What was typed about its rate, and what is wrong with that.
    """
    state, reading = clip.state, clip.reading
    rate = None
    if state == ASKS:
        (rate,) = fields((rate_question(number),), typed=typed or {}, told=told)
    shown = reading if state == READ else None
    known = clip_known(opened.history, shown) if shown else None
    return FilmRow(
        number=number,
        name=clip.name,
        state=state,
        words=_words(clip),
        share=round(100 * clip.done / clip.steps) if clip.steps else 0,
        again=f"{at}/{number}" if clip.moving else "",
        rate_at=f"{at}/rate",
        rate=rate,
        figures=figures_of(shown) if shown else (),
        ends=_ends(number, typed=typed or {}, told=told) if shown and not known else (),
        notes=_notes(shown, clip.ask) if shown else (),
        drawn=_drawn(shown, number) if shown else None,
        entered=catalogue()("films.entered", reading=name_of(known)) if known else "",
    )


def end_prefix(number: int) -> str:
    """What stands before the names of the fields that say where a clip's putt ended."""
    return f"end-{number}-"


def _ends(number: int, *, typed: Typed, told: Mapping[str, str] | None) -> tuple[End, ...]:
    asked = [renamed(each, prefix=end_prefix(number)) for each in end_questions()]
    return tuple(
        End(
            field=shown,
            sides=SIDES[each.column.name],
            here=typed.get(f"{each.name}-side", SIDES[each.column.name][0]),
        )
        for each, shown in zip(asked, fields(asked, typed=typed, told=told), strict=True)
    )


def _words(clip: Filmed) -> str:
    text = catalogue()
    if clip.fault:
        return text("films.unforeseen", id=clip.fault)
    if clip.state == REFUSED:
        return text("films.unanswered") if _OPTION in clip.told else _why(clip.told)
    if clip.state == ASKS:
        found = _NUMBER.search(clip.told)
        return text("films.plays_at", n=found[0] if found else "30")
    if clip.state == READING:
        return text("films.reading", share=round(100 * clip.done / max(clip.steps, 1)))
    return text("films.waits") if clip.moving else ""


def _why(reason: str) -> str:
    """The reader's reason goes on from a file's name; here it stands for itself."""
    return worded(f"The clip {reason}.")


def _notes(reading: RollReading, ask: RollAsk) -> tuple[str, ...]:
    lacking = any(getattr(reading, name).value is None for name in MEASURED)
    said = {
        "films.more_light": lacking,
        "films.uneven": not reading.fits,
        "films.say_green": ask.green_ft is None and ask.went_m is None,
    }
    return tuple(catalogue()(key) for key, so in said.items() if so)


def _drawn(reading: RollReading, number: int) -> Drawing:
    roll = filmed_of(reading)

    def draw(width: float, prefix: str) -> str:
        return draw_filmed_roll(roll, ground=PAGE, prefix=prefix, width=width, height=_HEIGHT)

    return drawing(draw, prefix=f"film-{number}", table=filmed_table(roll))


def figures_of(reading: RollReading) -> tuple[Told, ...]:
    """The figures of one clip, each with the interval that nine putts of ten lie in."""
    text = catalogue()
    ranged = partial(_ranged, missing=text("films.not_told"))
    skid = ranged(reading.skid_m, "m", digits=2)
    if reading.skid_m.value is not None and reading.skid_s.value is not None:
        skid = text("films.skid_in", skid=skid, time=ranged(reading.skid_s, "s", digits=2))
    share = ranged(reading.roll_share_pct, "%", digits=0)
    if reading.roll_share_pct.value is not None and reading.total_m.value is not None:
        total = ranged(reading.total_m, "m", digits=1)
        share = text("films.share_of", share=share, total=total)
    rows = (
        ("films.speed", ranged(reading.ball_speed_mps, "m/s", digits=2)),
        ("films.launch", ranged(reading.launch_deg, "°", digits=1)),
        ("films.spin", _spin(reading.spin_rpm)),
        ("films.skid", skid),
        ("films.share", share),
    )
    return tuple(Told(label=text(label), words=words) for label, words in rows)


def _ranged(found: Figure, unit: str, *, digits: int, missing: str) -> str:
    if found.value is None:
        return missing
    if 0.0 < found.high - found.low < 10.0**-digits:  # both ends would read the same
        digits += 1
    value, high = (measure(each, unit, digits=digits) for each in (found.value, found.high))
    if found.low == found.high:  # what the person said
        return value
    low = measure(found.low, unit, digits=digits).partition(THIN)[0].rstrip("°%")
    return catalogue()("films.range", value=value, low=low, high=high)


def _spin(found: Figure) -> str:
    text = catalogue()
    if found.value is None:
        return text("films.not_told")
    turned = -1.0 if found.value < 0 else 1.0
    tens = 0 if found.high - found.low < 10.0 else -1
    ends = sorted(turned * each for each in (found.low, found.high))
    low, high = (f"{round(each, tens):.0f}".replace("-", "−") for each in ends)
    spin = text("films.range", value=f"{abs(round(found.value, tens)):.0f}", low=low, high=high)
    return text("films.spin_back" if found.value < 0 else "films.spin_forward", spin=spin)
