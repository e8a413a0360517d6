"""The worked examples of the contract document, as the offline transport of the client answers from them."""

import json
from pathlib import Path
from typing import Any

from generator.contract import Schema

_JSON = "application/json"


def recordings(contract: Path) -> dict[str, str]:
    """The text of each file of recordings by its name: one file for each last step of a path, one line an example."""
    document = json.loads(contract.read_text(encoding="utf-8"))
    calls = ((path, method, call) for path, item in document["paths"].items() for method, call in item.items())
    recorded = ((path, _recorded(path, method, call)) for path, method, call in calls)
    return {f"{_endpoint(path)}.json": _lines(found) for path, found in recorded if found}


def _endpoint(path: str) -> str:
    """The last step of a path that is no parameter."""
    return [step for step in path.split("/") if not step.startswith("{")][-1]


def _recorded(path: str, method: str, call: Schema) -> list[Any]:
    """Each example that has an answer. What stands in a path's parameter is the example's name."""
    asked, answered = (_examples(message) for message in (call.get("requestBody", {}), call["responses"]["200"]))
    return [
        {
            "name": name,
            "summary": example["summary"],
            "method": method.upper(),
            "path": _with_parameter(path, name),
            **({"request": asked[name]["value"]} if name in asked else {}),
            "answer": example["value"],
        }
        for name, example in answered.items()
    ]


def _examples(message: Schema) -> dict[str, Any]:
    found: dict[str, Any] = message.get("content", {}).get(_JSON, {}).get("examples", {})
    return found


def _with_parameter(path: str, name: str) -> str:
    return "/".join(name if step.startswith("{") else step for step in path.split("/"))


def _lines(recorded: list[Any]) -> str:
    lines = (json.dumps(example, separators=(",", ":"), ensure_ascii=False) for example in recorded)
    return "[\n" + ",\n".join(lines) + "\n]\n"
