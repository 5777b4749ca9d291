from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.club.bench import OffTheClub
from puttwright.club.of_build import at_length, figures_of, recorded
from puttwright.club.swing_weight import NotASwingWeight, letter, moment_of
from puttwright.club.wanted import Wanted, with_mass
from puttwright.club.ways import BUTT, GRIP, HEAD, TRIM, ways_to
from puttwright.errors import OutOfRange
from puttwright.evidence import Build

BUILD = Build(
    build_id="B", length_mm=864, lie_deg=70, loft_deg=3, head_mass_g=350, shaft_mass_g=110,
    grip_mass_g=70,
)  # fmt: skip


def way(found, kind):
    return next(each for each in found.ways if each.kind == kind)


@given(points=st.floats(0.0, 69.9))
def test_a_swing_weight_is_read_as_it_is_written(points):
    text = letter(161.0 + 1.75 * points)
    assert letter(moment_of(text)) == text


@pytest.mark.parametrize("text", ["", "H3", "D", "D-3", "heavy", "-200", "5000"])
def test_what_is_no_swing_weight_is_told(text):
    with pytest.raises(NotASwingWeight, match="as in D5"):
        moment_of(text)


@pytest.mark.parametrize("wanted", [Wanted(swing_weight_in_oz=215), Wanted(balance_m=0.66),
                                    Wanted(total_kg=0.56)])  # fmt: skip
def test_the_weight_in_the_butt_gives_what_was_wanted_at_the_new_length(wanted):
    found = ways_to(BUILD, wanted=wanted, length_m=0.889)
    butt = way(found, BUTT)
    longer = at_length(recorded(BUILD).putter(), length_m=0.889)
    made = with_mass(longer, mass_kg=butt.amount.value, from_butt_m=0.02, name="plug")
    assert wanted.of(made) == pytest.approx(wanted.value, abs=1e-9)
    assert found.at_length == pytest.approx(wanted.of(longer))
    assert butt.amount.sd > 0


def test_every_way_alone_gives_the_swing_weight_of_a_putter_made_longer():
    now = figures_of(BUILD).swing_weight_in_oz.value
    found = ways_to(BUILD, wanted=Wanted(swing_weight_in_oz=now), length_m=0.889)
    assert found.at_length > now
    assert way(found, HEAD).change.value < 0 < way(found, BUTT).change.value
    assert way(found, GRIP).change.value > 0
    assert 0.864 > way(found, TRIM).amount.value > 0.8


def test_what_the_whole_putter_measured_is_kept_to():
    heavy = replace(BUILD, balance_from_butt_mm=690, total_mass_g=536)
    there = figures_of(heavy).swing_weight_in_oz.value
    found = ways_to(heavy, wanted=Wanted(swing_weight_in_oz=there))
    assert found.now == pytest.approx(there)
    assert way(found, HEAD).change.value == pytest.approx(0.0, abs=1e-9)


def test_a_way_that_cannot_be_says_why_and_what_could():
    found = ways_to(BUILD, wanted=Wanted(total_kg=0.3))
    assert all(each.amount is None for each in found.ways)
    assert "can come off" in way(found, BUTT).trouble
    assert "from 457 to 864 mm" in way(found, TRIM).trouble
    far = ways_to(BUILD, wanted=Wanted(balance_m=0.3))
    assert "200 g can be had" in way(far, BUTT).trouble


def test_a_balance_or_length_no_putter_has_is_told():
    with pytest.raises(OffTheClub, match="cannot balance 900 mm from its butt"):
        ways_to(BUILD, wanted=Wanted(balance_m=0.9))
    with pytest.raises(OutOfRange, match="18 in is the least"):
        ways_to(BUILD, wanted=Wanted(balance_m=0.3), length_m=0.4)
