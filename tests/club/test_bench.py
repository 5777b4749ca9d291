"""The bench: pendulums with doubt, readings, and the sheet that goes to the rack."""

import math

import numpy as np
import pytest

from puttwright.club.bench import (
    HeadSheet,
    NoSuchMetal,
    OffTheClub,
    OneSpot,
    Read,
    balance_on_rail,
    cg_from_hang,
    hang_from_photo,
)
from puttwright.club.hang import hang_rad
from puttwright.club.pendulum import PeriodTooShort, bifilar_pendulum, physical_pendulum
from puttwright.club.uncertainty import Quantity, repeated


def test_the_interval_of_a_timed_pendulum_holds_the_truth_as_often_as_it_says():
    rng = np.random.default_rng(11)
    mass, distance, inertia = 0.520, 0.300, 0.045
    period = 2.0 * math.pi * math.sqrt((inertia + mass * distance**2) / (mass * 9.80665 * distance))
    hits = 0
    for timings in rng.normal(period, 0.004, (600, 4)):
        swung = physical_pendulum(
            mass=Quantity(value=mass), distance=Quantity(value=distance),
            period=repeated(list(timings), name="period"),
        )  # fmt: skip
        low, high = swung.inertia_cg_kg_m2.interval()
        hits += low <= inertia <= high
    assert hits / 600 == pytest.approx(0.90, abs=0.035)


def test_a_tenth_of_a_percent_of_the_period_is_one_percent_of_the_inertia():
    swung = physical_pendulum(
        mass=Quantity(value=0.520), distance=Quantity(value=0.620),
        period=Quantity(value=1.750, sd=0.00175),
    )  # fmt: skip
    found = swung.inertia_cg_kg_m2
    assert found.sd / found.value == pytest.approx(0.0108, abs=2e-4)
    assert swung.flags == ()


def test_an_unsure_inertia_and_short_threads_are_told():
    wide = physical_pendulum(
        mass=Quantity(value=0.520), distance=Quantity(value=0.620),
        period=Quantity(value=1.750, sd=0.01),
    )  # fmt: skip
    assert "interval is wide" in wide.flags[0]
    short = bifilar_pendulum(
        mass=Quantity(value=0.35), spacing=Quantity(value=0.1), thread=Quantity(value=0.3),
        period=Quantity(value=0.8),
    )  # fmt: skip
    assert "threads are shorter" in short.flags[0]


def test_half_a_period_is_told_where_mechanics_can_see_it():
    with pytest.raises(PeriodTooShort, match="count a period there and back"):
        physical_pendulum(
            mass=Quantity(value=0.520), distance=Quantity(value=0.620),
            period=Quantity(value=0.875),
        )  # fmt: skip


def test_a_balance_point_off_the_putter_is_told():
    with pytest.raises(OffTheClub, match="A putter of 864 mm cannot balance 900 mm from its butt"):
        balance_on_rail([670.0, 900.0], length_m=0.864)


@pytest.mark.parametrize("toe_m", [0.025, 0.0, -0.004])
def test_a_hang_read_gives_back_where_the_centre_of_gravity_lies(toe_m):
    hang = hang_rad(cg_from_axis_m=toe_m, cg_behind_face_m=0.02, offset_m=0.005)
    found = cg_from_hang(
        hang=Quantity(value=hang, sd=0.03), cg_behind_face=Quantity(value=0.02, sd=0.001),
        offset=Quantity(value=0.005),
    )  # fmt: skip
    assert found.value == pytest.approx(toe_m)
    assert found.sd > 0.0


SHEET = HeadSheet(
    part_id="H7",
    alloy="carbon_steel",
    neck="one_piece",
    bent_before_deg=0.5,
    readings=(
        Read(name="loft_deg", unit="°", readings=(3.0, 3.5, 3.25), resolution=0.25),
        Read(name="lie_deg", unit="°", readings=(71.0,)),
        Read(name="mass_g", unit="g", readings=(350.0, 350.5)),
    ),
    inertia=Quantity(value=4.4e-4, sd=6e-6, dof=4),
)


def test_the_sheet_becomes_a_line_of_the_rack_with_its_bend_limits():
    part = SHEET.part()
    assert (part.kind, part.loft_deg, part.mass_g) == ("head", 3.25, 350.25)
    assert part.moi_vertical_axis_g_cm2 == pytest.approx(4400.0)
    # 2 degrees for carbon steel, less what it was bent before.
    assert (part.loft_min_deg, part.loft_max_deg) == (1.75, 4.75)
    assert part.alloy == "carbon_steel"
    glued = HeadSheet(part_id="H8", alloy="carbon_steel", neck="glued", readings=SHEET.readings)
    assert glued.part().loft_max_deg is None


def test_the_sheet_says_each_figure_with_its_interval():
    lines = SHEET.lines()
    assert lines[0].startswith("loft: 3.25° (")
    assert lines[-1].startswith("moi vertical axis: 4400 g cm² (")
    assert "read 3 times" in lines[0]
    assert "read once" in lines[1]


def test_a_metal_nobody_knows_is_told():
    with pytest.raises(NoSuchMetal, match="'cheese' is no alloy we know; use one of aluminium"):
        HeadSheet(part_id="H9", alloy="cheese")


@pytest.mark.parametrize("hang_deg", [-30.0, 0.0, 45.0, 85.0])
@pytest.mark.parametrize("toe_side", [1.0, -1.0])
@pytest.mark.parametrize("tilt_deg", [0.0, 7.0])
def test_a_photo_gives_the_hang_of_either_hand_with_the_plumb_lines_tilt_taken_out(
    hang_deg, toe_side, tilt_deg
):
    hang, tilt = math.radians(hang_deg), math.radians(tilt_deg)

    def seen(right, down):
        x = right * math.cos(tilt) - down * math.sin(tilt)
        return 500 + 400 * x, 500 + 400 * (right * math.sin(tilt) + down * math.cos(tilt))

    heel, toe = seen(0, 0), seen(toe_side * math.cos(hang), math.sin(hang))
    found = hang_from_photo(face_px=(heel, toe), plumb_px=(seen(0, -1), seen(0, 1)))
    assert math.degrees(found.value) == pytest.approx(hang_deg, abs=1e-6)
    assert math.radians(1) <= found.sd < math.radians(2)
    with pytest.raises(OneSpot, match="of the face lie on one spot"):
        hang_from_photo(face_px=(heel, heel))


def test_a_hang_on_the_sheet_tells_where_the_centre_of_gravity_lies():
    readings = (
        Read(name="toe_hang_deg", unit="°", readings=(45.0,)),
        Read(name="cg_depth_mm", unit="mm", readings=(15.0,)),
        Read(name="offset_mm", unit="mm", readings=(5.0,)),
    )
    sheet = HeadSheet(part_id="H7", readings=readings)
    assert sheet.part().cg_from_axis_mm == pytest.approx(20.0)
    assert sheet.lines()[-1].startswith("cg from axis: 20 mm (")
    assert "reckoned" in sheet.lines()[-1]
    steep = (Read(name="toe_hang_deg", unit="°", readings=(88.0,)), *readings[1:])
    assert HeadSheet(part_id="H7", readings=steep).part().cg_from_axis_mm is None
