"""What is sent for a reply: texts within the platform's limits, buttons, acknowledgements."""

from collections.abc import Iterator, Sequence

from bot.model.message import Reply
from bot.storage.store import Send

TEXT_LIMIT = 4096  # UTF-16 units
DATA_LIMIT = 64  # bytes of a button's data
BUTTONS_A_ROW = 4
ROWS = 2
SHORT_LABEL = 12  # characters; longer labels stand two in a row
DIVIDER = "|"
NOD = "\N{THUMBS UP SIGN}"


def units(text: str) -> int:
    """Length of a text as the platform counts it at worst: in UTF-16 units."""
    return len(text.encode("utf-16-le")) // 2


def split(text: str, limit: int = TEXT_LIMIT) -> Iterator[str]:
    """The text in pieces within the limit, cut at line ends where there are any."""
    piece = ""
    for line in text.split("\n"):
        joined = f"{piece}\n{line}" if piece else line
        if units(joined) <= limit:
            piece = joined
            continue
        if piece:
            yield piece
        piece = line
        while units(piece) > limit:
            cut = limit // 2 if units(piece[:limit]) > limit else limit
            yield piece[:cut]
            piece = piece[cut:]
    if piece.strip():
        yield piece


def button_rows(texts: Sequence[str], asker: int) -> list[list[dict[str, str]]]:
    """Rows of buttons; each carries the text it sends and for whom it is."""
    made = []
    for text in texts:
        data = f"{asker}{DIVIDER}{text}"
        if text and len(data.encode()) <= DATA_LIMIT:
            made.append({"text": text, "data": data})
    width = BUTTONS_A_ROW if all(len(b["text"]) <= SHORT_LABEL for b in made) else 2
    rows = [made[i : i + width] for i in range(0, len(made), width)]
    return rows[:ROWS]


def say(
    chat: str,
    text: str,
    *,
    answers: str | None = None,
    to: int | None = None,
    thread: int | None = None,
    buttons: Sequence[str] = (),
    asker: int = 0,
) -> tuple[Send, ...]:
    """Texts to send; `to` is the platform's number of the message replied to."""
    pieces = [piece for piece in split(text) if piece.strip()]
    sends = []
    for n, piece in enumerate(pieces):
        payload: dict[str, object] = {"text": piece}
        if to is not None:
            payload["to"] = to
        if thread is not None:
            payload["thread"] = thread
        if n == len(pieces) - 1 and (rows := button_rows(buttons, asker)):
            payload["buttons"] = rows
        sends.append(Send(chat=chat, kind="say", payload=payload, answers=answers))
    return tuple(sends)


def replied(
    reply: Reply,
    chat: str,
    *,
    answers: str,
    to: int | None,
    thread: int | None,
    asker: int,
) -> tuple[Send, ...]:
    """What is sent for a reply of the conversation; nothing for silence."""
    texts = say(
        chat,
        reply.text,
        answers=answers,
        to=to,
        thread=thread,
        buttons=reply.buttons,
        asker=asker,
    )
    place = {"to": to, "thread": thread}
    files = [
        Send(
            chat=chat,
            kind="photo" if name.endswith(".png") else "document",
            payload={
                "name": name,
                "in": chat,
                "of": answers,
                **{k: v for k, v in place.items() if v is not None},
            },
            answers=answers,
        )
        for name in reply.attached
    ]
    return (*texts, *files)


def nod(chat: str, message: int) -> Send:
    """A light acknowledgement that costs nobody a line."""
    return Send(chat=chat, kind="nod", payload={"message": message, "emoji": NOD})
