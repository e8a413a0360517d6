"""What an operator may set: a bad value stops the start with a sentence that names the variable."""

import pytest

from footvalve.web.settings import BadSetting, Settings

LIMITS = {"FOOTVALVE_BODY_LIMIT_BYTES": "body_limit_bytes", "FOOTVALVE_BATCH_LIMIT_BYTES": "batch_limit_bytes"}
DEFAULTS = {"body_limit_bytes": 256_000, "batch_limit_bytes": 4_000_000}


def test_an_empty_environment_gives_the_defaults():
    assert Settings.from_environment({}) == Settings(**DEFAULTS)


@pytest.mark.parametrize(("variable", "field"), LIMITS.items())
def test_a_limit_is_taken_from_its_variable(variable, field):
    settings = Settings.from_environment({variable: "4096"})
    assert {name: getattr(settings, name) for name in LIMITS.values()} == DEFAULTS | {field: 4096}


@pytest.mark.parametrize("variable", LIMITS)
@pytest.mark.parametrize(
    "value", ["", "ten", "-1", "0", "999", "64000001", "1e6", "1 000", "\u0661\u0660\u0660\u0660", "5" * 5000]
)
def test_a_bad_limit_is_told_by_the_name_of_its_variable(variable, value):
    with pytest.raises(BadSetting, match=rf"^{variable} must be a whole number from 1000 to 64000000"):
        Settings.from_environment({variable: value})
