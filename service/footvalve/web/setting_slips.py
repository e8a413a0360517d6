"""Variables of the environment that look like settings of the service, and are none."""

import re
from collections.abc import Collection, Mapping
from difflib import get_close_matches
from typing import Final

from footvalve.web.setting import BadSetting

_PREFIX: Final = "FOOTVALVE_"

_ELSEWHERE: Final = frozenset(
    f"{_PREFIX}{name}"
    for name in (
        "URL",  # the client's
        "KEY",
        "NO_BROWSER",  # of set-up and of the tests
        "SCREENSHOTS",
        "METRICS_FOLDER",  # from the first process to its workers
    )
)
"""Variables that mean something, though not to who starts the service."""

_of_a_cluster = re.compile(r"FOOTVALVE_(.+_)?(SERVICE_(HOST|PORT(_.+)?)|PORT_[0-9]+_(TCP|UDP|SCTP)(_.+)?)").fullmatch
"""What Kubernetes puts into the environment of every container where a Service is called footvalve."""


def refuse_near_misses(environment: Mapping[str, str], settings: Collection[str]) -> None:
    """A variable that is nearly a setting is a slip of the pen: what it should set would be left as it was.

    Raises BadSetting, naming both.
    """
    for variable in environment:
        if variable.startswith(_PREFIX) and variable not in settings:
            near = get_close_matches(variable, settings, n=1, cutoff=0.9)
            if near:
                raise BadSetting(f"{variable} is no setting. Did you mean {near[0]}?")


def unknown_variables(environment: Mapping[str, str], settings: Collection[str]) -> tuple[str, ...]:
    """The variables that somebody may take for settings, though nothing reads them, by their names."""
    return tuple(
        sorted(
            variable
            for variable, value in environment.items()
            if variable.startswith(_PREFIX)
            and variable not in settings
            and variable not in _ELSEWHERE
            and not _of_a_cluster(variable)
            and not value.startswith(("tcp://", "udp://", "sctp://"))
        )
    )
