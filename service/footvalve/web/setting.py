"""One setting: the environment variable that holds it, what it may be, and what it means."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from ipaddress import ip_network
from pathlib import Path
from typing import Any, Final
from urllib.parse import urlsplit

from footvalve.contract.fault_wording import cleaned
from footvalve.web.allowance import Allowance, allowance
from footvalve.web.cross_origin import ANY_ORIGIN
from footvalve.web.origin import is_origin
from footvalve.web.whole_number import whole_number

_STORES: Final = ("redis", "rediss", "valkey", "valkeys")
_DATABASES: Final = range(1_000_000)


class BadSetting(ValueError):
    """An environment variable holds what the service cannot run with."""


class _Unfit(ValueError):
    """A text is not what the setting takes; the message says what it holds instead, where that is not the whole."""


class _Secretly(_Unfit):
    """A text that may hold a password is not what the setting takes; the message says why without any of it."""


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting: its field in Settings, what it must be in words, how it is read, and what it means."""

    field: str
    must_be: str
    read: Callable[[str], Any]
    meaning: str

    @property
    def variable(self) -> str:
        """The environment variable, such as FOOTVALVE_BODY_LIMIT_BYTES."""
        return f"FOOTVALVE_{self.field.upper()}"

    def value(self, text: str) -> Any:
        """What the text spells. Raises BadSetting, naming the variable."""
        try:
            return self.read(text)
        except _Secretly as unfit:
            raise BadSetting(f"{self.variable} must be {self.must_be}, but {unfit}.") from None
        except _Unfit as unfit:
            held = f"it holds {cleaned(str(unfit))!r}" if str(unfit) else f"it is {cleaned(text)!r}"
            raise BadSetting(f"{self.variable} must be {self.must_be}, but {held}.") from None


def whole_numbers(field: str, allowed: range, meaning: str) -> Setting:
    """A setting that is a whole number in a range."""

    def read(text: str) -> int:
        number = whole_number(text, allowed)
        if number is None:
            raise _Unfit
        return number

    return Setting(field, f"a whole number from {allowed[0]} to {allowed[-1]}", read, meaning)


def words(field: str, allowed: Sequence[str], meaning: str) -> Setting:
    """A setting that is one of some words."""

    def read(text: str) -> str:
        if text not in allowed:
            raise _Unfit
        return text

    *others, last = allowed
    return Setting(field, f"{', '.join(others)} or {last}", read, meaning)


def origins(field: str, meaning: str) -> Setting:
    """A setting that is a list of origins, or `*` for every one."""

    def read(text: str) -> frozenset[str]:
        listed = _listed(text)
        for origin in listed:
            if listed != [ANY_ORIGIN] and not is_origin(origin):
                raise _Unfit(origin)
        return frozenset(listed)

    must_be = f"{ANY_ORIGIN}, or origins as browsers send them, such as https://shop.example, with commas between"
    return Setting(field, must_be, read, meaning)


def origin(field: str, meaning: str) -> Setting:
    """A setting that is one origin, or empty."""

    def read(text: str) -> str:
        told = text.strip()
        if told and not is_origin(told):
            raise _Unfit
        return told

    return Setting(field, "an origin such as https://water.example, without a path", read, meaning)


def networks(field: str, meaning: str) -> Setting:
    """A setting that is a list of addresses and networks, as texts that `ipaddress` takes."""

    def read(text: str) -> tuple[str, ...]:
        return tuple(map(_network, _listed(text)))

    return Setting(field, "addresses or networks such as 10.0.0.0/8, with commas between", read, meaning)


def _network(text: str) -> str:
    try:
        return str(ip_network(text))
    except ValueError:
        raise _Unfit(text) from None


def file(field: str, meaning: str) -> Setting:
    """A setting that is the path of a file, or empty. Whether it is there is seen by who reads it, again and again."""

    def read(text: str) -> Path | None:
        if "\0" in text:
            raise _Unfit
        return Path(text) if text.strip() else None

    return Setting(field, "the path of a file that is there", read, meaning)


def allowances(field: str, meaning: str) -> Setting:
    """A setting that is a number of requests in a time, or `none`."""

    def read(text: str) -> Allowance | None:
        try:
            return None if text == "none" else allowance(text)
        except ValueError:
            raise _Unfit from None

    return Setting(
        field, "none, or a number of requests per second, minute, hour or day, such as 600/minute", read, meaning
    )


def store(field: str, meaning: str) -> Setting:
    """A setting that is the URL of a Redis or Valkey, or empty. What is wrong is told without its password."""

    def read(text: str) -> str:
        wrong = _wrong_with_store(text) if text else ""
        if wrong:
            raise _Secretly(wrong)
        return text

    must_be = (
        "a URL such as redis://127.0.0.1:6379/0 (or rediss, valkey, valkeys), with the database's number at its end"
    )
    return Setting(field, must_be, read, meaning)


def _wrong_with_store(text: str) -> str:
    """What is wrong with a store's URL, in words that hold nothing of it; empty for nothing."""
    try:
        parts = urlsplit(text)
        port, host, database = parts.port, parts.hostname, parts.path.removeprefix("/")
    except ValueError:
        return "its address is not a host and a port from 1 to 65535"
    if parts.scheme not in _STORES:
        return "it begins with none of redis://, rediss://, valkey:// and valkeys://"
    if not host:
        return "it names no host"
    if port == 0:
        return "its port is 0"
    if database and whole_number(database, _DATABASES) is None:
        return "what stands after its host is no database's number"
    return ""


def _listed(text: str) -> list[str]:
    told = text.strip()
    return [part.strip() for part in told.split(",")] if told else []
