"""What a parsed update is to the bot: a message, a press, a change of chat, or nothing.

No decision about golf is taken here. Positions in texts are the platform's UTF-16 ones and
are only ever handled by the library.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

import telegram
from telegram.constants import ChatMemberStatus, ChatType, MessageEntityType

from bot.model.message import Message, Point
from bot.transports.telegram import words
from bot.transports.telegram.names import key, shown
from bot.transports.telegram.outgoing import DIVIDER

OLD = timedelta(hours=12)  # a button under an older message is not taken
GROUPS = {ChatType.GROUP, ChatType.SUPERGROUP}
COMMAND = re.compile(r"/([A-Za-z0-9_]{1,32})(?:@(\w+))?(?:\s+|$)(.*)", re.DOTALL)
PRESENT = {ChatMemberStatus.MEMBER, ChatMemberStatus.ADMINISTRATOR, ChatMemberStatus.OWNER}


@dataclass(frozen=True)
class Me:
    """The bot's own account."""

    id: int
    username: str


@dataclass(frozen=True)
class Place:
    """Where an answer goes, and whom it answers."""

    chat: str
    group: bool
    person: int
    to: int | None = None
    thread: int | None = None


@dataclass(frozen=True)
class Heard:
    """A message for the conversation; `press` is the id of the button press it came as."""

    message: Message
    place: Place
    press: str | None = None
    under: int | None = None  # the message whose button was pressed


@dataclass(frozen=True)
class Started:
    """The bot was opened by a link with this payload."""

    payload: str
    message: Message
    place: Place


@dataclass(frozen=True)
class Asked:
    """Something about the chat itself: an invitation link."""

    place: Place


@dataclass(frozen=True)
class Fixed:
    """Something that always gets the same answer."""

    place: Place
    text: str


@dataclass(frozen=True)
class Refused:
    """A button press that is not taken."""

    chat: str
    press: str
    text: str


@dataclass(frozen=True)
class Added:
    """The bot came into a group."""

    chat: int
    by: int


@dataclass(frozen=True)
class Gone:
    """The bot was removed or blocked."""

    chat: str


@dataclass(frozen=True)
class Renamed:
    """A group got a new number."""

    old: str
    new: str


@dataclass(frozen=True)
class Nothing:
    """An update that is not for the bot."""

    why: str


Incoming = Heard | Started | Asked | Fixed | Refused | Added | Gone | Renamed | Nothing
Answered = Callable[[str, str], str | None]


def translate(
    update: telegram.Update, *, at: datetime, now: datetime, me: Me, late: timedelta,
    answered: Answered,
) -> Incoming:  # fmt: skip
    """What `update` is. `answered(chat, id)` names the message one of ours was an answer to."""
    if update.my_chat_member is not None:
        return _membership(update.my_chat_member)
    if update.callback_query is not None:
        return _press(update.callback_query, at=at, now=now, late=late, answered=answered)
    edited = update.edited_message
    message = update.message or edited
    if message is None:
        return Nothing("kind")
    return _message(
        message, edited is not None, at=at, late=now - at > late, me=me, answered=answered
    )


def _membership(change: telegram.ChatMemberUpdated) -> Incoming:
    chat = change.chat
    if change.new_chat_member.status not in PRESENT:
        return Gone(key(chat.id))
    was = change.old_chat_member.status in PRESENT
    if chat.type in GROUPS and not was:
        return Added(chat.id, change.from_user.id)
    return Nothing("membership")


def _press(
    query: telegram.CallbackQuery, *, at: datetime, now: datetime, late: timedelta,
    answered: Answered,
) -> Incoming:  # fmt: skip
    under = query.message
    chat = key(under.chat.id if under is not None else query.from_user.id)
    asker, divider, text = (query.data or "").partition(DIVIDER)
    if under is None or not divider or not text or not asker.isascii() or not asker.isdigit():
        return Refused(chat, query.id, words.OLD_BUTTON)
    if not isinstance(under, telegram.Message) or now - under.date > OLD:
        return Refused(chat, query.id, words.OLD_BUTTON)
    if int(asker) != query.from_user.id:
        return Refused(chat, query.id, words.NOT_YOURS)
    group = under.chat.type in GROUPS
    first = answered(chat, str(under.message_id))
    to = int(first) if first is not None and first.isdigit() else None
    message = Message(
        chat=chat,
        sender=key(query.from_user.id),
        name=shown(query.from_user.first_name),
        text=text,
        sent_at=at,
        message_id=f"b{under.message_id}",
        kind="group" if group else "private",
        reply_to=first,
        late=now - at > late,
    )
    place = Place(chat, group, query.from_user.id, to if group else None, _thread(under))
    return Heard(message, place, query.id, under.message_id)


