"""The application: every handler, and what becomes of every exception."""

from collections.abc import Sequence
from typing import Any, cast

from litestar import Litestar
from litestar.exceptions import HTTPException
from litestar.types import ExceptionHandler, Receive, Scope, Send
from litestar.utils import normalize_path

from footvalve.answers.endpoints import ENDPOINTS, Endpoint
from footvalve.web.allowed_methods import options_handler
from footvalve.web.batch_handler import batch_handler
from footvalve.web.cross_origin import CrossOrigin
from footvalve.web.docs_handlers import docs_handlers
from footvalve.web.embed_handlers import embed_handlers
from footvalve.web.endpoint_handlers import endpoint_handler
from footvalve.web.problems import nothing_at, problem_answer, problem_reply
from footvalve.web.service_handlers import service_handlers
from footvalve.web.settings import Settings
from footvalve.web.table_handlers import table_handlers


class Service(Litestar):
    """Litestar by itself would take /v1//friction/ for /v1/friction; here a path has one spelling."""

    cross_origin = CrossOrigin()

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """Answer one request, or take part in the server's start and end."""
        if scope["type"] != "http":
            await super().__call__(scope, receive, send)
        elif normalize_path(scope["path"]) != scope["path"]:
            await self._answer_nowhere(scope, receive, self.cross_origin.opening(scope, send))
        else:
            await super().__call__(scope, receive, self.cross_origin.opening(scope, send))

    async def _answer_nowhere(self, scope: Scope, receive: Receive, send: Send) -> None:
        scope.setdefault("state", {})
        reply = problem_answer(scope, nothing_at(scope["path"], self.routes))
        await reply(scope, receive, send)


def create_app(settings: Settings | None = None, endpoints: Sequence[Endpoint] = ENDPOINTS) -> Service:
    """The service, set by the environment where no settings are given. Raises BadSetting."""
    settings = settings or Settings.from_environment()
    handlers = [
        *(endpoint_handler(endpoint, settings.body_limit_bytes) for endpoint in endpoints),
        batch_handler(endpoints, settings),
        *table_handlers(),
        *service_handlers(endpoints),
        *embed_handlers(settings.public_origin),
        *docs_handlers(),
    ]
    to_problem = cast("ExceptionHandler[Any]", problem_reply)  # a Reply stands in for Litestar's Response
    service = Service(
        [*map(options_handler, handlers), *handlers],  # OPTIONS first, or Litestar puts in its own
        exception_handlers={HTTPException: to_problem, 500: to_problem},
        openapi_config=None,
        logging_config=None,
        debug=False,
        pdb_on_exception=False,
    )
    service.cross_origin = CrossOrigin(settings.allowed_origins)
    return service
