"""The keys that are good now: the file's, read again when it has changed."""

import asyncio
import logging
from collections.abc import Collection
from datetime import UTC, datetime
from hmac import compare_digest
from pathlib import Path
from time import monotonic
from typing import Final

from footvalve.web.allowance import Allowance
from footvalve.web.key_file import BadKeys, Key, digest_of, keys_of, read_keys
from footvalve.web.key_handed_on import HANDED_ON
from footvalve.web.metrics import COUNTED
from footvalve.web.setting import BadSetting

LOOK_AGAIN_SECONDS: Final = 1.0
"""A changed file counts after this time at the latest, whenever it is asked."""

LONGEST_WAIT_SECONDS: Final = 1.0
"""Nobody waits longer for a look that has begun: on a disk that hangs the keys from before go on."""

_log = logging.getLogger(__name__)
_NOBODYS: Final = bytes(32)

Signature = tuple[int, int, int] | None

_NOT_READ: Final = (-1, -1, -1)


class KeyRing:
    """The keys of a file. One that cannot be used any more leaves those that were good before.

    Raises BadSetting, naming FOOTVALVE_KEYS_FILE, for a file that cannot be used at the start of the service.
    """

    def __init__(
        self,
        file: Path,
        usual: Allowance | None,
        endpoints: Collection[str],
    ) -> None:
        self._file = file
        self._usual = usual
        self._endpoints = endpoints
        self._signature = self._signed()
        self.is_current = True
        """Whether these keys are those of the file as it is now."""
        self._keys: dict[bytes, Key] = {}
        self._begin(HANDED_ON.octets)
        self._look_again = monotonic() + LOOK_AGAIN_SECONDS
        self._wait_until = self._look_again
        self._look: asyncio.Task[None] | None = None

    def _begin(self, handed_on: bytes | None) -> None:
        if handed_on is None:
            self._keys = keys_at_the_start(self._file, self._usual, self._endpoints)
            self._tell_who_ran_out()
            return
        try:
            self._take(read_keys(self._file, self._usual, self._endpoints))
        except BadKeys as bad:
            self._keys = keys_of(handed_on, self._usual, self._endpoints)
            self._keep_those_from_before(bad)

    def find(self, presented: bytes) -> Key | None:
        """The entry of a key; None where there is none.

        It is looked up by its hash, which nobody can steer towards that of another; the comparison that decides takes
        as long for a key that is known as for one that is not.
        """
        digest = digest_of(presented)
        key = self._keys.get(digest)
        same = compare_digest(_NOBODYS if key is None else key.digest, digest)
        return key if same else None

    async def refresh(self) -> None:
        """Look whether the file has changed, unless that was done just now; in a thread, as a disk may be slow.

        Who comes meanwhile waits for the same look.
        """
        now = monotonic()
        if self._look is None:
            if now < self._look_again:
                return
            self._look_again, self._wait_until = now + LOOK_AGAIN_SECONDS, now + LONGEST_WAIT_SECONDS
            self._look = asyncio.create_task(self._look_at_file())
        await asyncio.wait({self._look}, timeout=max(self._wait_until - now, 0.0))

    async def _look_at_file(self) -> None:
        try:
            await asyncio.to_thread(self._read_if_changed)
        except Exception as error:  # as where no thread can be had; it is tried again
            self._signature = _NOT_READ
            self._keep_those_from_before(f"it could not be looked at ({type(error).__name__}).")
        finally:
            self._look = None

    def _read_if_changed(self) -> None:
        signature = self._signed()
        if signature == self._signature:
            return
        self._signature = signature
        try:
            self._take(read_keys(self._file, self._usual, self._endpoints))
        except BadKeys as bad:
            self._keep_those_from_before(bad)

    def _take(self, keys: dict[bytes, Key]) -> None:
        self._keys = keys
        self.is_current = True
        if keys:
            _log.info("FOOTVALVE_KEYS_FILE: %d keys have been read from %s", len(keys), self._file)
        else:
            _log.warning("FOOTVALVE_KEYS_FILE: no key is left in %s: every key is refused", self._file)
        self._tell_who_ran_out()

    def _keep_those_from_before(self, why: object) -> None:
        self.is_current = False
        COUNTED.keys_not_read()
        _log.error("FOOTVALVE_KEYS_FILE: the keys from before go on, as of %s it must be said: %s", self._file, why)

    def _tell_who_ran_out(self) -> None:
        today = datetime.now(UTC).date()
        for key in self._keys.values():
            if key.last_day is not None and key.last_day < today:
                _log.warning("FOOTVALVE_KEYS_FILE: key %s ran out on %s", key.name, key.last_day)

    def _signed(self) -> Signature:
        return signature_of(self._file)


def keys_at_the_start(file: Path, usual: Allowance | None, endpoints: Collection[str]) -> dict[bytes, Key]:
    """The keys with which a service begins. Raises BadSetting, naming the variable; for a file without keys too.

    While the service runs such a file means that no key is good. Before, it is a slip.
    """
    try:
        keys = read_keys(file, usual, endpoints)
    except BadKeys as bad:
        raise BadSetting(f"FOOTVALVE_KEYS_FILE must hold keys, but of {file} it must be said: {bad}") from None
    if not keys:
        raise BadSetting(
            f"FOOTVALVE_KEYS_FILE must hold keys, but {file} has no entry [[keys]]: "
            "`footvalve key NAME` makes one, and prints its entry for the file."
        )
    return keys


def signature_of(file: Path) -> Signature:
    """What differs once the file has been written or replaced; None where there is none."""
    try:
        found = file.stat()
    except OSError:
        return None
    return found.st_ino, found.st_size, found.st_mtime_ns
