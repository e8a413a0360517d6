"""A method's ranges: their ends, and the one that is asked for."""

import math

import pytest

from footvalve.physics.method import Method, Range

PIPE = Method("pipe", "a source", (Range("length", 1.0, 2.0, "m"), Range("bore", 0.01, 0.1, "m")))


@pytest.mark.parametrize("inside", [1.0, 1.5, 2.0])
def test_a_range_includes_its_ends(inside):
    assert inside in PIPE.range_of("length")


@pytest.mark.parametrize("outside", [math.nextafter(1.0, 0.0), math.nextafter(2.0, 3.0), math.nan])
def test_a_range_ends_at_its_ends(outside):
    assert outside not in PIPE.range_of("length")


def test_a_quantity_without_a_range_is_named():
    with pytest.raises(KeyError, match="roughness"):
        PIPE.range_of("roughness")
