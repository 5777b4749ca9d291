"""The drawn surfaces to tap on: the board, the green, the face."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import AimReading, Putt
from puttwright.pictures.tables import Table
from puttwright.store.readings import AIMS, SETUPS, Kept
from puttwright.web.contexts.hand import Hand
from puttwright.web.contexts.heading import address_of
from puttwright.web.contexts.hour import STRIKE
from puttwright.web.contexts.surface_tables import board_table, face_table, green_table
from puttwright.web.drawings.aim_surface import aim_surface
from puttwright.web.drawings.drawing import NARROW, WIDE
from puttwright.web.drawings.face_surface import face_surface
from puttwright.web.drawings.green_surface import green_surface
from puttwright.web.drawings.tap_surface import TapSurface


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """The drawn surface in both widths, for one hand and one kind of reading."""

    kind: str
    narrow: TapSurface
    wide: TapSurface
    address: str
    revision: int
    table: Table


def surface(opened: OpenFitting, hand: Hand, *, wide: bool = False) -> Surface | None:
    """The surface to tap on for what is in hand; address positions have none.

    Parameters
    ----------
    opened, hand
        The fitting and what is in hand.
    wide
        Whether more of the green is wanted, for a putt gone far astray.
    """
    if hand.task == SETUPS:
        return None
    draw = _aim_surface if hand.task == AIMS else partial(_green_surface, wide=wide)
    address = f"{address_of(opened.fitting.fitting_id)}/surface?{hand.query()}"
    return Surface(
        kind=hand.task,
        narrow=draw(opened, hand, width=NARROW, prefix="tap-narrow"),
        wide=draw(opened, hand, width=WIDE, prefix="tap-wide"),
        address=address,
        revision=opened.revision,
        table=board_table(opened, hand, aims=_aims(opened, hand))
        if hand.task == AIMS
        else green_table(opened, hand),
    )


def face(opened: OpenFitting, hand: Hand) -> Surface | None:
    """The face to tap on where the strike is looked at."""
    known = {build.build_id for build in opened.fitting.builds}
    if hand.step != STRIKE or hand.build_id not in known:
        return None
    address = f"{address_of(opened.fitting.fitting_id)}/face?{hand.query()}"
    return Surface(
        kind="strike",
        narrow=_face_surface(opened, hand, width=NARROW, prefix="face-narrow"),
        wide=_face_surface(opened, hand, width=WIDE, prefix="face-wide"),
        address=address,
        revision=opened.revision,
        table=face_table(opened, hand, putts=_struck(opened, hand)),
    )


def _struck(opened: OpenFitting, hand: Hand) -> list[Putt]:
    return [
        putt
        for putt in opened.fitting.used_putts
        if putt.build_id == hand.build_id and putt.strike_toe_mm is not None
    ]


def _aims(opened: OpenFitting, hand: Hand) -> list[AimReading]:
    return [
        aim
        for aim in opened.fitting.aims
        if aim.build_id == hand.build_id and aim.board_distance_mm == hand.board_mm
    ]


def _face_surface(opened: OpenFitting, hand: Hand, *, width: float, prefix: str) -> TapSurface:
    putts = _struck(opened, hand)
    return face_surface(
        [(putt.strike_toe_mm or 0.0, putt.strike_high_mm or 0.0) for putt in putts],
        build=opened.fitting.build(hand.build_id),
        handed=opened.fitting.golfer.handed,
        latest=_is_last(opened.last, putts),
        width=width,
        prefix=prefix,
    )


def _aim_surface(opened: OpenFitting, hand: Hand, *, width: float, prefix: str) -> TapSurface:
    aims = _aims(opened, hand)
    return aim_surface(
        [aim.reading_mm for aim in aims],
        board_distance_mm=hand.board_mm,
        handed=opened.fitting.golfer.handed,
        latest=_is_last(opened.last, aims),
        width=width,
        prefix=prefix,
    )


def _green_surface(
    opened: OpenFitting, hand: Hand, *, width: float, prefix: str, wide: bool
) -> TapSurface:
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
        wide=wide,
    )


def _is_last(last: Kept | None, shown: list[AimReading] | list[Putt]) -> bool:
    return bool(last and shown and last.seq == shown[-1].seq)
