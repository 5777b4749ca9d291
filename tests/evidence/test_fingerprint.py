"""One figure more or less is another fingerprint; how it was written down is not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from puttwright.evidence import Fitting, Green, Putt, inputs_sha256
from puttwright.evidence.signs import mirrored


def test_it_is_64_hexadecimal_digits(fitting):
    assert len(inputs_sha256(fitting)) == 64
    assert int(inputs_sha256(fitting), 16) > 0


def test_whole_numbers_and_signed_zero_are_the_same_figures(fitting):
    putt = Putt(seq=1, build_id="own", distance_m=3, start_deg=0)
    same = Putt(seq=1, build_id="own", distance_m=3.0, start_deg=-0.0)

    assert inputs_sha256(replace(fitting, putts=(putt,))) == inputs_sha256(
        replace(fitting, putts=(same,))
    )


def test_what_we_do_not_know_does_not_count(fitting):
    more = replace(
        fitting,
        extra={"shop": "x"},
        builds=tuple(replace(build, extra={"finish": "black"}) for build in fitting.builds),
    )

    assert inputs_sha256(more) == inputs_sha256(fitting)


@pytest.mark.parametrize(
    "change",
    [
        lambda fitting: replace(fitting, own_build="B"),
        lambda fitting: replace(fitting, date="2026-06-01"),
        lambda fitting: replace(fitting, putts=fitting.putts[::-1]),
        lambda fitting: replace(fitting, putts=fitting.putts[:1]),
        lambda fitting: replace(fitting, putts=()),
        lambda fitting: replace(fitting, greens=(Green(name="home", speed_ft=9.01, share=1),)),
        lambda fitting: replace(
            fitting, putts=(replace(fitting.putts[0], void=True), fitting.putts[1])
        ),
        mirrored,
    ],
)
def test_every_figure_counts(fitting: Fitting, change):
    assert inputs_sha256(change(fitting)) != inputs_sha256(fitting)
