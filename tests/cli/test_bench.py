"""From decision to order to check-in, a degree off and back, and again after weeks."""

from __future__ import annotations

import json

import icalendar
import pytest


@pytest.fixture(scope="module")
def order(sound, tmp_path_factory):
    from click.testing import CliRunner

    from puttwright.cli import main

    out = tmp_path_factory.mktemp("order") / "order.pdf"
    asked = ["order", str(sound), "--build", "B", "--out", str(out), "--price", "work=40"]
    asked += ["--tax-pct", "19", "--currency", "EUR", "--page", "http://127.0.0.1:8417/orders/x"]
    asked += ["--quote", str(out.with_name("quote.pdf"))]
    result = CliRunner().invoke(main, asked)
    assert (result.exit_code, result.stderr) == (0, "")
    assert out.read_bytes().startswith(b"%PDF")
    assert out.with_name("quote.pdf").read_bytes().startswith(b"%PDF")
    return out.with_suffix(".json")


@pytest.fixture(scope="module")
def spec(order):
    return json.loads(order.read_text(encoding="utf-8"))["build"]


@pytest.fixture
def bench(run, order, spec):
    """Check in, all as ordered but what is given."""

    def check(*more, **changes):
        asked = ["check-in", order]
        for name in ("length_mm", "lie_deg", "loft_deg"):
            value = spec[name] + changes.get(name, 0.0)
            asked += ["--" + name.replace("_", "-"), f"{value:.4f}"]
        return run(*asked, *more)

    return check


pytestmark = pytest.mark.slow


def test_a_degree_off_is_reworked_and_passes_when_bent_back(bench, tmp_path):
    off = json.loads(bench("--json", loft_deg=1.0).stdout)
    loft = next(each for each in off["figures"] if each["column"] == "loft_deg")
    assert off["verdict"] == "rework"
    assert (loft["work"]["kind"], loft["work"]["by"]) == ("bend", -1.0)
    assert "bend 1.0° stronger" in bench(loft_deg=1.0).stdout
    assert "bend 1.0° weaker" in bench(loft_deg=-1.0).stdout

    ics = tmp_path / "again.ics"
    off_again = bench("--reminders", ics, loft_deg=1.0)
    assert off_again.exit_code == 0
    assert not ics.exists()

    back = bench("--reminders", ics, "--date", "2026-05-31", loft_deg=1.0 + loft["work"]["by"])
    assert back.stdout.startswith("Pass: it is what was ordered.")
    assert str(ics) in back.stdout
    events = icalendar.Calendar.from_ical(ics.read_bytes()).walk("VEVENT")
    assert [str(each.decoded("dtstart")) for each in events] == [
        "2026-07-12", "2026-11-29", "2027-05-30",
    ]  # fmt: skip


def test_the_guard_band_is_said_and_a_finer_gauge_settles(bench):
    unsettled = json.loads(bench("--json", lie_deg=0.4).stdout)
    assert unsettled["verdict"] == "again"
    assert "guard" in str(list(unsettled))
    settled = json.loads(bench("--json", "--angle-error-deg", 0.05, lie_deg=0.4).stdout)
    assert settled["verdict"] == "pass"


def test_what_is_not_measured_is_told(run, order, spec):
    result = run("check-in", order, "--loft-deg", spec["loft_deg"])
    assert result.stdout.startswith("Not settled yet: measure length, butt to sole and lie too.")
    assert "Not measured: " in result.stdout


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ((), "Nothing was measured; give at least one of length_mm, lie_deg, loft_deg"),
        (("--head-mass-g", -5), "--head-mass-g is -5 g; it must lie between 200 and 700 g"),
        (("--length-mm", 100), "it must lie between 457.2 and 1600 mm"),
        (("--total-mass-g", 500), "The order says nothing of total_mass_g; it has length_mm"),
    ],
)
def test_what_cannot_be_measured_is_told(run, order, arguments, sentence):
    result = run("check-in", order, *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (None, "there is no such file"),
        ("", "has no bytes in it"),
        ("[1]", "order.json"),
        ('{"schema": "other"}', "the schema of the order is not 'puttwright-order/1'"),
        ("{", "is not JSON"),
    ],
)
def test_a_file_that_is_no_order_is_told(run, tmp_path, content, sentence):
    path = tmp_path / "order.json"
    if content is not None:
        path.write_text(content, encoding="utf-8")
    result = run("check-in", path, "--loft-deg", 3)
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr


