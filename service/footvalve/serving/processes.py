"""What is set up around the processes of the service: once for the whole, and once in each worker."""

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager

from footvalve.web.log_start import logging_lines
from footvalve.web.metrics_start import counting, telling_metrics
from footvalve.web.settings import Settings
from footvalve.web.tracing import check_tracing, tracing


@contextmanager
def around_service(settings: Settings, workers: int) -> Iterator[None]:
    """In the first process, from before any other is started until all have ended. Raises BadSetting.

    With one worker that process answers itself. What is put into `os.environ` here is there in every worker.
    """
    with ExitStack() as until_the_end:
        until_the_end.enter_context(logging_lines(settings))
        until_the_end.enter_context(telling_metrics(settings, workers))
        if workers > 1:
            check_tracing(settings)
        else:
            until_the_end.enter_context(tracing(settings))
        yield


@contextmanager
def around_worker(settings: Settings) -> Iterator[None]:
    """In each of several workers, from before its application is made until it has ended."""
    with ExitStack() as until_the_end:
        until_the_end.enter_context(logging_lines(settings))
        until_the_end.enter_context(counting(settings))
        until_the_end.enter_context(tracing(settings))
        yield
