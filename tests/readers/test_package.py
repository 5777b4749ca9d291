"""What goes out comes back, in a folder or a zip, and a wrong package is told whole."""

from __future__ import annotations

import json
import zipfile

import pytest

from puttwright.errors import PackageFaults
from puttwright.evidence import Putt
from puttwright.readers.package import read_package, write_package

HEADER = "seq,build_id,distance_m,holed,ball_speed_mps\n"


LEAVE_EMPTY = "leave the cell empty if it was not measured"


def golfer(**fields):
    return {"golfer": present({"alias": "A", "handed": "left", **fields})}


def green(**fields):
    return {"greens": [{"name": "home", "speed_ft": 9, "share": 1, **fields}]}


def present(data):
    return {name: value for name, value in data.items() if value is not ...}


@pytest.fixture
def package(fitting, tmp_path):
    path = tmp_path / "fitting"
    write_package(fitting, path)
    return path


def faults_of(path):
    with pytest.raises(PackageFaults) as caught:
        read_package(path)
    return [str(fault) for fault in caught.value.faults]


def put(package, name, text):
    data = text if isinstance(text, bytes) else text.encode()
    (package / name).write_bytes(data)
    return package


def change_head(package, **fields):
    path = package / "fitting.json"
    data = present({**json.loads(path.read_text("utf-8")), **fields})
    path.write_text(json.dumps(data), "utf-8")
    return package


@pytest.mark.parametrize("name", ["fitting", "fitting.zip", "FITTING.ZIP"])
def test_a_fitting_comes_back_as_it_went(fitting, tmp_path, name):
    write_package(fitting, tmp_path / name)

    assert read_package(tmp_path / name) == fitting


def test_the_same_fitting_gives_the_same_bytes(fitting, tmp_path):
    for name in ("a.zip", "b.zip"):
        write_package(fitting, tmp_path / name)

    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "a.zip") as archive:
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_a_folder_needs_no_datapackage(fitting, package):
    (package / "datapackage.json").unlink()

    assert read_package(package) == fitting


def test_a_file_of_the_package_names_its_folder(fitting, package):
    assert read_package(package / "fitting.json") == fitting


def test_a_zip_of_the_folder_itself_is_read(fitting, package, tmp_path):
    with zipfile.ZipFile(tmp_path / "z.zip", "w") as archive:
        for path in package.iterdir():
            archive.write(path, f"some folder/{path.name}")
        archive.writestr("__MACOSX/some folder/._putts.csv", b"\0\0")

    assert read_package(tmp_path / "z.zip") == fitting


def test_only_the_head_and_the_builds_are_needed(fitting, package):
    for name in ("setups", "aims", "putts", "rack"):
        (package / f"{name}.csv").unlink()
    (package / "datapackage.json").unlink()

    read = read_package(package)

    assert (read.builds, read.putts, read.rack) == (fitting.builds, (), ())


def test_a_table_with_only_a_header_is_empty(package):
    assert read_package(put(package, "putts.csv", HEADER)).putts == ()


def test_all_putts_void_is_a_fitting(package):
    text = "seq,build_id,distance_m,void\n1,own,3,true\n2,B,3,TRUE\n"

    assert read_package(put(package, "putts.csv", text)).used_putts == ()


def test_byte_order_mark_line_ends_blank_rows_and_spaces_do_not_matter(package):
    text = "\ufeffseq, build_id ,Distance_m,stop_past_m\r\n\r\n 4 , own , 3.0,\u22121\r\n,,,\r\n"

    putts = read_package(put(package, "putts.csv", text)).putts

    assert putts == (Putt(seq=4, build_id="own", distance_m=3, stop_past_m=-1),)


def test_a_resource_may_have_another_path(fitting, package):
    (package / "data").mkdir()
    (package / "putts.csv").rename(package / "data" / "strokes.csv")
    manifest = {"resources": [{"name": "putts", "path": ["data/strokes.csv"]}]}
    put(package, "datapackage.json", json.dumps(manifest))

    assert read_package(package) == fitting


