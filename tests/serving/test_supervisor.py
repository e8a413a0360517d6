"""The keeper where no process is to be had; all else of it is tested with real ones in tests/faults."""

import errno
import logging
import socket

from footvalve.serving import supervisor
from footvalve.serving.supervisor import Supervisor
from footvalve.web.settings import Settings


def test_a_keeper_that_can_start_no_process_tries_again_and_then_gives_up(monkeypatch, caplog, capfd):
    def none_to_be_had(*_, **__):
        raise OSError(errno.EAGAIN, "Resource temporarily unavailable")

    monkeypatch.setattr(supervisor.subprocess, "Popen", none_to_be_had)
    monkeypatch.setattr(supervisor, "_FIRST_PAUSE_S", 0.001)
    with socket.create_server(("127.0.0.1", 0)) as listening, caplog.at_level(logging.WARNING):
        assert Supervisor(listening, 2, Settings()).run() == 1
    told = [record.getMessage() for record in caplog.records]
    assert told.count("a worker could not be started: Resource temporarily unavailable") == 5
    assert "0 of 2 workers are there; the next is tried in 0.0 s" in told
    assert capfd.readouterr().err.startswith("footvalve: 5 workers in a row ended as soon as they had started")
