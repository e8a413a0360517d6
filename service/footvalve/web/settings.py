"""What an operator may set, each by an environment variable; a bad value stops the start."""

import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, Self

from footvalve.web.allowance import Allowance
from footvalve.web.setting import (
    BadSetting,
    Setting,
    allowances,
    file,
    networks,
    origin,
    origins,
    store,
    whole_numbers,
    words,
)
from footvalve.web.setting_slips import refuse_near_misses, unknown_variables

__all__ = ["SETTINGS", "BadSetting", "Settings"]

_BODY_LIMITS: Final = range(1_000, 64_000_001)
_WAITS: Final = range(1, 3_601)

SETTINGS: Final[tuple[Setting, ...]] = (
    whole_numbers("body_limit_bytes", _BODY_LIMITS, "longest body of a request"),
    whole_numbers("batch_limit_bytes", _BODY_LIMITS, "longest body of a batch"),
    whole_numbers(
        "body_memory_bytes",
        range(1_000, 10_000_000_001),
        "most bytes of bodies over 16 kB that are held at once, in each process; no less than the longest batch",
    ),
    whole_numbers("head_limit_bytes", range(1_000, 1_000_001), "longest head of a request: its line and its headers"),
    whole_numbers("nesting_limit", range(12, 101), "deepest nesting of a body"),
    whole_numbers("list_limit", range(1, 1_001), "longest list in a body, where the contract allows a longer one"),
    whole_numbers(
        "work_limit",
        range(10, 10_000_001),
        "most work that a request may ask for, reckoned before it is begun; a plain suction-feasibility is about 1",
    ),
    whole_numbers(
        "batch_work_limit",
        range(10, 1_000_000_001),
        "most work that the items of a batch may ask for together, reckoned likewise",
    ),
    whole_numbers("concurrency_limit", range(1, 100_001), "most requests at work at once, in each process"),
    whole_numbers("connection_limit", range(1, 100_001), "most connections at once, in each process"),
    whole_numbers("receive_seconds", _WAITS, "longest time for a request to come in whole"),
    whole_numbers("send_seconds", _WAITS, "longest time in which a caller may take nothing of an answer"),
    whole_numbers("queue_seconds", _WAITS, "longest time that work may wait for its turn"),
    whole_numbers("keep_alive_seconds", _WAITS, "how long an idle connection is kept"),
    whole_numbers("drain_seconds", range(61), "how long new requests are still taken after a SIGTERM"),
    whole_numbers("stop_seconds", _WAITS, "how long requests may still take after that"),
    words("access", ("auto", "open", "keys"), "who may ask: everybody, or who has a key; auto: keys if there are any"),
    file("keys_file", "the file of the keys, by their hashes; it is read again when it changes"),
    allowances("anonymous_limit", "what each address without a key may ask"),
    allowances("key_limit", "what each key may ask whose entry does not say"),
    store("counters_url", "the Redis or Valkey in which several processes count together"),
    networks("trusted_proxies", "whose X-Forwarded-For is believed"),
    origins("allowed_origins", "whose pages may ask; * for every one"),
    origin("public_origin", "the origin under which the service is known outside"),
    words("log_level", ("debug", "info", "warning", "error"), "the least that is logged, as lines of JSON"),
    words("log_requests", ("all", "failed", "none"), "which requests are logged; failed: 5xx, 401, 403 and 429"),
    whole_numbers("metrics_port", range(65_536), "the port on which metrics are told; 0 for none"),
    words("metrics_host", ("127.0.0.1", "0.0.0.0", "::1", "::"), "the address on which metrics are told"),
    words("tracing", ("off", "on"), "spans by OpenTelemetry, which its own variables set; it needs footvalve[tracing]"),
)
"""Every setting, in the order in which an operator reads them."""

_VARIABLES: Final = {setting.variable: setting for setting in SETTINGS}


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of one service. What each means stands in SETTINGS."""

    body_limit_bytes: int = 256_000
    batch_limit_bytes: int = 4_000_000
    body_memory_bytes: int = 64_000_000
    head_limit_bytes: int = 32_000
    nesting_limit: int = 32
    list_limit: int = 1_000
    work_limit: int = 5_000
    batch_work_limit: int = 1_000_000
    concurrency_limit: int = 256
    connection_limit: int = 4_096
    receive_seconds: int = 20
    send_seconds: int = 30
    queue_seconds: int = 5
    keep_alive_seconds: int = 75
    drain_seconds: int = 2
    stop_seconds: int = 20
    access: str = "auto"
    keys_file: Path | None = None
    anonymous_limit: Allowance | None = None
    key_limit: Allowance | None = None
    counters_url: str = ""
    trusted_proxies: tuple[str, ...] = ()
    allowed_origins: frozenset[str] = frozenset()
    public_origin: str = ""
    log_level: str = "info"
    log_requests: str = "failed"
    metrics_port: int = 0
    metrics_host: str = "127.0.0.1"
    tracing: str = "off"
    unknown_variables: tuple[str, ...] = ()
    """No setting: what the environment holds besides that looks like one."""

    @classmethod
    def from_environment(cls, environment: Mapping[str, str] = os.environ) -> Self:
        """The settings that the environment asks for. Raises BadSetting, naming the variable."""
        refuse_near_misses(environment, _VARIABLES)
        told = {s.field: s.value(environment[s.variable]) for s in SETTINGS if s.variable in environment}
        settings = cls(**told, unknown_variables=unknown_variables(environment, _VARIABLES))
        _refuse_bodies_that_never_fit(settings)
        return settings

    @property
    def needs_a_key(self) -> bool:
        """Whether a question without a key is refused."""
        return self.access == "keys" or (self.access == "auto" and self.keys_file is not None)

    @property
    def named_keys_file(self) -> Path | None:
        """The file of the keys; None where there need be none. Raises BadSetting where one is wanting."""
        if self.keys_file is None and self.access == "keys":
            raise BadSetting("FOOTVALVE_ACCESS is keys, but FOOTVALVE_KEYS_FILE names no file of them.")
        return self.keys_file


def _refuse_bodies_that_never_fit(settings: Settings) -> None:
    for limit in ("body_limit_bytes", "batch_limit_bytes"):
        longest = getattr(settings, limit)
        if longest > settings.body_memory_bytes:
            raise BadSetting(
                f"FOOTVALVE_BODY_MEMORY_BYTES is {settings.body_memory_bytes}, which no body of "
                f"FOOTVALVE_{limit.upper()}, {longest}, would ever fit into."
            )


def told_settings(settings: Settings) -> Iterator[tuple[Setting, str]]:
    """Every setting with its value as an environment variable would hold it; without the secrets of a URL."""
    for setting in SETTINGS:
        yield setting, _spelled(setting.field, getattr(settings, setting.field))


def _spelled(field: str, value: Any) -> str:
    match value:
        case None:
            return "none" if field.endswith("_limit") else ""
        case frozenset() | tuple():
            return ",".join(sorted(value))
        case str() if "://" in value:
            return _without_secrets(value)
    return str(value)


def _without_secrets(url: str) -> str:
    """A URL without who logs in, and without its parameters, one of which may be a password."""
    scheme, _, place = url.partition("://")
    place, _, parameters = place.partition("?")
    _, login, host = place.rpartition("@")
    return f"{scheme}://{'***@' if login else ''}{host}{'?***' if parameters else ''}"