@pytest.mark.parametrize(
    ("column", "cell", "message"),
    [
        ("ball_speed_mps", "40", "40 m/s is out of range; it must lie between 0.05 and 12 m/s"),
        ("distance_m", '"1,5"', "'1,5' uses a decimal comma; write 1.5"),
        ("distance_m", "far", f"'far' is not a number; {LEAVE_EMPTY}"),
        ("distance_m", "3 m", "'3 m' is not a number; write it without the unit (m)"),
        ("distance_m", "", "is empty; every row needs it"),
        ("distance_m", " ", "is empty; every row needs it"),
        ("ball_speed_mps", "nan", f"'nan' is not a finite number; {LEAVE_EMPTY}"),
        ("ball_speed_mps", "-inf", f"'-inf' is not a finite number; {LEAVE_EMPTY}"),
        ("ball_speed_mps", "1e999", "'1e999' is too large a number"),
        ("ball_speed_mps", "1_0", f"'1_0' is not a number; {LEAVE_EMPTY}"),
        ("ball_speed_mps", "#VALUE!", f"'#VALUE!' is not a number; {LEAVE_EMPTY}"),
        ("holed", "maybe", "'maybe' is neither true nor false"),
        ("seq", "1.5", "'1.5' is not a whole number"),
        ("seq", "-1", "-1 is out of range; it must lie between 0 and 1e+09"),
        ("build_id", "C", "'C' is not a build of builds.csv"),
        ("build_id", "x" * 65, "is 65 characters long; an identifier has 64 at the most"),
        ("note", "a\x07b", "holds a character that cannot be printed; type the text again"),
        ("note", "a" * 1001, "is 1001 characters long; 1000 are the most"),
    ],
)
def test_a_wrong_cell_is_told_with_its_row_and_column(package, column, cell, message):
    names = ["seq", "build_id", "distance_m", "holed", "ball_speed_mps", "note"]
    good = ["1", "own", "3", "true", "2", "as before"]
    bad = [cell if name == column else value for name, value in zip(names, good, strict=True)]
    put(package, "putts.csv", "\n".join(map(",".join, [names, ["2", *good[1:]], [], bad])))

    assert f"putts.csv, row 4, {column}: {message}" in faults_of(package)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (HEADER + "1,own,3,1,2\n1,B,3,1,2\n", ", row 3, seq: 1 is already used in row 2; "),
        (HEADER + "1,own,3,true,2,5\n", ", row 2: has 6 cells, the header has 5; is there a"),
        (
            "seq,build_id,distance\n1,own,3\n",
            ", row 1, distance_m: this column is missing; is 'distance' meant to be it?",
        ),
        (
            "seq,build_id,distance_m,Seq\n1,own,3,2\n",
            ", row 1, seq: stands twice in the header; keep one",
        ),
        (
            "seq;build_id;distance_m\n1;own;3,0\n",
            ", row 1: its columns are separated by semicolons; save it again with commas",
        ),
        (HEADER + '1,own,3,"true,2\n', ", row 2: a quotation mark is left open or stands in"),
        (HEADER + '1,own,3,"' + "x" * 200_000, ", row 2: a cell is longer than any reading"),
        (b"", ": has no bytes in it; write its header line, or delete the file"),
        ("\n\n", ": has no header line; write one, or delete the file"),
        (HEADER.encode("utf-16"), ": is UTF-16; save it again as UTF-8"),
        (HEADER.encode("utf-16-le"), ": is UTF-16 or not text at all; save it again as UTF-8"),
        ((HEADER + "\né").encode("latin-1"), ": is not UTF-8 (line 3); save it again as UTF-8"),
        (b"PK\x03\x04", ": is a spreadsheet or a zip, not plain text; save it again as UTF-8"),
        (
            "seq,build_id,distance_m,holed,stop_past_m\n1,own,3,true,1.5\n",
            ", row 2, holed: true, yet the ball stopped 1.5 m from the hole; say false",
        ),
        (
            "seq,build_id,distance_m,stop_past_m\n1,own,3,-15\n",
            ", row 2, stop_past_m: -15 m of a putt of 3 m is behind the golfer",
        ),
    ],
    ids=lambda value: repr(value[-24:]),
)
def test_a_wrong_table_is_one_sentence_with_its_place(package, text, fault):
    found = faults_of(put(package, "putts.csv", text))

    assert len(found) == 1
    assert found[0].startswith(f"putts.csv{fault}")


@pytest.mark.parametrize(
    ("rows", "fault"),
    [
        ("own,864,70,45\nB,864,70,3\n", "row 2, loft_deg: 45 deg is out of range; it must lie"),
        ("own,864,70,3\nB,864,70,3\nB,864,70,3\n", "row 4, build_id: B is already used in row 3"),
        ("own,864,70,3\nB,864,70,3\nkeep,864,70,3\n", "row 4, build_id: 'keep' is a word of"),
        ("own,34,70,3\nB,864,70,3\n", "row 2, length_mm: 34 mm is out of range; it must lie"),
    ],
)
def test_a_wrong_build_is_told(package, rows, fault):
    put(package, "builds.csv", "build_id,length_mm,lie_deg,loft_deg\n" + rows)

    assert [found[: len(fault) + 12] for found in faults_of(package)] == [f"builds.csv, {fault}"]


