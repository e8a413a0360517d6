"""Whose request it is, where it comes without a key: the address of the client, not that of a proxy before the service.

X-Forwarded-For is believed of trusted proxies alone, and read from its end, as everything before the first address
that is none of theirs may be made up. `Forwarded` (RFC 7239) is not read: whoever sends it past a proxy that does not
know it would choose an address.
"""

from collections.abc import Iterable
from functools import lru_cache
from ipaddress import IPv4Address, IPv6Address, ip_address, ip_network
from typing import Final

from litestar.types import Scope

Address = IPv4Address | IPv6Address

_MOST_PROXIES: Final = 16
"""No chain of proxies is longer; a header that is has been made up."""

_REMEMBERED: Final = 4_096
_UNKNOWN: Final = "unknown"


class ClientAddresses:
    """Finds the client of a request behind these proxies, told as networks such as 10.0.0.0/8."""

    def __init__(self, trusted_proxies: Iterable[str] = ()) -> None:
        self._trusted = tuple(map(ip_network, trusted_proxies))
        self._named = lru_cache(_REMEMBERED)(self._find)

    def of(self, scope: Scope) -> str:
        """The address that a request is counted by: IPv4 as it is, IPv6 by its /64, which one household has.

        Anything may stand in the headers: what is no address is not looked beyond.
        """
        client = scope.get("client")
        peer = client[0] if client else ""
        if not self._trusted:
            return self._named(peer, b"")
        forwarded = b",".join(value for name, value in scope["headers"] if name == b"x-forwarded-for")
        return self._named(peer, forwarded)

    def _find(self, peer: str, forwarded: bytes) -> str:
        address = _address(peer)
        if address is None:
            return _UNKNOWN
        for told in reversed(forwarded.decode("latin-1").rsplit(",", _MOST_PROXIES)[-_MOST_PROXIES:]):
            if not self._is_trusted(address):
                break
            before = _address(told)
            if before is None:
                break
            address = before
        return _counted_by(address)

    def _is_trusted(self, address: Address) -> bool:
        return any(address in network for network in self._trusted)


def _address(text: str) -> Address | None:
    """An address as proxies write it, perhaps with a port; None for anything else."""
    text = text.strip()
    if text.startswith("["):
        text = text[1:].partition("]")[0]
    elif text.count(":") == 1:
        text = text.partition(":")[0]
    try:
        address = ip_address(text.partition("%")[0])
    except ValueError:
        return None
    mapped = address.ipv4_mapped if isinstance(address, IPv6Address) else None
    return mapped or address


def _counted_by(address: Address) -> str:
    if isinstance(address, IPv4Address):
        return str(address)
    return str(ip_network((address, 64), strict=False))
