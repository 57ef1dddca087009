"""Takes updates by webhook: stored first, confirmed by the answer. Also a page of health."""

import hmac
import json
import logging
from collections.abc import Awaitable, Callable
from typing import Any

from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets, bind_unix_socket
from tornado.web import Application, RequestHandler

log = logging.getLogger(__name__)
PATH = "/telegram"
MAX_BODY = 1 << 20
SECRET_HEADER = "X-Telegram-Bot-Api-Secret-Token"  # noqa: S105

Receive = Callable[[list[Any]], Awaitable[None]]
Health = Callable[[], Awaitable[dict[str, Any]]]


class Hook(RequestHandler):
    """One update a request."""

    def initialize(self, secret: str, receive: Receive) -> None:
        """Take what the application was made with."""
        self._secret, self._receive = secret, receive

    async def post(self) -> None:
        """Answer 200 once the update is stored; 503 asks the platform to send it again."""
        given = self.request.headers.get(SECRET_HEADER, "")
        if not hmac.compare_digest(given.encode(), self._secret.encode()):
            self.set_status(403)
            return
        try:
            update = json.loads(self.request.body)
        except ValueError:
            self.set_status(400)
            return
        try:
            await self._receive([update])
        except Exception:
            log.exception("update not stored")
            self.set_status(503)


class Page(RequestHandler):
    """The state of the bot for a proxy or a supervisor."""

    def initialize(self, health: Health) -> None:
        """Take what the application was made with."""
        self._health = health

    async def get(self) -> None:
        """Answer 200 where all is well, 503 where it is not."""
        state = await self._health()
        self.set_status(200 if state["healthy"] else 503)
        self.write(state)


def serve(listen: str, secret: str, receive: Receive, health: Health) -> HTTPServer:
    """A server that listens at ``address:port`` or ``unix:/path``, on the running loop."""
    application = Application(
        [
            (PATH, Hook, {"secret": secret, "receive": receive}),
            ("/health", Page, {"health": health}),
        ],
        log_function=lambda handler: None,
    )
    server = HTTPServer(application, max_body_size=MAX_BODY, max_buffer_size=2 * MAX_BODY)
    if listen.startswith("unix:"):
        server.add_socket(bind_unix_socket(listen.removeprefix("unix:"), mode=0o660))
    else:
        address, _, port = listen.rpartition(":")
        server.add_sockets(bind_sockets(int(port), address.strip("[]") or "127.0.0.1"))
    return server
