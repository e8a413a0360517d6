"""Faults of several checks in one refusal."""

from footvalve.answers.gathering import gathered
from footvalve.contract.problem import Fault, Refused


def test_what_is_resolved_is_given_back():
    faults = []
    assert gathered(faults, lambda: 3) == 3
    assert faults == []


def test_what_is_refused_leaves_its_faults():
    def refuse():
        raise Refused(Fault("/flow", "too much"), Fault("/line", "too long"))

    faults = [Fault("/pump", "none")]
    assert gathered(faults, refuse) is None
    assert [fault.pointer for fault in faults] == ["/pump", "/flow", "/line"]
