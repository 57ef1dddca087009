"""JSON lines: one message an input line, one object an output line; any gateway can sit on it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TextIO

from pydantic import TypeAdapter, ValidationError

from bot.model.base import Frozen
from bot.model.message import Handled, Message
from bot.model.reading import Reading

Handle = Callable[[Message], Handled]


class AnsweredLine(Frozen):
    """A message answered; `reading` has the shape of the schema of that name."""

    chat: str
    message_id: str
    reply: tuple[str, ...]
    buttons: tuple[str, ...] = ()
    reading: dict[str, Any]
    answer: tuple[dict[str, Any], ...]
    repeated: bool = False


class Refused(Frozen):
    """Which line could not be used, and why."""

    line: int
    problems: tuple[str, ...]


class RefusedLine(Frozen):
    """A malformed input line."""

    error: Refused


Line = AnsweredLine | RefusedLine


def run(handle: Handle, lines: Iterable[str], out: TextIO) -> None:
    """Answer every line of `lines` on `out`; a malformed one gets an error object."""
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        print(answer_line(handle, line, number).model_dump_json(), file=out)
        out.flush()


def answer_line(handle: Handle, line: str, number: int) -> Line:
    """Return the object for one input line."""
    try:
        message = Message.model_validate_json(line)
    except ValidationError as error:
        problems = tuple(_problem(e) for e in error.errors())
        return RefusedLine(error=Refused(line=number, problems=problems))
    handled = handle(message)
    return AnsweredLine(
        chat=message.chat,
        message_id=message.message_id,
        reply=handled.reply.lines,
        buttons=handled.reply.buttons,
        reading=handled.reading,
        answer=handled.answers,
        repeated=handled.repeated,
    )


def schema() -> dict[str, Any]:
    """Return the JSON Schemas of an input line, an output line and a reading."""
    return {
        "input": Message.model_json_schema(),
        "output": TypeAdapter(Line).json_schema(),
        "reading": Reading.model_json_schema(),
    }


def _problem(error: Any) -> str:
    """Say which field is wrong, without repeating what it held."""
    where = ".".join(str(part) for part in error["loc"]) or "line"
    return f"{where}: {error['msg']}"
