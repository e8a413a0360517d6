"""A bar on the standard error that shows how far `map` has come."""

from collections.abc import Callable, Generator
from contextlib import AbstractContextManager, contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress


def progress_bar(told: str, total: int | None) -> AbstractContextManager[Callable[[], object]]:
    """A bar that moves at every call of what its context gives. Raises ImportError without rich."""
    try:
        from rich.console import Console  # noqa: PLC0415
        from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn  # noqa: PLC0415
    except ImportError:
        raise ImportError("progress=True needs rich: pip install 'footvalve-client[terminal]'") from None
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TimeElapsedColumn())
    return _shown(Progress(*columns, console=Console(stderr=True)), told, total)


@contextmanager
def _shown(progress: "Progress", told: str, total: int | None) -> Generator[Callable[[], object], None, None]:
    with progress:
        task = progress.add_task(told, total=total)
        yield lambda: progress.advance(task)
