"""The curves of a filmed putt say where true roll begins, and how sure that is."""

from __future__ import annotations

import dataclasses
import importlib.util
import re

import pytest

from puttwright.pictures.filmed_roll import FilmedRoll, draw_filmed_roll, filmed_table
from puttwright.pictures.grounds import GROUNDS, PAPER

PLACES = tuple(0.05 * step for step in range(20))
SPEED = tuple(max(2.0 - 1.5 * place, 1.55 - 0.3 * place) for place in PLACES)
SURFACE = tuple(min(4.0 * place, 1.55 - 0.3 * place) for place in PLACES)
ROLL = FilmedRoll(
    seen_m=PLACES, seen_speed_mps=SPEED, seen_surface_mps=SURFACE, fitted_m=PLACES,
    fitted_speed_mps=SPEED, fitted_surface_mps=SURFACE, skid_m=(0.36, 0.34, 0.39), meets_m=0.37,
)  # fmt: skip


@pytest.mark.parametrize("name", sorted(GROUNDS))
def test_it_is_drawn_on_every_ground(name):
    svg = draw_filmed_roll(ROLL, ground=GROUNDS[name])
    assert "true roll from 0.36" in svg
    assert "slides to 0.36" in svg


def test_the_interval_and_the_meeting_are_drawn_where_they_are():
    wide = dataclasses.replace(ROLL, skid_m=(0.36, 0.20, 0.60), meets_m=None)
    narrow, loose = (draw_filmed_roll(each, ground=PAPER) for each in (ROLL, wide))
    assert "wedge" in narrow
    assert "wedge" not in loose
    assert _longest_level_bar(loose) > 2.0 * _longest_level_bar(narrow)


def _longest_level_bar(svg):
    """Length of the interval's bar: the level line just above the scale in the accent's colour."""
    lines = re.findall(r"<line ([^>]*)/>", svg)
    said = [dict(re.findall(r'([\w-]+)="([^"]*)"', line)) for line in lines]
    level = [
        float(each["x2"]) - float(each["x1"])
        for each in said
        if each.get("stroke") == PAPER.accent and each["y1"] == each["y2"]
    ]
    return max(level)


def test_its_table_says_the_same():
    table = filmed_table(ROLL, rows=5)
    assert "0.36" in table.caption
    assert len(table.rows) <= 7


def test_the_guides_drawings_are_those_its_script_draws(root):
    spec = importlib.util.spec_from_file_location("filming", root / "scripts" / "draw_filming.py")
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    guide = (root / "docs" / "guide" / "filming.md").read_text(encoding="utf-8")
    for name, draw in script.DRAWINGS.items():
        kept = (root / "docs" / "pictures" / f"{name}.svg").read_text(encoding="utf-8")
        words = [re.sub(r"-?\d+(?:\.\d+)?", "#", svg).strip() for svg in (kept, draw())]
        assert words[0] == words[1], "run scripts/draw_filming.py"
        assert f"{name}.svg" in guide
