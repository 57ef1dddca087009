"""A stand-in for the chat platform: its queue of updates, its methods, its limits, its faults."""

import asyncio
import contextlib
import json
import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from telegram import Chat, Location, Message, MessageEntity, User
from telegram.constants import FileSizeLimit, MessageEntityType
from tornado.httpclient import AsyncHTTPClient, HTTPClientError, HTTPRequest
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from tornado.web import Application, RequestHandler

from tests.support.platform_rules import Refusal, bad, check

TOKEN = "4200:stand-in_for-the_tests"
ME = User(id=4200, is_bot=True, first_name="Caddie", username="pocket_test_bot")
FAULTS = ("429", "500", "cut", "garbage")
PRESS_SECONDS = 150.0


@dataclass
class Sent:
    """A request that was carried out."""

    method: str
    fields: dict[str, Any]
    at: float
    message_id: int | None = None

    @property
    def chat(self) -> int:
        return int(self.fields.get("chat_id", 0))

    @property
    def text(self) -> str:
        return str(self.fields.get("text", ""))


@dataclass
class Platform:
    """`fault` names for each request one of FAULTS, or None for an honest answer.

    A request refused for a reason of the caller's own is kept in `refused`; one refused for
    coming too fast is counted in `floods`.
    """

    overall: int = 30  # sends a second
    chat_burst: int = 5  # sends in 3 s to one chat
    group_minute: int = 20
    fault: Callable[[str], str | None] = lambda method: None
    sent: list[Sent] = field(default_factory=list)
    refused: list[tuple[str, str]] = field(default_factory=list)
    floods: int = 0
    requests: list[tuple[str, float]] = field(default_factory=list)
    blocked: set[int] = field(default_factory=set)
    migrated: dict[int, int] = field(default_factory=dict)
    confirmed: int = 0
    port: int = 0
    token: str = TOKEN
    hook: dict[str, Any] = field(default_factory=dict)
    pending: dict[int, dict[str, Any]] = field(default_factory=dict)
    commands: dict[str, Any] = field(default_factory=dict)
    _ids: Iterator[int] = field(default_factory=lambda: iter(range(1000, 10**9)))
    _message_ids: dict[int, int] = field(default_factory=lambda: defaultdict(lambda: 0))
    _presses: dict[str, float] = field(default_factory=dict)
    _recent: dict[int, list[float]] = field(default_factory=lambda: defaultdict(list))
    _marked: dict[tuple[int, int], bool] = field(default_factory=dict)
    _polling: int = 0
    _offered: dict[int, asyncio.Queue[int]] = field(default_factory=dict)
    _tasks: set[asyncio.Task[None]] = field(default_factory=set)

    async def start(self, port: int = 0) -> None:
        self._news, self._arrived = asyncio.Event(), asyncio.Event()
        app = Application(
            [(r"/bot([^/]+)/(\w+)", _Method, {"platform": self})],
            log_function=lambda handler: None,
        )
        self._server = HTTPServer(app)
        sockets = bind_sockets(port, "127.0.0.1")
        self.port = sockets[0].getsockname()[1]
        self._server.add_sockets(sockets)

    async def stop(self) -> None:
        for task in list(self._tasks):
            task.cancel()
        await asyncio.gather(*self._tasks, return_exceptions=True)
        self._server.stop()
        await self._server.close_all_connections()

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def texts(self, chat: int | None = None) -> list[str]:
        """What was said, to one chat or to all."""
        said = [s for s in self.sent if s.method == "sendmessage"]
        return [s.text for s in said if chat is None or s.chat == chat]

    async def until(self, done: Callable[[], bool], seconds: float = 20.0) -> None:
        """Wait until something is so."""
        end = time.monotonic() + seconds
        while not done():
            if time.monotonic() > end:
                what = f"waited {seconds} s; sent {len(self.sent)}, pending {len(self.pending)}"
                raise AssertionError(what)
            self._arrived.clear()
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(self._arrived.wait(), 0.05)

    # what people do

    def offer(self, **body: Any) -> int:
        """Put an update into the queue; returns its number."""
        update = {"update_id": next(self._ids), **body}
        self.offer_raw(update)
        return int(update["update_id"])

    def offer_raw(self, update: dict[str, Any]) -> None:
        self.pending[update["update_id"]] = update
        self._news.set()
        if self.hook:
            self._queue(update)

    def message(
        self, text: str | None, *, user: int = 7, chat: int | None = None, name: str = "Ann",
        reply_to: int | None = None, date: datetime | None = None, **more: Any,
    ) -> dict[str, Any]:  # fmt: skip
        """A message as the platform would describe it, with its entities."""
        where = chat if chat is not None else user
        kind = Chat.PRIVATE if where > 0 else Chat.SUPERGROUP
        said = None
        if reply_to is not None:
            said = Message(reply_to, datetime.now(UTC), Chat(where, kind), from_user=ME, text="x")
        self._message_ids[where] += 1
        return Message(
            self._message_ids[where],
            date or datetime.now(UTC),
            Chat(where, kind, title="Trip" if where < 0 else None),
            from_user=User(user, name, is_bot=False),
            text=text,
            entities=entities(text or ""),
            reply_to_message=said,
            **more,
        ).to_dict()

    def say(self, text: str, **where: Any) -> dict[str, Any]:
        """Somebody writes; returns the message."""
        message = self.message(text, **where)
        self.offer(message=message)
        return message

    def edit(self, message: dict[str, Any], text: str) -> None:
        now = int(time.time())
        body = {**message, "text": text, "edit_date": now}
        self.offer(edited_message=body)

    def locate(self, **where: Any) -> None:
        place = Location(longitude=-1.25, latitude=53.5, horizontal_accuracy=9.0)
        self.offer(message=self.message(None, location=place, **where))

    def press(self, sent: Sent, data: str, *, user: int = 7) -> str:
        """Somebody presses a button under one of our messages."""
        press = f"p{next(self._ids)}"
        self._presses[press] = time.monotonic()
        chat = sent.chat
        under = Message(
            sent.message_id or 0,
            datetime.now(UTC),
            Chat(chat, Chat.PRIVATE if chat > 0 else Chat.SUPERGROUP),
            from_user=ME,
            text=sent.text,
        ).to_dict()
        query = {
            "id": press, "from": User(user, "Ann", is_bot=False).to_dict(), "message": under,
            "chat_instance": "1", "data": data,
        }  # fmt: skip
        self.offer(callback_query=query)
        return press

    def membership(self, chat: int, *, by: int, was: str, now: str) -> None:
        me = ME.to_dict()
        kind = Chat.PRIVATE if chat > 0 else Chat.SUPERGROUP
        self.offer(
            my_chat_member={
                "chat": Chat(chat, kind, title="Trip").to_dict(),
                "from": User(by, "Ann", is_bot=False).to_dict(),
                "date": int(time.time()),
                "old_chat_member": {"user": me, "status": was, "until_date": 0},
                "new_chat_member": {"user": me, "status": now, "until_date": 0},
            }
        )

    # what the bot asks

    async def carry_out(self, method: str, fields: dict[str, Any]) -> Any:
        match method:
            case "getme":
                return {**ME.to_dict(), "can_read_all_group_messages": False}
            case "getupdates":
                return await self._updates(fields)
            case "setwebhook":
                self.hook = fields
                for update in list(self.pending.values()):
                    self._queue(update)
                return True
            case "deletewebhook":
                self.hook = {}
                return True
            case "getwebhookinfo":
                return {
                    "url": self.hook.get("url", ""), "has_custom_certificate": False,
                    "pending_update_count": len(self.pending),
                }  # fmt: skip
            case "setmycommands":
                self.commands[fields.get("scope", {}).get("type", "default")] = fields["commands"]
                return True
        return self._act(method, fields)

    def _act(self, method: str, fields: dict[str, Any]) -> Any:
        now = time.monotonic()
        chat = int(fields.get("chat_id", 0))
        if chat in self.migrated:
            new = self.migrated[chat]
            text = "Bad Request: group chat was upgraded to a supergroup chat"
            raise Refusal(400, text, ours=False, migrate_to_chat_id=new)
        if chat in self.blocked:
            raise Refusal(403, "Forbidden: bot was blocked by the user", ours=False)
        message_id = None
        result: Any = True
        if method in ("sendmessage", "sendphoto", "senddocument"):
            self._flood(chat, now)
            if "message_thread_id" in fields and chat > 0:
                raise bad("message thread not found")
            self._message_ids[chat] += 1
            message_id = self._message_ids[chat]
            self._marked[chat, message_id] = "reply_markup" in fields
            kind = Chat.PRIVATE if chat > 0 else Chat.SUPERGROUP
            result = Message(
                message_id, datetime.now(UTC), Chat(chat, kind), from_user=ME,
                text=fields.get("text"),
            ).to_dict()  # fmt: skip
        elif method == "answercallbackquery":
            asked = self._presses.pop(str(fields["callback_query_id"]), None)
            if asked is None or now - asked > PRESS_SECONDS:
                raise bad("query is too old and response timeout expired or query ID is invalid")
        elif method == "editmessagereplymarkup":
            key = (chat, int(fields["message_id"]))
            if key not in self._marked:
                raise bad("message to edit not found")
            if not self._marked[key]:
                raise Refusal(400, "Bad Request: message is not modified", ours=False)
            self._marked[key] = False
        self.sent.append(Sent(method, fields, now, message_id))
        self._arrived.set()
        return result

    def _flood(self, chat: int, now: float) -> None:
        mine = self._recent[chat] = [t for t in self._recent[chat] if now - t < 60]
        every = self._recent[0] = [t for t in self._recent[0] if now - t < 1]
        crowded = len([t for t in mine if now - t < 3]) >= self.chat_burst
        if crowded or (chat < 0 and len(mine) >= self.group_minute) or len(every) >= self.overall:
            self.floods += 1
            raise Refusal(429, "Too Many Requests: retry after 3", ours=False, retry_after=3)
        mine.append(now)
        every.append(now)

    async def _updates(self, fields: dict[str, Any]) -> list[dict[str, Any]]:
        if self.hook:
            raise Refusal(409, "Conflict: can't use getUpdates method while webhook is active")
        if self._polling:
            text = "Conflict: terminated by other getUpdates request"
            raise Refusal(409, text, ours=False)
        offset = int(fields.get("offset", 0))
        for update_id in [n for n in self.pending if n < offset]:
            del self.pending[update_id]
            self.confirmed += 1
        self._polling += 1
        try:
            if not self.pending:
                self._news.clear()
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(self._news.wait(), float(fields.get("timeout", 0)))
        finally:
            self._polling -= 1
        numbers = sorted(self.pending)[: int(fields.get("limit", 100))]
        return [self.pending[n] for n in numbers]

    # delivery by webhook: one queue a chat, the next update only after a 2xx for the last

    def _queue(self, update: dict[str, Any]) -> None:
        body = next((v for k, v in update.items() if k != "update_id"), {})
        chat = body.get("chat", {}).get("id", 0) if isinstance(body, dict) else 0
        if chat not in self._offered:
            self._offered[chat] = asyncio.Queue()
            task = asyncio.create_task(self._deliver(self._offered[chat]))
            self._tasks.add(task)
        self._offered[chat].put_nowait(update["update_id"])

    async def _deliver(self, queue: asyncio.Queue[int]) -> None:
        client = AsyncHTTPClient(force_instance=True)
        while True:
            number = await queue.get()
            while number in self.pending and self.hook:
                if await self._post(client, self.pending[number]):
                    self.pending.pop(number, None)
                    self.confirmed += 1
                else:
                    await asyncio.sleep(0.1)

    async def _post(self, client: AsyncHTTPClient, update: dict[str, Any]) -> bool:
        request = HTTPRequest(
            self.hook["url"],
            method="POST",
            body=json.dumps(update),
            headers={
                "Content-Type": "application/json",
                "X-Telegram-Bot-Api-Secret-Token": str(self.hook.get("secret_token", "")),
            },
            request_timeout=20,
        )
        try:
            answer = await client.fetch(request, raise_error=False)
        except (OSError, HTTPClientError):  # a torn connection, a time-out: try again
            return False
        return 200 <= answer.code < 300


