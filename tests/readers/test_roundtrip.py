"""Whatever a fitting holds, written and read it is the same; whatever bytes come, no trace."""

from __future__ import annotations

import contextlib
import dataclasses
import io
import operator
import zipfile

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from puttwright.errors import PackageFaults
from puttwright.evidence import Fitting, columns_of, inputs_sha256
from puttwright.evidence.check import check
from puttwright.evidence.tables import TABLES
from puttwright.readers.head import LISTS, RECORDS
from puttwright.readers.package import read_package, write_package
from puttwright.readers.writing import package_files

TEXT = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cn", "Co")),
    min_size=1,
    max_size=8,
).filter(str.strip)
IDS = st.text("abcXYZ019-_. ", min_size=1, max_size=6).filter(lambda text: text == text.strip())
EXTRA = st.dictionaries(IDS.map("x_{}".format), TEXT, max_size=2)


def value(column):
    """Anything a column may hold."""
    if column.kind == "yes_no":
        return st.booleans()
    if column.kind == "text":
        return st.sampled_from(column.choices) if column.choices else TEXT
    low = -1e6 if column.low is None else column.low
    high = 1e6 if column.high is None else column.high
    if column.kind == "count":
        return st.integers(int(low), int(high))
    return st.floats(low, high)


def record(kind, **given_fields):
    fields = {}
    for column in columns_of(kind):
        some = IDS if column.name.endswith("_id") else value(column)
        default = next(f.default for f in dataclasses.fields(kind) if f.name == column.name)
        fields[column.name] = some if column.required else st.one_of(st.just(default), some)
    return st.builds(kind, **{**fields, "extra": EXTRA, **given_fields})


def near(low, high):
    return st.one_of(st.none(), st.floats(low, high))


SOUND = {
    "builds": {"head_mass_g": near(200, 299), "balance_from_butt_mm": near(100, 457)},
    "putts": {"stop_past_m": near(-0.2, 0.2), "stop_right_m": near(-0.2, 0.2)},
    "rack": {"loft_min_deg": st.none(), "lie_max_deg": st.none()},
    "golfer": {"shoulder_height_mm": st.none(), "wrist_height_mm": near(400, 899)},
    "greens": {"share": st.just(1.0)},
    "first_putts": {"per_round": st.floats(0.1, 18)},
}
"""What makes a row agree with itself and a list add up, so that the fitting can be used."""


@st.composite
def fittings(draw, sound):
    also = SOUND if sound else {}
    rows = {name: record(kind, **also.get(name, {})) for name, kind in TABLES.items()}
    builds = draw(st.lists(rows["builds"], min_size=1, max_size=3, unique_by=lambda b: b.build_id))
    ids = [build.build_id for build in builds]
    tables = {"builds": tuple(builds)}
    for name in set(TABLES) - {"builds"}:
        key = operator.attrgetter("part_id" if name == "rack" else "seq")
        found = draw(st.lists(rows[name], max_size=3, unique_by=key))
        tables[name] = tuple(known_build(draw, row, ids) for row in found)
    lists = {
        name: tuple(draw(st.lists(record(kind, **also.get(name, {})), min_size=1, max_size=1)))
        for name, kind in LISTS.items()
    }
    fields = {name: draw(record(kind, **also.get(name, {}))) for name, kind in RECORDS.items()}
    return Fitting(
        fitting_id=draw(IDS),
        date=draw(st.dates()).isoformat(),
        own_build=draw(st.sampled_from(ids)),
        extra=draw(EXTRA),
        **fields,
        **lists,
        **tables,
    )


def known_build(draw, row, ids):
    if not hasattr(row, "build_id"):
        return row
    return dataclasses.replace(row, build_id=draw(st.sampled_from(ids)))


LEISURELY = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


@LEISURELY
@given(fitting=fittings(sound=True), name=st.sampled_from(["p", "p.zip"]))
def test_what_is_written_is_read_again(tmp_path_factory, fitting, name):
    path = tmp_path_factory.mktemp("p") / name
    write_package(fitting, path)

    assert check(fitting) == []
    assert read_package(path) == fitting
    assert inputs_sha256(read_package(path)) == inputs_sha256(fitting)


@LEISURELY
@given(fitting=fittings(sound=False))
def test_a_file_is_judged_as_the_fitting_in_memory(tmp_path_factory, fitting):
    path = tmp_path_factory.mktemp("p") / "p"
    write_package(fitting, path)
    try:
        read_package(path)
        told = set()
    except PackageFaults as trouble:
        told = set(trouble.faults)

    assert told == set(check(fitting))


SPOILT = st.sampled_from(
    (b"", b"\0", b"\xff", b'"', b",", b"\n", b"\r", b";", b"{", b"[", b"nan", b"1e999", b"../")
)


def spoilt(draw, files):
    """The files of a good package with some bytes cut out and others put in, or any bytes."""
    files = dict(files)
    for name in draw(st.lists(st.sampled_from(sorted(files)), min_size=1, max_size=3)):
        data = files[name]
        start = draw(st.integers(0, len(data)))
        end = draw(st.integers(start, min(len(data), start + 40)))
        inserted = draw(st.one_of(SPOILT, st.binary(max_size=30)))
        files[name] = draw(st.sampled_from([data[:start] + inserted + data[end:], inserted]))
    return files


def zipped_bytes(files):
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return stream.getvalue()


@settings(LEISURELY, max_examples=200)
@given(data=st.data(), zipped=st.booleans())
def test_no_bytes_bring_a_trace(tmp_path_factory, fitting, data, zipped):
    files = spoilt(data.draw, package_files(fitting))
    path = tmp_path_factory.mktemp("p")
    if zipped:
        path /= "p.zip"
        whole = zipped_bytes(files)
        cut = data.draw(st.integers(0, len(whole)))
        path.write_bytes(whole[:cut] + data.draw(SPOILT) + whole[cut + 3 :])
    else:
        for name, content in files.items():
            (path / name).write_bytes(content)

    with contextlib.suppress(PackageFaults):
        read_package(path)
