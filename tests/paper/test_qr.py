"""A camera reads the address off the printed sheet."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
import typst

from puttwright.paper.order import render_order

PAGE = "http://127.0.0.1:8417/orders/F-0007-mallet-slant"


@pytest.mark.slow
@pytest.mark.parametrize("sheet", ["a4", "us-letter"])
def test_the_code_on_the_sheet_is_the_orders_page(samples, make, monkeypatch, sheet):
    printed = []
    compile_pdf = typst.compile

    def also_as_picture(**job):
        job.pop("pdf_standards", None)
        printed.append(compile_pdf(**(job | {"format": "png", "ppi": 200.0})))
        return compile_pdf(**job)

    monkeypatch.setattr(typst, "compile", also_as_picture)
    render_order(make(samples.FITTING, samples.DECISION), page=PAGE, sheet=sheet)
    picture = cv2.imdecode(np.frombuffer(printed[0], np.uint8), cv2.IMREAD_GRAYSCALE)
    found, *_ = cv2.QRCodeDetector().detectAndDecode(picture)
    assert found == PAGE
