"""The methods of the client: their signatures and docstrings, from the contract's operations."""

from dataclasses import dataclass
from keyword import iskeyword
from textwrap import fill
from typing import Any

from generator.contract import REFERENCE, Operation, Schema, Selection
from generator.vocabulary import Vocabulary
from generator.wording import one_of, with_default

_WIDTH = 120
_INDENT = " " * 8

_TYPES = {"number": "float", "integer": "int", "boolean": "bool", "string": "str"}
_KINDS = {"number": "a number", "integer": "a whole number", "boolean": "True or False", "string": "a text"}


@dataclass(frozen=True, slots=True)
class Argument:
    """A keyword argument, which is a field of the request."""

    name: str
    type: str
    kind: str
    required: bool
    description: str


@dataclass(frozen=True, slots=True)
class Method:
    """A method of the client, which is an operation of the contract."""

    operation: Operation
    arguments: tuple[Argument, ...]
    docstring: str


_ANSWERED = """
    The answer is in the system of units that `units` names. Its `basis` tells by which method and from which source
    each step was reckoned, `warnings` what is doubtful about the input, and `cautions` what to watch.
"""
_HELD_AGAINST = {
    413: "`BodyTooLarge` for more than the service takes in one request",
    400: "`BadRequest` for what breaks the contract",
    422: "`Refused` for what physics or the trade does not allow",
}
"""What is raised for the content of a request, by the status that the contract tells of."""

_RAISED_BEFORE = """
    Raises TypeError for a request together with fields, and for a field that is missing; `QuantityError` for what is no
    quantity of its field's dimension; {held_against}, with `faults` that point at each field.
"""
_RAISED_BY_ANY = """
    As any call it raises `ConnectionFailed` or `Timeout` where no answer came, `KeyNeeded` or `KeyRefused` where the
    operator asks for a key, `TooManyRequests` or `ServiceUnavailable` where its last try was turned away,
    `ServiceFailed` for the service's own fault, and `UnreadableAnswer` for what is none of its answers.
    `FootvalveError` stands over all of these.
"""


def methods(vocabulary: Vocabulary) -> list[Method]:
    """The methods of the client, sorted by name."""
    return [_method(operation, vocabulary) for operation in sorted(vocabulary.contract.operations, key=_name)]


def selected_docstring(selection: Selection) -> str:
    """The docstring of the method of a selection."""
    words = one_of([f'"{word}"' for word in selection.answers])
    return _assembled(
        [
            f"{selection.title}.",
            _filled(selection.description),
            _filled(f"{selection.parameter}: {words}. Each is answered by a type of its own.", hanging="    "),
            _filled(f"Raises ValueError for another {selection.parameter}. {_RAISED_BY_ANY}"),
        ]
    )


_MAPPED_TITLE = "Ask an endpoint about any number of bodies: a `MapResult` for each, in their order."
_MAPPED_WAY = """
    Up to `batch_size` bodies go in one request, never more than the service takes, and up to `concurrency` requests are
    on their way at once. No more than twice as many wait for whoever takes the results, so that bodies without end are
    no matter. A body that is refused, or that holds what is no quantity, gives a result with an `error`, and spoils no
    other.
"""
_MAPPED_BY = {
    "mapped": """
        Threads of its own send the requests. Closing the results early sends nothing more, and leaves what is on its
        way to end by itself.
    """,
    "mapped_awaited": """
        It runs in asyncio, and takes bodies of an asynchronous iterable too. Closing the results early, as
        `contextlib.aclosing` does, cancels what is on its way.
    """,
}
_MAPPED_ARGUMENTS = (
    "endpoint: the name of an endpoint as in its path.",
    "bodies: each a request Struct of the endpoint, or a mapping in the contract's form, with texts for quantities.",
    "concurrency: a whole number, 1 or more. Requests at once.",
    "batch_size: a whole number from 1 to 1000. Bodies in a request: more is quicker, less brings results sooner.",
    "progress: True or False. Whether to show a bar on the standard error; it needs `footvalve-client[terminal]`.",
)
_MAPPED_RAISES = """
    Raises `MapStopped` where a request got no answer with all its tries, telling the first body without a result;
    ValueError for another endpoint and for a number out of range; TypeError for a body of another kind; ImportError for
    a bar without what it needs.
"""


