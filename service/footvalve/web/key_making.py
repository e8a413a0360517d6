"""A new key, and the entry by which the service knows it."""

import secrets
from typing import Final

from footvalve.web.key_file import digest_of

PREFIX: Final = "footvalve_"
"""By it a key that has got into a repository or a log is found."""

_RANDOM_BYTES: Final = 32


def made_key() -> str:
    """A key nobody has had: 256 random bits in the letters of a URL."""
    return PREFIX + secrets.token_urlsafe(_RANDOM_BYTES)


def entry_of(name: str, key: str) -> str:
    """The entry for FOOTVALVE_KEYS_FILE; the key itself cannot be found from it."""
    return f'[[keys]]\nname = "{name}"\nhash = "sha256:{digest_of(key.encode()).hex()}"\n'
