from __future__ import annotations

import dataclasses
import itertools
import math

import pytest

from puttwright.club.of_build import recorded
from puttwright.errors import NotFound
from puttwright.evidence import Build, Part
from puttwright.fitting.rack import (
    NothingGoesTogether,
    NothingOfAKind,
    ShaftsTooShort,
    TooManyCombinations,
    goes_together,
    nearest,
)

WANTED = Build(
    build_id="X", length_mm=864, lie_deg=70, loft_deg=2.5, head_shape="mallet", offset_mm=8,
    head_mass_g=360, grip_diameter_mm=29, total_mass_g=569,
)  # fmt: skip
HEADS = (
    Part(part_id="H1", kind="head", head_shape="blade", mass_g=345, loft_deg=3, lie_deg=70,
         price=150, fits="N1"),
    Part(part_id="H2", kind="head", head_shape="mallet", mass_g=350, loft_deg=3.5, lie_deg=71,
         loft_min_deg=1.5, loft_max_deg=5.5, lie_min_deg=69, lie_max_deg=73, price=190),
    Part(part_id="H3", kind="head", head_shape="mallet", mass_g=350, loft_deg=3.5, lie_deg=71,
         price=180, stock=0),
)  # fmt: skip
NECKS = (
    Part(part_id="N1", kind="neck", offset_mm=16, mass_g=20),
    Part(part_id="N2", kind="neck", offset_mm=8, mass_g=20, price=35, fits="H2 H3"),
)
SHAFTS = (
    Part(part_id="S1", kind="shaft", length_mm=889, mass_g=112, price=30),
    Part(part_id="S2", kind="shaft", length_mm=838, mass_g=105, price=25),
)
GRIPS = (
    Part(part_id="G1", kind="grip", grip_diameter_mm=25, mass_g=60, price=20),
    Part(part_id="G2", kind="grip", grip_diameter_mm=29, mass_g=80, price=28),
)
WEIGHTS = (
    Part(part_id="W5", kind="weight", mass_g=5),
    Part(part_id="W10", kind="weight", mass_g=10),
)
RACK = (*HEADS, *NECKS, *SHAFTS, *GRIPS, *WEIGHTS)


def ids(made):
    return [part.part_id for part in made.parts]


def test_the_nearest_is_the_one_a_workshop_would_take():
    found = nearest(RACK, WANTED)
    best = found.made[0]
    assert ids(best) == ["H2", "N2", "S1", "G2", "W10"]
    assert (best.build.loft_deg, best.build.lie_deg, best.build.length_mm) == (2.5, 70, 864)
    assert (best.build.head_mass_g, best.build.offset_mm) == (360, 8)
    assert best.price == 190 + 35 + 30 + 28
    assert best.unpriced == ("W10",)


def test_it_is_the_least_of_all_that_go_together():
    found = nearest(RACK, WANTED, most=1000)
    kinds = {part.part_id: part.kind for part in RACK}
    every = [
        [p for p in (head, *rest) if p]
        for head, *rest in itertools.product(HEADS[:2], NECKS, SHAFTS, GRIPS, (None, *WEIGHTS))
    ]
    fitting = [
        parts for parts in every
        if all(goes_together(a, b, kinds=kinds) for a, b in itertools.combinations(parts, 2))
    ]  # fmt: skip
    assert found.combinations == len(fitting) == len(found.made)
    assert sorted(ids(made) for made in found.made) == sorted(
        [part.part_id for part in parts] for parts in fitting
    )
    distances = [made.distance for made in found.made]
    assert distances == sorted(distances)
    assert not any(ids(made)[:2] == ["H1", "N2"] for made in found.made)


def test_a_head_out_of_stock_is_left_aside():
    assert not any("H3" in ids(made) for made in nearest(RACK, WANTED, most=1000).made)


def test_what_may_not_be_bent_stays_as_supplied():
    stiff = (HEADS[0], *RACK[3:])
    assert nearest(stiff, WANTED).made[0].build.loft_deg == 3


def test_a_rack_without_necks_leaves_them_to_the_head():
    bare = [part for part in RACK if part.kind != "neck"]
    assert ids(nearest(bare, WANTED).made[0]) == ["H2", "S1", "G2", "W10"]


@pytest.mark.parametrize(
    ("rack", "wanted", "trouble", "sentence"),
    [
        (RACK[3:], WANTED, NothingOfAKind, "no head in stock.*2 necks, 2 shafts"),
        (RACK[:5], WANTED, NothingOfAKind, "no shaft in stock"),
        ((HEADS[0], NECKS[1], *SHAFTS), WANTED, NothingGoesTogether,
         "No head in stock goes with any neck: H1 goes with N1|N2 goes with H2 H3"),
        (RACK, dataclasses.replace(WANTED, length_mm=1000), ShaftsTooShort, "longest gives 889 mm"),
        ([dataclasses.replace(p, part_id=f"{p.part_id}-{n}", fits=None) for p in RACK
          for n in range(60)], WANTED, TooManyCombinations, "name a head"),
    ],
)  # fmt: skip
def test_what_cannot_be_built_says_what_could(rack, wanted, trouble, sentence):
    if trouble is NothingGoesTogether:
        rack = [dataclasses.replace(rack[0], fits="N1"), *rack[1:], NECKS[0]]
        rack[-1] = dataclasses.replace(NECKS[0], stock=0)
    with pytest.raises(trouble, match=sentence):
        nearest(rack, wanted)


