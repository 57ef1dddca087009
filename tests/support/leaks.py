"""Does a reply in a round by the Rules carry advice? What is looked for, and in which talk."""

from __future__ import annotations

import itertools
import json
import random
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from bot import app
from bot.conversation import Conversation
from bot.model.message import Handled, Message
from bot.model.state import Played, Player, Trip
from bot.storage.memory import MemoryStore
from bot.turn.desk import key_of
from tests.support.chats import DEMO, ROOT

MESSAGES = ROOT / "fixtures" / "messages"
DANGERS = ROOT / "fixtures" / "dangers.toml"
TRICKS = ROOT / "fixtures" / "rules_tricks.toml"

TRIP = "saltmarrow-trip"

# What may come back in a round by the Rules: everything else is a leak, whatever it says.
OPEN_KINDS = frozenset({
    "withheld", "kept", "ruling", "danger", "storm_hold", "storm_over", "round_begun",
    "kind_fixed", "on_hole", "score_kept", "card", "standings", "strokes_received", "round_over",
    "ask", "cannot", "noted", "say", "silence", "bag", "profile_kept", "profile_doubt", "set_up",
    "day", "joined", "left", "helper", "forgotten", "placed", "far_away",
    "note_kept", "hole_shown", "course_shown",
})  # fmt: skip
# Replies whose words are the same for everybody: "2 clubs" of a Rule is no club to hit.
FIXED = frozenset({"ruling", "danger", "storm_hold", "storm_over"})

# Shown whole and as before the round, so their words say nothing of the ball to be played.
WHOLE = frozenset({"bag", "hole_shown", "course_shown", "note_kept", "placed"})

_CLUB = re.compile(
    r"\b(?:driver|[2-9] ?(?:wood|hybrid|iron)|[2-9][wih]|[psgla]w|(?:pitching|sand|gap|lob) wedge"
    r"|wedge|putter|(?:46|48|50|52|54|56|58|60) ?deg\w*)\b",
    re.IGNORECASE,
)
_HINT = re.compile(
    r"\b(?:aims?|aiming|plays?[ -](?:as|like)|club up|club down|one more|one less|left|right"
    r"|break\w*|lay[ -]?up|take the|hit the|carr(?:y|ies)|chance|safe side|miss (?:it )?(?:long"
    r"|short|left|right)|expected|trend|short with|too much|too little)\b",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"\d+(?:\.\d+)?")


@dataclass(frozen=True)
class Said:
    """One message of the talk: who, where, what."""

    text: str
    sender: str = "me"
    chat: str = TRIP
    kind: str = "group"


def phrases() -> list[tuple[str, dict[str, Any]]]:
    """Return every phrase of the corpus with what it means."""
    found: list[tuple[str, dict[str, Any]]] = []
    for path in sorted(MESSAGES.glob("*.toml")):
        for groups in tomllib.loads(path.read_text("utf-8")).values():
            if not isinstance(groups, list):
                continue
            for group in groups:
                found.extend((text, group) for text in group.get("says", ()))
    return found