def mapped_docstring(by: str) -> str:
    """The docstring of `map`, by the function that does it."""
    arguments = f"\n{_INDENT}".join(_filled(text, hanging="    ") for text in _MAPPED_ARGUMENTS)
    told = [_filled(text) for text in (_MAPPED_WAY, _MAPPED_BY[by], _MAPPED_RAISES)]
    return _assembled([_MAPPED_TITLE, *told[:2], arguments, told[2]])


def _name(operation: Operation) -> str:
    return operation.name


def _method(operation: Operation, vocabulary: Vocabulary) -> Method:
    arguments = _arguments(operation.request, vocabulary) if operation.request else ()
    return Method(operation, arguments, _docstring(operation, arguments, vocabulary))


def _arguments(request: str, vocabulary: Vocabulary) -> tuple[Argument, ...]:
    schema = vocabulary.contract.schemas[request]
    arguments = [
        Argument(
            name=f"{field}_" if iskeyword(field) else field,
            type=_type(described, _list_name(request, field, vocabulary), vocabulary),
            kind=_kind(described, vocabulary),
            required=field in schema["required"],
            description=with_default(described),
        )
        for field, described in schema["properties"].items()
    ]
    return tuple(sorted(arguments, key=lambda argument: not argument.required))


def _list_name(request: str, field: str, vocabulary: Vocabulary) -> str:
    found = vocabulary.lists.get((request, field))
    return found.name if found else ""


def _type(described: Schema, list_name: str, vocabulary: Vocabulary) -> str:
    """The annotation of an argument; a mapping may stand for any Struct but a quantity."""
    match described:
        case {"items": items}:
            return f"Sequence[{_type(items, list_name, vocabulary)}]"
        case {"$ref": str(target)}:
            name = target.removeprefix(REFERENCE)
            return f"{name}Like" if name in vocabulary.quantities else f"{name} | Mapping[str, object]"
        case {"anyOf": list(members)}:
            names = [member["$ref"].removeprefix(REFERENCE) for member in members]
            return " | ".join([*names, "Mapping[str, object]"])
    return list_name or _TYPES[described["type"]]


def _kind(described: Any, vocabulary: Vocabulary) -> str:
    """What an argument is, in words."""
    match described:
        case {"items": items}:
            return f"each {_kind(items, vocabulary)}"
        case {"$ref": str(target)}:
            name = target.removeprefix(REFERENCE)
            quantity = vocabulary.quantities.get(name)
            return f"{name} in {one_of(quantity.units.words)}" if quantity else name
        case {"anyOf": list(members)}:
            return one_of([_kind(member, vocabulary) for member in members])
        case {"enum": list(words)}:
            return one_of([f'"{word}"' for word in words])
    return _KINDS[described["type"]]


def _docstring(operation: Operation, arguments: tuple[Argument, ...], vocabulary: Vocabulary) -> str:
    schemas = vocabulary.contract.schemas
    answer = f"Answers a `{operation.answer}`: {_within_a_sentence(schemas[operation.answer]['description'])}"
    if not operation.request:
        return _assembled([f"{operation.title}.", _filled(answer), _filled(_RAISED_BY_ANY)])
    about = schemas[operation.request]["description"]
    reckoned = _ANSWERED if "basis" in schemas[operation.answer]["properties"] else ""
    held_against = one_of([told for status, told in _HELD_AGAINST.items() if status in operation.statuses])
    return _assembled(
        [
            f"{operation.title}.",
            _filled(operation.description),
            _filled(f"Takes a `{operation.request}` or its fields as keyword arguments. {about}"),
            f"\n{_INDENT}".join(map(_told, arguments)),
            _filled(f"{answer} {reckoned}"),
            _filled(f"{_RAISED_BEFORE.format(held_against=held_against)} {_RAISED_BY_ANY}"),
        ]
    )


def _within_a_sentence(description: str) -> str:
    return description[:1].lower() + description[1:]


def _assembled(paragraphs: list[str]) -> str:
    return '"""' + f"\n\n{_INDENT}".join(paragraphs) + f'\n{_INDENT}"""'


def _told(argument: Argument) -> str:
    return _filled(f"{argument.name}: {argument.kind}. {argument.description}", hanging="    ")


def _filled(text: str, hanging: str = "") -> str:
    """The text in lines, to stand behind the indent of a method's docstring."""
    lines = fill(
        " ".join(text.split()).replace("\\", "\\\\"),
        _WIDTH,
        initial_indent=_INDENT,
        subsequent_indent=_INDENT + hanging,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return lines.lstrip()
