"""From where to putt next: far where only stops are measured, at evens where not even those."""

from __future__ import annotations

import dataclasses

import pytest

from puttwright.fitting.readings import gather
from puttwright.fitting.where_to_putt import USUAL_M, where_to_putt
from puttwright.virtual.golfers import invent


@pytest.fixture(scope="module")
def by_tape():
    return next(one.fitting for one in invent(20, seed=5) if not one.session.device.sensor)


@pytest.fixture(scope="module")
def by_sensor():
    return next(one.fitting for one in invent(20, seed=5) if one.session.device.sensor)


def where(fitting):
    return where_to_putt(fitting, gather(fitting))


def without_stops(fitting):
    putts = [
        dataclasses.replace(putt, stop_past_m=None, stop_right_m=None) for putt in fitting.putts
    ]
    return dataclasses.replace(fitting, putts=tuple(putts))


def test_where_a_tape_is_all_there_is_the_longest_putts_tell_most(by_tape):
    assert where(by_tape).distance_m == 6.0
    assert "few drop" in where(by_tape).why


def test_where_a_sensor_reads_every_putt_the_distance_does_not_matter(by_sensor):
    assert where(by_sensor).distance_m == 3.6
    assert where(by_sensor).why == ""


def test_where_nothing_is_measured_as_many_should_drop_as_miss(by_tape):
    told = where(without_stops(by_tape))
    shares = {
        d: [putt.holed for putt in by_tape.putts if putt.distance_m == d] for d in (2.4, 3.6, 6.0)
    }
    nearest = min(shares, key=lambda d: abs(sum(shares[d]) / len(shares[d]) - 0.5))

    assert told.distance_m == nearest
    assert "as many drop" in told.why


def test_before_the_first_putt_and_from_one_distance_only_the_usual_ones_are_offered(by_tape):
    assert where(dataclasses.replace(by_tape, putts=())).distance_m == max(USUAL_M)
    near = tuple(putt for putt in by_tape.putts if putt.distance_m == 2.4)
    assert where(dataclasses.replace(by_tape, putts=near)).distance_m == max(USUAL_M)


def test_a_golfer_is_not_sent_further_off_than_the_green_allowed(by_tape):
    near = tuple(putt for putt in by_tape.putts if putt.distance_m < 6.0)
    assert where(dataclasses.replace(by_tape, putts=near)).distance_m == 3.6
