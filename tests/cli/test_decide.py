"""decide and next say the same to people and to programs, and write whole files or none."""

from __future__ import annotations

import json

import pytest

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def said(sound):
    from puttwright.deeds.decide_package import decide_package
    from puttwright.fitting.wire import to_bytes

    return to_bytes(decide_package(sound, seed=1)[1])


def test_json_is_the_decision_and_nothing_else(run, sound, said, tmp_path):
    result = run("decide", sound, "--json", "--out", tmp_path / "new")

    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout_bytes == said
    assert (tmp_path / "new" / "decision.json").read_bytes() == said


def test_the_words_name_the_choice_and_every_build(run, sound, said):
    text = run("decide", sound).stdout
    decision = json.loads(said)

    first = text.splitlines()[0]
    assert first.startswith(("Keep", "Change to", "Too close to call"))
    assert all(build["strokes_saved_per_round"] for build in decision["builds"].values())
    assert text.count(" strokes a round (") == len(decision["builds"]) - 1
    assert "Try next:" in text or "Nothing more to try" in text
    assert all(caution in text for caution in decision["cautions"])
    assert "nan" not in text.lower()


def test_next_is_the_next_trial_of_the_decision(run, sound, said):
    trial = json.loads(said)["next_trial"]
    lines = run("next", sound).stdout.splitlines()

    assert json.loads(run("next", sound, "--json").stdout) == trial
    assert len(lines) == (2 if trial else 1)
    if trial:
        first = trial["running_order"][0]
        assert (first["build_id"], first["putts"]) == (trial["build_id"], trial["putts"])
        assert lines[1].startswith("Hand over now:")


def test_another_seed_is_another_run_of_the_same_model(run, sound, said):
    other = json.loads(run("decide", sound, "--json", "--seed", "2").stdout)

    assert other["model"]["seed"] == 2
    assert other["inputs_sha256"] == json.loads(said)["inputs_sha256"]


def test_a_place_that_cannot_be_written_is_told(run, sound, tmp_path):
    (tmp_path / "file").write_text("")
    result = run("decide", sound, "--out", tmp_path / "file" / "below")

    assert (result.exit_code, result.stdout) == (2, "")
    assert "cannot be written" in result.stderr
