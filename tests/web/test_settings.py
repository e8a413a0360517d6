"""What an operator may set: a bad value stops the start with a sentence that names the variable."""

import pytest

from footvalve.web.settings import BadSetting, Settings


def test_an_empty_environment_gives_the_defaults():
    assert Settings.from_environment({}) == Settings(body_limit_bytes=256_000)


def test_a_limit_is_taken_from_its_variable():
    assert Settings.from_environment({"FOOTVALVE_BODY_LIMIT_BYTES": "4096"}).body_limit_bytes == 4096


@pytest.mark.parametrize(
    "value", ["", "ten", "-1", "0", "999", "64000001", "1e6", "1 000", "\u0661\u0660\u0660\u0660", "5" * 5000]
)
def test_a_bad_limit_is_told_by_the_name_of_its_variable(value):
    with pytest.raises(BadSetting, match=r"^FOOTVALVE_BODY_LIMIT_BYTES must be a whole number from 1000 to 64000000"):
        Settings.from_environment({"FOOTVALVE_BODY_LIMIT_BYTES": value})
