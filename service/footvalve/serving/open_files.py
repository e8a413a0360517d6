"""How many files, and so connections, a process may have open."""

import contextlib
import logging
import resource
from typing import Final

_BESIDES: Final = 512
"""Descriptors for all but the connections that are admitted: those turned away, logs, the store of counters."""

_log = logging.getLogger(__name__)


def allow_files(connections: int) -> None:
    """Raise what the process may have open, and its workers with it, as far as the system lets it."""
    needed = connections + _BESIDES
    allowed, most = resource.getrlimit(resource.RLIMIT_NOFILE)
    if allowed == resource.RLIM_INFINITY or allowed >= needed:
        return
    within = needed if most == resource.RLIM_INFINITY else min(needed, most)
    with contextlib.suppress(OSError, ValueError):
        resource.setrlimit(resource.RLIMIT_NOFILE, (within, most))
    if within < needed:
        _log.warning("FOOTVALVE_CONNECTION_LIMIT is %d, but the system allows %d open files", connections, most)