def _message(
    message: telegram.Message, edited: bool, *, at: datetime, late: bool, me: Me,
    answered: Answered,
) -> Incoming:  # fmt: skip
    chat = key(message.chat.id)
    if message.migrate_to_chat_id is not None:
        return Renamed(chat, key(message.migrate_to_chat_id))
    if message.migrate_from_chat_id is not None:
        return Renamed(key(message.migrate_from_chat_id), chat)
    if message.chat.type not in (*GROUPS, ChatType.PRIVATE):
        return Nothing("channel")
    group = message.chat.type in GROUPS
    person = message.from_user
    text, addressed, ours = _text(message, me)
    if not ours or message.is_automatic_forward or message.via_bot is not None:
        return Nothing("not ours")
    addressed = addressed or not group
    place = Place(
        chat, group, person.id if person else 0, message.message_id if group else None,
        _thread(message),
    )  # fmt: skip
    if message.sender_chat is not None and (person is None or person.is_bot):
        return Fixed(place, words.NAMELESS) if addressed else Nothing("nameless")
    if person is None or person.is_bot:
        return Nothing("a bot")
    if message.forward_origin is not None:
        return Fixed(place, words.FORWARDED) if addressed and not edited else Nothing("forward")
    if message.location is not None and edited:
        return Nothing("a moving place")
    if text is None and message.location is None:
        carries = message.effective_attachment is not None and not edited
        return Fixed(place, words.TYPE_IT) if carries and addressed else Nothing("no text")
    number = str(message.message_id)
    heard = Message(
        chat=chat,
        sender=key(person.id),
        name=shown(person.first_name),
        text=text or "",
        sent_at=at,
        message_id=f"{number}.{int(at.timestamp())}" if edited else number,
        kind="group" if group else "private",
        reply_to=_reply_to(message, me, answered),
        edit_of=number if edited else None,
        addressed=addressed,
        late=late,
        point=_point(message.location),
    )
    return _command(heard, place, edited)


def _command(heard: Message, place: Place, edited: bool) -> Incoming:
    """The message itself, or what a command asks of the chat; an edited one runs nothing."""
    found = COMMAND.fullmatch(heard.text)
    if found is None:
        return Heard(heard, place)
    name, _, rest = found.groups()
    name, rest = name.lower(), rest.strip()
    if edited and name in ("start", "invite"):
        return Nothing("an edited command")
    if name == "invite":
        return Asked(place)
    if name == "start" and rest:
        return Started(rest, heard.model_copy(update={"text": words.MEANT["start"]}), place)
    text = f"{words.MEANT.get(name, name.replace('_', ' '))} {rest}".strip()
    return Heard(heard.model_copy(update={"text": text, "addressed": True}), place)


def _text(message: telegram.Message, me: Me) -> tuple[str | None, bool, bool]:
    """The text without our name, whether it was said to us, whether it may be ours at all."""
    text = message.text if message.text is not None else message.caption
    addressed = _replies_to_us(message, me)
    if text is None:
        return None, addressed, True
    parsed = message.parse_entities() or message.parse_caption_entities()
    for entity, part in parsed.items():
        if entity.type == MessageEntityType.BOT_COMMAND and entity.offset == 0:
            _, _, whose = part.partition("@")
            if whose and whose.lower() != me.username.lower():
                return text, False, False
            addressed = True
        elif (
            entity.type == MessageEntityType.MENTION and part.lower() == f"@{me.username}".lower()
        ):
            addressed = True
            text = text.replace(part, " ", 1)
        elif entity.type == MessageEntityType.TEXT_MENTION and entity.user is not None:
            addressed = addressed or entity.user.id == me.id
    return text.strip(), addressed, True


def _replies_to_us(message: telegram.Message, me: Me) -> bool:
    said = message.reply_to_message
    return said is not None and said.from_user is not None and said.from_user.id == me.id


def _reply_to(message: telegram.Message, me: Me, answered: Answered) -> str | None:
    said = message.reply_to_message
    if said is None or said.forum_topic_created is not None:
        return None
    number = str(said.message_id)
    if _replies_to_us(message, me):
        return answered(key(message.chat.id), number) or number
    return number


def _thread(message: telegram.Message) -> int | None:
    return message.message_thread_id if message.is_topic_message else None


def _point(location: telegram.Location | None) -> Point | None:
    if location is None:
        return None
    return Point(
        latitude=location.latitude,
        longitude=location.longitude,
        accuracy_m=location.horizontal_accuracy,
    )
