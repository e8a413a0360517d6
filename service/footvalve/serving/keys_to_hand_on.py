"""The file of the keys as it was when it could be used last, which a keeper holds for the workers that are to come.

It is held in memory alone, and handed on in memory: a worker that starts while the file is spoiled begins with it.
"""

import logging
import os
import sys
from collections.abc import Collection, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Event, Thread

from footvalve.web.key_file import BadKeys, keys_of, octets_of
from footvalve.web.key_ring import LOOK_AGAIN_SECONDS, Signature, signature_of
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings

_log = logging.getLogger(__name__)


class KeysToHandOn:
    """What was good last of a file of keys, which these endpoints are asked with. Raises BadKeys at the start."""

    def __init__(self, file: Path, endpoints: Collection[str]) -> None:
        self._file = file
        self._endpoints = endpoints
        self._signature: Signature = None
        self._over = Event()
        self.octets = b""
        self._read(signature_of(file))

    def look(self) -> None:
        """See whether the file has changed, and keep what it holds where that can be used."""
        signature = signature_of(self._file)
        if signature != self._signature:
            with suppress(BadKeys):  # each worker says it
                self._read(signature)
                _log.debug("workers that are to come are handed on what %s holds now", self._file)

    def _read(self, signature: Signature) -> None:
        self._signature = signature
        octets = octets_of(self._file)
        keys_of(octets, None, self._endpoints)
        self.octets = octets

    @contextmanager
    def kept(self) -> Iterator[None]:
        """Look again and again while the context lasts; in a thread, as a disk may be slow."""
        Thread(target=self._look_until_it_is_over, name="keys", daemon=True).start()
        try:
            yield
        finally:
            self._over.set()

    def _look_until_it_is_over(self) -> None:
        while not self._over.wait(LOOK_AGAIN_SECONDS):
            self.look()


def keys_to_hand_on(settings: Settings) -> KeysToHandOn | None:
    """The keys that a keeper holds; None where there is no file of them. Raises BadSetting."""
    if settings.keys_file is None:
        return None
    from footvalve.answers.endpoints import ENDPOINTS  # noqa: PLC0415  # a keeper without keys needs none of it

    try:
        return KeysToHandOn(settings.keys_file, [endpoint.name for endpoint in ENDPOINTS])
    except BadKeys as bad:
        raise BadSetting(f"FOOTVALVE_KEYS_FILE must hold keys, but of {settings.keys_file}: {bad}") from None


@contextmanager
def handing_on(keys: KeysToHandOn | None) -> Iterator[tuple[int, ...]]:
    """The descriptor from which a process that is started in this context reads the keys; none where there are none."""
    if keys is None or sys.platform != "linux":
        yield ()
        return
    descriptor = os.memfd_create("keys")
    try:
        with open(descriptor, "wb", closefd=False) as memory:
            memory.write(keys.octets)
        yield (descriptor,)
    finally:
        os.close(descriptor)


def handed_on(descriptor: int) -> bytes:
    """What the keeper has put there."""
    with open(descriptor, "rb") as memory:
        memory.seek(0)
        return memory.read()
