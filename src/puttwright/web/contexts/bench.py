"""The page on the green: the head in hand, the surface to tap on, the last reading, the verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.fitting.phrases import figure
from puttwright.pictures.builds import BuildMark
from puttwright.pictures.of_fitting import marks
from puttwright.store.readings import AIMS, PUTTS
from puttwright.units import feet
from puttwright.web.contexts.counts import counted
from puttwright.web.contexts.hand import DISTANCES_M, TASKS, Hand, Length, hand_of
from puttwright.web.contexts.heading import Heading, address_of
from puttwright.web.contexts.hour import LOOKS, PACE
from puttwright.web.contexts.quick import QuickRow
from puttwright.web.contexts.said import said
from puttwright.web.contexts.step_says import StepSays, step_says
from puttwright.web.contexts.surfaces import Surface
from puttwright.web.contexts.verdict import Verdict
from puttwright.web.forms.asking import Field
from puttwright.web.measures import measure, spoken_unit
from puttwright.web.texts import catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class Chip:
    """Something to choose with one touch."""

    words: str
    address: str
    here: bool
    letter: str = ""
    role: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LastReading:
    """The reading taken last, with its undo."""

    words: str
    kind: str
    seq: int
    fitting_address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Live:
    """The parts of the page that change by themselves when readings come in anywhere."""

    last: LastReading | None
    counts: str
    verdict: Verdict
    says: StepSays
    news: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbers:
    """The entry by number: figures taken by eye, figures of a device, sides instead of signs."""

    by_eye: tuple[Field, ...]
    device: tuple[Field, ...]
    sides: Mapping[str, str]
    quick: Mapping[str, tuple[QuickRow, ...]]
    device_first: bool = False

    @property
    def messages(self) -> tuple[str, ...]:
        """What is wrong with it."""
        return tuple(each.message for each in (*self.by_eye, *self.device) if each.message)


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPage:
    """The whole page."""

    heading: Heading
    hand: Hand
    chips: tuple[Chip, ...]
    tasks: tuple[Chip, ...]
    distances: tuple[Chip, ...]
    surface: Surface | None
    face: Surface | None
    live: Live
    numbers: Numbers
    saying: str
    entry_key: str
    stream: str
    board: str
    length: Length
    notice: str = ""


def live(opened: OpenFitting, verdict: Verdict, *, step: str, news: str) -> Live:
    """The parts that change by themselves.

    Parameters
    ----------
    opened, verdict
        The fitting, and its verdict.
    step
        The step of the hour the page is at.
    news
        The state of the fitting that is shown.
    """
    fitting = opened.fitting
    counts = counted(aims=len(fitting.aims), putts=len(fitting.used_putts))
    says = step_says(opened, step)
    return Live(last=last_reading(opened), counts=counts, verdict=verdict, says=says, news=news)


def last_reading(opened: OpenFitting) -> LastReading | None:
    """The reading taken last that still counts."""
    last = opened.last
    if last is None:
        return None
    return LastReading(
        words=said(last, marks(opened.fitting)),
        kind=last.kind,
        seq=last.seq,
        fitting_address=address_of(opened.fitting.fitting_id),
    )


def ways(opened: OpenFitting) -> tuple[str, ...]:
    """The addresses of the page for everything that can be in hand, one touch away or two."""
    address = address_of(opened.fitting.fitting_id)
    hand = hand_of(opened, {})
    held = [
        replace(hand, build_id=build.build_id, task=task, distance_m=metres)
        for build in opened.fitting.builds
        for task in TASKS
        for metres in (_distances(hand) if task == PUTTS else (hand.distance_m,))
    ]
    held += [
        replace(hand, build_id=build.build_id, task=PUTTS, look=look)
        for build in opened.fitting.builds
        for look in LOOKS
        if look != PACE
    ]
    return (address, *(f"{address}?{each.query()}" for each in held))


def saying(opened: OpenFitting, hand: Hand) -> str:
    """What an entry of this hand is, before it has a number: "Putt with B, from 3.0 m"."""
    text = catalogue()
    known = marks(opened.fitting).get(hand.build_id)
    letter = known.letter if known else hand.build_id
    if hand.task == PUTTS:
        distance = measure(hand.distance_m, "m", digits=1)
        return text("waiting.putt", letter=letter, distance=distance)
    return text("waiting.aim" if hand.task == AIMS else "waiting.setup", letter=letter)


def _distances(hand: Hand) -> list[float]:
    return sorted({*DISTANCES_M, hand.distance_m})


def build_chips(opened: OpenFitting, hand: Hand) -> tuple[Chip, ...]:
    """The builds, one touch each."""
    address = address_of(opened.fitting.fitting_id)
    return tuple(
        _build_chip(
            mark, f"{address}?{hand.query(build_id=build_id)}", here=build_id == hand.build_id
        )
        for build_id, mark in marks(opened.fitting, opened.decision).items()
        if not mark.guess or build_id in {build.build_id for build in opened.fitting.builds}
    )


def _build_chip(mark: BuildMark, address: str, *, here: bool) -> Chip:
    return Chip(
        words=mark.name,
        address=address,
        here=here,
        letter=mark.letter,
        role=mark.role,
        note=mark.note if mark.note.casefold() != mark.name.casefold() else "",
    )


def task_chips(opened: OpenFitting, hand: Hand) -> tuple[Chip, ...]:
    """The kinds of reading."""
    text = catalogue()
    address = address_of(opened.fitting.fitting_id)
    return tuple(
        Chip(
            words=text(f"bench.{task}"),
            address=f"{address}?{hand.query(task=task)}",
            here=task == hand.task,
        )
        for task in TASKS
    )


def distance_chips(opened: OpenFitting, hand: Hand) -> tuple[Chip, ...]:
    """The usual lengths and the one in use."""
    text = catalogue()
    address = address_of(opened.fitting.fitting_id)
    in_feet = spoken_unit("m") == "ft"

    def chip(metres: float) -> Chip:
        said = text("bench.distance_chip", metres=f"{metres:g}")
        other = text("bench.distance_feet", feet=figure(feet(metres), digits=0))
        return Chip(
            words=other if in_feet else said,
            note=said if in_feet else other,
            address=f"{address}?{hand.query(distance_m=metres)}",
            here=metres == hand.distance_m,
        )

    return tuple(chip(metres) for metres in _distances(hand))
