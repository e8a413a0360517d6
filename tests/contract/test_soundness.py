"""Whether a body is plainly sound: the short way says what the long one does, wherever a quantity stands."""

import msgspec
import pytest
from msgspec.structs import replace

from footvalve.answers.endpoints import ENDPOINTS
from footvalve.contract.examples import examples
from footvalve.contract.pointed import changed_at, tokens
from footvalve.contract.ranges import stated_quantities
from footvalve.contract.soundness import is_inside_ranges, is_plainly_sound

BODIES = [
    (f"{endpoint.name}: {example.name}", msgspec.convert(example.request, endpoint.request))
    for endpoint in ENDPOINTS
    for example in examples(endpoint.name)
]


def is_sound_by_the_long_way(body):
    return all(at.is_inside and not at.quantity.uncertainty for at in stated_quantities(body))


def changed(body, at, **fields):
    return changed_at(body, tokens(at.pointer), lambda quantity: replace(quantity, **fields))


@pytest.mark.parametrize("body", [body for _, body in BODIES], ids=[name for name, _ in BODIES])
def test_every_quantity_that_is_uncertain_or_outside_its_range_is_seen(body):
    sound = body
    for at in stated_quantities(body):
        sound = changed(sound, at, uncertainty=msgspec.UNSET)
    assert is_plainly_sound(sound)
    for at in stated_quantities(sound):
        assert not is_plainly_sound(changed(sound, at, uncertainty=0.1)), at.pointer
        assert is_plainly_sound(changed(sound, at, uncertainty=0.0)), at.pointer
        if at.limits is not None:
            low, high, _ = at.limits[at.quantity.unit]
            for end, beyond in ((low, low - 1.0 - abs(low)), (high, 2.0 * high + 1.0)):
                assert is_plainly_sound(changed(sound, at, value=end)), at.pointer
                assert not is_plainly_sound(changed(sound, at, value=beyond)), at.pointer


@pytest.mark.parametrize("body", [body for _, body in BODIES], ids=[name for name, _ in BODIES])
def test_a_quantity_may_be_uncertain_inside_its_range(body):
    assert is_inside_ranges(body)
    for at in stated_quantities(body):
        assert is_inside_ranges(changed(body, at, uncertainty=0.1)), at.pointer
        if at.limits is not None:
            _, high, _ = at.limits[at.quantity.unit]
            assert not is_inside_ranges(changed(body, at, value=2.0 * high + 1.0, uncertainty=0.1)), at.pointer


@pytest.mark.parametrize("body", [body for _, body in BODIES], ids=[name for name, _ in BODIES])
def test_an_example_is_as_sound_as_the_long_way_finds_it(body):
    assert is_plainly_sound(body) == is_sound_by_the_long_way(body)
