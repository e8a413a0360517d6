"""What an operator may set, each by an environment variable; a bad value stops the start."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from footvalve.contract.fault_wording import cleaned
from footvalve.web.cross_origin import ANY_ORIGIN
from footvalve.web.origin import is_origin
from footvalve.web.whole_number import whole_number

_BODY_LIMITS = range(1_000, 64_000_001)


class BadSetting(ValueError):
    """An environment variable holds what the service cannot run with."""


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings of one service process.

    How long the body of a request may be, and that of a batch; the origins whose pages may ask, `*` for every one; and
    the origin under which the service itself is known outside, where it is told.
    """

    body_limit_bytes: int = 256_000
    batch_limit_bytes: int = 4_000_000
    allowed_origins: frozenset[str] = frozenset()
    public_origin: str = ""

    @classmethod
    def from_environment(cls, environment: Mapping[str, str] = os.environ) -> Self:
        """The settings that the environment asks for. Raises BadSetting, naming the variable."""
        usual = cls()
        body_limit, batch_limit = "FOOTVALVE_BODY_LIMIT_BYTES", "FOOTVALVE_BATCH_LIMIT_BYTES"
        return cls(
            body_limit_bytes=_number_in(environment, body_limit, usual.body_limit_bytes, _BODY_LIMITS),
            batch_limit_bytes=_number_in(environment, batch_limit, usual.batch_limit_bytes, _BODY_LIMITS),
            allowed_origins=_origins_in(environment, "FOOTVALVE_ALLOWED_ORIGINS"),
            public_origin=_origin_in(environment, "FOOTVALVE_PUBLIC_ORIGIN"),
        )


def _number_in(environment: Mapping[str, str], variable: str, default: int, allowed: range) -> int:
    if variable not in environment:
        return default
    number = whole_number(environment[variable], allowed)
    if number is None:
        got = cleaned(environment[variable])
        raise BadSetting(f"{variable} must be a whole number from {allowed[0]} to {allowed[-1]}, but it is {got!r}.")
    return number


def _origins_in(environment: Mapping[str, str], variable: str) -> frozenset[str]:
    """The origins of a list with commas; none where it is empty, as in a file of settings that leaves it open."""
    told = environment.get(variable, "").strip()
    origins = [origin.strip() for origin in told.split(",")] if told else []
    for origin in origins:
        if origins != [ANY_ORIGIN] and not is_origin(origin):
            raise BadSetting(
                f"{variable} must be {ANY_ORIGIN}, or origins as browsers send them, such as https://shop.example, "
                f"with commas between, but it holds {cleaned(origin)!r}."
            )
    return frozenset(origins)


def _origin_in(environment: Mapping[str, str], variable: str) -> str:
    origin = environment.get(variable, "").strip()
    if origin and not is_origin(origin):
        raise BadSetting(
            f"{variable} must be an origin such as https://water.example, without a path, but it is "
            f"{cleaned(origin)!r}."
        )
    return origin
