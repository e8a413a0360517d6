"""How the contract document tells of the tables: one path, whose last part names the table."""

from typing import get_args

import msgspec

from footvalve.answers.tables import TABLES, table
from footvalve.contract.tables import AnyTable
from footvalve.web.component_schemas import Schema, reference
from footvalve.web.documented_headers import RATE, answer_response, headers
from footvalve.web.documented_problems import OF_EVERY_TABLE, problem_references
from footvalve.web.documented_security import KEY_OR_NONE
from footvalve.web.negotiation import JSON

_DESCRIPTION = """\
The numbers that the answers rest on, each row with its source, in the units that the trade writes them in. \
A table changes with a release of the service alone: keep it, and ask again with its ETag in the header If-None-Match: \
the answer is a 304 where nothing has changed. \
HEAD answers the same without a body.\
"""

_NAME = {
    "name": "name",
    "in": "path",
    "required": True,
    "description": "The table.",
    "schema": {"type": "string", "enum": list(TABLES)},
}

_SHOWN = "valves"
"""The table that stands in the document as an example; the others are not much different, and long."""

_HEADERS = ("Cache-Control", "ETag", *RATE)


def table_operation() -> Schema:
    """The operation of GET /v1/tables/{name}."""
    return {
        "operationId": "table",
        "security": KEY_OR_NONE,
        "tags": ["tables"],
        "summary": "The trade's numbers",
        "description": _DESCRIPTION,
        "parameters": [_NAME],
        "responses": {
            "200": answer_response("The table.", {JSON: _content()}, *_HEADERS),
            "304": {"description": "The caller holds it already.", "headers": headers(*_HEADERS)},
            **problem_references(*OF_EVERY_TABLE),
        },
    }


def _content() -> Schema:
    references = {kind.__struct_config__.tag: reference(kind)["$ref"] for kind in get_args(AnyTable)}
    return {
        "schema": {
            "oneOf": [{"$ref": target} for target in references.values()],
            "discriminator": {"propertyName": "table", "mapping": references},
        },
        "examples": {_SHOWN: {"summary": f"The table of {_SHOWN}.", "value": msgspec.to_builtins(table(_SHOWN))}},
    }
