"""What a keeper holds of the keys, and how a process that it starts gets it."""

import os

import pytest

from footvalve.serving.keys_to_hand_on import KeysToHandOn, handed_on, handing_on, keys_to_hand_on
from footvalve.web.key_making import entry_of, made_key
from footvalve.web.settings import BadSetting, Settings


@pytest.fixture
def file(tmp_path):
    return tmp_path / "keys.toml"


def taken(keys):
    """What a process gets of them, through the descriptor that it inherits."""
    with handing_on(keys) as descriptors:
        (descriptor,) = descriptors
        assert os.readlink(f"/proc/self/fd/{descriptor}").startswith("/memfd:"), "it is on no disk"
        return handed_on(os.dup(descriptor))


def test_a_process_gets_the_whole_file_however_long(file):
    text = "".join(entry_of(f"shop{number}", made_key()) for number in range(2_000))
    file.write_text(text)
    assert taken(KeysToHandOn(file, [])) == text.encode()


@pytest.mark.parametrize("spoil", [lambda file: file.write_text("nonsense"), lambda file: file.unlink()])
def test_a_spoiled_file_leaves_what_was_good_last(file, spoil):
    file.write_text(entry_of("shop", made_key()))
    keys = KeysToHandOn(file, [])
    good = entry_of("another-shop", made_key())
    file.write_text(good)
    keys.look()
    spoil(file)
    keys.look()
    assert taken(keys) == good.encode()
    file.write_text("")
    keys.look()
    assert taken(keys) == b"", "a file without keys is none that is spoiled"


def test_without_a_file_nothing_is_handed_on():
    keys = keys_to_hand_on(Settings())
    with handing_on(keys) as descriptors:
        assert descriptors == ()


def test_a_file_that_is_spoiled_at_the_start_stops_it(file):
    file.write_text("nonsense")
    with pytest.raises(BadSetting, match=r"^FOOTVALVE_KEYS_FILE must hold keys, but of "):
        keys_to_hand_on(Settings(keys_file=file))
