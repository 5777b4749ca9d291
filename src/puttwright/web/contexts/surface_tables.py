"""What stands on a surface to tap on, as a table: for who reads it or has it read out."""

from __future__ import annotations

from collections.abc import Sequence

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import AimReading, Putt
from puttwright.pictures.of_fitting import aim_angle_deg, marks
from puttwright.pictures.tables import Table
from puttwright.web.contexts.hand import Hand
from puttwright.web.contexts.said import along, aside, heightwise, toewise, turned
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue


def board_table(opened: OpenFitting, hand: Hand, *, aims: Sequence[AimReading]) -> Table:
    """The dots on the board, in the order taken."""
    text = catalogue()
    rows = (
        (
            text("said.aim", seq=aim.seq),
            aside(aim.reading_mm, unit="mm"),
            turned(aim_angle_deg(aim)),
        )
        for aim in aims
    )
    return Table(
        caption=text("surface.board", letter=_letter(opened, hand)),
        head=(text("bench.reading"), text("surface.on_board"), text("surface.angle")),
        rows=tuple(rows),
    )


def green_table(opened: OpenFitting, hand: Hand) -> Table:
    """Where the putts from here stopped, the holed ones among them, in the order hit."""
    text = catalogue()
    putts = [
        putt
        for putt in opened.fitting.used_putts
        if putt.build_id == hand.build_id
        and putt.distance_m == hand.distance_m
        and (putt.holed or putt.stop_past_m is not None)
    ]
    distance = measure(hand.distance_m, "m", digits=1)
    return Table(
        caption=text("surface.green", letter=_letter(opened, hand), distance=distance),
        head=(text("bench.reading"), text("bench.stopped_along"), text("bench.stopped_aside")),
        rows=tuple((text("said.putt", seq=putt.seq), *_stop(putt)) for putt in putts),
    )


def face_table(opened: OpenFitting, hand: Hand, *, putts: Sequence[Putt]) -> Table:
    """Where the putts were struck, in the order hit."""
    text = catalogue()
    rows = (
        (
            text("said.putt", seq=putt.seq),
            "" if putt.strike_toe_mm is None else toewise(putt.strike_toe_mm),
            "" if putt.strike_high_mm is None else heightwise(putt.strike_high_mm),
        )
        for putt in putts
    )
    return Table(
        caption=text("surface.face", letter=_letter(opened, hand)),
        head=(text("bench.reading"), text("bench.strike_toe"), text("bench.strike_high")),
        rows=tuple(rows),
    )


def _stop(putt: Putt) -> tuple[str, str]:
    if putt.holed or putt.stop_past_m is None:
        return catalogue()("said.holed"), ""
    right_m = putt.stop_right_m
    return along(putt.stop_past_m), "" if right_m is None else aside(right_m, unit="m", digits=2)


def _letter(opened: OpenFitting, hand: Hand) -> str:
    known = marks(opened.fitting).get(hand.build_id)
    return known.letter if known else hand.build_id
