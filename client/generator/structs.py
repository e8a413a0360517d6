"""The Structs of one side of the wire, by datamodel-code-generator from the contract's schemas.

What the service checks is left to the service: limits and defaults stand in the descriptions alone. So an older client
does not refuse what a newer service takes, and never sends a default that the caller did not give.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from datamodel_code_generator import generate
from datamodel_code_generator.enums import DataModelType, InputFileType
from datamodel_code_generator.format import Formatter, PythonVersion

from generator.closed_lists import without_lists
from generator.contract import REFERENCE, Schema
from generator.vocabulary import Vocabulary
from generator.wording import with_default


@dataclass(frozen=True, slots=True)
class Side:
    """One side of the wire: its module's docstring, what its Structs derive from, and how its quantities are typed."""

    header: str
    base: str
    quantity_suffix: str
    containers_are_abstract: bool


REQUESTS = Side(
    '"""What requests are made of."""',
    "footvalve_client._request.RequestPart",
    "Like",
    containers_are_abstract=True,
)
"""A request takes a quantity in any form, and any sequence for a list."""

ANSWERS = Side(
    '"""What answers and problems are made of."""',
    "footvalve_client._answer.AnswerPart",
    "",
    containers_are_abstract=False,
)


def structs(vocabulary: Vocabulary, names: Iterable[str], side: Side) -> str:
    """The source text of a module with the Structs of these names."""
    imported = {name + side.quantity_suffix: "quantities" for name in vocabulary.quantities}
    imported |= dict.fromkeys(vocabulary.list_names, "closed_lists")
    schemas = {name: _schema(name, vocabulary, side) for name in names}
    schemas |= {name: {"type": "object", "properties": {}} for name in imported}
    text = generate(
        {"openapi": "3.1.0", "info": {"title": "", "version": ""}, "paths": {}, "components": {"schemas": schemas}},
        input_file_type=InputFileType.OpenAPI,
        output_model_type=DataModelType.MsgspecStruct,
        target_python_version=PythonVersion.PY_311,
        base_class=side.base,
        extra_template_data=defaultdict(dict, {"#all#": {"base_class_kwargs": {"frozen": True}}}),
        type_overrides={name: f"footvalve_client._generated.{module}.{name}" for name, module in imported.items()},
        use_annotated=False,
        strict_nullable=True,
        keyword_only=True,
        keep_model_order=True,
        use_exact_imports=True,
        use_msgspec_tagged_unions=True,
        use_generic_container_types=side.containers_are_abstract,
        use_schema_description=True,
        use_field_description=True,
        use_single_line_docstring=True,
        custom_file_header=side.header,
        formatters=[Formatter.BUILTIN],
    )
    assert isinstance(text, str)
    return text


def _schema(name: str, vocabulary: Vocabulary, side: Side) -> Any:
    schema = vocabulary.contract.schemas[name]
    if name not in vocabulary.contract.objects:
        return _plain(schema, vocabulary, side)
    properties = {}
    for field, described in schema["properties"].items():
        found = vocabulary.lists.get((name, field))
        plain = _plain(without_lists(described, found.name) if found else described, vocabulary, side)
        properties[field] = plain if field in schema["required"] else _optional(plain, described)
    return {
        "type": "object",
        "description": schema["description"],
        "properties": properties,
        "required": schema["required"],
    }


def _optional(plain: Schema, described: Schema) -> Schema:
    """What may be absent is None in Python, and is left out of the JSON."""
    return {**plain, "description": with_default(described), "nullable": True}


_KEPT = ("type", "description", "const", "discriminator")


def _plain(described: Any, vocabulary: Vocabulary, side: Side) -> Any:
    """The shape alone: no limits, no defaults, no examples."""
    plain: Schema = {key: described[key] for key in _KEPT if key in described}
    if "$ref" in described:
        target = described["$ref"].removeprefix(REFERENCE)
        plain["$ref"] = REFERENCE + target + (side.quantity_suffix if target in vocabulary.quantities else "")
    if "items" in described:
        plain["items"] = _plain(described["items"], vocabulary, side)
    if "anyOf" in described:
        plain["anyOf"] = [_plain(member, vocabulary, side) for member in described["anyOf"]]
    return plain
