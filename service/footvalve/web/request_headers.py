"""A request's headers by name, and what they must say before the body is looked at."""

from collections.abc import Iterable, Mapping, Sequence

from litestar.types import Scope

from footvalve.contract.fault_wording import cleaned
from footvalve.web import problem_types as kinds
from footvalve.web.negotiation import JSON, best_of
from footvalve.web.problems import Declined

HeaderTable = Mapping[bytes, bytes]

_ADMITS_JSON = frozenset((b"*/*", JSON.encode()))


def header_table(scope: Scope) -> HeaderTable:
    """The headers by name; one that is given more than once holds all its values, as in RFC 9110, section 5.2."""
    headers = list(scope["headers"])
    table = dict(headers)
    return table if len(table) == len(headers) else _joined(headers)


def _joined(headers: Iterable[tuple[bytes, bytes]]) -> HeaderTable:
    table: dict[bytes, bytes] = {}
    for name, value in headers:
        table[name] = b"%b, %b" % (table[name], value) if name in table else value
    return table


def admit(scope: Scope, headers: HeaderTable, offers: Sequence[str] = (JSON,)) -> str:
    """The media type to answer in. Raises Declined for query parameters, and where no offer is acceptable."""
    if scope["query_string"]:
        raise Declined(kinds.UNKNOWN_QUERY, f"This path takes no query parameters, but got ?{query_told(scope)}.")
    return accepted(headers, offers)


def query_told(scope: Scope) -> str:
    """The query as it may be sent back."""
    return cleaned(scope["query_string"].decode("latin-1"))


def accepted(headers: HeaderTable, offers: Sequence[str]) -> str:
    """The media type to answer in. Raises Declined where no offer is acceptable."""
    accept = headers.get(b"accept", b"*/*")
    if accept in _ADMITS_JSON and offers[0] == JSON:
        return JSON
    best = best_of(offers, accept.decode("latin-1"))
    if best is None:
        raise Declined(kinds.NOT_ACCEPTABLE, f"The answer is {' or '.join(offers)}, which Accept does not admit.")
    return best
