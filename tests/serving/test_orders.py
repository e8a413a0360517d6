"""What server processes are told, and how often."""

import socket

import pytest

from footvalve.serving.orders import READY, Line, Order, hurried, order_of


@pytest.mark.parametrize(
    ("before", "after"),
    [(None, Order.DRAIN), (Order.LEAVE, Order.DRAIN), (Order.DRAIN, Order.STOP), (Order.STOP, Order.QUIT)],
)
def test_each_signal_more_leaves_more_out(before, after):
    assert hurried(before) is after
    assert hurried(Order.QUIT) is Order.QUIT


@pytest.mark.parametrize(
    ("words", "order"), [(b"", None), (b"\x01", Order.LEAVE), (b"\x01\x03\x02", Order.STOP), (None, Order.DRAIN)]
)
def test_the_greatest_order_counts_and_who_has_no_keeper_drains(words, order):
    assert order_of(words) is order


def test_a_line_tells_what_is_said_and_that_the_other_has_gone():
    one, other = map(Line, socket.socketpair())
    assert one.hear() == b""
    other.say(READY)
    assert one.hear() == READY
    other.close()
    assert one.hear() is None
    one.say(READY)  # to nobody
    one.close()
