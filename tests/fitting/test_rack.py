from __future__ import annotations

import dataclasses
import itertools

import pytest

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
