"""Figures of a recorded build: what is assumed is said and counted, what was measured wins."""

from dataclasses import replace

import pytest

from puttwright.club.of_build import effect_of, figures_of, recorded
from puttwright.club.parts import Grip, Weight
from puttwright.evidence import Build

BARE = Build(build_id="a", length_mm=864, lie_deg=70, loft_deg=3)
FULL = replace(
    BARE, head_shape="mallet", head_mass_g=358, shaft_mass_g=112, grip_mass_g=80, offset_mm=4,
    cg_from_axis_mm=18, cg_depth_mm=30, moi_vertical_axis_g_cm2=6100,
)  # fmt: skip


def test_what_is_missing_is_said_and_makes_the_interval_wide():
    bare, full = figures_of(BARE), figures_of(FULL)
    assert any(note.startswith("the head's mass: taken as 350 g") for note in bare.notes)
    assert not any("head's mass" in note for note in full.notes)
    assert bare.total_kg.sd > 5.0 * full.total_kg.sd
    assert bare.swing_weight_in_oz.sd > 3.0 * full.swing_weight_in_oz.sd


def test_the_scale_says_what_the_unweighed_parts_weigh():
    weighed = replace(BARE, head_mass_g=350, total_mass_g=560)
    found, guess = recorded(weighed).putter(), recorded(replace(BARE, head_mass_g=350)).putter()
    assert found.values()["total_kg"] == pytest.approx(0.560, abs=1e-4)
    # The head was weighed and stays; the grip, the least sure, takes most of what is missing.
    assert found.head.mass_kg == pytest.approx(0.350, abs=1e-4)
    gained = found.grip.mass_kg - guess.grip.mass_kg, found.shaft.mass_kg - guess.shaft.mass_kg
    assert gained[0] > gained[1] > 0.0


def test_a_measured_hang_balance_and_mass_win():
    measured = replace(FULL, toe_hang_deg=38, total_mass_g=561, balance_from_butt_mm=655)
    found = figures_of(measured)
    assert found.balance_m.value == pytest.approx(0.655)
    assert found.total_kg.value == pytest.approx(0.561)
    torque = 561 / 28.349523125 * (655 / 25.4 - 14.0)
    assert found.swing_weight_in_oz.value == pytest.approx(torque)
    assert found.hang_rad.value == pytest.approx(0.6632, abs=1e-4)


def test_parts_that_do_not_add_up_to_the_scale_are_told():
    wrong = figures_of(replace(FULL, total_mass_g=640))
    assert any("weigh again" in note for note in wrong.notes)
    assert not any("weigh again" in note for note in figures_of(FULL).notes)


@pytest.mark.parametrize("hang_deg", [-4.0, 0.0, 45.0])
def test_a_hang_tells_where_the_centre_of_gravity_lies(hang_deg):
    found = recorded(replace(BARE, toe_hang_deg=hang_deg, offset_mm=2, cg_depth_mm=18))
    assert found.putter().values()["hang_rad"] == pytest.approx(hang_deg * 3.141593 / 180, abs=1e-6)


def test_what_a_weight_does_is_surer_than_the_putter_itself():
    weight = [Weight(mass_kg=0.002, from_butt_m=0.0254 * 33.5)]
    change = effect_of(BARE, weights=weight)["swing_weight_in_oz"]
    assert change.value / 1.75 == pytest.approx(0.786, abs=5e-4)
    assert change.sd < 0.01 * figures_of(BARE).swing_weight_in_oz.sd


def test_a_weight_at_the_toe_adds_inertia_and_toe_hang():
    change = effect_of(FULL, weights=[Weight(mass_kg=0.01, behind_face_m=0.02, from_axis_m=0.07)])
    assert change["head_inertia_vertical_kg_m2"].value > 0.0
    assert change["hang_rad"].value > 0.0


def test_shorter_swings_lighter_and_a_heavier_grip_too():
    shorter = effect_of(FULL, length_m=0.8386)["swing_weight_in_oz"]
    heavier = effect_of(FULL, grip=Grip(mass_kg=0.130))["swing_weight_in_oz"]
    assert shorter.value < 0.0
    assert heavier.value < 0.0
    assert effect_of(FULL, length_m=0.8894)["total_kg"].value > 0.0
