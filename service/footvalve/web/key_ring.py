"""The keys that are good now: the file's, read again when it has changed."""

import asyncio
import logging
from collections.abc import Collection
from hmac import compare_digest
from pathlib import Path
from time import monotonic
from typing import Final

from footvalve.web.allowance import Allowance
from footvalve.web.key_file import BadKeys, Key, digest_of, read_keys
from footvalve.web.metrics import COUNTED
from footvalve.web.setting import BadSetting

LOOK_AGAIN_SECONDS: Final = 1.0
"""A changed file counts after this time at the latest, whenever it is asked."""

_log = logging.getLogger(__name__)
_NOBODYS: Final = bytes(32)

_Signature = tuple[int, int, int] | None


class KeyRing:
    """The keys of a file. One that cannot be used any more leaves those that were good before.

    Raises BadSetting, naming FOOTVALVE_KEYS_FILE, for a file that cannot be used at the start.
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
        try:
            self._keys = read_keys(file, usual, endpoints)
        except BadKeys as bad:
            raise BadSetting(f"FOOTVALVE_KEYS_FILE must hold keys, but of {file} it must be said: {bad}") from None
        self.is_current = True
        """Whether these keys are those of the file as it is now."""
        self._look_again = monotonic() + LOOK_AGAIN_SECONDS

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
        """Look whether the file has changed, unless that was done just now; in a thread, as a disk may be slow."""
        if monotonic() >= self._look_again:
            self._look_again = monotonic() + LOOK_AGAIN_SECONDS
            await asyncio.to_thread(self._read_if_changed)

    def _read_if_changed(self) -> None:
        signature = self._signed()
        if signature == self._signature:
            return
        self._signature = signature
        try:
            self._keys = read_keys(self._file, self._usual, self._endpoints)
        except BadKeys as bad:
            self.is_current = False
            COUNTED.keys_not_read()
            _log.error("FOOTVALVE_KEYS_FILE: the keys from before go on, as of %s it must be said: %s", self._file, bad)
        else:
            self.is_current = True
            _log.info("FOOTVALVE_KEYS_FILE: %d keys have been read from %s", len(self._keys), self._file)

    def _signed(self) -> _Signature:
        """What differs once the file has been written or replaced; None where there is none."""
        try:
            found = self._file.stat()
        except OSError:
            return None
        return found.st_ino, found.st_size, found.st_mtime_ns
