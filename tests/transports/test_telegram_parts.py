"""The small parts of the transport, each by itself."""

import asyncio
import io
import json
import logging
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Conflict,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
    TimedOut,
)

from bot.transports import logs
from bot.transports.telegram.envelope import envelope
from bot.transports.telegram.gather import Gather
from bot.transports.telegram.names import shown
from bot.transports.telegram.outgoing import DATA_LIMIT, TEXT_LIMIT, button_rows, say, split, units
from bot.transports.telegram.pace import Pacer
from bot.transports.telegram.verdict import verdict

NOW = datetime(2031, 5, 4, 12, tzinfo=UTC)
json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=20),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=9), inner, max_size=4)
    ),
    max_leaves=12,
)


# sending


@given(st.text(max_size=200), st.integers(min_value=2, max_value=50))
def test_pieces_fit_the_limit_and_lose_nothing_but_line_ends(text: str, limit: int) -> None:
    pieces = list(split(text, limit))
    assert all(units(piece) <= limit for piece in pieces)
    kept = "".join("".join(pieces).split())
    assert kept == "".join(text.split())


def test_a_long_reply_is_cut_at_line_ends() -> None:
    text = "\n".join(f"line {n} \N{GOLFER}" * 20 for n in range(200))
    sends = say("tg:7", text, buttons=("why",), asker=7)
    assert all(units(s.payload["text"]) <= TEXT_LIMIT for s in sends)
    assert ["buttons" in s.payload for s in sends].count(True) == 1
    assert "buttons" in sends[-1].payload


def test_buttons_fit_or_are_left_out() -> None:
    rows = button_rows(("8 iron", "x" * 80, "\N{GOLFER}" * 13, "", "7 iron"), 123456789012)
    assert [b["text"] for row in rows for b in row] == ["8 iron", "7 iron"]
    many = button_rows(tuple(str(n) for n in range(30)), 7)
    assert len(many) <= 2
    assert all(len(b["data"].encode()) <= DATA_LIMIT for row in many for b in row)


@given(st.text(max_size=300))
def test_a_name_is_one_short_line_that_turns_nothing_round(name: str) -> None:
    text = shown(name)
    assert len(text) <= 42
    assert len(text.splitlines()) <= 1
    assert not any(c in text for c in "\u202a\u202b\u202c\u202d\u202e\u2066\u2067")


# pacing


def test_a_group_never_gets_more_than_its_share_in_any_minute() -> None:
    pacer, now, sent = Pacer(overall=1000.0, a_second=1.0, a_minute=20), 0.0, []
    while now < 300.0:
        wait = pacer.wait("g", True, now)
        if wait == 0.0:
            pacer.sent("g", now)
            sent.append(now)
        now += max(wait, 0.01)
    for at in sent:
        assert sum(1 for t in sent if at <= t < at + 60.0) <= 20
    assert len(sent) >= 95, "and it uses that share"


def test_a_chat_may_burst_and_then_gets_one_a_second() -> None:
    pacer, now = Pacer(overall=1000.0), 0.0
    for _ in range(3):
        assert pacer.wait("c", False, now) == pytest.approx(0.0, abs=0.01)
        pacer.sent("c", now)
        now += 0.01
    assert pacer.wait("c", False, now) == pytest.approx(2.97, abs=0.02)


def test_all_chats_together_are_evenly_spaced() -> None:
    pacer = Pacer(overall=25.0)
    for n in range(10):
        pacer.sent(f"c{n}", 0.0)
    assert pacer.wait("another", False, 0.0) == pytest.approx(0.4)


# errors


@pytest.mark.parametrize(
    ("made", "outcome"),
    [
        (lambda: RetryAfter(3), "wait"),
        (lambda: RetryAfter(timedelta(seconds=3)), "wait"),
        (lambda: ChatMigrated(-1007), "renamed"),
        (lambda: Forbidden("Forbidden: bot was blocked by the user"), "gone"),
        (lambda: BadRequest("Message is not modified: same"), "done"),
        (lambda: BadRequest("Query is too old and response timeout expired"), "drop"),
        (lambda: BadRequest("Chat not found"), "drop"),
        (lambda: TimedOut(), "again"),
        (lambda: NetworkError("cut"), "again"),
        (lambda: InvalidToken(), "again"),
        (lambda: Conflict("x"), "again"),
        (lambda: TelegramError("Invalid server response"), "again"),
    ],
)
@pytest.mark.filterwarnings("ignore:.*retry_after")
def test_each_error_has_its_verdict(made: Callable[[], TelegramError], outcome: str) -> None:
    judged = verdict(made())
    assert judged.outcome == outcome
    if outcome == "wait":
        assert judged.seconds == 3.0
    if outcome == "renamed":
        assert judged.chat == "tg:-1007"


# receiving


@given(json_values)
def test_anything_can_arrive(raw: object) -> None:
    kept = envelope(raw, NOW)
    assert kept is None or json.loads(kept.raw) == raw


@given(st.dictionaries(st.sampled_from(["message", "edited_message", "x"]), json_values))
def test_an_update_with_an_id_is_always_kept(body: dict[str, object]) -> None:
    kept = envelope({"update_id": 7, **body}, NOW)
    assert kept is not None
    assert kept.queue


async def test_what_arrives_together_is_stored_together() -> None:
    calls: list[list[int]] = []

    async def store(items: list[int]) -> None:
        calls.append(items)
        await asyncio.sleep(0.01)
        if 13 in items:
            raise KeyError(13)

    gather = Gather(store)
    await asyncio.gather(*(gather.put([n]) for n in range(10)))
    assert sorted(n for call in calls for n in call) == list(range(10))
    assert len(calls) <= 2
    with pytest.raises(KeyError):
        await gather.put([13])
    await gather.put([14])


# logs


def test_log_lines_hold_no_secret_and_no_error_text() -> None:
    stream = io.StringIO()
    handler = logging.StreamHandler(stream)
    handler.setFormatter(logs.JsonLines(["42:secret-part_of-it"]))
    log = logging.getLogger("tests.logs")
    log.addHandler(handler)
    log.propagate = False
    try:
        log.warning("url /bot42:secret-part_of-it/x and secret-part_of-it")
        log.warning("another token /bot99:abcdefghijkl/getMe")
        try:
            what = "the player said: water left"
            raise ValueError(what)
        except ValueError:
            log.exception("update broke", extra={"update": 5})
    finally:
        log.removeHandler(handler)
    text = stream.getvalue()
    assert "secret-part" not in text
    assert "abcdefghijkl" not in text
    assert "water left" not in text.replace('what = \\"the player said: water left\\"', "")
    last = json.loads(text.splitlines()[-1])
    assert (last["event"], last["update"], last["error"]) == ("update broke", 5, "ValueError")
