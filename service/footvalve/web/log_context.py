"""The request that is being answered, and what becomes of it, for whoever logs or counts."""

from contextvars import ContextVar
from typing import Final, NamedTuple

from litestar.types import Scope

CURRENT: ContextVar[Scope | None] = ContextVar("CURRENT", default=None)
"""The scope of the request that this task, or this thread, works on."""

_PLACE: Final = "problem"


class NotedProblem(NamedTuple):
    """A kind of problem, and the status that it comes with."""

    slug: str
    status: int


def note_problem(scope: Scope, slug: str, status: int) -> None:
    """A request is answered by this kind of problem. The first that is said is what the caller hears."""
    scope["state"].setdefault(_PLACE, NotedProblem(slug, status))


def noted_problem(scope: Scope) -> NotedProblem | None:
    """The problem that answers a request; None where an answer does."""
    noted: NotedProblem | None = scope["state"].get(_PLACE)
    return noted
