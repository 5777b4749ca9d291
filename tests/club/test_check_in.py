from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.club.check_in import (
    AGAIN,
    ASK,
    BEND,
    CUT,
    OUTSIDE,
    PASS,
    REFUSE,
    RESHAFT,
    REWORK,
    TOO_FAR,
    UNKNOWN,
    BalanceOffThePutter,
    Bendable,
    HeavierThanTheWhole,
    NothingMeasured,
    NotOnThisOrder,
    Ordered,
    check_in,
)
from puttwright.club.targets import TARGETS
from puttwright.errors import OutOfRange

ORDER = (
    Ordered(field="length_mm", ordered=864, tolerance=3),
    Ordered(field="lie_deg", ordered=70, tolerance=0.5),
    Ordered(field="loft_deg", ordered=2.5, tolerance=0.5),
    Ordered(field="head_mass_g", ordered=350, tolerance=2),
    Ordered(field="total_mass_g", ordered=540, tolerance=5),
    Ordered(field="balance_from_butt_mm", ordered=690, tolerance=5),
)
GOOD = {"length_mm": 864.0, "lie_deg": 70.0, "loft_deg": 2.5}
HEAD = (
    Bendable(field="loft_deg", supplied_deg=3.5, low_deg=1.5, high_deg=5.5),
    Bendable(field="lie_deg", supplied_deg=71, low_deg=69, high_deg=73),
)


def found(field, value, **settings):
    result = check_in(ORDER, GOOD | {field: value}, **{"bendable": HEAD} | settings)
    return next(each for each in result.findings if each.target.field == field), result


def test_as_ordered_passes_and_says_what_nobody_measured():
    result = check_in(ORDER, GOOD, bendable=HEAD)
    assert result.verdict == PASS
    assert result.not_measured == ("head_mass_g", "total_mass_g", "balance_from_butt_mm")


@pytest.mark.parametrize(
    ("loft_deg", "verdict"),
    [(2.5, PASS), (2.7, PASS), (2.3, PASS), (2.8, AGAIN), (3.2, AGAIN), (3.3, REWORK),
     (1.7, REWORK), (1.8, AGAIN)],
)  # fmt: skip
def test_the_guard_band_is_as_wide_as_the_error_on_both_sides(loft_deg, verdict):
    assert found("loft_deg", loft_deg)[1].verdict == verdict


def test_a_degree_off_is_bent_back_and_then_passes():
    finding, result = found("loft_deg", 3.5)
    assert (result.verdict, finding.work.kind, finding.work.mind) == (REWORK, BEND, ())
    assert found("loft_deg", 3.5 + finding.work.by)[1].verdict == PASS


def test_a_finer_gauge_passes_what_a_coarse_one_cannot():
    assert found("loft_deg", 2.9)[1].verdict == AGAIN
    assert found("loft_deg", 2.9, error={"loft_deg": 0.1})[1].verdict == PASS
    coarse, result = found("loft_deg", 2.5, error={"loft_deg": 0.6})
    assert (result.verdict, coarse.passes_within < 0) == (AGAIN, True)


@pytest.mark.parametrize(
    ("lie_deg", "verdict", "mind"),
    [(72.0, REWORK, ()), (72.5, REWORK, (ASK,)), (74.6, REFUSE, (TOO_FAR,)),
     (65.4, REFUSE, (TOO_FAR,))],
)  # fmt: skip
def test_two_degrees_ask_and_four_refuse(lie_deg, verdict, mind):
    finding, result = found("lie_deg", lie_deg)
    assert (result.verdict, finding.work.mind) == (verdict, mind)


def test_the_way_from_as_supplied_counts():
    far = (Bendable(field="loft_deg", supplied_deg=5.0, low_deg=1.5, high_deg=5.5),)
    assert found("loft_deg", 3.5, bendable=far)[0].work.mind == (ASK,)


def test_a_head_nobody_knows_is_bent_only_once_it_is_known():
    assert found("loft_deg", 3.5, bendable=())[0].work.mind == (UNKNOWN,)


def test_what_the_head_does_not_reach_is_refused():
    stiff = (Bendable(field="loft_deg", supplied_deg=3.5, low_deg=3, high_deg=4),)
    finding, result = found("loft_deg", 3.5, bendable=stiff)
    assert (result.verdict, finding.work.mind) == (REFUSE, (OUTSIDE,))


def test_too_long_is_cut_and_too_short_cannot_be():
    assert found("length_mm", 870)[0].work.kind == CUT
    short, result = found("length_mm", 858)
    assert (short.work.kind, result.verdict) == (RESHAFT, REFUSE)


def test_nothing_passes_without_length_lie_and_loft():
    result = check_in(ORDER, {"loft_deg": 2.5})
    assert (result.verdict, result.missing) == (AGAIN, ("length_mm", "lie_deg"))


@pytest.mark.parametrize(
    ("measured", "trouble"),
    [
        ({}, NothingMeasured),
        ({"offset_mm": 3}, NotOnThisOrder),
        ({"total_mass_g": -5}, OutOfRange),
        ({"loft_deg": float("nan")}, OutOfRange),
        ({"head_mass_g": 400, "total_mass_g": 390}, HeavierThanTheWhole),
        ({"length_mm": 864, "balance_from_butt_mm": 900}, BalanceOffThePutter),
    ],
)
def test_what_cannot_be_is_told(measured, trouble):
    with pytest.raises(trouble):
        check_in(ORDER, measured)


@given(
    off=st.floats(-6, 6),
    sign=st.sampled_from([-1, 1]),
    field=st.sampled_from(["loft_deg", "lie_deg"]),
)
def test_both_sides_are_alike(off, sign, field):
    free = tuple(Bendable(field=each, low_deg=-90, high_deg=90) for each in ("loft_deg", "lie_deg"))
    ordered = GOOD[field]
    one, other = (
        found(field, ordered + side * off, bendable=free)[1].verdict for side in (1, sign)
    )
    assert one == other


def test_every_usual_gauge_is_finer_than_what_it_judges():
    assert all(target.error < target.tolerance for target in TARGETS)
