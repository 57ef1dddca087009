"""JSON lines: every input line gets one object, whatever it holds."""

import io
import json

import jsonschema
import pytest

from bot.model.message import Handled, Message, Reply
from bot.transports import pipe

GOOD = {
    "chat": "c",
    "sender": "s",
    "name": "Oona",
    "text": "160",
    "sent_at": "2026-06-01T09:00:00+00:00",
    "message_id": "1",
    "kind": "private",
}


def echo(message: Message) -> Handled:
    return Handled(reply=Reply(lines=(message.text, message.kind)), reading={"text": message.text})


def piped(*lines: str) -> list[dict[str, object]]:
    out = io.StringIO()
    pipe.run(echo, lines, out)
    return [json.loads(line) for line in out.getvalue().splitlines()]


def test_a_message_gets_its_reply_and_its_key_back() -> None:
    (answer,) = piped(json.dumps(GOOD))
    assert answer["reply"] == ["160", "private"]
    assert (answer["chat"], answer["message_id"]) == ("c", "1")


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("{", "line"),
        ("[]", "line"),
        (json.dumps({**GOOD, "sent_at": "yesterday"}), "sent_at"),
        (json.dumps({k: v for k, v in GOOD.items() if k != "chat"}), "chat"),
        (json.dumps({**GOOD, "kind": "crowd"}), "kind"),
        (json.dumps({**GOOD, "sent": 1}), "sent"),
    ],
)
def test_a_malformed_line_names_what_is_wrong_and_the_stream_goes_on(
    line: str, named: str
) -> None:
    bad, good = piped(line, json.dumps(GOOD))
    error = bad["error"]
    assert isinstance(error, dict)
    assert error["line"] == 1
    assert any(problem.startswith(named) for problem in error["problems"])
    assert good["reply"] == ["160", "private"]


def test_an_empty_line_is_passed_over() -> None:
    assert len(piped("\n", json.dumps(GOOD))) == 1


def test_lines_hold_to_the_published_schemas() -> None:
    """JSON Schema draft 2020-12, checked by the jsonschema package."""
    schemas = pipe.schema()
    jsonschema.validate(GOOD, schemas["input"])
    for answer in piped("{", json.dumps(GOOD)):
        jsonschema.validate(answer, schemas["output"])
        jsonschema.validate(answer.get("reading", {"text": ""}), schemas["reading"])
