"""Stages of reading side by side: in order, nothing lost, and what goes wrong is told."""

from __future__ import annotations

import threading

import pytest

from puttwright.readers.tables.side_by_side import ahead, behind, shared


def test_every_item_comes_in_order():
    assert list(ahead(iter(range(20)))) == list(range(20))


def test_what_two_threads_share_comes_in_order_however_long_each_takes():
    second_done = threading.Event()

    def work(item: int) -> int:
        if item == 0:
            assert second_done.wait(timeout=60)
        if item == 1:
            second_done.set()
        return -item

    assert list(shared(work, iter(range(20)))) == [-item for item in range(20)]


def test_no_more_than_three_items_are_taken_before_one_is_given_on():
    taken: list[int] = []

    def items():
        for item in range(50):
            taken.append(item)
            yield item

    ahead_of = [len(taken) - given for given, _ in enumerate(shared(abs, items()))]

    assert max(ahead_of) == 3


def test_what_goes_wrong_in_a_shared_item_is_told():
    with pytest.raises(ZeroDivisionError):
        list(shared(lambda item: 1 // (item - 7), range(20)))


def test_every_item_is_worked_on_in_order_and_done_at_the_end():
    done: list[int] = []

    with behind(done.append) as give:
        for item in range(20):
            give(item)

    assert done == list(range(20))


def test_work_that_fails_is_told_and_no_more_is_taken():
    began: list[int] = []

    def work(item: int) -> None:
        began.append(item)
        if item == 3:
            raise ValueError("three")

    with pytest.raises(ValueError, match="three"), behind(work) as give:
        for item in range(100):
            give(item)

    assert max(began) < 8


def test_no_more_than_two_items_are_held():
    second_given = threading.Event()
    done: list[int] = []
    held: list[int] = []

    def work(item: int) -> None:
        assert second_given.wait(timeout=60)
        done.append(item)

    with behind(work) as give:
        for item in range(30):
            give(item)
            held.append(item + 1 - len(done))
            if item == 1:
                second_given.set()

    assert max(held) == 2
