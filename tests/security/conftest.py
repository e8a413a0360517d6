"""What the tests of security share: the service as one process on a socket, and a way to ask it."""

from collections.abc import Iterator

import httpx
import pytest
from tests.faults.service_process import ServiceProcess, serving


@pytest.fixture(scope="package")
def service() -> Iterator[ServiceProcess]:
    with serving() as service:
        yield service


@pytest.fixture(scope="package")
def caller(service: ServiceProcess) -> Iterator[httpx.Client]:
    with httpx.Client(base_url=service.url, timeout=30) as client:
        yield client
