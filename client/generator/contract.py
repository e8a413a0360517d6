"""The contract document as the generator sees it: its operations, and the schemas on either side of the wire."""

import builtins
import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

Schema = dict[str, Any]

REFERENCE = "#/components/schemas/"
_JSON = "application/json"
_BATCH = "batch"

RENAMED = {"Warning": "InputWarning"}
"""Names of the contract that would hide a built-in name of Python, and what the client calls them."""


@dataclass(frozen=True, slots=True)
class Operation:
    """One method on one path: what it takes and answers, by the names of their schemas, and with which statuses."""

    name: str
    method: str
    path: str
    title: str
    description: str
    request: str | None
    answer: str
    statuses: frozenset[int]

    @property
    def endpoint(self) -> str:
        """The name that the items of a batch know it by."""
        return self.path.rpartition("/")[2]


@dataclass(frozen=True, slots=True)
class Selection:
    """One method on a path whose one parameter decides what is answered: the schema's name by the parameter's word."""

    name: str
    method: str
    path: str
    title: str
    description: str
    parameter: str
    answers: dict[str, str]

    @property
    def words_name(self) -> str:
        """What the client calls the closed list of the parameter's words."""
        return _camel(self.name) + _camel(self.parameter)


@dataclass(frozen=True, slots=True)
class Contract:
    """The operations and selections, and every schema of the document by its name."""

    operations: tuple[Operation, ...]
    selections: tuple[Selection, ...]
    schemas: dict[str, Schema]

    @property
    def request_names(self) -> list[str]:
        """The schemas that requests are made of, sorted by name."""
        return self._reached(operation.request for operation in self.operations if operation.request)

    @property
    def answer_names(self) -> list[str]:
        """The schemas that answers and problems are made of, sorted by name."""
        selected = (answer for selection in self.selections for answer in selection.answers.values())
        return self._reached(["Problem", *(operation.answer for operation in self.operations), *selected])

    @property
    def batched(self) -> list[Operation]:
        """The operations that the items of a batch may ask, sorted by name."""
        asked = (operation for operation in self.operations if operation.request and operation.name != _BATCH)
        return sorted(asked, key=lambda operation: operation.name)

    @property
    def tags(self) -> set[tuple[str, str]]:
        """The schemas that a union tells apart, each with the field that tells."""
        return set(_tags(self.schemas))

    @property
    def objects(self) -> dict[str, Schema]:
        """The schemas of objects, which are all but the named unions."""
        return {name: schema for name, schema in self.schemas.items() if "properties" in schema}

    def _reached(self, roots: Iterable[str]) -> list[str]:
        reached: set[str] = set()
        waiting = list(roots)
        while waiting:
            name = waiting.pop()
            if name not in reached:
                reached.add(name)
                waiting += referred(self.schemas[name])
        return sorted(reached)


def read_contract(file: Path) -> Contract:
    """The contract in a file. Raises ValueError for a name that Python has taken."""
    document = json.loads(file.read_text(encoding="utf-8"))
    calls = [(method, path, told) for path, item in document["paths"].items() for method, told in item.items()]
    operations = (_operation(*call) for call in calls)
    selections = tuple(filter(None, (_selection(*call) for call in calls)))
    schemas = {_ours(name): _with_our_names(schema) for name, schema in document["components"]["schemas"].items()}
    schemas |= _named_unions(schemas)
    _forget_tags(selections, schemas)
    hidden = sorted(name for name in schemas if hasattr(builtins, name))
    if hidden:
        raise ValueError(f"these schemas hide built-in names, give them others in RENAMED: {', '.join(hidden)}")
    return Contract(tuple(filter(None, operations)), selections, schemas)


def referred(schema: Any) -> Iterator[str]:
    """The names of the schemas that a schema refers to."""
    match schema:
        case {"$ref": str(target)}:
            yield target.removeprefix(REFERENCE)
        case dict():
            for key, part in schema.items():
                if key != "discriminator":
                    yield from referred(part)
        case list():
            for part in schema:
                yield from referred(part)


def _tags(schema: Any) -> Iterator[tuple[str, str]]:
    match schema:
        case {"discriminator": {"propertyName": str(field), "mapping": dict(mapping)}}:
            yield from ((target.removeprefix(REFERENCE), field) for target in mapping.values())
        case dict():
            for part in schema.values():
                yield from _tags(part)
        case list():
            for part in schema:
                yield from _tags(part)


def _ours(name: str) -> str:
    return RENAMED.get(name, name)


def _with_our_names(schema: Any) -> Any:
    match schema:
        case {"$ref": str(target), **rest}:
            return {**rest, "$ref": REFERENCE + _ours(target.removeprefix(REFERENCE))}
        case dict():
            return {key: _with_our_names(part) for key, part in schema.items()}
        case list():
            return [_with_our_names(part) for part in schema]
    return schema


def _named_unions(schemas: dict[str, Schema]) -> dict[str, Schema]:
    """The unions that lists hold, named after the list and the field that tells their members apart: `LinePart`.

    Each is taken out of its place, with a reference left there.
    """
    found: dict[str, Schema] = {}
    for schema in schemas.values():
        for field, described in schema["properties"].items():
            match described:
                case {"items": {"discriminator": {"propertyName": str(tag)}} as union}:
                    name = _camel(field) + _camel(tag)
                    if found.setdefault(name, union) != union or name in schemas:
                        raise ValueError(f"two different schemas would be named {name}")
                    described["items"] = {"$ref": REFERENCE + name}
    return found


def _operation(method: str, path: str, described: Schema) -> Operation | None:
    """None for what has no JSON of a named schema to answer, or takes parameters."""
    answer = _named(described["responses"]["200"])
    if answer is None or "parameters" in described:
        return None
    return Operation(
        name=_snake(described["operationId"]),
        method=method.upper(),
        path=path,
        title=described["summary"],
        description=described.get("description", ""),
        request=_named(described.get("requestBody", {})),
        answer=answer,
        statuses=frozenset(map(int, described["responses"])),
    )


def _selection(method: str, path: str, described: Schema) -> Selection | None:
    """None for what does not answer one of several schemas by one word in its path."""
    match described:
        case {
            "parameters": [{"in": "path", "name": str(parameter), "schema": {"enum": list(words)}}],
            "responses": {
                "200": {"content": {"application/json": {"schema": {"discriminator": {"mapping": mapping}}}}}
            },
        }:
            return Selection(
                name=_snake(described["operationId"]),
                method=method.upper(),
                path=path,
                title=described["summary"],
                description=described["description"],
                parameter=parameter,
                answers={word: _ours(mapping[word].removeprefix(REFERENCE)) for word in words},
            )
    return None


def _forget_tags(selections: Iterable[Selection], schemas: dict[str, Schema]) -> None:
    """Make the tag of what is selected a plain text: the caller has said which it is."""
    for selection in selections:
        for answer in selection.answers.values():
            for described in schemas[answer]["properties"].values():
                described.pop("const", None)


def _named(message: Schema) -> str | None:
    reference = message.get("content", {}).get(_JSON, {}).get("schema", {}).get("$ref")
    return reference and _ours(str(reference).removeprefix(REFERENCE))


def _camel(snake: str) -> str:
    return "".join(part.capitalize() for part in snake.split("_"))


def _snake(camel: str) -> str:
    return re.sub(r"(?<!^)(?=[A-Z])", "_", camel).lower()
