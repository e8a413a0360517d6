"""How the contract document tells of what is read: one GET, whose HEAD answers the same without a body."""

from footvalve.web.component_schemas import Schema
from footvalve.web.documented_headers import answer_response, headers
from footvalve.web.documented_problems import OF_EVERY_READING, problem_references

_HELD = ("Cache-Control", "ETag")


def reading(
    identifier: str, summary: str, content: Schema, *more_headers: str, tag: str = "service", more: str = ""
) -> Schema:
    """The path of a resource. `more` is what else its description says."""
    told = " ".join(filter(None, (f"{summary}.", more, "HEAD answers the same without a body.")))
    return {
        "get": {
            "operationId": identifier,
            "security": [],
            "tags": [tag],
            "summary": summary,
            "description": told,
            "responses": {
                "200": answer_response(f"{summary}.", content, *more_headers),
                **problem_references(*OF_EVERY_READING),
            },
        }
    }


def reading_kept(
    identifier: str, summary: str, content: Schema, *more_headers: str, tag: str = "service", more: str = ""
) -> Schema:
    """The path of a resource that a caller may hold already."""
    path = reading(identifier, summary, content, *_HELD, *more_headers, tag=tag, more=more)
    held = {"description": "The caller holds it already.", "headers": headers(*_HELD, *more_headers)}
    path["get"]["responses"] = dict(sorted({**path["get"]["responses"], "304": held}.items()))
    return path
