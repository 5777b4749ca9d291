"""Every grip style that a reading may name is one the linkage knows."""

from __future__ import annotations

import pytest

from puttwright.address.grips import GRIP_STYLES, grip_style
from puttwright.errors import NotFound
from puttwright.evidence.records import GRIP_STYLES as NAMES


def test_the_names_are_those_of_the_readings():
    assert tuple(style.name for style in GRIP_STYLES) == NAMES


def test_a_style_nobody_knows_is_told():
    with pytest.raises(NotFound, match="broomstick"):
        grip_style("broomstick")
