"""The aim board: printed life-size, its markers where the reader of photos will look for them."""

from __future__ import annotations

import re

import pytest

from puttwright.address.board import BOARDS, CELLS
from puttwright.errors import NotFound
from puttwright.paper.board import board_data, render_board
from puttwright.pictures.drafting import UNIT_MM

PAPERS = {"A4": (297, 210), "A3": (420, 297), "letter": (279.4, 215.9), "tabloid": (431.8, 279.4)}


@pytest.mark.parametrize("paper", PAPERS)
def test_the_board_is_one_page_as_large_as_its_paper_and_the_same_each_time(paper, read):
    pdf = render_board(paper)
    page = read(pdf).reader.pages[0]
    size_mm = [float(side) / 72 * 25.4 for side in page.mediabox[2:]]
    assert size_mm == pytest.approx(PAPERS[paper], abs=0.01)
    assert len(read(pdf).pages) == 1
    assert render_board(paper) == pdf


@pytest.mark.parametrize("paper", PAPERS)
def test_the_board_carries_the_caution_and_the_check_of_the_print(paper, read):
    text = read(render_board(paper)).text
    for words in ("Laser class 1 or 2 only", "Never toward eyes", "Children", "comes back and up",
                  "hold a ruler here: 100 mm", "100 %", "left −", "right +"):  # fmt: skip
        assert words in text


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_on_the_board_lies_on_something_else(paper):
    board = BOARDS[paper]
    for marker in board.markers:
        cell = marker.side_mm / CELLS
        for x, y in marker.corners_mm:
            assert abs(x) + cell <= board.width_mm / 2
            assert abs(y) + cell <= board.height_mm / 2
            # figures and the bar end 13 mm outside the field
            assert abs(y) - cell / 2 > board.field_half_height_mm + 13.0
    assert board.reach_mm <= board.field_half_width_mm
    every = [number for each in BOARDS.values() for number in each.numbers]
    assert len(every) == len(set(every)) == 24


def test_markers_and_zero_line_are_drawn_where_the_board_says():
    board = BOARDS["A3"]
    drawing = board_data(board)["drawing"]
    assert f'viewBox="0 0 {420 / UNIT_MM:g}' in drawing
    squares = re.findall(r'd="M([\d.]+) ([\d.]+)L[^"]*" fill="#000000"', drawing)
    drawn = [(float(x) * UNIT_MM - 210, 148.5 - float(y) * UNIT_MM) for x, y in squares]
    for at, marker in zip(drawn, board.markers, strict=True):
        assert at == pytest.approx(marker.corners_mm[0], abs=1e-3)


def test_the_board_has_no_colour_that_could_be_a_laser():
    for board in BOARDS.values():
        colours = set(re.findall(r"#([0-9a-f]{6})", board_data(board)["drawing"]))
        for colour in colours:
            channels = [int(colour[place : place + 2], 16) for place in (0, 2, 4)]
            assert max(channels) - min(channels) < 24, colour


def test_a_paper_we_have_no_board_for_is_told_with_those_there_are():
    with pytest.raises(NotFound, match="A5.*A4, A3, letter, tabloid"):
        render_board("A5")
