"""The service runs where an image or a unit puts it: on a root that it cannot write to, with no rights at all."""

import os
import re
import subprocess
import sys
import time
from collections.abc import Iterable, Iterator
from http.client import HTTPConnection
from pathlib import Path

import pytest
from load.demo_mix import questions
from tests.faults.free_port import free_port

from .tools import PATIENCE_S, run, tool

SCRATCH = "/media"

SHUT_IN = f"""
set -e
mount --make-rprivate /
mount -t tmpfs -o size=16m,noexec,nosuid,nodev,mode=1777 tmpfs {SCRATCH}
cut -d ' ' -f 5 /proc/self/mountinfo | while read -r place; do
    case "$place" in {SCRATCH} | /proc | /proc/* | /sys | /sys/*) ;; *) mount -o remount,bind,ro "$place" ;; esac
done
exec unshare --user setpriv --no-new-privs "$@"
"""
"""A small place to write to, all else read-only; then a user that owns nothing and is in no file of users."""


@pytest.fixture
def shut_in() -> list[str]:
    """The command before a command that shuts it in."""
    if os.geteuid() != 0:
        pytest.skip("only root can shut a process in")
    before = [tool("unshare"), "--mount", "sh", "-c", SHUT_IN, "sh"]
    tool("setpriv")
    tried = run(*before, "true")
    if tried.returncode != 0:
        pytest.skip(f"this machine does not let processes be shut in: {tried.stderr.strip()}")
    return before


@pytest.mark.parametrize("place", ["/tmp", "/dev/shm", str(Path(__file__).parent), "/var/tmp", str(Path.home())])
def test_nothing_can_be_written_to(shut_in, place):
    ran = run(*shut_in, "sh", "-c", f"id -u && touch {place}/written")
    assert ran.returncode != 0
    assert "Read-only file system" in ran.stderr
    assert int(ran.stdout) != 0


@pytest.mark.parametrize("workers", ["1", "2"])
def test_it_answers_and_tells_its_numbers_and_ends(shut_in, workers):
    """The numbers of several workers come together in the one place that can be written to."""
    metrics_port = free_port()
    settings = {"FOOTVALVE_METRICS_PORT": str(metrics_port), "FOOTVALVE_DRAIN_SECONDS": "0", "TMPDIR": SCRATCH}
    inherited = {name: value for name, value in os.environ.items() if not name.startswith("FOOTVALVE_")}
    program = str(Path(sys.executable).with_name("footvalve"))
    with subprocess.Popen(
        [*shut_in, program, "serve", "--port", "0", "--workers", workers],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        env=inherited | settings,
    ) as process:
        try:
            said = list(until_it_listens(process.stdout))
            assert said, "it has ended without a word"
            assert " listens on " in said[-1], "".join(said)
            asked = questions()[0]
            status, _ = exchanged(said[-1].rpartition(":")[2].strip(), "POST", asked.path, asked.body)
            assert status == 200
            counted = rf'footvalve_requests_total{{[^}}]*path="{asked.path}"[^}}]*}} 1'
            give_up = time.monotonic() + PATIENCE_S
            while not re.search(counted, exchanged(metrics_port, "GET", "/metrics")[1]):
                assert time.monotonic() < give_up
            process.terminate()
            assert process.wait(PATIENCE_S) == 0
        finally:
            process.kill()


def until_it_listens(output: Iterable[str]) -> Iterator[str]:
    """Lines to the one that tells where it listens, or to the last where it has ended."""
    for line in output:
        yield line
        if " listens on " in line:
            return


def exchanged(port, method, path, body=None):
    """The status and the content of an answer."""
    connection = HTTPConnection("127.0.0.1", int(port), timeout=PATIENCE_S)
    try:
        connection.request(method, path, body, {"content-type": "application/json"} if body else {})
        answer = connection.getresponse()
        return answer.status, answer.read().decode()
    finally:
        connection.close()
