"""docs/validation.md lists what the reference tests check, all of it and nothing else."""

from __future__ import annotations


def test_page_lists_every_recorded_case(recorded, page_listing, writing):
    missing = set() if writing else recorded - page_listing
    assert not missing, f"run `make docs`: docs/validation.md does not list {sorted(missing)}"


def test_page_lists_no_case_that_is_gone(recorded, page_listing, whole_run, writing):
    stale = page_listing - recorded if whole_run and not writing else set()
    assert not stale, f"run `make docs`: docs/validation.md lists {sorted(stale)}"


def test_page_shows_the_study_as_its_command_wrote_it(root, study, writing):
    page = (root / "docs" / "validation.md").read_text(encoding="utf-8")
    assert writing or study in page, "run `make docs`: docs/calibration.md is a newer study"
    assert study.count("](pictures/study-") >= 3


def test_page_shows_the_rendered_clips_as_their_script_wrote_them(root, films, writing):
    page = (root / "docs" / "validation.md").read_text(encoding="utf-8")
    assert writing or films in page, "run `make docs`: docs/film-study.md is newer"
    assert "What this cannot show" in films