def test_a_hundred_thousand_combinations_are_found_again_the_same():
    heads = [dataclasses.replace(HEADS[1], part_id=f"H{n}", mass_g=330.0 + n) for n in range(25)]
    shafts = [
        dataclasses.replace(SHAFTS[0], part_id=f"S{n}", length_mm=870.0 + n) for n in range(10)
    ]
    grips = [dataclasses.replace(GRIPS[1], part_id=f"G{n}", mass_g=60.0 + n) for n in range(20)]
    necks = [dataclasses.replace(NECKS[0], part_id=f"N{n}", offset_mm=float(n)) for n in range(7)]
    rack = (*heads, *necks, *shafts, *grips, *WEIGHTS)
    found = nearest(rack, WANTED)
    assert found.combinations == 25 * 7 * 10 * 20 * 3
    assert found == nearest(rack, WANTED)


PUTTER = Part(
    part_id="P1", kind="putter", head_shape="mallet", length_mm=889, loft_deg=3, lie_deg=70,
    loft_min_deg=2, loft_max_deg=4, offset_mm=8, grip_diameter_mm=29, mass_g=569, price=320,
)  # fmt: skip


def test_a_putter_that_stands_there_built_takes_part():
    found = nearest((*RACK, PUTTER), WANTED, most=1000)
    assert found.combinations == nearest(RACK, WANTED).combinations + 1
    standing = next(made for made in found.made if made.built)
    assert ids(standing) == ["P1"]
    assert (standing.build.loft_deg, standing.build.length_mm, standing.price) == (2.5, 864, 320)
    # It was cut, so what it weighed before says nothing.
    assert standing.build.total_mass_g is None
    alone = nearest((PUTTER,), WANTED)
    assert alone.combinations == 1
    assert "no head in stock" in alone.why_none_of_parts
    gone = dataclasses.replace(PUTTER, stock=0)
    assert not any(made.built for made in nearest((*RACK, gone), WANTED, most=1000).made)


def test_only_what_has_the_named_parts_is_told():
    found = nearest((*RACK, PUTTER), WANTED, most=1000, only=("H1", "G2"))
    assert found.made
    assert all({"H1", "G2"} <= set(ids(made)) for made in found.made)
    assert [ids(made) for made in nearest((*RACK, PUTTER), WANTED, only=("P1",)).made] == [["P1"]]
    with pytest.raises(NotFound, match="no part called 'X'; there are H1"):
        nearest(RACK, WANTED, only=("X",))
    with pytest.raises(NothingGoesTogether, match="H1 goes with N1, in stock are N2"):
        gone = dataclasses.replace(NECKS[0], stock=0)
        nearest([*HEADS[:2], gone, NECKS[1], *RACK[5:]], WANTED, only=("H1",))


@pytest.mark.parametrize("lie_deg", [66.0, 70.0, 74.0])
def test_what_a_combination_comes_out_at_is_what_the_club_room_computes(lie_deg):
    head = dataclasses.replace(
        HEADS[0], lie_deg=lie_deg, cg_from_axis_mm=24, cg_depth_mm=11, offset_mm=2, fits=None
    )
    wanted = dataclasses.replace(WANTED, lie_deg=lie_deg, balance_from_butt_mm=690)
    made = nearest((head, SHAFTS[0], GRIPS[1], WEIGHTS[1]), wanted).made[0]
    build = dataclasses.replace(
        made.build, total_mass_g=None, balance_from_butt_mm=None, toe_hang_deg=None
    )
    computed = recorded(build).putter().values()
    assert made.build.total_mass_g == pytest.approx(1e3 * computed["total_kg"], abs=0.06)
    assert made.build.balance_from_butt_mm == pytest.approx(1e3 * computed["balance_m"], abs=0.06)
    # The grip and the shaft tilt the whole putter's hang by nothing: they lie on the axis.
    assert made.build.toe_hang_deg == pytest.approx(math.degrees(computed["hang_rad"]), abs=0.06)


def test_another_neck_changes_the_hang_where_the_centre_of_gravity_is_known():
    head = dataclasses.replace(
        HEADS[1], cg_from_axis_mm=20, cg_depth_mm=12, toe_hang_deg=10, offset_mm=0
    )
    rack = (head, *NECKS, *SHAFTS, *GRIPS)
    hangs = {ids(made)[1]: made.build.toe_hang_deg for made in nearest(rack, WANTED).made}
    assert hangs == {"N1": pytest.approx(35.5, abs=0.06), "N2": pytest.approx(45.0, abs=0.06)}
    own = nearest((head, *SHAFTS, *GRIPS), WANTED).made[0]
    assert own.build.toe_hang_deg == 10


def test_zinc_is_never_bent_whatever_limits_stand_beside_it():
    zinc = dataclasses.replace(HEADS[1], alloy="zinc")
    made = nearest((zinc, *RACK[3:]), WANTED).made[0]
    assert (made.build.loft_deg, made.build.lie_deg) == (3.5, 71)
