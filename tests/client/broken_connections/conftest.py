"""What the tests of this directory share."""

import pytest

from footvalve_client import _retry


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lets the waits between the tries be short, but where the service asks for one."""
    monkeypatch.setattr(_retry, "_FIRST_WAIT_SECONDS", 0.01)
    monkeypatch.setattr(_retry, "_JITTER_SECONDS", 0.01)
