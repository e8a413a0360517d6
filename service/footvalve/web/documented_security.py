"""How the contract document tells of the keys that an operator may ask for."""

from typing import Final

from footvalve.web.component_schemas import Schema

SECURITY_SCHEMES: Final[dict[str, Schema]] = {
    "key": {
        "type": "http",
        "scheme": "bearer",
        "description": "A key that the operator of the service gives out. Whether one is needed, the operator says: "
        "without one the answer is a 401 where it is.",
    }
}

KEY_OR_NONE: Final[list[Schema]] = [{}, {"key": []}]
"""The security of an operation that may be asked with a key, and without one where the operator allows it."""
