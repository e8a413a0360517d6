"""What the command prints of an answer: the verdict first, then why, and what to watch."""

from collections.abc import Iterable, Iterator

from footvalve_client._generated.answers import Lever, SitePlanAnswer, SuctionFeasibilityAnswer
from footvalve_client._outline import chance_told, notices, quantity_told
from footvalve_client.check.key_path import key_path
from footvalve_client.check.lines import Line, facts, heading, items
from footvalve_client.check.question import Question

Answer = SuctionFeasibilityAnswer | SitePlanAnswer


def report(asked: Question, answer: Answer, width: int) -> Iterator[Line]:
    """The lines, none of them wider than so many letters."""
    if asked.title:
        yield Line(asked.title, "heading")
    yield Line(answer.verdict.upper(), answer.verdict)
    suction = answer if isinstance(answer, SuctionFeasibilityAnswer) else answer.suction_feasibility
    if suction is not None:
        yield from facts(_suction(suction), width)
    if isinstance(answer, SitePlanAnswer):
        yield from _section("In short", answer.summary, width)
    yield from _section("Why", answer.reasons, width)
    yield from _section("What would change it", map(_lever, answer.levers or ()), width)
    if isinstance(answer, SitePlanAnswer):
        yield from _section("To do", answer.to_do, width)
    elif limits := _limits(answer):
        yield from heading("How far each may go, with all else as it is")
        yield from facts(limits, width)
    yield from _notices(asked, answer, width)


def _suction(answer: SuctionFeasibilityAnswer) -> list[tuple[str, str]]:
    tightest, priming = answer.tightest, answer.priming
    time = f", at least {quantity_told(priming.time)}" if priming.time else ""
    return [
        ("margin", quantity_told(answer.margin)),
        (
            "chance",
            "" if answer.chance_feasible is None else f"{chance_told(answer.chance_feasible)} that it is feasible",
        ),
        ("NPSH available", quantity_told(answer.npsh_available)),
        ("NPSH required", quantity_told(answer.npsh_required)),
        ("pumping depth", quantity_told(answer.pumping_depth)),
        ("static lift", quantity_told(answer.static_lift)),
        ("losses", quantity_told(answer.losses)),
        ("acceleration head", quantity_told(answer.acceleration_head) if answer.acceleration_head.value else ""),
        ("tightest place", f"{tightest.name}, {quantity_told(tightest.above_vapour)} before the water boils"),
        ("under vacuum", ", ".join(part.name for part in answer.air_entry)),
        ("air to draw out", f"{quantity_told(priming.line_volume)}{time}"),
    ]


def _lever(lever: Lever) -> str:
    return f"{lever.change} Margin then: {quantity_told(lever.margin)}, {lever.verdict}."


def _limits(answer: SuctionFeasibilityAnswer) -> list[tuple[str, str]]:
    ends = answer.limits_at_range_end or ()
    found = [
        (name.replace("_", " "), f"{quantity_told(limit)}{', the end of its range' if name in ends else ''}")
        for name in ("greatest_flow", "greatest_depth_to_water", "greatest_altitude")
        if (limit := getattr(answer, name)) is not None
    ]
    size = answer.smallest_size
    return (
        found
        if size is None
        else [*found, ("smallest size", f"{size.nominal} in, a bore of {quantity_told(size.bore)}")]
    )


def _section(title: str, texts: Iterable[str], width: int) -> Iterator[Line]:
    found = [("", text) for text in texts]
    if found:
        yield from heading(title)
        yield from items(found, width)


def _notices(asked: Question, answer: Answer, width: int) -> Iterator[Line]:
    doubts = [("", f"{key_path(found.pointer, asked.site)}: {found.detail}") for found in answer.warnings]
    cautions = [(notice.severity, notice.text) for notice in notices(answer) if notice.severity != "doubt"]
    for title, found in (("Doubts", doubts), ("Watch out", cautions)):
        if found:
            yield from heading(title)
            yield from items(found, width)