def test_builds_without_a_row_are_told(package):
    put(package, "builds.csv", "build_id,length_mm,lie_deg,loft_deg\n")

    assert "builds.csv: has no build; the golfer's own is one" in faults_of(package)


@pytest.mark.parametrize(
    ("fields", "fault"),
    [
        ({"golfer": ...}, "golfer: is missing"),
        ({"golfer": []}, "golfer: must be an object, { ... }"),
        (golfer(handed=...), "golfer, handed: is missing"),
        (golfer(alias=" "), "golfer, alias: is missing"),
        (golfer(alias=7), "golfer, alias: must be text, in quotation marks"),
        (golfer(minor="no"), "golfer, minor: must be true or false"),
        (golfer(handed="both"), "golfer, handed: 'both' is not one of: right, left"),
        (golfer(stature_mm="1,8"), "golfer, stature_mm: '1,8' uses a decimal comma; write 1.8"),
        (golfer(stature_mm="1800"), "golfer, stature_mm: '1800' is text; write the number"),
        (golfer(stature_mm=180), "golfer, stature_mm: 180 mm is out of range; it must lie"),
        (
            golfer(stature_mm=1700, shoulder_height_mm=1710),
            "golfer, shoulder_height_mm: 1710 mm is not below stature_mm (1700 mm)",
        ),
        ({"own_build": ...}, "own_build: is missing; it is the build_id of the putter"),
        ({"own_build": "mine"}, "own_build: 'mine' is not a build of builds.csv"),
        ({"greens": []}, "greens: is missing; name at least one green this golfer plays"),
        ({"greens": {}}, "greens: must be a list, [ ... ]"),
        (green(share=0.4), "greens: the shares sum to 0.4; they must sum to 1"),
        (green(speed_ft=True), "greens, entry 1, speed_ft: must be a number"),
        (
            {"first_putts": [{"distance_m": 3, "per_round": 0}]},
            "first_putts: 0 first putts a round; there are 18 at the most",
        ),
        ({"fitting_green": {"speed_ft": 10**400}}, "fitting_green, speed_ft: is too large"),
        ({"date": "31.5.2026"}, "date: '31.5.2026' is not a date; write it as 2026-05-31"),
        ({"fitting_id": 7}, "fitting_id: must be text; it is a text that names the fitting"),
    ],
    ids=str,
)
def test_a_wrong_head_is_one_sentence_with_its_place(package, fields, fault):
    found = faults_of(change_head(package, **fields))

    assert len(found) == 1
    assert found[0].startswith(f"fitting.json, {fault}")


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("{", "is not JSON (line 1, character 2"),
        ("[]", "must be one JSON object, { ... }"),
        ('{"a": NaN}', "cannot be used: NaN is not a finite number"),
        ('{"a": 1e999}', "cannot be used: 1e999 is not a finite number"),
        ('{"a": 1, "a": 2}', "cannot be used: 'a' stands twice in one object"),
        ('{"a": ' + "[" * 50 + "]" * 50 + "}", "cannot be used: it is nested too deeply"),
        ('{"a": ' + "[" * 50_000, "is nested too deeply"),
        (f'{{"a": {"9" * 9000}}}', "cannot be used"),
        ('{"a": "\\ud800"}', "holds a character that cannot be kept"),
        ("", "has no bytes in it"),
        (" " * 4 * 1024 * 1024 + " ", "is larger than 4 MB"),
    ],
    ids=lambda value: value[:12],
)
def test_a_head_that_is_no_json_is_told(package, text, fault):
    found = faults_of(put(package, "fitting.json", text))

    assert len(found) == 1
    assert found[0].startswith(f"fitting.json: {fault}")


def test_all_faults_are_told_at_once_in_order(package):
    change_head(package, own_build="mine")
    put(package, "putts.csv", HEADER + "x,own,3,true,40\n2,C,3,true,2\n")
    put(package, "aims.csv", b"")

    assert [fault.split(":")[0] for fault in faults_of(package)] == [
        "fitting.json, own_build",
        "aims.csv",
        "putts.csv, row 2, seq",
        "putts.csv, row 2, ball_speed_mps",
        "putts.csv, row 3, build_id",
    ]


