"""``puttwright read`` as a person calls it: confirm once, read, and nothing twice."""

from __future__ import annotations

import dataclasses
import json
import os
import shutil
from pathlib import Path

import pytest

from puttwright.evidence.signs import mirrored
from puttwright.readers import whole
from puttwright.readers.package import read_package, write_package

LOG = """Session of a morning

Putt;Ball speed;Start line;Face;Putter;Distance (ft);Made
-;mph;deg;;;;
1;3,4;-0,8;0,5 open;Own putter;10;x
2;3,5;0,3;0,2 closed;B;10;
3;far;0,3;;B;10;
4;3,5;0,3;;Z;10;x
5;3,5;99;;B;10;x
"""


@pytest.fixture(autouse=True)
def shop(monkeypatch, tmp_path):
    monkeypatch.setenv("PUTTWRIGHT_DATA", str(tmp_path / "shop"))
    return tmp_path / "shop"


@pytest.fixture
def log(tmp_path):
    path = tmp_path / "log.csv"
    path.write_text(LOG, encoding="cp1252")
    return path


@pytest.fixture
def confirmed(run, log, package):
    """The log read once with the map as proposed."""
    run("read", log, "--into", package)
    result = run("read", log, "--into", package, "--map", log.with_suffix(".map.toml"))
    assert result.exit_code == 0, result.output
    return result


def contents(folder):
    return {each.name: each.read_bytes() for each in folder.iterdir()}


def test_a_new_kind_of_file_is_asked_about_and_nothing_is_read(run, log, package):
    before = contents(package)

    result = run("read", log, "--into", package)

    assert result.exit_code == 2
    assert '"Start line" says -0,8 in row 5: was that left?' in result.output
    assert '"Made" is empty in some rows' in result.output
    assert "Ball speed" not in result.output
    assert contents(package) == before
    assert 'positive = "right"' in log.with_suffix(".map.toml").read_text("utf-8")


def test_a_proposal_that_was_changed_is_not_written_over(run, log, package):
    proposal = log.with_suffix(".map.toml")
    run("read", log, "--into", package)
    proposal.write_text(proposal.read_text("utf-8").replace('"right"', '"left"'), "utf-8")
    changed = proposal.read_bytes()

    run("read", log, "--into", package)

    assert proposal.read_bytes() == changed


def test_what_fits_is_read_and_the_rest_kept_aside(confirmed, package):
    first, second = read_package(package).putts[-2:]

    assert confirmed.output.startswith("log.csv: 2 putts added, 3 kept aside")
    assert (first.build_id, second.build_id) == ("A", "B")
    assert first.ball_speed_mps == pytest.approx(3.4 * 0.44704)
    assert first.distance_m == pytest.approx(3.048)
    assert (first.start_deg, first.holed, second.holed) == (-0.8, True, False)
    assert first.extra["Putt"] == "1"
    aside = (package / "readings-aside.csv").read_text("utf-8")
    for row, why in ((7, "'far' is not a number"), (8, "'Z' is not a build"), (9, "99 deg is out")):
        assert f"row {row}: " in confirmed.output
        assert why in aside


def test_seq_counts_on(confirmed, package):
    seqs = [putt.seq for putt in read_package(package).putts]

    assert seqs[-2:] == [seqs[-3] + 1, seqs[-3] + 2]


@pytest.mark.parametrize(("handed", "sign"), [("right", 1), ("left", -1)])
def test_open_is_to_the_side_of_the_toe(run, log, package, handed, sign):
    fitting = read_package(package)
    if fitting.golfer.handed != handed:
        fitting = mirrored(fitting)
    shutil.rmtree(package)
    write_package(fitting, package)
    run("read", log, "--into", package)

    run("read", log, "--into", package, "--map", log.with_suffix(".map.toml"))

    assert [putt.face_deg for putt in read_package(package).putts[-2:]] == [0.5 * sign, -0.2 * sign]


def test_reading_again_adds_nothing_and_changes_nothing(run, confirmed, log, package):
    before = contents(package)
    copy = log.with_name("another name.csv")
    copy.write_bytes(log.read_bytes())

    result = run("read", log, copy, log, "--into", package)

    assert result.exit_code == 0, result.output
    assert result.output.count("0 putts added, 2 read before") == 3
    assert len(read_package(package).putts) == before["putts.csv"].count(b"\n") - 1
    assert contents(package)["putts.csv"] == before["putts.csv"]
    assert contents(package)["readings-aside.csv"].count(b"\n") == 4


