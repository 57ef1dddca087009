"""Whose score is told, how many scores one message holds, and how they are said together?"""

from __future__ import annotations

import re

from bot.model.answer import Answer
from bot.model.card import ScoreKept, ScoresKept
from bot.model.entry import Entry, EntryKind
from bot.model.reading import Act, FollowUp, Hole, Reading, Result, Score
from bot.turn import card, round
from bot.turn.desk import Desk, hole_of

_EVERYBODY = re.compile(
    r"\s*(?:everyone|everybody|every one of us|all of us|we all|all (?:four|three|two|4|3|2) of us"
    r"|both of us|we both|us all)\b",
    re.IGNORECASE,
)
_SAID = r"(?:just |also |has |then )*(?:made|had|took|got|scored|carded|shot|with)"
_MADE = re.compile(rf"[\s:,]+(?:{_SAID}|an? (?=\d)|\d|par\b|bogey|birdie|double|triple|eagle)")
_IRONS = range(2, 10)


def unfolded(desk: Desk, act: Score, reading: Reading) -> tuple[Act, ...]:
    """Return the scores that one act holds: of all, of one named in small letters, put right."""
    if act.bare:
        return (_put_right(desk, act),)
    if act.player is not None:
        return (act,)
    played = card.running(desk)
    if _EVERYBODY.match(reading.text) and played is not None and len(played.players) > 1:
        hole = act.hole or hole_of(played, desk.who) or 1
        names = card.company(desk).names
        others = (names.get(p) for p in played.players if p != desk.who)
        told = act.model_copy(update={"hole": hole})
        return (told, *(told.model_copy(update={"player": n}) for n in others if n))
    name = _named(desk, reading.text)
    return (act if name is None else act.model_copy(update={"player": name}),)


def on_hole_told(desk: Desk, reading: Reading) -> Desk:
    """Return a desk on the hole named with the score that ends the strokes of a message."""
    told = [a.hole for a in reading.acts if isinstance(a, Score) and a.player is None]
    story = any(isinstance(a, Result) for a in reading.acts)
    here = hole_of(card.running(desk), desk.who)
    if not story or len(told) != 1 or told[0] is None or here is None or told[0] <= here:
        return desk
    return round.arrive(desk, Hole(number=told[0]))


def together(answers: tuple[Answer, ...]) -> tuple[Answer, ...]:
    """Return the answers with several scores said as one."""
    kept = [a for a in answers if isinstance(a, ScoreKept)]
    if len(kept) < 2:
        return answers
    own = [a for a in kept if not a.player]
    last = own[-1] if own else kept[-1]
    one = ScoresKept(
        scores=tuple((a.player, a.hole, a.strokes) for a in kept),
        total=last.total, to_par=last.to_par, points=last.points, played=last.played,
    )  # fmt: skip
    rest = tuple(a for a in answers if not isinstance(a, ScoreKept))
    return (one, *rest)


def _put_right(desk: Desk, act: Score) -> Act:
    """Return what "sorry, it was 7" puts right: the score told last, or the club played last."""
    before = newest(desk)
    if before is not None and before.kind == "score":
        return act.model_copy(update={"bare": False})
    number = act.strokes or 0
    if before is not None and before.kind == "result" and number in _IRONS:
        return Result(club=f"{number}i", player=act.player)
    return FollowUp(ask="correct", player=act.player)


def newest(desk: Desk) -> Entry | None:
    """Return the player's newest advice, result or score here."""
    kinds: tuple[EntryKind, ...] = ("answer", "result", "score", "withheld")
    mine = [e for e in desk.entries if e.player == desk.who and e.kind in kinds]
    kept = desk.shelf.entries(
        player=desk.who, chat=desk.message.chat, kinds=kinds, newest_first=True, limit=1
    )
    return mine[-1] if mine else next(iter(kept), None)


def _named(desk: Desk, text: str) -> str | None:
    """Return the name of somebody here with which a score begins, in whatever letters."""
    said = text.strip().casefold()
    me = desk.message.sender
    for who, name in {**card.company(desk).names, **desk.trip.names}.items():
        first = next(iter(name.casefold().split()), "")
        if who != me and first and said.startswith(first) and _MADE.match(said, len(first)):
            return name
    return None
