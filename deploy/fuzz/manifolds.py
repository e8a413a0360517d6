"""Target: arrangements of any shape, through the manifold's graph."""

from collections import Counter
from typing import Any, Final, get_args

import atheris
from target import fuzz

with atheris.instrument_imports(include=["footvalve"]):
    import msgspec
    from rules import told_well

    from footvalve.answers.endpoints import ENDPOINT
    from footvalve.contract.manifold_check import ManifoldCheckAnswer, ManifoldElement
    from footvalve.web.answering import answering

ANSWER = answering(ENDPOINT["manifold-check"])
KINDS: Final = sorted(kind.__struct_config__.tag for kind in get_args(ManifoldElement))
HANGING: Final = {"tap", "tank", "gauge", "relief"}
GRAVITY: Final = {"danger": 0, "warning": 1, "note": 2}
VERDICT: Final = {0: "wrong", 1: "doubtful", 2: "right"}
LISTS: Final = (("running", "pump"), ("closed", "shutoff"), ("open", "tap"))

Body = dict[str, Any]


def check(raw: bytes) -> None:
    """Any arrangement is answered, or refused with its faults; and the answer does not contradict itself."""
    body = arrangement(atheris.FuzzedDataProvider(raw))
    told = msgspec.json.encode(body)
    answer = None
    try:
        answer = msgspec.json.decode(ANSWER(told), type=ManifoldCheckAnswer)
    except Exception as error:
        told_well(error, told)
    assert (answer is not None) == is_sound(body), "sound names are refused, or others taken"
    if answer is not None:
        agrees(body, answer)


def arrangement(data: atheris.FuzzedDataProvider) -> Body:
    """Up to 40 elements between up to 16 nodes, now and then with a name that stands twice or leads nowhere."""
    nodes = [f"n{number}" for number in range(data.ConsumeIntInRange(2, 16))]
    elements = [_element(f"e{number}", nodes, data) for number in range(data.ConsumeIntInRange(1, 40))]
    body = {"nodes": nodes, "elements": elements, "source": nodes[0], "house": nodes[-1]}
    body["modes"] = [_mode(f"m{number}", elements, data) for number in range(data.ConsumeIntInRange(1, 4))]
    if data.ConsumeIntInRange(0, 7) == 0:
        target = data.PickValueInList([body, *elements])
        target[data.PickValueInList([key for key in target if isinstance(target[key], str) and key != "kind"])] = "e0"
    return body


def _element(name: str, nodes: list[str], data: atheris.FuzzedDataProvider) -> Body:
    kind = data.PickValueInList(KINDS)
    start = data.ConsumeIntInRange(0, len(nodes) - 1)
    element: Body = {"id": name, "kind": kind, "from": nodes[start]}
    if kind not in HANGING or data.ConsumeBool():
        element["to"] = nodes[(start + data.ConsumeIntInRange(1, len(nodes) - 1)) % len(nodes)]
    if kind == "pump":
        element["blocks_when_idle"] = data.ConsumeBool()
    return element


def _mode(name: str, elements: list[Body], data: atheris.FuzzedDataProvider) -> Body:
    chosen = {field: [e["id"] for e in elements if e["kind"] == kind and data.ConsumeBool()] for field, kind in LISTS}
    return {"name": name, **chosen, "running": chosen["running"][:20]}


def is_sound(body: Body) -> bool:
    """Whether every name stands once and leads somewhere."""
    nodes, elements = set(body["nodes"]), body["elements"]
    ends = [end for e in elements for end in (e["from"], e.get("to", e["from"]))]
    return (
        {body["source"], body["house"], *ends} <= nodes
        and body["source"] != body["house"]
        and all(e["from"] != e.get("to") for e in elements)
        and max(Counter(e["id"] for e in elements).values()) == 1
        and all(
            {e["id"]: e["kind"] for e in elements}.get(i) == k for m in body["modes"] for f, k in LISTS for i in m[f]
        )
    )


def agrees(body: Body, answer: ManifoldCheckAnswer) -> None:
    """The answer's parts against the arrangement and against each other."""
    elements = {element["id"]: element for element in body["elements"]}
    gravities = [GRAVITY[finding.severity] for finding in answer.findings]
    assert gravities == sorted(gravities), "the gravest finding does not come first"
    assert answer.verdict == VERDICT[min(gravities, default=2)], f"{answer.verdict} with {gravities}"
    assert [pump.pump for pump in answer.isolates] == [i for i, e in elements.items() if e["kind"] == "pump"]
    assert all(elements[valve]["kind"] == "shutoff" for pump in answer.isolates for valve in pump.by)
    assert all(set(finding.elements) <= elements.keys() for finding in answer.findings)
    assert [mode.name for mode in answer.modes] == [mode["name"] for mode in body["modes"]]
    for mode, outcome in zip(body["modes"], answer.modes, strict=True):
        running, opened = set(mode["running"]), set(mode["open"])
        assert outcome.delivers == bool(outcome.path)
        assert set(outcome.deadheads) | set(outcome.runs_dry) <= running
        assert set(outcome.draws_air_at) <= opened
        if outcome.path:
            passed = [elements[name] for name in outcome.path]
            assert running & set(outcome.path), "delivers without a pump"
            assert walk(passed, body["source"], mode) == body["house"], f"{outcome.path} is no way to the house"
        if outcome.recirculates:
            first = elements[outcome.recirculates[0]]
            assert first["id"] in running, "a loop without its pump"
            assert walk([elements[i] for i in outcome.recirculates], first["from"], mode) == first["from"]


def walk(way: list[Body], node: str, mode: Body) -> str | None:
    """Where one comes to from a node through these elements; None where one of them lets no water pass."""
    for element in way:
        ends = [(element["from"], element.get("to"))]
        forward_only = element["kind"] in {"check", "tap"} or element["id"] in mode["running"]
        if not forward_only:
            ends.append((element.get("to"), element["from"]))
        shut = element["id"] in mode["closed"] or (element["kind"] == "tap" and element["id"] not in mode["open"])
        blocked = element.get("blocks_when_idle") and element["id"] not in mode["running"]
        reached = [end for start, end in ends if start == node]
        if shut or blocked or element["kind"] == "relief" or not reached or reached[0] is None:
            return None
        node = reached[0]
    return node


if __name__ == "__main__":
    fuzz(check, (bytes([place]) * 200 for place in range(0, 256, 5)))