def test_after_weeks_a_shift_is_told_with_its_probability(run, order, spec):
    promised = json.loads(order.read_text(encoding="utf-8"))["promised"]["start_bias_deg"]["mean"]
    fixed = ["check-again", order, "--json"]
    shape = (-1.1, 0.9, 0.2, -0.4, 0.6, -0.2)
    same = " ".join(f"{promised + each:.3f}" for each in shape)
    gone = " ".join(f"{promised + 3 + each:.3f}" for each in shape)
    assert json.loads(run(*fixed, "--starts-deg", same).stdout)["starts"]["probability_moved"] < 0.3
    moved = json.loads(run(*fixed, "--starts-deg", gone).stdout)["starts"]
    assert moved["probability_moved"] > 0.8
    assert moved["bias_change"]["interval_90"][0] > 0

    drifted = run("check-again", order, "--loft-deg", spec["loft_deg"] + 1)
    assert "Check loft in again" in drifted.stdout
    assert "more than 0.5°" in drifted.stdout


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ((), "Nothing was measured again"),
        (("--starts-deg", "0.1 0.2"), "2 start lines tell nothing yet; take at least 3"),
        (("--starts-deg", "0.1 x"), "'x' is not a number"),
        (("--aims-mm", "1 2 9000"), "must lie between -3000 and 3000 mm"),
    ],
)
def test_what_tells_nothing_again_is_told(run, order, arguments, sentence):
    result = run("check-again", order, *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr


def test_prices_that_cannot_be_are_told_and_nothing_is_written(run, sound, tmp_path):
    out = tmp_path / "order.pdf"
    for price, sentence in (
        ("work", "write it as work=40"),
        ("work=-4", "the price of work is -4"),
    ):
        result = run("order", sound, "--build", "B", "--out", out, "--price", price)
        assert result.exit_code == 2
        assert sentence in result.stderr
    unpriced = run("order", sound, "--build", "B", "--out", out, "--quote", tmp_path / "q.pdf")
    assert "The order has no price" in unpriced.stderr
    assert not list(tmp_path.iterdir())


def test_the_copy_never_takes_the_place_of_something_else(run, sound, tmp_path):
    (tmp_path / "decision.json").write_text("{}", encoding="utf-8")
    result = run("order", sound, "--build", "B", "--out", tmp_path / "decision.pdf")
    assert result.exit_code == 2
    assert "something else has that name" in result.stderr
    assert (tmp_path / "decision.json").read_text(encoding="utf-8") == "{}"


RACK = """part_id,kind,head_shape,mass_g,loft_deg,lie_deg,length_mm,grip_diameter_mm,price,fits
H1,head,mallet,350,3,70,,,190,N1
H2,head,blade,345,3,70,,,150,
N1,neck,,20,,,,,35,
S1,shaft,,110,,,900,,30,
G1,grip,,70,,,,29,20,
"""


def test_the_rack_tells_what_can_be_built_and_what_it_costs(run, sound, tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(RACK, encoding="utf-8")
    told = json.loads(run("rack", sound, "--rack", path, "--build", "B", "--json").stdout)
    assert told["combinations"] == 2
    assert {made["price"] for made in told["made"]} == {275, 235}
    assert "2 putters can be built" in run("rack", sound, "--rack", path, "--build", "B").stdout
    best = json.loads(run("rack", sound, "--rack", path, "--strokes", "--json").stdout)["made"]
    saved = [made["strokes_saved_per_round"]["mean"] for made in best]
    assert saved == sorted(saved, reverse=True)


def test_a_rack_that_cannot_make_it_says_what_it_could(run, sound, tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(RACK.replace(",900,", ",700,"), encoding="utf-8")
    result = run("rack", sound, "--rack", path, "--build", "B")
    assert result.exit_code == 2
    assert "the longest gives 700 mm" in result.stderr
