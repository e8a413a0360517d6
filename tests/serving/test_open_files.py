"""How many files a process may have open."""

import resource

import pytest

from footvalve.serving.open_files import allow_files


@pytest.fixture
def few_files():
    before = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (400, before[1]))
    yield before[1]
    resource.setrlimit(resource.RLIMIT_NOFILE, before)


def allowed():
    return resource.getrlimit(resource.RLIMIT_NOFILE)[0]


@pytest.mark.usefixtures("few_files")
def test_as_many_are_allowed_as_the_connections_need():
    allow_files(200)
    assert allowed() == 200 + 512
    allow_files(100)
    assert allowed() == 200 + 512


def test_where_the_system_forbids_it_that_is_logged(few_files, caplog):
    if few_files == resource.RLIM_INFINITY:
        pytest.skip("the system forbids nothing here")
    allow_files(few_files)
    assert allowed() == few_files
    assert "FOOTVALVE_CONNECTION_LIMIT" in caplog.text