def entities(text: str) -> list[MessageEntity]:
    """The commands and mentions in a text, placed in UTF-16 units as the platform does."""
    found = []
    at = 0
    for word in text.split(" "):
        size = len(word.encode("utf-16-le")) // 2
        if word.startswith("/") and at == 0 and size > 1:
            found.append(MessageEntity(MessageEntityType.BOT_COMMAND, at, size))
        elif word.startswith("@") and size > 1:
            found.append(MessageEntity(MessageEntityType.MENTION, at, size))
        at += size + 1
    return found


class _Method(RequestHandler):
    def initialize(self, platform: Platform) -> None:
        self.platform = platform

    async def post(self, token: str, method: str) -> None:
        platform, method = self.platform, method.lower()
        platform.requests.append((method, time.monotonic()))
        match platform.fault(method):
            case "429":
                return self._refuse(
                    Refusal(429, "Too Many Requests: retry after 1", retry_after=1)
                )
            case "500":
                return self._refuse(Refusal(500, "Internal Server Error"))
            case "cut":
                self.request.connection.stream.close()  # type: ignore[attr-defined]
                return None
            case "garbage":
                self.write(b"\xff\xfe<html>not json")
                return None
        if token != platform.token:
            return self._refuse(Refusal(401, "Unauthorized"))
        fields = {
            name: self.get_body_argument(name, strip=False) for name in self.request.body_arguments
        }
        fields.update(dict.fromkeys(self.request.files, "file"))
        for name, files in self.request.files.items():
            limit = (
                FileSizeLimit.FILESIZE_UPLOAD
                if name != "photo"
                else FileSizeLimit.PHOTOSIZE_UPLOAD
            )
            if any(len(file["body"]) > limit for file in files):
                platform.refused.append((method, "file is too big"))
                return self._refuse(Refusal(413, "Request Entity Too Large"))
        try:
            result = await platform.carry_out(method, check(method, fields))
        except Refusal as refusal:
            if refusal.ours:
                platform.refused.append((method, refusal.text))
            return self._refuse(refusal)
        self.write({"ok": True, "result": result})
        return None

    def _refuse(self, refusal: Refusal) -> None:
        self.set_status(refusal.code)
        body: dict[str, Any] = {
            "ok": False,
            "error_code": refusal.code,
            "description": refusal.text,
        }
        if refusal.parameters:
            body["parameters"] = refusal.parameters
        self.write(body)
