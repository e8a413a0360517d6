"""What a name may be made of: each character of Unicode, one by one."""

import re
import unicodedata

import pytest

from footvalve.contract.name_pattern import NAME_PATTERN, name_fault

REFUSED = {"Cc", "Cf", "Zl", "Zp"}
EVERY_CHARACTER = [chr(code) for code in range(0x110000) if not 0xD800 <= code <= 0xDFFF]


def test_no_character_passes_that_is_of_a_refused_category_and_no_other_is_refused():
    """A newer Unicode may have assigned more: add them to the list. What this Python does not know yet may be on it."""
    matches = re.compile(NAME_PATTERN).search
    for character in EVERY_CHARACTER:
        category = unicodedata.category(character)
        if matches(f"a{character}b"):
            assert category not in REFUSED, f"U+{ord(character):04X}"
        else:
            assert category in REFUSED | {"Cn"}, f"U+{ord(character):04X}"


@pytest.mark.parametrize("name", ["", "line\nbreak", "last\n", "\n", "\u0085", "\u2028", "\u202e", "\U000e0041"])
def test_what_ends_a_line_or_cannot_be_seen_is_refused(name):
    assert not re.search(NAME_PATTERN, name)


@pytest.mark.parametrize("name", ["pump 1", "B\u00f6schung", "\u4e95\u6238", "\U0001f6b0", "a\u0301", '1/2" \u00bd'])
def test_names_in_any_script_are_taken(name):
    assert re.search(NAME_PATTERN, name)


def test_the_fault_names_the_character_and_its_place():
    assert name_fault("ab\u202ec") == (
        "must be one line without control characters and without such as cannot be seen, but character 3 is U+202E"
    )