def test_a_log_that_grew_gives_what_is_new(run, confirmed, log, package):
    with log.open("a") as file:
        file.write("6;3,6;-0,1;;B;10;x\n")

    result = run("read", log, "--into", package)

    assert result.output.startswith("log.csv: 1 putt added, 2 read before, 3 kept aside")
    assert read_package(package).putts[-1].start_deg == -0.1


def test_a_row_kept_aside_is_tried_again(run, confirmed, log, package):
    fitting = read_package(package)
    build = dataclasses.replace(fitting.builds[0], build_id="Z", label=None)
    beside = {n: b for n, b in contents(package).items() if n.startswith("readings-")}
    write_package(
        dataclasses.replace(fitting, builds=(*fitting.builds, build)), package, beside=beside
    )

    result = run("read", log, "--into", package)

    assert result.output.startswith("log.csv: 1 putt added, 2 read before, 2 kept aside")
    assert read_package(package).putts[-1].build_id == "Z"
    assert "'Z'" not in (package / "readings-aside.csv").read_text("utf-8")


def test_the_map_serves_the_shops_next_fitting(run, confirmed, log, package, sound, tmp_path):
    other = tmp_path / "other"
    write_package(read_package(sound), other)

    result = run("read", log, "--into", other, "--json")

    assert result.exit_code == 0, result.output
    (file,) = json.loads(result.output)["files"]
    assert (file["table"], file["added"], len(file["aside"])) == ("putts", 2, 3)


def test_a_zip_is_read_into_as_a_folder_is(run, confirmed, log, package, sound, tmp_path):
    zipped = tmp_path / "fitting.zip"
    write_package(read_package(sound), zipped)

    result = run("read", log, "--into", zipped)

    assert result.exit_code == 0, result.output
    assert read_package(zipped).putts == read_package(package).putts


def test_build_and_distance_may_be_said_instead(run, package, tmp_path):
    path = tmp_path / "plain.csv"
    path.write_text("Ball speed (m/s),Launch angle (deg)\n1.5,2\n1.6,1.9\n")
    lacking = run("read", path, "--into", package)

    result = run("read", path, "--into", package, "--build", "C", "--distance-m", "3")

    assert (lacking.exit_code, result.exit_code) == (2, 0)
    assert "has no column for build_id" in lacking.output
    last = read_package(package).putts[-1]
    assert (last.build_id, last.distance_m, last.launch_deg) == ("C", 3.0, 1.9)


BAD = {
    "not there": (None, "there is no such file"),
    "empty": (b"", "is empty"),
    "binary": (bytes(range(256)), "is not text that can be read"),
    "no reading below": (b"start_deg,build_id,distance_m\n\n\n", "at least one row of readings"),
    "nothing fits": (b"start_deg,build_id,distance_m\nx,A,3\ny,A,3\n", "No row of bad.csv fits"),
    "decimal commas between commas": (
        b"start_deg,build_id,distance_m\n1,5,A,3\n0,5,B,3\n",
        "no row that is as wide as its header (row 2 has 4 cells",
    ),
    "nothing measured": (
        b"start_deg,build_id,distance_m\n,A,3\n",
        "says nothing that was measured",
    ),
    "an open quotation mark": (b'start_deg,build_id,distance_m\n"1,A,3\n', "left open"),
}


@pytest.mark.parametrize("kind", BAD)
def test_bad_input_is_a_sentence_and_nothing_is_read_of_any_file(run, package, tmp_path, kind):
    data, says = BAD[kind]
    good, bad = tmp_path / "good.csv", tmp_path / "bad.csv"
    good.write_text("start_deg,build_id,distance_m\n1,A,3\n")
    if data is not None:
        bad.write_bytes(data)
    before = contents(package)

    result = run("read", good, bad, "--into", package)

    assert result.exit_code == 2, result.output
    assert says in result.output
    assert contents(package) == before
    assert not list(tmp_path.glob(".*"))


@pytest.mark.faults
@pytest.mark.parametrize("when", ["while rows are written", "at the end"])
def test_a_disk_that_fills_up_leaves_the_package_as_it_was(
    run, package, tmp_path, monkeypatch, when
):
    good = tmp_path / "good.csv"
    good.write_text("start_deg,build_id,distance_m\n1,A,3\n")
    before = contents(package)

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    monkeypatch.setattr(whole, "_MANY_BYTES", -1 if when.startswith("while") else 1000)
    result = run("read", good, "--into", package)

    assert result.exit_code == 2, result.output
    assert "no space left on device" in result.output
    assert contents(package) == before
    assert not list(tmp_path.glob(".*"))


