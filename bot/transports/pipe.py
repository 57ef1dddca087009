"""JSON lines: one message an input line, one object an output line; any gateway can sit on it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from typing import Any, TextIO

from pydantic import ValidationError

from bot.model.message import Handled, Message
from bot.model.reading import Reading

Handle = Callable[[Message], Handled]


def run(handle: Handle, lines: Iterable[str], out: TextIO) -> None:
    """Answer every line of `lines` on `out`; a malformed one gets an error object."""
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        print(json.dumps(answer_line(handle, line, number), ensure_ascii=False), file=out)
        out.flush()


def answer_line(handle: Handle, line: str, number: int) -> dict[str, Any]:
    """Return the object for one input line."""
    try:
        message = Message.model_validate_json(line)
    except ValidationError as error:
        return {"error": {"line": number, "problems": [_problem(e) for e in error.errors()]}}
    handled = handle(message)
    return {
        "chat": message.chat,
        "message_id": message.message_id,
        "reply": list(handled.reply.lines),
        "buttons": list(handled.reply.buttons),
        "reading": handled.reading,
        "answer": list(handled.answers),
        "repeated": handled.repeated,
    }


def schema() -> dict[str, Any]:
    """Return the JSON Schemas of an input line and of an output line."""
    return {
        "input": Message.model_json_schema(),
        "output": {
            "oneOf": [
                {
                    "type": "object",
                    "required": ["chat", "message_id", "reply", "reading", "answer"],
                    "properties": {
                        "chat": {"type": "string"},
                        "message_id": {"type": "string"},
                        "reply": {"type": "array", "items": {"type": "string"}},
                        "buttons": {"type": "array", "items": {"type": "string"}},
                        "reading": Reading.model_json_schema(),
                        "answer": {"type": "array", "items": {"type": "object"}},
                        "repeated": {"type": "boolean"},
                    },
                },
                {
                    "type": "object",
                    "required": ["error"],
                    "properties": {
                        "error": {
                            "type": "object",
                            "required": ["line", "problems"],
                            "properties": {
                                "line": {"type": "integer"},
                                "problems": {"type": "array", "items": {"type": "string"}},
                            },
                        }
                    },
                },
            ]
        },
    }


def _problem(error: Any) -> str:
    """Say which field is wrong, without repeating what it held."""
    where = ".".join(str(part) for part in error["loc"]) or "line"
    return f"{where}: {error['msg']}"
