"""Work in a forked process: the same answers, its errors raised here, and no harm if it dies."""

import os

import pytest

from frame.errors import MechanismError
from frame.verdict.beside import beside
from frame.verdict.compare import compare
from tests.builders import case


def where(held):
    return held, os.getpid()


def twice(held, text):
    return 2 * text


def loose(held):
    raise MechanismError(f"{held} is loose")


def dies(held, parent):
    if os.getpid() != parent:
        os._exit(1)
    return held


def test_one_process_is_this_one():
    with beside("rack", 1) as far:
        assert far.ask(where)() == ("rack", os.getpid())


def test_a_second_one_answers_in_turn_what_it_is_asked():
    with beside("rack", 2) as far:
        first, second = far.ask(where), far.ask(where)
        held, other = first()
        assert held == "rack"
        assert other != os.getpid()
        assert second() == (held, other)


def test_answers_may_be_taken_in_any_order():
    with beside("rack", 2) as far:
        first, second = far.ask(twice, "a"), far.ask(twice, "b")
        assert (second(), first()) == ("bb", "aa")


@pytest.mark.parametrize("processes", [1, 2])
def test_items_are_worked_on_in_their_order_wherever_a_process_is_free(processes):
    with beside("rack", processes) as far:
        busy = far.ask(twice, "x" * 200_000)
        items = [str(i) for i in range(20)]
        assert far.each(twice, items) == tuple(2 * i for i in items)
        assert len(busy()) == 400_000


def test_items_whose_process_died_are_done_here():
    with beside("rack", 2) as far:
        assert far.each(dies, [os.getpid()] * 3) == ("rack",) * 3


def test_its_errors_come_back_as_they_are():
    with beside("post", 2) as far:
        with pytest.raises(MechanismError, match="post is loose"):
            far.ask(loose)()
        assert far.ask(where)()[0] == "post"


def test_what_a_dead_process_leaves_is_done_here():
    me = os.getpid()
    with beside("rack", 2) as far:
        assert far.ask(dies, me)() == "rack"
        assert far.ask(where)() == ("rack", me)


@pytest.mark.parametrize("name", ["boat_shed", "wash_house"])
def test_two_processes_find_what_one_does(name):
    one, two = (compare(case(name), processes=n) for n in (1, 2))
    assert [r.bracing for r in one.results] == [r.bracing for r in two.results]
    assert [[repr(row) for row in r.rows] for r in one.results] == [
        [repr(row) for row in r.rows] for r in two.results
    ]
    assert repr(one.moves) == repr(two.moves)
    assert one.verdict == two.verdict
    assert repr(one.knee_card) == repr(two.knee_card)
    assert [r.agreement for r in one.results] == [r.agreement for r in two.results]
