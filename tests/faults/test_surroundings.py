"""What goes wrong around the service: the clock, the disk of the logs, callers who come and go."""

import os
import socket
import struct
import time

import pytest

from .raw_caller import ALIVE, LAST_REQUEST, REQUEST, all_that_comes, connected, header, one_answer
from .service_process import serving, serving_unheard, until

SET_BACK = """
import os, time

def set_back(real):
    return lambda *given: real(*given) - (864_000 if os.path.exists({switch!r}) else 0)

time.time = set_back(time.time)
time.time_ns = lambda: int(time.time() * 1e9)
"""


def test_no_limit_hangs_on_the_clock_on_the_wall(tmp_path):
    switch = tmp_path / "ten days earlier"
    (tmp_path / "sitecustomize.py").write_text(SET_BACK.format(switch=str(switch)))
    environment = {
        "PYTHONPATH": f"{tmp_path}:{os.environ.get('PYTHONPATH', '')}",
        "FOOTVALVE_KEEP_ALIVE_SECONDS": "1",
        "FOOTVALVE_RECEIVE_SECONDS": "1",
        "FOOTVALVE_DRAIN_SECONDS": "1",
    }
    with serving(environment=environment) as service:
        with connected(service, 20) as kept, connected(service, 20) as slow:
            kept.sendall(ALIVE)
            before, _ = one_answer(kept)
            slow.sendall(REQUEST[:30])
            switch.touch()
            assert all_that_comes(slow).startswith(b"HTTP/1.1 408 ")
            assert all_that_comes(kept) == b""
        with connected(service, 20) as connection:
            connection.sendall(LAST_REQUEST)
            after = all_that_comes(connection)
        assert after.startswith(b"HTTP/1.1 200 ")
        assert header(before, b"date")[:7] != header(after, b"date")[:7]
        start = time.monotonic()
        assert service.stop() == 0
        assert time.monotonic() - start < 20


@pytest.mark.parametrize("redirections", [">/dev/full 2>/dev/full", "<&- >&- 2>&-"], ids=["full", "closed"])
def test_it_goes_on_where_nobody_hears_it(redirections):
    with serving_unheard(redirections, {"FOOTVALVE_LOG_REQUESTS": "all"}) as service:
        for _ in range(50):
            with connected(service) as connection:
                connection.sendall(LAST_REQUEST)
                assert all_that_comes(connection).startswith(b"HTTP/1.1 200 ")
        assert service.stop() == 0


def test_callers_who_come_and_go_leave_nothing_behind():
    with serving() as service:
        come_and_go(service, 100)
        before = service.descriptors
        come_and_go(service, 1_200)
        until(lambda: service.descriptors <= before + 2, "all that they have opened is closed")


def come_and_go(service, number):
    """Open and close so many connections in turn, each in one of five manners."""
    for place in range(number):
        with connected(service) as connection:
            match place % 5:
                case 0:
                    connection.sendall(LAST_REQUEST)
                    all_that_comes(connection)
                case 1:
                    connection.sendall(ALIVE)
                    one_answer(connection)
                case 2:
                    connection.sendall(REQUEST[:-20])
                case 3:
                    connection.sendall(b"nonsense\r\n\r\n")
                    all_that_comes(connection)
                case 4:  # closed with a reset
                    connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
                    connection.sendall(REQUEST)
    with connected(service) as last:
        last.sendall(LAST_REQUEST)
        all_that_comes(last)
