"""From the bytes of a body to its type: strictly, in one pass, and with every fault once there is one."""

import json
import re
from collections import Counter
from collections.abc import Callable, Iterator
from itertools import islice
from typing import Any, Generic

import msgspec

from footvalve.contract.fault_wording import can_be_sent_back, cleaned, pointer_to
from footvalve.contract.faults import MOST_FAULTS, AnyStruct, Misfit, faults_in, fitted
from footvalve.contract.problem import Fault
from footvalve.web import problem_types as kinds
from footvalve.web.body_shape import NESTING, refuse_deep
from footvalve.web.problems import Declined

_LONGEST_INTEGER = 18
"""More digits than these are read as a float: what is longer is beyond every range of the contract."""

UNDECODABLE = (msgspec.MsgspecError, UnicodeDecodeError, RecursionError, OverflowError)
"""What msgspec raises for a body that is not as it should be."""

_decode = msgspec.json.Decoder().decode
_encode = msgspec.json.Encoder().encode


class StrictDecoder(Generic[AnyStruct]):
    """From bytes to the type: quickly where nothing is wrong, and else by a walk that takes long for a long body."""

    def __init__(self, expected: type[AnyStruct], nesting_limit: int) -> None:
        self._expected = expected
        self._nesting_limit = nesting_limit
        self._decode: Callable[[bytes], AnyStruct] = msgspec.json.Decoder(expected).decode

    def __call__(self, raw: bytes) -> AnyStruct:
        """The body. Raises Declined for what is no JSON or nests too deep, and Misfit with every fault."""
        body = self.quickly(raw)
        return self.slowly(raw) if body is None else body

    def quickly(self, raw: bytes) -> AnyStruct | None:
        """The body; None where something may be wrong with it."""
        try:
            body = self._decode(raw)
            return None if _may_repeat_keys(raw) else body
        except UNDECODABLE:
            return None

    def slowly(self, raw: bytes) -> AnyStruct:
        """The body, where it is sound after all. Raises as a call does."""
        refuse_deep(raw, self._nesting_limit)
        value = parsed(raw)
        repeated = list(islice(repeated_keys(value), MOST_FAULTS + 1))
        malformed = why_malformed(raw)
        if not repeated and not malformed:
            return fitted(value, self._expected)
        faults = [*repeated, *faults_in(value, self._expected)]
        if faults:
            raise Misfit(*faults)
        raise Declined(kinds.NOT_JSON, malformed)


def strict_decoder(expected: type[AnyStruct], nesting_limit: int = NESTING) -> StrictDecoder[AnyStruct]:
    """The decoder of a type."""
    return StrictDecoder(expected, nesting_limit)


def _may_repeat_keys(raw: bytes) -> bool:
    """Whether a key may stand twice in one object: decoded and encoded again, the body then has lost quotes."""
    return bare_quotes(raw) != bare_quotes(_encode(_decode(raw)))


def bare_quotes(text: bytes) -> int:
    """The quotes around keys and strings, without those that are escaped inside them."""
    if b"\\" not in text:
        return text.count(b'"')
    text = text.replace(b"\\\\", b"")
    return text.count(b'"') - text.count(b'\\"')


def why_malformed(raw: bytes) -> str:
    """What msgspec has against the body where Python's decoder lets it pass, such as half of a surrogate pair."""
    try:
        _decode(raw)
    except msgspec.MsgspecError as error:
        return f"{error}."
    return ""


class _RepeatingObject(dict[str, Any]):
    """An object in which keys stand more than once."""

    def __init__(self, pairs: list[tuple[str, Any]]) -> None:
        super().__init__(pairs)
        self.repeated = [key for key, times in Counter(key for key, _ in pairs).items() if times > 1]


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    plain = dict(pairs)
    return plain if len(plain) == len(pairs) else _RepeatingObject(pairs)


def _integer(digits: str) -> int | float:
    return int(digits) if len(digits) <= _LONGEST_INTEGER else float(digits)


class _NoNumber(Exception):
    """A word of JavaScript that stands for no number of JSON."""


def _no_number(word: str) -> float:
    raise _NoNumber(word)


_STRING_OR_WORD = re.compile(r'"(?:[^"\\]|\\.)*"|(-?Infinity|NaN)')


def parsed(raw: bytes) -> Any:
    """The JSON of the body, with repeated keys still in it, so that they can be pointed to."""
    text = ""
    try:
        text = raw.decode("utf-8")
        return json.loads(text, object_pairs_hook=_object, parse_int=_integer, parse_constant=_no_number)
    except UnicodeDecodeError as error:
        raise Declined(kinds.NOT_JSON, f"The body is not UTF-8 at byte {error.start}.") from None
    except json.JSONDecodeError as error:
        raise Declined(kinds.NOT_JSON, f"{error.msg} at line {error.lineno}, column {error.colno}.") from None
    except _NoNumber as word:
        raise Declined(kinds.NOT_JSON, f"JSON has no {word}, as stands at {_place_of_word(text)}.") from None


def _place_of_word(text: str) -> str:
    """Where the first word of JavaScript stands that is in no string; what is before it is sound JSON."""
    start = next(found.start() for found in _STRING_OR_WORD.finditer(text) if found[1])
    return f"line {text.count(chr(10), 0, start) + 1}, column {start - text.rfind(chr(10), 0, start)}"


def repeated_keys(value: Any, pointer: str = "") -> Iterator[Fault]:
    """Every key of a parsed body that stands more than once in its object."""
    match value:
        case dict():
            for key in value.repeated if isinstance(value, _RepeatingObject) else ():
                yield Fault(pointer_to(pointer, key), f"the key `{cleaned(key)}` stands more than once in its object")
            for key, item in value.items():
                inside = repeated_keys(item, pointer_to(pointer, key))
                yield from inside if can_be_sent_back(key) else (Fault(pointer, fault.detail) for fault in inside)
        case list():
            for index, item in enumerate(value):
                yield from repeated_keys(item, pointer_to(pointer, index))
