"""Questions to the service as a caller puts them: JSON in, the public answer out."""

from typing import Any

import msgspec

from footvalve.answers.endpoints import ENDPOINT


def ask(name: str, body: dict[str, Any]) -> Any:
    """The answer of an endpoint."""
    endpoint = ENDPOINT[name]
    return endpoint(msgspec.json.decode(msgspec.json.encode(body), type=endpoint.request))


def of(value: float, unit: str) -> dict[str, Any]:
    """A quantity on the wire."""
    return {"value": value, "unit": unit}
