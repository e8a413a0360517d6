"""The application: every handler, and what becomes of every exception."""

from collections.abc import Sequence
from typing import Any, cast

from litestar import Litestar
from litestar.exceptions import HTTPException
from litestar.types import ExceptionHandler

from footvalve.answers.endpoints import ENDPOINTS, Endpoint
from footvalve.web.allowed_methods import options_handler
from footvalve.web.batch_handler import batch_handler
from footvalve.web.endpoint_handlers import endpoint_handler
from footvalve.web.problems import problem_reply
from footvalve.web.service_handlers import service_handlers
from footvalve.web.settings import Settings
from footvalve.web.table_handlers import table_handlers


def create_app(settings: Settings | None = None, endpoints: Sequence[Endpoint] = ENDPOINTS) -> Litestar:
    """The service, set by the environment where no settings are given. Raises BadSetting."""
    settings = settings or Settings.from_environment()
    handlers = [
        *(endpoint_handler(endpoint, settings.body_limit_bytes) for endpoint in endpoints),
        batch_handler(endpoints, settings),
        *table_handlers(),
        *service_handlers(endpoints),
    ]
    to_problem = cast("ExceptionHandler[Any]", problem_reply)  # a Reply stands in for Litestar's Response
    return Litestar(
        [*map(options_handler, handlers), *handlers],  # OPTIONS first, or Litestar puts in its own
        exception_handlers={HTTPException: to_problem, 500: to_problem},
        openapi_config=None,
        logging_config=None,
        debug=False,
        pdb_on_exception=False,
    )
