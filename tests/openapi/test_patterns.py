"""The patterns of the contract document: they mean what the service checks, whoever's engine reads them."""

import re

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.name_pattern import NAME_PATTERN
from footvalve.web.document import contract_document

RANGE_BEYOND = re.compile("[\U00010000-\U0010ffff]-[\U00010000-\U0010ffff]")
LAST_OF_TWO_UNITS = 0x110000
NAME = contract_document(ENDPOINTS)["components"]["schemas"]["ManifoldMode"]["properties"]["name"]["pattern"]


def patterns(part):
    """Every pattern in a part of the document."""
    if isinstance(part, dict):
        if isinstance(part.get("pattern"), str):
            yield part["pattern"]
        for inner in part.values():
            yield from patterns(inner)
    elif isinstance(part, list):
        for inner in part:
            yield from patterns(inner)


def test_no_range_needs_an_engine_that_reads_characters_of_two_units_as_one():
    found = set(patterns(contract_document(ENDPOINTS)))
    assert NAME in found
    assert not [pattern for pattern in found if RANGE_BEYOND.search(pattern)]


def test_the_pattern_of_a_name_takes_what_the_service_takes():
    published, checked = re.compile(NAME).search, re.compile(NAME_PATTERN).search
    for code in range(LAST_OF_TWO_UNITS):
        assert bool(published(chr(code))) == bool(checked(chr(code))), f"U+{code:04X}"
