"""``puttwright gauge`` as a person calls it."""

from __future__ import annotations

import json

import pytest

from puttwright.readers.package import read_package

STUDY = "Board study of a morning\n\nOperator;Mark;Trial;Reading (mm);Set (mm)\n" + "".join(
    f"{who};{mark};{trial};{mark + off + wobble:.1f};{mark}\n".replace(".", ",")
    for who, off in (("Ann", 2.0), ("Bo", 2.4))
    for mark in (-100, -50, 0, 50, 100)
    for trial, wobble in enumerate((-0.6, 0.1, 0.5), start=1)
)
# The same three repeats everywhere, 1.1 mm wide; with no interaction at all it is pooled in:
# sd = sqrt(0.31 * 20 / 24).
READS = ("--quantity", "reading_mm", "--name", "wall laser")


@pytest.fixture
def table(tmp_path):
    path = tmp_path / "laser.csv"
    path.write_text(STUDY, encoding="utf-8")
    return path


def test_the_verdict_is_in_degrees_of_the_face(run, table):
    result = run("gauge", table, *READS, "--distance-m", "3")

    assert result.exit_code == 0, result.output
    assert result.output.startswith("wall laser can tell 0.01° (0.53 mm) apart with five readings")
    assert "too far right" in result.output


def test_a_mirror_halves_what_it_can_tell(run, table):
    plain, mirror = (
        json.loads(run("gauge", table, *READS, "--distance-m", "3", "--json", *more).output)
        for more in ((), ("--mirror",))
    )

    halved = plain["told_apart"]["same_hands_deg"] / 2
    assert mirror["told_apart"]["same_hands_deg"] == pytest.approx(halved, rel=1e-5)


def test_the_instrument_goes_into_the_package_once(run, table, package):
    for _ in range(2):
        result = run("gauge", table, *READS, "--into", package)
        assert result.exit_code == 0, result.output

    (entry,) = [each for each in read_package(package).instruments if each.name == "wall laser"]
    assert entry.quantity == "reading_mm"
    assert entry.repeatability_sd == pytest.approx(0.5083)
    assert entry.bias == pytest.approx(2.2, abs=0.01)
    assert entry.resolution == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("part,reading\n1,2.0\n2,2.1\n", "Nothing was read twice"),
        ("who,part,reading\nA,1,2\nA,1,2.1\nA,2,2\nB,1,2\n", "'B' has no reading of part '2'"),
        ("who,part,reading\nA,1,2\nA,1,far\n", "row 3, reading: 'far' is not a number"),
        ("who,part,reading mph\nA,1,2\nA,1,2\n", "is no unit of reading_mm"),
        ("who,part,colour\nA,1,red\nA,1,blue\n", "no column that says it holds readings"),
        ("", "is empty"),
        ("%PDF-1.4\n", "is a PDF, not a table"),
    ],
)
def test_a_study_that_cannot_be_used_gets_a_sentence(run, table, package, text, says):
    table.write_text(text)
    before = (package / "fitting.json").read_bytes()

    result = run("gauge", table, *READS, "--into", package)

    assert result.exit_code == 2
    assert says in result.output
    assert (package / "fitting.json").read_bytes() == before
