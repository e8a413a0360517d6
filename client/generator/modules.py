"""The generated modules: what stands in each, formatted."""

import re
import subprocess
import sys
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined

from generator.operations import Method, mapped_docstring, methods, selected_docstring
from generator.quantities import Conversions
from generator.structs import ANSWERS, REQUESTS, structs
from generator.vocabulary import ENDPOINT_NAME, Vocabulary
from generator.wording import one_of

_PROJECT = Path(__file__).parents[2]

_HEADER = "# Generated from openapi/footvalve.json by client/generate.py, and not to be edited by hand.\n"
_LONG_LINES = "# ruff: noqa: E501\n"
_WIDTH = 120

_MANY_ARGUMENTS = "# ruff: noqa: PLR0913\n"
"""A method has the arguments that its request has fields."""

_FLAVOURS = (
    {
        "name": "Operations",
        "description": "The operations of a client that blocks.",
        "prefix": "",
        "wait": "",
        "bodies": "Bodies",
        "results": "Results",
        "mapped": "mapped",
    },
    {
        "name": "AsyncOperations",
        "description": "The operations of a client that is awaited.",
        "prefix": "async ",
        "wait": "await ",
        "bodies": "AwaitedBodies",
        "results": "AwaitedResults",
        "mapped": "mapped_awaited",
    },
)

_templates = Environment(loader=PackageLoader("generator"), undefined=StrictUndefined)
_templates.filters["one_of"] = one_of
_templates.filters["quoted"] = lambda word: f'"{word}"' if isinstance(word, str) else str(word)
_templates.filters["literal"] = ascii
_templates.filters["selected_docstring"] = selected_docstring
_templates.filters["mapped_docstring"] = mapped_docstring


def modules(vocabulary: Vocabulary) -> dict[str, str]:
    """The source text of each generated module, by its file name."""
    quantities = list(vocabulary.quantities.values())
    lists = sorted(set(vocabulary.lists.values()), key=lambda found: found.name)
    texts = {
        "__init__": '"""What the contract document makes of the client."""\n',
        "closed_lists": _rendered("closed_lists", lists=lists),
        "conversions": _rendered("conversions", quantities=quantities, conversions=Conversions()),
        "spellings": _rendered("spellings", quantities=quantities),
        "quantities": _rendered("quantities", quantities=quantities),
        "requests": structs(vocabulary, vocabulary.request_names, REQUESTS),
        "answers": structs(vocabulary, vocabulary.answer_names, ANSWERS),
        "operations": _operations(vocabulary),
        "endpoints": _endpoints("endpoints", vocabulary),
        "examples": _endpoints("examples", vocabulary, ENDPOINT_NAME),
        "exports": _exports(vocabulary),
    }
    return {f"{name}.py": _formatted(text) for name, text in texts.items()}


def _operations(vocabulary: Vocabulary) -> str:
    made = methods(vocabulary)
    selections = vocabulary.contract.selections
    used = {word for method in made for word in _names_in(method)}
    used |= {word for found in selections for word in (found.words_name, *found.answers.values())}
    return _MANY_ARGUMENTS + _rendered(
        "operations",
        methods=made,
        selections=selections,
        batched=vocabulary.contract.batched,
        endpoint_name=ENDPOINT_NAME,
        flavours=_FLAVOURS,
        imports=_imports({*used, ENDPOINT_NAME}, vocabulary),
    )


def _endpoints(template: str, vocabulary: Vocabulary, *more: str) -> str:
    """What holds the Structs of each endpoint that a batch may ask, and more names."""
    batched = vocabulary.contract.batched
    used = {name for operation in batched for name in (operation.request, operation.answer) if name}
    return _rendered(
        template, batched=batched, endpoint_name=ENDPOINT_NAME, imports=_imports({*used, *more}, vocabulary)
    )


def _imports(used: set[str], vocabulary: Vocabulary) -> dict[str, list[str]]:
    """What is to be imported of the generated modules, by module."""
    found = {module: sorted(used & set(names)) for module, names in _names(vocabulary).items()}
    return {module: names for module, names in found.items() if names}


def _names_in(method: Method) -> set[str]:
    types = " ".join(argument.type for argument in method.arguments)
    return {*re.findall(r"\w+", types), method.operation.answer, method.operation.request or ""}


def _exports(vocabulary: Vocabulary) -> str:
    names = _names(vocabulary)
    return _rendered("exports", imports=names, everything=sorted(name for found in names.values() for name in found))


def _names(vocabulary: Vocabulary) -> dict[str, list[str]]:
    """The public names of each generated module."""
    quantities = list(vocabulary.quantities)
    return {
        "answers": vocabulary.answer_names,
        "closed_lists": vocabulary.list_names,
        "quantities": sorted([*quantities, *(f"{name}Like" for name in quantities)]),
        "requests": vocabulary.request_names,
    }


def _rendered(template: str, **given: Any) -> str:
    return _templates.get_template(f"{template}.py.jinja").render(given)


def _formatted(text: str) -> str:
    """As the project's checks want it, so that a formatter run over everything changes no byte."""
    ours = 'lint.isort.known-first-party = ["footvalve_client"]'
    for command in (["check", "--fix-only", "--select", "I", "--config", ours], ["format"]):
        ruff = [sys.executable, "-m", "ruff", *command, "--quiet", "--stdin-filename", "client/generated.py", "-"]
        text = subprocess.run(ruff, input=text, capture_output=True, text=True, check=True, cwd=_PROJECT).stdout
    long = any(len(line) > _WIDTH for line in text.splitlines())
    return _HEADER + (_LONG_LINES if long else "") + text
