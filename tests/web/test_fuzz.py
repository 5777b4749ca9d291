"""Whatever is sent to whichever page, the answer is a page, a refusal or a sentence; never a fault.

Addresses, queries and headers come from the description that the application
gives of itself (OpenAPI); what forms hold it does not describe, so that is made
up beside it: fields that are known with values that are not, and bytes.
"""

from __future__ import annotations

import os
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from puttwright.deeds.bootstrap import Shop
from puttwright.web.app import create_app

FIELDS = st.sampled_from(
    [
        "entry_key",
        "hand",
        "build_id",
        "distance_m",
        "holed",
        "stop_past_m",
        "stop_right_m",
        "seq",
        "kind",
        "note",
        "why",
        "number",
        "x",
        "y",
        "golfer-alias",
        "fitting_green-speed_ft",
        "build-length_mm",
        "name",
        "value",
        "role",
        "fitting",
        "tax_pct",
        "q",
    ]
)
VALUES = st.one_of(
    st.text(max_size=20),
    st.sampled_from(
        [
            "",
            "1e999",
            "-0",
            "nan",
            "1,5",
            "10**9",
            "9" * 40,
            "\0",
            "\ud7ff",
            "../..",
            "%00",
            "putts",
        ]
    ),
    st.floats().map(str),
    st.integers().map(str),
)
BODIES = st.one_of(
    st.fixed_dictionaries({"data": st.dictionaries(FIELDS, VALUES, max_size=8)}),
    st.fixed_dictionaries({"json": st.dictionaries(FIELDS, VALUES, max_size=4)}),
    st.fixed_dictionaries(
        {"files": st.fixed_dictionaries({"file": st.tuples(VALUES, st.binary(max_size=200))})}
    ),
    st.fixed_dictionaries(
        {
            "content": st.binary(max_size=200),
            "headers": st.sampled_from(
                [
                    {"content-type": kind}
                    for kind in (
                        "application/x-www-form-urlencoded",
                        "application/json",
                        "multipart/form-data",
                        "multipart/form-data; boundary=x",
                        "text/csv; charset=no-such",
                    )
                ]
            ),
        }
    ),
)
SOME = settings(
    max_examples=int(os.environ.get("PUTTWRIGHT_SENT", "250")),
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
)


def _operations(app: Any) -> list[Any]:
    schema = schemathesis.openapi.from_dict(app.openapi())
    found = [each.ok() for each in schema.get_all_operations()]
    return [each for each in found if not each.path.endswith("/stream")]  # which never ends


@pytest.mark.slow
def test_whatever_is_sent_no_page_fails(shop: Shop, beside: Any, full: str) -> None:
    app = create_app(shop, hosts={"testserver"})
    pages = beside(app)
    operations = _operations(app)
    assert len(operations) > 60
    fitting_id = full.rsplit("/", 1)[1]

    @SOME
    @given(st.data())
    def send(data: st.DataObject) -> None:
        operation = data.draw(st.sampled_from(operations))
        case = data.draw(operation.as_strategy())
        if "fitting_id" in case.path_parameters and data.draw(st.integers(0, 3)):
            case.path_parameters["fitting_id"] = fitting_id
        sent = {"params": dict(case.query or {}), "headers": {}}
        if operation.method.upper() in {"POST", "PUT"}:
            sent |= data.draw(BODIES)

        answer = pages.request(operation.method.upper(), case.formatted_path, **sent)

        assert answer.status_code < 500, (operation.method, case.formatted_path, sent)

    send()
