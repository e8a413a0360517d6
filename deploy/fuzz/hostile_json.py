"""JSON made of sound examples and bad habits: as many bytes decide what is changed, the fuzzer can learn to choose."""

import copy
import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Final

import atheris

HABITS: Final = (
    *("NaN", "Infinity", "-Infinity", "1e400", "-1e400", "1e308", "-1e308", "5e-324", "-0.0", "1.0", "0.2e1", "1e9"),
    *("9" * 5000, "-" + "9" * 400, "1" + "0" * 18, "01", "+1", ".5", "1.", "0x1", "9007199254740993"),
    *(
        "null",
        "true",
        "[]",
        "{}",
        "[[]]",
        '""',
        '" "',
        '"5"',
        '"\\ud800"',
        '"\\udc00\\ud800"',
        '"\\u0000"',
        '"\\u202e"',
    ),
    *('"m**9**9**9"', '"gal/min"', '"GPM"', '"<script>alert(1)</script>"', '"../../etc"', '"a\\nb"', '"\\"', "'us'"),
    *('"' + "x" * 5000 + '"', "[" * 3000 + "]" * 3000, '{"a":' * 500 + "1" + "}" * 500, '{"a":1,"a":1}', "/**/1"),
)
"""What stands in the place of a value, as text: much of it is no JSON."""

SPLICES: Final = (
    *(b"\xff", b"\xc0\x80", b"\xed\xa0\x80", b"\xef\xbb\xbf", b"\x00", b"\x1f", b"\\", b'"', b"{", b"}", b"[", b"]"),
    *(
        b",",
        b":",
        b" ",
        b"\r\n",
        b"1",
        b"e",
        b"-",
        b'"units":"us",',
        b'"value":1,',
        b'"unit":"m",',
        b"null",
        b"\\u0061",
    ),
)
"""What is put anywhere into the text."""

_PLACE: Final = "\N{HEAVY CHECK MARK}{}"
"""What a habit's place is marked with while the rest is written."""

_TWICE: Final = "\N{HEAVY PLUS SIGN}"
"""What tells a key from the same key before it, until the text is written."""

Pools = Mapping[str, Sequence[Any]]
"""For each key the values that it has somewhere."""


class HostileJson:
    """Bodies that began as one of the samples."""

    def __init__(self, samples: Sequence[Any]) -> None:
        self._samples = samples
        self._pools = pools(samples)

    def body(self, data: atheris.FuzzedDataProvider) -> bytes:
        """The bytes of a body: most often still JSON, and often still what the contract asks for."""
        root = [copy.deepcopy(data.PickValueInList(list(self._samples)))]
        habits: list[str] = []
        for _ in range(data.ConsumeIntInRange(0, 6)):
            self._change(root, data, habits)
        text = json.dumps(root[0], ensure_ascii=data.ConsumeBool())
        for number, habit in enumerate(habits):
            for marked in (json.dumps(_PLACE.format(number)), json.dumps(_PLACE.format(number), ensure_ascii=False)):
                text = text.replace(marked, habit)
        raw = text.replace(_TWICE, "").replace(json.dumps(_TWICE)[1:-1], "").encode("utf-8", "surrogatepass")
        return _spliced(raw, data) if data.ConsumeIntInRange(0, 3) == 0 else raw

    def _change(self, root: list[Any], data: atheris.FuzzedDataProvider, habits: list[str]) -> None:
        places = list(_places(root))
        container, key = places[data.ConsumeIntInRange(0, len(places) - 1)]
        match data.ConsumeIntInRange(0, 8):
            case 0:
                habits.append(data.PickValueInList(list(HABITS)))
                container[key] = _PLACE.format(len(habits) - 1)
            case 1 if container is not root:
                del container[key]
            case 2 if isinstance(container, dict):
                container[data.ConsumeUnicode(8)] = data.ConsumeInt(2)
            case 3 if isinstance(container[key], list):
                container[key] *= data.ConsumeIntInRange(0, 4)
            case 4 if isinstance(container[key], int | float):
                container[key] = data.ConsumeFloat()
            case 5 if isinstance(container[key], int | float):
                container[key] *= 10.0 ** data.ConsumeIntInRange(-6, 6)
            case 6 if isinstance(container[key], str):
                container[key] = data.ConsumeUnicode(12)
            case 7 if isinstance(container, dict):
                container[key + _TWICE] = copy.deepcopy(container[key])
            case _ if key in self._pools:
                container[key] = copy.deepcopy(data.PickValueInList(list(self._pools[key])))


def pools(samples: Any) -> dict[str, list[Any]]:
    """For each key of the samples the values that it has in any of them, each once."""
    found: dict[str, dict[str, Any]] = {}
    for container, key in _places([samples]):
        if isinstance(key, str):
            found.setdefault(key, {})[json.dumps(container[key])] = container[key]
    return {key: list(values.values()) for key, values in found.items()}


def _places(container: Any) -> Iterator[tuple[Any, Any]]:
    """Where a value stands, of every value: its container and its key there."""
    keys = container if isinstance(container, dict) else range(len(container))
    for key in keys:
        yield container, key
        if isinstance(container[key], dict | list):
            yield from _places(container[key])


def _spliced(raw: bytes, data: atheris.FuzzedDataProvider) -> bytes:
    for _ in range(data.ConsumeIntInRange(1, 3)):
        place, length = data.ConsumeIntInRange(0, len(raw)), data.ConsumeIntInRange(0, 4)
        raw = raw[:place] + data.PickValueInList(list(SPLICES)) + raw[place + length :]
    return raw
