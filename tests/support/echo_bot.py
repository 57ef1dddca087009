"""The service with a handler that sends the text back: what any answer costs at least."""

from __future__ import annotations

import sys
from collections.abc import Callable

from bot import __main__, app
from bot.conversation import Conversation
from bot.model.message import Handled, Message, Reply
from bot.storage.store import Change, Delivery, Store


class Echo(Conversation):
    """Answers with the text, kept as durably as any answer."""

    def process(
        self, message: Message, deliver: Callable[[Reply], Delivery] | None = None
    ) -> Handled:
        """Return the text as the reply."""
        if self._store.said(message.chat, message.message_id) is not None:
            return Handled(reply=Reply(lines=()), repeated=True)
        reply = Reply(lines=(message.text,))
        delivery = None if deliver is None else deliver(reply)
        self._store.commit(Change(message=message, reply=reply, delivery=delivery))
        return Handled(reply=reply)


def _echo(store: Store) -> Conversation:
    return Echo(store)


if __name__ == "__main__":
    app.conversation = _echo
    sys.exit(__main__.main())
