"""What the platform refuses: the limits of each method, checked on a request's fields.

Limits are the framework's own constants (python-telegram-bot, `telegram.constants`), which
follow the Bot API's documentation; the words of the errors follow the public server's.
"""

import json
import re
from typing import Any

from telegram import InlineKeyboardMarkup, LinkPreviewOptions, ReplyParameters
from telegram.constants import (
    BotCommandLimit,
    CallbackQueryLimit,
    InlineKeyboardButtonLimit,
    InlineKeyboardMarkupLimit,
    MessageLimit,
    ReactionEmoji,
)

KNOWN = {
    "getme": set(),
    "getupdates": {"offset", "limit", "timeout", "allowed_updates"},
    "setwebhook": {
        "url", "secret_token", "allowed_updates", "max_connections", "drop_pending_updates",
        "ip_address",
    },
    "deletewebhook": {"drop_pending_updates"},
    "getwebhookinfo": set(),
    "setmycommands": {"commands", "scope", "language_code"},
    "sendmessage": {
        "chat_id", "text", "message_thread_id", "reply_parameters", "reply_markup",
        "link_preview_options", "disable_notification", "parse_mode", "entities",
    },
    "answercallbackquery": {"callback_query_id", "text", "show_alert", "cache_time"},
    "editmessagereplymarkup": {"chat_id", "message_id", "reply_markup"},
    "setmessagereaction": {"chat_id", "message_id", "reaction", "is_big"},
    "sendchataction": {"chat_id", "action", "message_thread_id"},
    "sendphoto": {
        "chat_id", "photo", "caption", "message_thread_id", "reply_parameters", "reply_markup",
    },
    "senddocument": {
        "chat_id", "document", "caption", "message_thread_id", "reply_parameters", "reply_markup",
    },
    "leavechat": {"chat_id"},
}  # fmt: skip
COMMAND = re.compile(r"[a-z0-9_]{1,32}")
SECRET = re.compile(r"[A-Za-z0-9_-]{1,256}")


class Refusal(Exception):
    """A request the platform answers with an error; `ours` where the caller is to blame."""

    def __init__(self, code: int, text: str, *, ours: bool = True, **parameters: int) -> None:
        self.code, self.text, self.ours, self.parameters = code, text, ours, parameters
        super().__init__(text)


def bad(text: str) -> Refusal:
    return Refusal(400, f"Bad Request: {text}")


def units(text: str) -> int:
    return len(text.encode("utf-16-le")) // 2


def check(method: str, fields: dict[str, str]) -> dict[str, Any]:
    """The fields parsed, or a `Refusal`."""
    known = KNOWN.get(method)
    if known is None:
        raise Refusal(404, "Not Found: method not found")
    if unknown := set(fields) - known:
        raise bad(f"unknown fields {sorted(unknown)} of {method}")
    parsed: dict[str, Any] = {}
    for name, value in fields.items():
        try:
            parsed[name] = json.loads(value) if name not in ("text", "url", "caption") else value
        except ValueError:
            parsed[name] = value
    CHECKS.get(method, lambda f: None)(parsed)
    return parsed


def _send_message(f: dict[str, Any]) -> None:
    text = f.get("text", "")
    if not text.strip():
        raise bad("message text is empty")
    if units(text) > MessageLimit.MAX_TEXT_LENGTH:
        raise bad("message is too long")
    _common(f)


def _send_file(f: dict[str, Any]) -> None:
    if units(f.get("caption", "")) > MessageLimit.CAPTION_LENGTH:
        raise bad("message caption is too long")
    _common(f)


def _common(f: dict[str, Any]) -> None:
    if "reply_parameters" in f and ReplyParameters.de_json(f["reply_parameters"], None) is None:
        raise bad("reply parameters cannot be read")
    if "link_preview_options" in f:
        LinkPreviewOptions.de_json(f["link_preview_options"], None)
    if "reply_markup" in f:
        _markup(f["reply_markup"])


def _markup(raw: dict[str, Any]) -> None:
    if not raw.get("inline_keyboard"):
        return
    markup = InlineKeyboardMarkup.de_json(raw, None)
    assert markup is not None
    rows = markup.inline_keyboard
    if any(len(r) > InlineKeyboardMarkupLimit.BUTTONS_PER_ROW for r in rows):
        raise bad("too many buttons in a row")
    if sum(map(len, rows)) > InlineKeyboardMarkupLimit.TOTAL_BUTTON_NUMBER:
        raise bad("too many buttons")
    for button in (b for row in rows for b in row):
        data = str(button.callback_data or "").encode()
        low = InlineKeyboardButtonLimit.MIN_CALLBACK_DATA
        if not low <= len(data) <= InlineKeyboardButtonLimit.MAX_CALLBACK_DATA:
            raise bad("BUTTON_DATA_INVALID")
        if not button.text.strip():
            raise bad("button text is empty")


def _answer(f: dict[str, Any]) -> None:
    limit = CallbackQueryLimit.ANSWER_CALLBACK_QUERY_TEXT_LENGTH
    if units(f.get("text", "")) > limit:
        raise bad("answer is too long")


def _commands(f: dict[str, Any]) -> None:
    if len(f["commands"]) > BotCommandLimit.MAX_COMMAND_NUMBER:
        raise bad("too many commands")
    for c in f["commands"]:
        if not COMMAND.fullmatch(c["command"]):
            raise bad("BOT_COMMAND_INVALID")
        if not 1 <= len(c["description"]) <= BotCommandLimit.MAX_DESCRIPTION:
            raise bad("BOT_COMMAND_DESCRIPTION_INVALID")


def _hook(f: dict[str, Any]) -> None:
    if not SECRET.fullmatch(str(f.get("secret_token", "x"))):
        raise bad("secret token contains unallowed characters")


def _reaction(f: dict[str, Any]) -> None:
    for r in f.get("reaction", []):
        if r["type"] != "emoji" or r["emoji"] not in set(ReactionEmoji):
            raise bad("REACTION_INVALID")


CHECKS = {
    "sendmessage": _send_message,
    "sendphoto": _send_file,
    "senddocument": _send_file,
    "answercallbackquery": _answer,
    "editmessagereplymarkup": lambda f: _markup(f.get("reply_markup") or {}),
    "setmycommands": _commands,
    "setwebhook": _hook,
    "setmessagereaction": _reaction,
}