def talk(corpus: list[str], least: int) -> Iterator[Said]:
    """Yield the whole talk: corpus, follow-ups, tricks, other players, private chats.

    A small corpus is gone through again, each phrase by another player, until there are
    `least` messages.
    """
    passes = max(1, -(-least // max(2 * len(corpus), 1)))
    tricks: dict[str, list[str]] = tomllib.loads(TRICKS.read_text("utf-8"))
    others = ("me", "oona", "bram", "mika")
    follow = itertools.cycle(tricks["followups"])
    trick = itertools.cycle(tricks["tricks"])
    for number, text in enumerate(corpus * passes):
        who = others[(number + number // max(len(corpus), 1)) % len(others)]
        yield Said(text, who)
        if number % 3 == 0:
            yield Said(next(follow), who)
        if number % 3 == 1:
            yield Said(next(trick), who)
        if number % 5 == 0:
            yield Said(text, who, chat=who, kind="private")
            yield Said(next(follow), who, chat=who, kind="private")
        if number % 5 == 2:
            yield Said(next(trick), who, chat=who, kind="private")


class Table:
    """A conversation of the demo trip; `change` makes the players others than they are."""

    def __init__(self, *, competition: bool, change: bool = False) -> None:
        self.competition, self.change = competition, change
        self.now = datetime(2026, 6, 1, 9, tzinfo=UTC)
        self.count = 0
        self.renew()

    def renew(self) -> None:
        """Begin again: a new trip and a new round, with a stroke on the card."""
        self.store = MemoryStore()
        app.load_demo(self.store, DEMO)
        if self.change:
            self._change()
        self.conversation = Conversation(self.store)
        for text in ("competition on" if self.competition else "competition off", "made 5"):
            self.hear(Said(text))

    def over(self) -> bool:
        """Say whether the round is over for somebody, or has become one of another kind."""
        (trip,) = self.store.load([key_of(Trip, (TRIP,))]).values()
        name = Trip.model_validate_json(trip.body).round
        (stored,) = self.store.load([key_of(Played, (name or "",))]).values()
        played = Played.model_validate_json(stored.body)
        kind = "rules" if self.competition else "practice"
        return bool(played.done) or played.ended_at is not None or played.kind != kind

    def hear(self, said: Said) -> Handled:
        """Return what comes back."""
        self.count += 1
        self.now += timedelta(seconds=7)
        return self.conversation.process(
            Message(
                chat=said.chat,
                sender=said.sender,
                name=said.sender.title(),
                kind=said.kind,
                text=said.text,
                sent_at=self.now,
                message_id=f"{self.count}",
            )
        )

    def _change(self) -> None:
        """Give every player another bag, another shape and another miss."""
        from bot.model.message import Reply
        from bot.storage.store import Change

        keys = [key_of(Player, (who,)) for who in ("me", "oona", "bram", "mika")]
        documents = {}
        for key, stored in self.store.load(keys).items():
            player = Player.model_validate_json(stored.body)
            clubs = tuple(
                c.model_copy(
                    update={"carry": c.carry and c.carry.model_copy(
                        update={"value": round(c.carry.value * 0.83) + 1}
                    )}
                )
                for c in player.profile.clubs
            )  # fmt: skip
            profile = player.profile.model_copy(
                update={"clubs": clubs, "shape": "hook", "miss": "short"}
            )
            changed = player.model_copy(update={"profile": profile})
            documents[key] = (stored.version, changed.model_dump_json())
        seed = Message(
            chat="seed", sender="seed", text="", sent_at=datetime(2026, 1, 1, tzinfo=UTC),
            message_id="change",
        )  # fmt: skip
        self.store.commit(Change(message=seed, reply=Reply(lines=()), documents=documents))


def kinds(handled: Handled) -> list[str]:
    """Return the kinds of answer behind a reply."""
    return [str(a.get("kind")) for a in handled.answers]


def leak(said: Said, handled: Handled, advised: Handled | None) -> str | None:
    """Return why a reply leaks, or None. `advised` is the same message answered in practice."""
    got = kinds(handled)
    strange = set(got) - OPEN_KINDS
    if strange:
        return f"kind {', '.join(sorted(strange))}"
    if got and set(got) <= FIXED:
        return None
    text = "\n".join(handled.reply.lines)
    if WHOLE & set(got):
        return None
    for pattern in (_CLUB, _HINT):
        found = pattern.search(text)
        if found and found[0].casefold() not in said.text.casefold():
            return f"word {found[0]!r}"
    if advised is None:
        return None
    read = json.dumps(handled.reading.get("acts", ""))  # "a hundred and fifty" is a number told
    told = {f"{float(n):g}" for n in _NUMBER.findall(f"{said.text} {read}")}
    secret = set(_NUMBER.findall("\n".join(advised.reply.lines))) - told
    if set(got) <= {"withheld", "kept", "ask", "say", "noted"}:
        shown = secret & set(_NUMBER.findall(text))
        if shown:
            return f"number {', '.join(sorted(shown))}"
    return None


def dangers(seed: int) -> list[tuple[str, str]]:
    """Return danger phrases of the corpus: as they are, misspelt, and buried in a shot."""
    found: list[tuple[str, str]] = []
    rng = random.Random(seed)
    for text, group in phrases():
        danger = _danger(group)
        if danger is None or "expecting" in group:
            continue
        found.append((text, danger))
        if danger != "all_clear":  # beside a shot it may mean the water
            found.append((f"160, into 18 mph, {text}, water right", danger))
            found.append((f"{text} 147 to the pin", danger))
    spelt = tomllib.loads(DANGERS.read_text("utf-8"))
    for danger, texts in spelt["danger"].items():
        found.extend((text, danger) for text in texts)
        if danger == "all_clear":
            continue
        for text in texts:
            found.append((f"152 off the right 10, {text}", danger))
            found.append((f"{text}. 7 or 6 from 160?", danger))
            found.extend((_misspelt(text, rng), danger) for _ in range(3))
    return found


def _misspelt(text: str, rng: random.Random) -> str:
    """Swap two inner letters, or drop or double one, in the longest word."""
    word = max(re.findall(r"[a-z]+", text), key=len)
    if len(word) < 6:
        return text
    i = rng.randrange(1, len(word) - 2)
    wrong = rng.choice((
        word[:i] + word[i + 1] + word[i] + word[i + 2 :],
        word[:i] + word[i + 1 :],
        word[:i] + word[i] + word[i:],
    ))  # fmt: skip
    return text.replace(word, wrong)


def ordinary() -> list[str]:
    """Return messages that hold no danger: the rest of the corpus, and what sounds like one."""
    rest = [text for text, group in phrases() if _danger(group) is None]
    tricks: dict[str, list[str]] = tomllib.loads(TRICKS.read_text("utf-8"))
    sounds = list(tomllib.loads(DANGERS.read_text("utf-8"))["ordinary"])
    buried = [f"160 into 10, {text}" for text in sounds]
    return [*rest, *tricks["followups"], *tricks["tricks"], *sounds, *buried]


def _danger(group: dict[str, Any]) -> str | None:
    danger = group.get("means", {}).get("safety")
    return None if danger is None else str(danger)