@pytest.mark.parametrize("named", ["fitting.json", "the folder above"])
def test_a_package_may_be_named_by_its_head_or_its_folder(run, package, tmp_path, named):
    good = tmp_path / "good.csv"
    good.write_text("start_deg,build_id,distance_m\n1,A,3\n")
    above = tmp_path / "usb"
    above.mkdir()
    package = package.rename(above / "fitting")
    before = len(read_package(package).putts)

    result = run("read", good, "--into", package / named if "json" in named else above)

    assert result.output.startswith("good.csv: 1 putt added")
    assert len(read_package(package).putts) == before + 1
    assert [each.name for each in above.iterdir()] == ["fitting"]
    assert not list(package.glob(".*"))


def test_a_file_of_ten_gigabytes_is_refused_unread(run, package, tmp_path):
    huge = tmp_path / "huge.csv"
    with huge.open("wb") as file:
        file.truncate(10 * 1024**3)  # sparse: nothing of it is on the disk
    before = contents(package)

    result = run("read", huge, "--into", package)

    assert result.exit_code == 2
    assert "larger than 128 MB" in result.output
    assert contents(package) == before


@pytest.mark.parametrize("place", ["a pipe", "a device", "a folder"])
def test_what_is_no_file_is_refused_unread(run, package, tmp_path, place):
    """A pipe is waited at for ever, and a device read until the memory is gone."""
    path = Path("/dev/null") if place == "a device" else tmp_path / "log.csv"
    if place == "a pipe":
        os.mkfifo(path)
    elif place == "a folder":
        path.mkdir()

    result = run("read", path, "--into", package)

    assert result.exit_code == 2
    assert "is a folder; name the file" in result.output or "is no file; save" in result.output


def test_a_hundred_thousand_columns_are_one_sentence(run, package, tmp_path):
    wide = tmp_path / "wide.csv"
    wide.write_text(",".join(f"c{n}" for n in range(100_000)) + "\n" + "1," * 99_999 + "1\n")

    result = run("read", wide, "--into", package)

    assert result.exit_code == 2
    assert result.output.endswith("has more than 1000 columns; is it a table of readings?\n")


def test_the_same_file_under_another_name_adds_nothing(run, package, tmp_path):
    log, copy = tmp_path / "log.csv", tmp_path / "copy of log.csv"
    log.write_text("start_deg,build_id,distance_m\n1,A,3\n0.5,B,3\n-0.5,A,3\n")
    copy.write_bytes(log.read_bytes())
    run("read", log, "--into", package)
    before = len(read_package(package).putts)

    result = run("read", copy, "--into", package)

    assert result.exit_code == 0
    assert "0 putts added, 3 read before" in result.output
    assert len(read_package(package).putts) == before


def test_columns_that_differ_in_case_alone_are_two(run, package, tmp_path):
    path = tmp_path / "log.csv"
    path.write_text("start_deg,build_id,distance_m,Grip,GRIP,grip (2)\n1,A,3,x,y,z\n")

    result = run("read", path, "--into", package)

    assert result.exit_code == 0, result.output
    extra = read_package(package).putts[-1].extra
    assert (extra["Grip"], extra["GRIP (2)"], extra["grip (2) (2)"]) == ("x", "y", "z")


def test_a_cell_without_end_is_kept_aside_and_the_package_can_be_read(run, package, tmp_path):
    path = tmp_path / "log.csv"
    path.write_text(f"start_deg,build_id,distance_m,Grip\n1,A,3,x\n2,A,3,{'9' * 200_000}\n")

    result = run("read", path, "--into", package)

    assert result.exit_code == 0, result.output
    assert "Grip: holds more than 10000 bytes" in result.output
    assert read_package(package).putts[-1].start_deg == 1


def test_a_map_of_other_columns_is_refused(run, confirmed, log, package, tmp_path):
    path = tmp_path / "plain.csv"
    path.write_text("Ball speed (m/s),Launch angle (deg)\n1.5,2\n")

    result = run("read", path, "--into", package, "--map", log.with_suffix(".map.toml"))

    assert result.exit_code == 2
    assert "is the map of other columns than those of plain.csv" in result.output
