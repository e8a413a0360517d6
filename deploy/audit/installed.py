"""What is installed: every distribution pinned and every pin installed, and each under a licence that is allowed."""

import re
from collections.abc import Iterator
from importlib.metadata import Distribution, distributions, requires
from pathlib import Path
from typing import Any, Final

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

OURS: Final = {"footvalve": ("", "tracing"), "footvalve-client": ("", "terminal")}
"""What this project makes, with the extras that it may be installed with."""

BROUGHT: Final = {"pip"}
"""What a virtual environment has without a pin."""

_WORDS: Final = re.compile(r"\s+(?:AND|OR)\s+|[()]")


def pin_faults(requirements: Path) -> Iterator[str]:
    """Where the environment and its pins differ."""
    pins = pinned(requirements)
    found = {canonicalize_name(d.metadata["Name"]): d.version for d in distributions()}
    for name in sorted(found.keys() - pins.keys() - OURS.keys() - BROUGHT):
        yield f"{name} {found[name]} is installed, but pinned nowhere"
    for name, version in sorted(pins.items()):
        if found.get(name) != version:
            yield f"{name} is pinned to {version}, but {found.get(name, 'nothing')} is installed"


def pinned(requirements: Path) -> dict[str, str]:
    """The version of each pin that this platform takes. Raises ValueError for a line that pins nothing."""
    pins = {}
    for line in requirements.read_text(encoding="utf-8").splitlines():
        if not line or line.startswith("#"):
            continue
        wanted = Requirement(line)
        (pin,) = wanted.specifier
        if pin.operator != "==" or wanted.url:
            raise ValueError(f"{line!r} pins no version")
        if wanted.marker is None or wanted.marker.evaluate():
            pins[canonicalize_name(wanted.name)] = pin.version
    return pins


def brought_by(name: str, extras: tuple[str, ...] = ("",)) -> set[str]:
    """A distribution's name with those of all that it requires, and what they require in turn."""
    found: set[tuple[str, str]] = set()
    waiting = [(canonicalize_name(name), extra) for extra in extras]
    while waiting:
        found.add(wanted := waiting.pop())
        for line in requires(wanted[0]) or ():
            needed = Requirement(line)
            if needed.marker is None or needed.marker.evaluate({"extra": wanted[1]}):
                names = ((canonicalize_name(needed.name), extra) for extra in ("", *needed.extras))
                waiting += (pair for pair in names if pair not in found)
    return {name for name, _ in found}


def licence_faults(accepted: dict[str, Any]) -> Iterator[str]:
    """Every distribution whose licence is not allowed where it is used, or cannot be made out."""
    run = {name for ours, extras in OURS.items() for name in brought_by(ours, extras)}
    for distribution in sorted(distributions(), key=lambda d: d.metadata["Name"].casefold()):
        name = canonicalize_name(distribution.metadata["Name"])
        allowed = {*accepted["run"], *(() if name in run else accepted["tools"])}
        licences = licences_of(distribution, accepted)
        if name not in OURS and not (licences and licences <= allowed):
            where = "the service or the client" if name in run else "the tools"
            yield f"{name}, of {where}, is under {' and '.join(sorted(licences)) or 'a licence that it does not tell'}"


def licences_of(distribution: Distribution, accepted: dict[str, Any]) -> set[str]:
    """The licences of a distribution by their SPDX names, as far as they are known; all of those it may be one of."""
    told = distribution.metadata
    read = accepted["read"].get(canonicalize_name(told["Name"]))
    classified = [c.rpartition(" :: ")[2] for c in told.get_all("Classifier") or () if c.startswith("License ::")]
    words = [read or told["License-Expression"] or ""]
    words = [words[0]] if words[0] else classified or [(told["License"] or "").strip().partition("\n")[0]]
    written = accepted["written"]
    split = {part.strip() for word in words for part in ([word] if word in written else _WORDS.split(word))} - {""}
    return {written.get(part, part) for part in split}
