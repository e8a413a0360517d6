"""An answer that leaves piece by piece while it is made: its first bytes come early, and the whole is never kept."""

import asyncio
from collections.abc import AsyncGenerator
from contextlib import aclosing

from litestar.types import Receive, Scope, Send

from footvalve.web.reply import Headers, start_of_response


class StreamedReply:
    """An answer of pieces with the status 200, to be sent once."""

    __slots__ = ("_headers", "_pieces")

    def __init__(self, pieces: AsyncGenerator[bytes, None], media_type: bytes, headers: Headers = ()) -> None:
        self._pieces = pieces
        self._headers = ((b"content-type", media_type), *headers)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Send it to the request that the scope tells of. Once the caller has gone, no more of it is made."""
        gone = asyncio.ensure_future(receive())  # the body has been read: nothing but a disconnect can come
        try:
            await send(start_of_response(scope, 200, self._headers))
            async with aclosing(self._pieces) as pieces:
                async for piece in pieces:
                    if gone.done():
                        return
                    await send({"type": "http.response.body", "body": piece, "more_body": True})
            await send({"type": "http.response.body", "body": b"", "more_body": False})
        finally:
            gone.cancel()
