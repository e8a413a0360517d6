"""The listening socket: whom it reaches, and how it ends."""

import socket
import sys

import pytest

from footvalve.serving.listener import CannotListen, address_of, is_loopback, let_nobody_knock, listen, waiting


@pytest.mark.parametrize("address", ["127.0.0.1", "127.9.9.9", "::1"])
def test_a_loopback_address_reaches_this_machine_alone(address):
    assert is_loopback(address)


@pytest.mark.parametrize("address", ["0.0.0.0", "::", "192.0.2.1", "fe80::1%1"])
def test_any_other_address_reaches_more(address):
    assert not is_loopback(address)


def test_a_name_that_leads_nowhere_is_told():
    with pytest.raises(CannotListen, match=r"cannot listen on nowhere\.invalid port 80: "):
        address_of("nowhere.invalid", 80)


@pytest.mark.skipif(sys.platform != "linux", reason="needs the kernel's socket filters")
def test_who_waits_is_taken_and_who_comes_later_is_not():
    with listen("127.0.0.1", 0) as listening:
        listening.setblocking(False)
        place = listening.getsockname()
        with socket.create_connection(place) as early, socket.socket() as late:
            let_nobody_knock(listening)
            late.settimeout(0.3)
            with pytest.raises(TimeoutError):
                late.connect(place)
            (taken,) = waiting(listening)
            with taken:
                early.sendall(b"still heard")
                assert taken.recv(20) == b"still heard"
        assert waiting(listening) == []
