"""A layer between the server and the routing: what every request passes, and every answer on its way back."""

from collections.abc import Callable

from litestar.types import ASGIApp, Receive, Scope, Send

from footvalve.web.problems import problem_answer

Layer = Callable[[ASGIApp], ASGIApp]
"""From the application within to the application with the layer around it. It is called for HTTP alone."""


async def decline(error: Exception, scope: Scope, receive: Receive, send: Send) -> None:
    """Answer a request that a layer turns away."""
    await problem_answer(scope, error)(scope, receive, send)
