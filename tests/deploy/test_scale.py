"""Two real processes of the service behind the real proxy lose no request when one is killed and one rolled."""

import re
import sys
import time

import pytest
from load.demo_mix import SHARES, Question, questions
from load.verified_load import true_answers, verified_load

from .backend import backends
from .tools import DEPLOY, PATIENCE_S, run, tool

QUESTIONS = [Question("/v1/friction", b"one"), Question("/v1/sounding", b"two")]


def test_a_killed_and_a_rolled_process_cost_no_request():
    tool("haproxy")
    ran = run(sys.executable, "-W", "error", str(DEPLOY / "scale.py"), "--faults", timeout=600)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    assert ran.stderr == ""
    answered, again = map(int, re.findall(r"(?m)^  (\d+) (?:requests answered|of them sent again)", ran.stdout))
    assert answered >= 1_000
    assert again > 0, "nobody was asking the process that was killed"
    assert "lost: none" in ran.stdout


def test_the_mix_is_what_it_says():
    asked = questions()
    assert {name: sum(one.path == f"/v1/{name}" for one in asked) for name in SHARES} == SHARES
    assert len(asked) == sum(SHARES.values()) == 100


@pytest.mark.parametrize(
    ("failing", "lost"), [("overloaded", "status 503"), ("gone", "RemoteDisconnected"), ("mistaken", "another answer")]
)
def test_the_load_sees_what_is_lost(failing, lost):
    """A load that saw nothing would prove nothing."""
    with backends(1) as (process,):
        answers = true_answers(process.address, QUESTIONS)
        with verified_load(process.address, answers, callers=2) as load:
            reach(lambda: load.right > 5)
            assert load.lost == {}
            process.failing = failing
            reach(lambda: load.lost)
    assert load.lost.keys() <= {lost, "ConnectionResetError"}


def test_the_load_begins_with_no_refusal():
    with backends(1) as (process,):
        process.failing = "overloaded"
        with pytest.raises(RuntimeError, match="answers 503 to an example"):
            true_answers(process.address, QUESTIONS)


def reach(reached):
    """Wait until it is so."""
    give_up = time.monotonic() + PATIENCE_S
    while not reached():
        assert time.monotonic() < give_up
        time.sleep(0.01)
