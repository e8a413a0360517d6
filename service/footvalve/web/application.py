"""The application: every handler, and what becomes of every exception."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any, cast

from litestar import Litestar
from litestar.exceptions import HTTPException
from litestar.types import ASGIApp, ExceptionHandler
from litestar.utils import normalize_path

from footvalve.answers.endpoints import ENDPOINTS, Endpoint
from footvalve.web.access_layer import Access
from footvalve.web.allowed_methods import options_handler
from footvalve.web.batch_handler import batch_handler
from footvalve.web.body_memory import BodyMemory
from footvalve.web.concurrency import Concurrency
from footvalve.web.cross_origin import CrossOrigin
from footvalve.web.docs_handlers import docs_handlers
from footvalve.web.embed_handlers import embed_handlers
from footvalve.web.endpoint_handlers import Answering, endpoint_answering, endpoint_handler, path_of
from footvalve.web.layer import Layer
from footvalve.web.observation import Observation
from footvalve.web.pace import Pace
from footvalve.web.problems import nothing_at, problem_answer, problem_reply
from footvalve.web.reply import Reply
from footvalve.web.service_handlers import service_handlers
from footvalve.web.settings import Settings
from footvalve.web.table_handlers import table_handlers
from footvalve.web.tracing import tracing_layer


class Service(Litestar):
    """Litestar by itself would take /v1//friction/ for /v1/friction; here a path has one spelling."""

    entrance: ASGIApp | None = None
    """The outermost layer that a request passes; None for none before the routing."""

    answers: Mapping[str, Answering] = MappingProxyType({})
    """What answers a POST to a path at once: the routing, which finds the same, takes a tenth of a light answer's
    time."""

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """Answer one request, or take part in the server's start and end."""
        if scope["type"] != "http":
            await super().__call__(scope, receive, send)
        else:
            scope.setdefault("state", {})
            await (self.entrance or self.route)(scope, receive, send)

    async def route(self, scope: Any, receive: Any, send: Any) -> None:
        """Answer one request that has passed every layer."""
        answer = self.answers.get(scope["path"]) if scope["method"] == "POST" else None
        if answer is not None:
            reply = await _answered(answer, scope, receive)
            await reply(scope, receive, send)
        elif normalize_path(scope["path"]) != scope["path"]:
            reply = problem_answer(scope, nothing_at(scope["path"], self.routes))
            await reply(scope, receive, send)
        else:
            await super().__call__(scope, receive, send)


async def _answered(answer: Answering, scope: Any, receive: Any) -> Reply:
    try:
        return await answer(scope, receive)
    except Exception as error:  # the table of problems has a row for every one
        return problem_answer(scope, error)


def create_app(settings: Settings | None = None, endpoints: Sequence[Endpoint] = ENDPOINTS) -> Service:
    """The service, set by the environment where no settings are given. Raises BadSetting."""
    settings = settings or Settings.from_environment()
    access = Access(settings, [endpoint.name for endpoint in endpoints])
    pace = Pace(places=max(1, settings.concurrency_limit // 2), seconds=settings.queue_seconds)
    answers = [(endpoint, endpoint_answering(endpoint, settings, pace)) for endpoint in endpoints]
    handlers = [
        *(endpoint_handler(endpoint, answer) for endpoint, answer in answers),
        batch_handler(endpoints, settings, pace),
        *table_handlers(),
        *service_handlers(endpoints, access),
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
    service.answers = {path_of(endpoint): answer for endpoint, answer in answers}
    paths = [route.path for route in service.routes]
    told = [Observation(settings, paths).layer, tracing_layer(paths)]
    service.entrance = _behind(service.route, [*told, *_layers(settings, access)])
    return service


def _layers(settings: Settings, access: Access) -> list[Layer]:
    """What a request passes on its way to the routing, and its answer on the way back; the outermost first."""
    return [
        CrossOrigin(settings.allowed_origins).layer,
        Concurrency(settings.concurrency_limit).layer,
        access.layer,
        BodyMemory(settings.body_memory_bytes).layer,
    ]


def _behind(app: ASGIApp, layers: Sequence[Layer]) -> ASGIApp:
    for layer in reversed(layers):
        app = layer(app)
    return app
