"""The file of the keys, in TOML: who may ask, known by the SHA-256 of each key.

    [[keys]]
    name = "shop"
    hash = "sha256:..."
    limit = "6000/minute"
    endpoints = ["suction-feasibility", "sounding"]
    expires = 2027-01-31

Only `name` and `hash` must be there. A key is 256 random bits, which nobody finds by trying; so the plain hash tells
nothing of it, and the slow hashes that passwords need would only make each request slow.
"""

import re
import tomllib
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

import msgspec
from msgspec import Struct

from footvalve.contract.fault_wording import cleaned, listed, perhaps
from footvalve.web.allowance import Allowance, allowance

_NAME: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,63}")
_HASH: Final = re.compile(r"sha256:([0-9a-f]{64})")


class BadKeys(ValueError):
    """The file of the keys cannot be used; the message says why in a sentence, and names the entry."""


@dataclass(frozen=True, slots=True)
class Key:
    """What is known of a key, and what it allows."""

    name: str
    digest: bytes
    allowance: Allowance | None
    """What it may ask; None for as much as it likes."""
    endpoints: frozenset[str] | None
    """The endpoints that it may ask; None for all."""
    last_day: date | None
    """The last day on which it is good, by UTC; None for ever."""


class _Entry(Struct, forbid_unknown_fields=True):
    """One entry as it is written."""

    name: str
    hash: str
    limit: str | None = None
    endpoints: list[str] | None = None
    expires: Any = None


class _File(Struct, forbid_unknown_fields=True):
    """The whole file as it is written."""

    keys: list[dict[str, Any]] = []


def digest_of(key: bytes) -> bytes:
    """What a key is known by."""
    return sha256(key).digest()


def is_key_name(text: str) -> bool:
    """Whether a key may be called so."""
    return _NAME.fullmatch(text) is not None


def octets_of(file: Path) -> bytes:
    """What the file holds now. Raises BadKeys."""
    try:
        if file.exists() and not file.is_file():  # a pipe would be waited for
            raise BadKeys("it is no plain file.")
        return file.read_bytes()
    except OSError as error:
        raise BadKeys(f"it cannot be read: {error.strerror}.") from None


def keys_of(octets: bytes, usual: Allowance | None, endpoints: Collection[str]) -> dict[bytes, Key]:
    """The keys by their digests, with the usual allowance where an entry does not say. Raises BadKeys."""
    try:
        written = msgspec.convert(tomllib.loads(octets.decode("utf-8-sig")), _File)
        return _without_doubles([_key(place, entry, usual, endpoints) for place, entry in enumerate(written.keys, 1)])
    except BadKeys:
        raise
    except ValueError as error:  # no UTF-8, no TOML, or not what stands in a file of keys
        raise BadKeys(f"{_sentence(error)}.") from None
    except RecursionError:
        raise BadKeys("it is nested too deeply to be read.") from None
    except Exception as error:  # whatever it is, the keys from before must go on
        raise BadKeys(f"it cannot be read ({type(error).__name__}).") from error


def read_keys(file: Path, usual: Allowance | None, endpoints: Collection[str]) -> dict[bytes, Key]:
    """The keys that the file holds now, as by `keys_of`. Raises BadKeys."""
    return keys_of(octets_of(file), usual, endpoints)


def _key(place: int, written: dict[str, Any], usual: Allowance | None, endpoints: Collection[str]) -> Key:
    where = _told(place, written.get("name"))
    try:
        entry = msgspec.convert(written, _Entry)
        return Key(
            _checked_name(entry.name),
            _digest(entry.hash),
            usual if entry.limit is None else _limit(entry.limit),
            None if entry.endpoints is None else _endpoints(entry.endpoints, endpoints),
            _last_day(entry.expires),
        )
    except ValueError as error:
        raise BadKeys(f"{where}: {_sentence(error)}.") from None


def _checked_name(name: str) -> str:
    if not is_key_name(name):
        raise ValueError("`name` must be 1 to 64 letters, digits, dots, hyphens and underscores")
    return name


def _digest(written: str) -> bytes:
    found = _HASH.fullmatch(written)
    if found is None:
        raise ValueError("`hash` must be sha256: and 64 of the digits 0 to 9 and a to f")
    return bytes.fromhex(found[1])


def _limit(written: str) -> Allowance | None:
    try:
        return None if written == "none" else allowance(written)
    except ValueError:
        told = "`limit` must be none, or a number of requests per second, minute, hour or day, such as 6000/minute"
        raise ValueError(told) from None


def _endpoints(written: list[str], known: Collection[str]) -> frozenset[str]:
    if not written:
        raise ValueError("`endpoints` is empty, so that the key would open nothing: name some, or leave it out for all")
    for name in written:
        if name not in known:
            told = f"`endpoints` holds `{cleaned(name)}`, which is none of {listed(known)}"
            raise ValueError(f"{told}{perhaps(name, known)}".rstrip("?"))
    return frozenset(written)


def _last_day(written: object) -> date | None:
    if written is not None and (not isinstance(written, date) or isinstance(written, datetime)):
        raise ValueError("`expires` must be a date such as 2027-01-31, without quotes")
    return written


def _without_doubles(keys: list[Key]) -> dict[bytes, Key]:
    places: dict[str | bytes, int] = {}
    for place, key in enumerate(keys, 1):
        for what, value in (("name", key.name), ("hash", key.digest)):
            before = places.setdefault(value, place)
            if before != place:
                raise BadKeys(f"{_told(place, key.name)}: it has the `{what}` of entry {before}.")
    return {key.digest: key for key in keys}


def _told(place: int, name: object) -> str:
    return f'entry {place} ("{cleaned(name)}")' if isinstance(name, str) else f"entry {place}"


def _sentence(error: Exception) -> str:
    return cleaned(str(error), most=300).rstrip(".")
