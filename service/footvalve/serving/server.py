"""The server of one process: it takes connections, looks after them, and ends without losing a request."""

import asyncio
import gc
import logging
import signal
import socket
import time
from typing import Any, Final

from uvicorn.config import Config

from footvalve.serving.caller_connection import CallerConnection
from footvalve.serving.callers import SWEEP_S, Callers
from footvalve.serving.date_header import date_header
from footvalve.serving.listener import BACKLOG, let_nobody_knock, waiting
from footvalve.serving.orders import READY, WISH, Line, Order, hurried, order_of
from footvalve.web.service_handlers import IS_CLOSING_DOWN
from footvalve.web.settings import Settings

_HANDSHAKE_S: Final = 0.5
"""How long connections that are being made when the listening ends are waited for."""

_GLANCE_S: Final = 0.1
"""How often is looked whether everything is finished."""

_log = logging.getLogger(__name__)


class Server:
    """One process's server on a socket that may be shared with others."""

    def __init__(self, app: Any, settings: Settings, listening: socket.socket, keeper: Line | None = None) -> None:
        self._settings = settings
        self._listening = listening
        self._keeper = keeper
        self._callers = Callers(settings)
        self._config = Config(
            app, http=CallerConnection, ws="none", lifespan="off", proxy_headers=False, log_config=None
        )
        self._order: Order | None = None
        self._told = asyncio.Event()

    def run(self) -> None:
        """Answer until an order or a signal ends it."""
        gc.collect()
        gc.freeze()  # what is there for good is not looked through again, which would hold requests up by 24 ms
        with asyncio.Runner(loop_factory=self._config.get_loop_factory()) as runner:
            runner.run(self._serve())

    async def _serve(self) -> None:
        self._config.load()
        loop = asyncio.get_running_loop()
        self._listen_to_orders(loop)
        self._refresh()
        self._accepting = await loop.create_server(self._new_caller, sock=self._listening, backlog=BACKLOG)
        self._say(READY)
        await self._wait(None, unless=Order.LEAVE)
        self._callers.begin_closing()
        await self._stop_taking()
        await self._finish()

    def _new_caller(self) -> CallerConnection:
        callers = self._callers
        return CallerConnection(self._config, callers, callers.app_state, asyncio.get_running_loop())

    # Orders

    def _listen_to_orders(self, loop: asyncio.AbstractEventLoop) -> None:
        if self._keeper is None:
            for number in (signal.SIGTERM, signal.SIGINT):
                loop.add_signal_handler(number, self._hurry)
            loop.add_signal_handler(signal.SIGHUP, self._explain)
        else:
            loop.add_reader(self._keeper.fileno(), self._hear, self._keeper)
            loop.add_signal_handler(signal.SIGTERM, self._say, WISH)

    def _hurry(self) -> None:
        """The first signal drains, and each further one leaves more out."""
        self._obey(hurried(self._order))

    def _explain(self) -> None:
        _log.warning("there is one process only: SIGHUP renews processes one by one where --workers is 2 or more")

    def _hear(self, keeper: Line) -> None:
        words = keeper.hear()
        if words is None:
            asyncio.get_running_loop().remove_reader(keeper.fileno())
        order = order_of(words)
        if order:
            self._obey(order)

    def _say(self, words: bytes) -> None:
        if self._keeper is not None:
            self._keeper.say(words)

    def _obey(self, order: Order) -> None:
        self._order = max(self._order or order, order)
        if self._order >= Order.DRAIN:
            self._callers.app_state[IS_CLOSING_DOWN] = True
        self._told.set()

    def _is_told(self, order: Order) -> bool:
        return self._order is not None and self._order >= order

    # Time

    async def _wait(self, seconds: float | None, unless: Order) -> None:
        """Go on for a time, or without end, until an order as great as this one has come."""
        end = time.monotonic() + seconds if seconds is not None else None
        while not self._is_told(unless):
            left = end - time.monotonic() if end is not None else SWEEP_S
            if left <= 0:
                return
            self._told.clear()
            await _until(self._told, min(left, SWEEP_S))
            self._refresh()

    def _refresh(self) -> None:
        self._callers.default_headers = [date_header()]
        self._callers.sweep()

    # The end

    async def _stop_taking(self) -> None:
        if not self._is_told(Order.DRAIN):
            self._accepting.close()  # others take what waits
            await self._wait(self._settings.drain_seconds, unless=Order.STOP)
            return
        await self._wait(self._settings.drain_seconds, unless=Order.STOP)
        let_nobody_knock(self._listening)
        await self._wait(min(_HANDSHAKE_S, self._settings.drain_seconds), unless=Order.STOP)
        await self._take_who_waits()
        self._accepting.close()

    async def _take_who_waits(self) -> None:
        loop = asyncio.get_running_loop()
        for connection in waiting(self._listening):
            await loop.connect_accepted_socket(self._new_caller, connection)

    async def _finish(self) -> None:
        callers = self._callers
        end = time.monotonic() + self._settings.stop_seconds
        while not callers.are_gone() and time.monotonic() < end and not self._is_told(Order.QUIT):
            callers.close_idle()
            await self._wait(_GLANCE_S, unless=Order.QUIT)
        unfinished = callers.break_off()
        if unfinished:
            _log.warning("the time to end is over: %d requests were not finished", unfinished)
            await asyncio.sleep(_GLANCE_S)
        callers.hang_up()
        await asyncio.sleep(0)
        await _cancelled(callers.tasks)


async def _until(event: asyncio.Event, seconds: float) -> None:
    try:
        await asyncio.wait_for(event.wait(), seconds)
    except TimeoutError:
        return


async def _cancelled(tasks: set[asyncio.Task[None]]) -> None:
    for task in list(tasks):
        task.cancel()
    await asyncio.gather(*tasks, return_exceptions=True)
