"""The golfer's sheet: one page a client understands, one of evidence."""

from __future__ import annotations

import dataclasses
from typing import Any, Final

from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.paper.report_context import (
    cautions_mm,
    is_roomy,
    picture_room_mm,
    report_context,
    shown_builds,
    subject_of,
)
from puttwright.paper.typesetting import Sheet, day_of, typeset
from puttwright.pictures.aim_board import aim_board
from puttwright.pictures.drafting import UNIT_MM
from puttwright.pictures.green import green
from puttwright.pictures.grounds import PRINT
from puttwright.pictures.hand import in_english, worded
from puttwright.pictures.make import make_by_distance
from puttwright.pictures.mark import mark
from puttwright.pictures.of_fitting import (
    aim_sets,
    board_distance_mm,
    make_lines,
    marks,
    saved_rows,
    stop_sets,
    usual_distances,
)
from puttwright.pictures.of_putt import capture_region, usual_roll
from puttwright.pictures.roll import skid_and_roll
from puttwright.pictures.strokes import SavedRow, strokes_saved

_HALF: Final = 345.0
_WHOLE: Final = 700.0
_PAGE_ONE: Final = 4
_SLACK_MM: Final = 14.0


def render_report(fitting: Fitting, decision: Decision, *, sheet: Sheet = "a4") -> bytes:
    """Set the golfer's sheet.

    Parameters
    ----------
    fitting
        What was seen; its date is the document's.
    decision
        What the readings say.
    sheet
        ``a4`` or ``us-letter``; both hold it.

    Returns
    -------
    bytes
        A PDF of two pages, the same for the same input.
    """
    with in_english():
        data = report_data(fitting, decision)
    return typeset("report", data, day=day_of(fitting.date), sheet=sheet)


def report_data(fitting: Fitting, decision: Decision) -> dict[str, Any]:
    """All that stands on the sheet, its figures in the measures spoken where it is asked for."""
    context = dataclasses.asdict(report_context(fitting, decision))
    pictures = {"pictures": _pictures(fitting, decision), "mark": mark(ground=PRINT)}
    return {name: _spoken(value) for name, value in context.items()} | pictures


def _spoken(value: Any) -> Any:
    """Every sentence and figure of a context as it is said here."""
    if isinstance(value, str):
        return worded(value)
    if isinstance(value, dict):
        return {name: _spoken(each) for name, each in value.items()}
    if isinstance(value, list | tuple):
        return [_spoken(each) for each in value]
    return value


def _pictures(fitting: Fitting, decision: Decision) -> dict[str, str]:
    """The drawings there is something to draw for."""
    every = marks(fitting, decision)
    shown = {every[build_id].letter for build_id in shown_builds(fitting, decision)}
    roomy = is_roomy(decision, builds=len(shown))
    subject = subject_of(fitting, decision)
    pair = [every[b].letter for b in filter(None, (fitting.own_build, subject)) if b in every]
    rows = _page_one(saved_rows(fitting, decision), shown=shown, pair=pair)
    pictures = {"strokes": strokes_saved(rows, ground=PRINT, prefix="strokes", width=_WHOLE)}
    sets = [item for item in aim_sets(fitting, decision) if item.mark.letter in pair]
    if sets:
        pictures["aim"] = aim_board(
            [dataclasses.replace(item, latest=False) for item in sets],
            board_distance_mm=board_distance_mm(fitting), handed=fitting.golfer.handed,
            ground=PRINT, prefix="aim", width=_HALF,
        )  # fmt: skip
    for distance_m in usual_distances(fitting)[:1]:
        stops = stop_sets(fitting, decision, distance_m=distance_m)
        pictures["green"] = green(
            [dataclasses.replace(s, latest=False) for s in stops if s.mark.letter in pair],
            distance_m=distance_m, ground=PRINT, prefix="green", width=_HALF,
            capture=capture_region(green_ft=fitting.fitting_green.speed_ft),
            tall=_tall(decision, builds=len(shown)),
        )  # fmt: skip
        track = usual_roll(fitting, build_id=subject or fitting.own_build, distance_m=distance_m)
        if track and roomy:
            pictures["roll"] = skid_and_roll(
                track, ground=PRINT, prefix="roll", width=_HALF, height=268.0
            )
    lines = make_lines(fitting, decision)
    if lines:
        pictures["make"] = make_by_distance(
            lines, ground=PRINT, prefix="make", width=_HALF, height=184.0
        )
    return pictures


def _page_one(rows: list[SavedRow], *, shown: set[str], pair: list[str]) -> list[SavedRow]:
    """Own, choice and the best of the rest: what the client's page has room for."""
    kept = [row for row in rows if row.mark.letter in shown]
    others = [row for row in kept if row.mark.letter not in pair]
    others.sort(key=lambda row: -row.saved.mean if row.saved else 0.0)
    fit = {*pair, *(row.mark.letter for row in others[: _PAGE_ONE - len(pair)])}
    return [row for row in kept if row.mark.letter in fit]


def _tall(decision: Decision, *, builds: int) -> float:
    """How much of the green is shown: what the sheet leaves, less its heading, names and foot."""
    room_mm = picture_room_mm(decision, builds=builds) - 8.0
    if is_roomy(decision, builds=builds):
        room_mm -= cautions_mm(decision) - _SLACK_MM
    return min(max(room_mm / UNIT_MM - 150.0, 150.0), 330.0)
