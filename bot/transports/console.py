"""A chat on this terminal: line editing and history where there is one, plain on a pipe."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from bot.model.message import Handled, Message

HELLO = "Two-Line Caddie. Send a shot, such as: 160, into 18, up 8 ft, water right"


def run(
    handle: Callable[[Message], Handled],
    compose: Callable[[str], Message],
    *,
    history: Path | None,
    explain: Callable[[Handled], str] | None,
    keep: Callable[[Message], Iterable[str]],
) -> None:
    """Chat until the end of the input; `explain` adds how each answer came about.

    `keep` writes the files that go with a reply and says where.
    """
    for text in _lines(history):
        message = compose(text)
        handled = handle(message)
        print(handled.reply.text)
        if handled.reply.attached:
            print("\n".join(keep(message)))
        if explain is not None:
            print(explain(handled))


def _lines(history: Path | None) -> Iterator[str]:
    """Yield what is typed, line by line."""
    if not sys.stdin.isatty():
        for line in sys.stdin:
            if line.strip():
                yield line.rstrip("\n")
        return
    from prompt_toolkit import PromptSession
    from prompt_toolkit.history import FileHistory, InMemoryHistory

    print(HELLO)
    session: PromptSession[str] = PromptSession(
        history=InMemoryHistory() if history is None else FileHistory(str(history))
    )
    while True:
        try:
            text = session.prompt("> ")
        except (EOFError, KeyboardInterrupt):
            return
        if text.strip():
            yield text