def test_many_faults_alike_are_counted(package):
    rows = "".join(f"{seq},own,3,true,40\n" for seq in range(1, 1001))

    found = faults_of(put(package, "putts.csv", HEADER + rows))

    assert len(found) == 21
    assert found[-1] == "putts.csv, ball_speed_mps: 980 more rows like these, down to row 1001"


def test_builds_that_cannot_be_read_do_not_make_every_putt_wrong(package):
    assert faults_of(put(package, "builds.csv", b"")) == [
        "builds.csv: has no bytes in it; write its header line, or delete the file"
    ]


def test_a_folder_of_fittings_says_to_name_one(package):
    (package.parent / "second").mkdir()
    put(package.parent / "second", "fitting.json", "{}")

    assert "fitting.json: name one of the fittings in this folder" in faults_of(package.parent)


def test_what_is_no_package_is_told(tmp_path):
    (tmp_path / "notes.txt").write_text("hello")
    (tmp_path / "bad.zip").write_bytes(b"PK\x03\x04 and no more")
    (tmp_path / "empty.zip").write_bytes(b"")

    assert faults_of(tmp_path / "nothing") == ["nothing: is not there"]
    assert faults_of(tmp_path / "notes.txt") == ["notes.txt: is neither a folder nor a zip file"]
    assert faults_of(tmp_path / "bad.zip")[0].startswith("bad.zip: is a damaged zip file")
    assert faults_of(tmp_path / "empty.zip")[0].startswith("empty.zip: has no bytes in it")


@pytest.mark.parametrize("name", ["../putts.csv", "/putts.csv", "a/../../b", "c:\\putts.csv"])
def test_a_zip_that_leads_out_of_its_folder_is_refused(tmp_path, name):
    with zipfile.ZipFile(tmp_path / "z.zip", "w") as archive:
        archive.writestr(name, b"seq")

    assert "leads out of its folder" in faults_of(tmp_path / "z.zip")[0]


def test_a_zip_that_unpacks_without_end_is_refused(tmp_path):
    with zipfile.ZipFile(tmp_path / "z.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("fitting.json", b"{}")
        for number in range(3):
            archive.writestr(f"{number}.csv", b"0" * 64 * 1024 * 1024)

    assert faults_of(tmp_path / "z.zip") == ["z.zip: unpacks to more than 128 MB"]


def test_a_resource_that_leads_out_or_is_not_there_is_told(package):
    resources = [
        {"name": "putts", "path": "../putts.csv"},
        {"name": "aims", "path": "aim.csv"},
        {"name": "builds", "data": []},
        {"name": "rack", "path": "rack.csv"},
        {"name": "rack", "path": "rack.csv"},
        7,
    ]
    put(package, "datapackage.json", json.dumps({"resources": resources}))

    assert faults_of(package) == [
        "datapackage.json, resources, entry 1: '../putts.csv' leads out of the package",
        "datapackage.json, resources, entry 2: 'aim.csv' is listed but not there",
        "datapackage.json, resources, entry 3: must have a path, the name of one file",
        "datapackage.json, resources, entry 5: rack is listed twice",
    ]


def test_unknown_columns_without_a_word_in_them_are_no_fault(package):
    text = "seq,build_id,distance_m,,humidity\n1,own,3,,\n2,own,3,,wet\n"

    putts = read_package(put(package, "putts.csv", text)).putts

    assert [putt.extra for putt in putts] == [{}, {"humidity": "wet"}]


@pytest.mark.slow
def test_a_hundred_thousand_putts_are_read(fitting, package):
    names = (
        "seq,build_id,distance_m,holed,stop_past_m,stop_right_m,ball_speed_mps,launch_deg,"
        "start_deg,spin_rpm,face_deg,path_deg,strike_toe_mm,note"
    )
    row = "own,3.05,false,0.413,-0.02,1.732,2.41,-0.31,12.5,-0.2,0.7,-3.5,as before"
    rows = "".join(f"{seq},{row}\n" for seq in range(1, 100_001))
    put(package, "putts.csv", f"{names}\n{rows}")

    read = read_package(package)

    assert len(read.putts) == 100_000
    assert read.putts[-1] == Putt(
        seq=100_000, build_id="own", distance_m=3.05, holed=False, stop_past_m=0.413,
        stop_right_m=-0.02, ball_speed_mps=1.732, launch_deg=2.41, start_deg=-0.31, spin_rpm=12.5,
        face_deg=-0.2, path_deg=0.7, strike_toe_mm=-3.5, note="as before",
    )  # fmt: skip
