"""Whole conversations, word for word, through the seam and the memory store."""

from pathlib import Path

import pytest

from tests.support.chats import ROOT, play

CHATS = sorted((ROOT / "fixtures" / "conversations").glob("*.chat"))


@pytest.mark.parametrize("path", CHATS, ids=lambda p: p.stem)
def test_the_conversation_goes_as_written_on_lines_that_fit(
    path: Path, request: pytest.FixtureRequest
) -> None:
    written = path.read_text("utf-8")
    assert written.startswith("# "), "the first line says why the conversation exists"
    played, replies = play(written)
    for reply in replies:
        if len(reply.lines) <= 2:  # what a lock screen shows
            assert all(len(line) <= 64 for line in reply.lines), reply.text
    if request.config.getoption("--write-goldens"):
        path.write_text(played, "utf-8")
    assert played == written or request.config.getoption("--write-goldens")
