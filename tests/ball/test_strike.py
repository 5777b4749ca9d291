import numpy as np
import pytest

from puttwright.ball.head import Head
from puttwright.ball.impact import Delivery, strike
from puttwright.ball.strike import off_centre, strike_scatter


def test_further_off_costs_more_and_the_sweet_spot_costs_nothing():
    strikes = np.array([0.0, 0.01, 0.02, 0.03])
    cost = off_centre(head=Head(), strike_toe_m=strikes)
    assert cost.pace_share[0] == pytest.approx(1.0)
    assert np.all(np.diff(cost.short_m) > 0)
    assert np.all(np.diff(cost.wide_m) > 0)


def test_heel_and_toe_are_mirror_images():
    cost = off_centre(head=Head(), strike_toe_m=[-0.02, 0.02])
    assert cost.pace_share[0] == pytest.approx(cost.pace_share[1])
    assert cost.line_rad[0] == pytest.approx(-cost.line_rad[1])


@pytest.mark.parametrize("handed", ["right", "left"])
def test_the_quadrature_is_that_of_many_strikes(handed):
    head = Head(moi_vertical_kg_m2=4e-4)
    pattern = {"toe_mean_m": 0.006, "toe_sd_m": 0.009, "high_mean_m": -0.001, "high_sd_m": 0.003}
    scatter = strike_scatter(head=head, handed=handed, **pattern)
    rng = np.random.default_rng(5)
    hits = strike(
        delivery=Delivery(
            head_speed_mps=1.5,
            loft_rad=0.052,
            strike_toe_m=np.clip(rng.normal(0.006, 0.009, 40000), -0.08, 0.08),
            strike_high_m=rng.normal(-0.001, 0.003, 40000),
            handed=handed,
        ),
        head=head,
    )
    best = strike(delivery=Delivery(head_speed_mps=1.5, loft_rad=0.052), head=head)
    pace = (hits.ball_speed_mps / best.ball_speed_mps) ** 2
    assert scatter.pace_mean_share == pytest.approx(pace.mean(), abs=2e-3)
    assert scatter.pace_sd_share == pytest.approx(pace.std(), rel=0.03)
    assert scatter.line_mean_rad == pytest.approx(hits.start_rad.mean(), abs=1e-4)
    assert scatter.line_sd_rad == pytest.approx(hits.start_rad.std(), rel=0.03)


def test_a_golfer_who_never_misses_the_spot_has_no_scatter():
    scatter = strike_scatter(head=Head(), toe_sd_m=0.0)
    assert scatter.pace_mean_share == pytest.approx(1.0)
    assert scatter.pace_sd_share == pytest.approx(0.0, abs=1e-7)
