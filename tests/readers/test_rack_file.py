from __future__ import annotations

import io
import zipfile

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

from puttwright.errors import PackageFaults
from puttwright.evidence import Part
from puttwright.readers.rack_file import rack_csv, rack_from, rack_workbook, read_rack

RACK = (
    Part(part_id="H3", kind="head", label="Mallet, three lines", mass_g=358.5, lie_deg=71,
         loft_deg=-1.5, stock=2, price=190, fits="N1 N2", extra={"shelf": "3"}),
    Part(part_id="007", kind="grip", label="=SUM(A1)", grip_diameter_mm=29, stock=0),
)  # fmt: skip
WAYS = {"csv": rack_csv, "xlsx": rack_workbook}


@pytest.mark.parametrize("way", WAYS)
def test_there_and_back_is_the_same_rack(way, tmp_path):
    path = tmp_path / f"rack.{way}"
    path.write_bytes(WAYS[way](RACK))
    assert read_rack(path) == RACK


@pytest.mark.parametrize("way", WAYS)
def test_the_same_rack_gives_the_same_bytes(way):
    assert WAYS[way](RACK) == WAYS[way](RACK)
    assert rack_from(WAYS[way](()), name="empty") == ()


def test_a_label_is_never_a_formula():
    sheet = load_workbook(io.BytesIO(rack_workbook(RACK))).active
    assert sheet["C3"].data_type == "s"
    assert sheet["A3"].value == "007"


def workbook(*rows):
    book, stream = Workbook(), io.BytesIO()
    for row in rows:
        book.active.append(row)
    book.save(stream)
    return stream.getvalue()


def test_every_fault_is_told_with_its_row_and_column():
    data = workbook(
        ("part_id", "kind", "mass_g", "loft_min_deg", "loft_max_deg"),
        ("H1", "head", -5, 4, 1),
        ("H1", "hat", "heavy", None, None),
    )
    with pytest.raises(PackageFaults) as caught:
        rack_from(data, name="rack.xlsx")
    told = str(caught.value)
    for words in ("row 2, mass_g: -5 g is out of range", "row 3, kind: 'hat' is not one of",
                  "row 3, mass_g: 'heavy' is not a number", "H1 is already used in row 2",
                  "row 2, loft_min_deg: 4 is more than the other end"):  # fmt: skip
        assert words in told


def bomb():
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/worksheets/sheet1.xml", b"0" * (129 * 1024 * 1024))
    return stream.getvalue()


def test_a_file_that_unpacks_without_end_is_refused():
    with pytest.raises(PackageFaults, match="unpacks to more than"):
        rack_from(bomb(), name="rack.xlsx")


@given(cut=st.integers(4, 4000))
def test_a_damaged_spreadsheet_is_told_not_thrown(cut):
    with pytest.raises(PackageFaults):
        rack_from(rack_workbook(RACK)[:cut], name="rack.xlsx")


def test_what_is_not_there_is_told(tmp_path):
    with pytest.raises(PackageFaults, match="is not there"):
        read_rack(tmp_path / "rack.csv")
