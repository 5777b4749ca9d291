"""Each item of bad input: a clear sentence and code 2 with nothing written, or an honest answer."""

from __future__ import annotations

import json

import pytest

LEAST = "seq,build_id,distance_m,holed,start_deg,ball_speed_mps\n"


def change_head(package, **fields):
    path = package / "fitting.json"
    data = json.loads(path.read_text("utf-8")) | fields
    path.write_text(json.dumps({name: each for name, each in data.items() if each is not None}))


def keep_builds(package, count):
    """Leave so many builds, the golfer's own first, and a row of ``putts`` for each."""
    path = package / "builds.csv"
    lines = path.read_text("utf-8").splitlines()
    path.write_text("\n".join(lines[: count + 1]) + "\n")
    return [line.split(",")[0] for line in lines[1 : count + 1]]


WRONG = {
    "missing golfer": lambda p: change_head(p, golfer=None),
    "missing own build": lambda p: change_head(p, own_build=None),
    "own build that is not there": lambda p: change_head(p, own_build="ZZ"),
    "putts with an unknown build": lambda p: (p / "putts.csv").write_text(LEAST + "1,ZZ,3,1,,\n"),
    "40 m/s": lambda p: (p / "putts.csv").write_text(LEAST + "1,A,3,1,,40\n"),
    "loft of 45 deg": lambda p: (p / "builds.csv").write_text(
        "build_id,length_mm,lie_deg,loft_deg\nA,864,70,45\n"
    ),
    "text in a number": lambda p: (p / "putts.csv").write_text(LEAST + "1,A,far,1,,\n"),
    "decimal comma": lambda p: (p / "putts.csv").write_text(LEAST + '1,A,"2,5",1,,\n'),
    "0-byte table": lambda p: (p / "putts.csv").write_bytes(b""),
    "0-byte head": lambda p: (p / "fitting.json").write_bytes(b""),
    "UTF-16": lambda p: (p / "putts.csv").write_bytes(LEAST.encode("utf-16")),
    "no builds": lambda p: (p / "builds.csv").write_text("build_id,length_mm,lie_deg,loft_deg\n"),
    "no builds.csv": lambda p: (p / "builds.csv").unlink(),
    "no fitting.json": lambda p: (p / "fitting.json").unlink(),
}


@pytest.mark.parametrize("harm", WRONG.values(), ids=WRONG)
def test_a_wrong_package_is_told_and_nothing_is_written(run, package, tmp_path, harm):
    harm(package)
    for arguments in (["decide", package, "--json"], ["report", package], ["order", package]):
        out = tmp_path / "out" / "file"
        result = run(*arguments, "--out", out)

        assert (result.exit_code, result.stdout) == (2, "")
        assert all(": " in line for line in result.stderr.splitlines())
        assert ".csv" in result.stderr or ".json" in result.stderr
        assert not (tmp_path / "out").exists()
        assert not (tmp_path / "state").exists()


def test_a_package_that_is_not_there_is_told(run, tmp_path):
    result = run("decide", tmp_path / "nothing")

    assert (result.exit_code, result.stderr) == (2, "nothing: is not there\n")


def wide(saved):
    low, high = saved["interval_90"]
    return low < 0 < high


def thin(rows):
    return lambda package: (package / "putts.csv").write_text(LEAST + "\n".join(rows) + "\n")


def empty_aims(package):
    (package / "aims.csv").write_text("seq,build_id,board_distance_mm,reading_mm\n")


THIN = {
    "empty tables": thin([]),
    "no putts.csv": lambda package: (package / "putts.csv").unlink(),
    "one putt per build": thin(["1,A,3,true,0.1,", "2,B,3,false,0.3,"]),
    "one putt that says nothing": thin(["1,B,3,,,"]),
    "all putts void": lambda package: (package / "putts.csv").write_text(
        "seq,build_id,distance_m,holed,void\n1,A,3,true,true\n2,B,3,false,true\n"
    ),
    "one build": lambda package: keep_builds(package, 1) and thin(["1,A,3,true,,"])(package),
}


@pytest.mark.slow
@pytest.mark.parametrize("thinned", THIN.values(), ids=THIN)
def test_few_readings_are_an_honest_wide_interval(run, package, thinned):
    (package / "datapackage.json").unlink()
    empty_aims(package)
    thinned(package)

    result = run("decide", package, "--json")
    said = json.loads(result.stdout)

    assert (result.exit_code, result.stderr) == (0, "")
    assert said["choice"] in ("keep", "undecided")
    others = [each for name, each in said["builds"].items() if name != "A"]
    assert all(wide(each["strokes_saved_per_round"]) for each in others)
    assert run("decide", package).exit_code == 0
    assert run("next", package).exit_code == 0
