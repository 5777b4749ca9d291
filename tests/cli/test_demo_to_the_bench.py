"""The demo's fitting goes from decision to order to the bench, a degree off in loft, and back."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    from puttwright.cli import main

    out = tmp_path_factory.mktemp("demo") / "out"
    assert CliRunner().invoke(main, ["demo", "--out", str(out)]).exit_code == 0
    return out


def test_a_degree_off_in_loft_is_bent_back_and_passes(run, demo, tmp_path):
    decision = json.loads((demo / "decision.json").read_text(encoding="utf-8"))
    order = tmp_path / "order.json"
    done = run("order", demo / "right-hander", "--out", order.with_suffix(".pdf"))
    assert done.exit_code == 0
    ordered = json.loads(order.read_text(encoding="utf-8"))
    build = ordered["build"]
    assert build["build_id"] == decision["choice"]
    # The head is on the rack: how it comes, what it is made of, whether it may be bent so far.
    assert {bend["name"] for bend in ordered["bends"]} == {"loft", "lie"}
    assert (ordered["metal"]["alloy"], ordered["metal"]["joint"]) == ("carbon_steel", "one_piece")
    assert ordered["metal"]["verdict"] in {"within", "ask"}
    assert ordered["figures"]["swing_weight"][0] in "BCDEFG"

    def bench(*more, loft_deg):
        measured = ("--length-mm", build["length_mm"], "--lie-deg", build["lie_deg"])
        return run("check-in", order, *measured, "--loft-deg", loft_deg, *more)

    off = json.loads(bench("--json", loft_deg=build["loft_deg"] + 1).stdout)
    work = next(each for each in off["figures"] if each["column"] == "loft_deg")["work"]
    assert (off["verdict"], work["kind"], work["by"]) == ("rework", "bend", -1)
    assert "unknown" not in work["mind"]
    calendar = tmp_path / "again.ics"
    assert "1.0° stronger" in bench("--reminders", calendar, loft_deg=build["loft_deg"] + 1).stdout
    assert not calendar.exists()
    back = bench("--reminders", calendar, loft_deg=build["loft_deg"] + 1 + work["by"])
    assert back.stdout.startswith("Pass: it is what was ordered.")
    assert calendar.exists()


def test_the_demos_rack_makes_what_the_fitting_asks_for_and_holds_a_built_one(run, demo):
    told = json.loads(run("rack", demo / "right-hander", "--most", 40, "--json").stdout)
    assert told["combinations"] > 50
    assert told["made"][0]["distance"] < 1
    wide = json.loads(run("rack", demo / "right-hander", "--with", "bay-1", "--json").stdout)
    assert wide["made"][0]["built"]
    feel = run("calc", "wanted", demo / "right-hander", "--build", "C", "--swing-weight", "G5")
    assert "From stock into the head:" in feel.stdout
