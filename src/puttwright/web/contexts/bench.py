"""The page on the green: the head in hand, the surface to tap on, the last reading, the verdict."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final
from urllib.parse import urlencode

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import AimReading, Fitting, Putt
from puttwright.fitting.phrases import figure
from puttwright.pictures.builds import BuildMark
from puttwright.pictures.of_fitting import marks
from puttwright.store.readings import AIMS, PUTTS, SETUPS, Kept
from puttwright.units import feet
from puttwright.web.contexts.heading import Heading, address_of
from puttwright.web.contexts.said import said
from puttwright.web.contexts.verdict import Verdict
from puttwright.web.drawings.aim_surface import aim_surface
from puttwright.web.drawings.drawing import NARROW, WIDE
from puttwright.web.drawings.green_surface import green_surface
from puttwright.web.drawings.tap_surface import TapSurface
from puttwright.web.forms.asking import Field
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue

TASKS: Final = (AIMS, PUTTS, SETUPS)
DISTANCES_M: Final = (1.0, 2.0, 3.0, 5.0, 8.0)
USUAL_M: Final = 3.0
USUAL_BOARD_MM: Final = 2000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """What is being taken: the build in hand, the kind of reading, and its setting."""

    build_id: str
    task: str
    distance_m: float
    board_mm: float
    mirror: bool

    def query(self, **changes: object) -> str:
        """The same with changes, as the query of an address."""
        held = replace(self, **changes)  # type: ignore[arg-type]
        words = {"hand": held.build_id, "task": held.task}
        if held.task == PUTTS:
            words["from"] = f"{held.distance_m:g}"
        if held.task == AIMS:
            words |= {"board": f"{held.board_mm:g}", "laser": "mirror" if held.mirror else "face"}
        return urlencode(words)


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
class Surface:
    """The drawn surface in both widths, for one hand and one kind of reading."""

    kind: str
    narrow: TapSurface
    wide: TapSurface
    address: str
    revision: int


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
    news: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbers:
    """The entry by number: figures taken by eye, figures of a device, sides instead of signs."""

    by_eye: tuple[Field, ...]
    device: tuple[Field, ...]
    sides: Mapping[str, str]

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
    live: Live
    numbers: Numbers
    saying: str
    entry_key: str
    stream: str
    board: str
    notice: str = ""


def hand_of(opened: OpenFitting, query: Mapping[str, str]) -> Hand:
    """What is in hand: as the address says, else as it was at the last reading."""
    fitting = opened.fitting
    known = [build.build_id for build in fitting.builds]
    last = opened.last
    build_id = query.get("hand", "")
    if build_id not in known:
        build_id = last.reading.build_id if last else fitting.own_build
    task = query.get("task", "")
    if task not in TASKS:
        task = last.kind if last else AIMS
    aim = max(fitting.aims, key=lambda each: each.seq, default=None)
    mirror = aim.mirror if aim else False
    return Hand(
        build_id=build_id,
        task=task,
        distance_m=_number(query.get("from"), low=0.2, high=40) or _last_distance(fitting),
        board_mm=_number(query.get("board"), low=200, high=20000)
        or (aim.board_distance_mm if aim else USUAL_BOARD_MM),
        mirror=query["laser"] == "mirror" if "laser" in query else mirror,
    )


def _number(text: str | None, *, low: float, high: float) -> float | None:
    try:
        value = float((text or "").replace(",", "."))
    except ValueError:
        return None
    return value if low <= value <= high else None


def _last_distance(fitting: Fitting) -> float:
    last = max(fitting.putts, key=lambda putt: putt.seq, default=None)
    return last.distance_m if last else USUAL_M


def live(opened: OpenFitting, verdict: Verdict, *, news: str) -> Live:
    """The parts that change by themselves; ``news`` is the state of the fitting they show."""
    fitting = opened.fitting
    text = catalogue()
    counts = text("bench.so_far", aims=len(fitting.aims), putts=len(fitting.used_putts))
    return Live(last=last_reading(opened), counts=counts, verdict=verdict, news=news)


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


def surface(opened: OpenFitting, hand: Hand) -> Surface | None:
    """The surface to tap on for what is in hand; address positions have none."""
    if hand.task == SETUPS:
        return None
    draw = _aim_surface if hand.task == AIMS else _green_surface
    address = f"{address_of(opened.fitting.fitting_id)}/surface?{hand.query()}"
    return Surface(
        kind=hand.task,
        narrow=draw(opened, hand, width=NARROW, prefix="tap-narrow"),
        wide=draw(opened, hand, width=WIDE, prefix="tap-wide"),
        address=address,
        revision=opened.revision,
    )


def _aim_surface(opened: OpenFitting, hand: Hand, *, width: float, prefix: str) -> TapSurface:
    aims = [
        aim
        for aim in opened.fitting.aims
        if aim.build_id == hand.build_id and aim.board_distance_mm == hand.board_mm
    ]
    return aim_surface(
        [aim.reading_mm for aim in aims],
        board_distance_mm=hand.board_mm,
        handed=opened.fitting.golfer.handed,
        latest=_is_last(opened.last, aims),
        width=width,
        prefix=prefix,
    )


def _green_surface(opened: OpenFitting, hand: Hand, *, width: float, prefix: str) -> TapSurface:
    putts = [
        putt
        for putt in opened.fitting.used_putts
        if putt.build_id == hand.build_id
        and putt.distance_m == hand.distance_m
        and putt.stop_past_m is not None
        and not putt.holed
    ]
    return green_surface(
        [(putt.stop_right_m or 0.0, putt.stop_past_m or 0.0) for putt in putts],
        distance_m=hand.distance_m,
        latest=_is_last(opened.last, putts),
        width=width,
        prefix=prefix,
    )


def _is_last(last: Kept | None, shown: list[AimReading] | list[Putt]) -> bool:
    return bool(last and shown and last.seq == shown[-1].seq)


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
    return tuple(
        Chip(
            words=text("bench.distance_chip", metres=f"{metres:g}"),
            note=text("bench.distance_feet", feet=figure(feet(metres), digits=0)),
            address=f"{address}?{hand.query(distance_m=metres)}",
            here=metres == hand.distance_m,
        )
        for metres in _distances(hand)
    )
