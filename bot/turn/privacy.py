"""What may be shown to whom, in which kind of round: the one place that decides.

In a round by the Rules (Rules of Golf 2023, 4.3a and 10.2a) advice about a ball is not worked
out at all: an act that asks for it never reaches its turn, so neither a number, nor a question,
nor the length of a reply can carry it. What remains is a second guard: an answer whose class is
advice is replaced by a bare acknowledgement before it is worded, returned or logged.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bot.model import reading as read
from bot.model.answer import Answer, Ask, CannotYet, Noted, Say
from bot.model.golfer import ProfileKept, SetUp
from bot.model.measure import Measure
from bot.model.result import ResultDoubted
from bot.model.ruling import Kept, Withheld
from bot.model.state import Played, Player
from bot.turn import plan
from bot.turn.card import binds, company, course_here, running
from bot.turn.desk import Desk

Turn = Callable[[Desk, read.Act, read.Reading], tuple[Desk, Answer]]

# Open questions of the bot that have nothing to do with a ball to be played.
_NO_SHOT = frozenset({"round_kind", "round_end", "score", "handicap", "name"})

# What may be told about a player mid-round: it changes no number of the chart.
_NOT_THE_CHART = frozenset({
    "show", "set_units", "set_name", "set_tempo", "set_handicap", "allow", "disallow",
})  # fmt: skip

# What is said with a shot as its example, which nobody may ask for here.
_WITH_A_SHOT = ("help", "greeting", "start", "other_language", "thanks")
_NO_ACT = ("nonsense", "nothing_to", "not_read", "empty")

_OF_PLAY = (read.Shot, read.FollowUp, read.Result, read.Score)


def guarded(turn: Turn, desk: Desk, act: read.Act, reading: read.Reading) -> tuple[Desk, Answer]:
    """Take `act` if it may be taken, and return what may be shown of its answer."""
    subject = _subject(desk, act)
    if subject is None:
        return desk, CannotYet(reason="who", said=getattr(act, "player", "") or "")
    if isinstance(act, read.Review) and act.intent == "export" and desk.message.kind == "group":
        return desk, CannotYet(reason="in_private")
    bound = by_the_rules(desk, subject)
    if isinstance(act, _OF_PLAY):
        desk = _freeze(desk, stroke=isinstance(act, read.Result | read.Score))
    if bound and isinstance(act, read.Answered) and desk.player.setup and not _of_round(desk):
        return desk, CannotYet(reason="chart_closed")
    if bound and isinstance(act, read.CourseNote) and act.intent in ("plan_hole", "sheet"):
        frozen = plan.kept(desk, act)
        if frozen is not None:
            return desk, frozen
    if asks_advice(desk, act):
        if bound:
            return _withhold(desk, act)
        if _unsettled(desk) and not isinstance(act, read.Answered):
            return _ask_kind_first(desk, act)
    if bound and isinstance(act, read.Profile) and act.intent == "show":
        return _silenced(desk, act, _frozen_chart(turn, desk, subject, reading))
    if bound and isinstance(act, read.Profile) and act.intent not in _NOT_THE_CHART:
        return desk, CannotYet(reason="chart_closed")
    if bound and isinstance(act, read.CourseNote) and act.intent in ("show", "show_hole"):
        return _silenced(desk, act, turn(_with_frozen_notes(desk), act, reading)[1])
    if subject != desk.message.sender and not _may_speak_for(desk, subject, act):
        return desk, CannotYet(reason="not_allowed")
    if bound and desk.memory.asked_for is not None:  # a shot told before the round
        desk = desk.put(desk.memory.model_copy(update={"asked_for": None}))
    desk = replace(desk, asked_for=subject)
    desk, answer = turn(desk, _bare(act) if bound else act, reading)
    if subject != desk.message.sender:
        desk = replace(desk, spoken_for=_names(desk)[subject])
    desk = replace(desk, asked_for=None)
    return _silenced(desk, act, answer) if bound else (desk, answer)


def by_the_rules(desk: Desk, *others: str) -> bool:
    """Say whether a round by the Rules binds this chat, its sender, or one of `others`.

    A chat stays bound until everybody in its round is done: what one may hear, all could read.
    """
    here = desk.trip.round
    if here and binds(desk.get(Played, here), desk.now):
        return True
    for who in (desk.message.sender, *others):
        playing = desk.get(Player, who).playing
        if playing and binds(desk.get(Played, playing), desk.now, who):
            return True
    return False


def _freeze(desk: Desk, *, stroke: bool) -> Desk:
    """Keep the sender's chart, and the hole notes, as before their first shot of the round."""
    here = running(desk)
    if here is None:
        return desk
    who = desk.message.sender
    charts, notes = here.charts, here.notes
    if who not in charts:
        charts = {**charts, who: desk.get(Player, who).profile}
    course = course_here(desk)
    if not here.charts and course is not None:
        notes = course.holes
    fixed = here.kind_fixed or stroke
    frozen = {"charts": charts, "notes": notes, "kind_fixed": fixed}
    return desk.put(here.model_copy(update=frozen))


def _frozen_chart(turn: Turn, desk: Desk, subject: str, reading: read.Reading) -> Answer:
    """Return the whole chart as it stood before the first stroke, whatever was asked of it."""
    rounds = (desk.round, desk.get(Played, desk.get(Player, subject).playing or ""))
    charts = next((r.charts for r in rounds if r is not None and subject in r.charts), {})
    player = desk.get(Player, subject)
    then = player.model_copy(update={"profile": charts.get(subject, player.profile)})
    return turn(desk.put(then), read.Profile(intent="show"), reading)[1]


def _with_frozen_notes(desk: Desk) -> Desk:
    """Return a desk whose course notes stand as before the first shot of the round."""
    here, course = desk.round, course_here(desk)
    if here is None or course is None or not here.charts:
        return desk
    return desk.put(course.model_copy(update={"holes": here.notes}))


def before_advice(desk: Desk, act: read.Shot) -> tuple[Desk, Answer] | None:
    """Return the question that has to come before advice on a shot, if one has to."""
    return _ask_kind_first(desk, act) if _unsettled(desk) else None


def _unsettled(desk: Desk) -> bool:
    here = running(desk)
    return here is not None and here.kind is None


def _ask_kind_first(desk: Desk, act: read.Act) -> tuple[Desk, Answer]:
    """Ask for the kind of round before any advice; the shot told is kept for it."""
    question = read.Expecting(about="round_kind")
    facts = getattr(act, "facts", None)
    memory = desk.memory.model_copy(update={"expecting": question, "asked_for": facts})
    return desk.put(memory), Ask(about=question)


def _subject(desk: Desk, act: read.Act) -> str | None:
    """Return whose ball or card the act is about; None where the name is of nobody here."""
    name = getattr(act, "player", None)
    if not name:
        return desk.message.sender
    folded = name.casefold().strip()
    known = {i: n.casefold().split() for i, n in _names(desk).items()}
    found = [i for i, n in known.items() if " ".join(n) == folded or n[:1] == [folded]]
    return found[0] if len(found) == 1 else None


def _names(desk: Desk) -> dict[str, str]:
    """Return by their ids what those here are called."""
    me = desk.message.sender
    own = {me: desk.get(Player, me).name or desk.message.name}
    return {**own, **company(desk).names, **desk.trip.names}


def _may_speak_for(desk: Desk, whose: str, act: read.Act) -> bool:
    """Say whether the sender may ask or write for another player.

    Anybody may write down another's score: a card is kept by a marker (Rule 3.3b).
    """
    return isinstance(act, read.Score) or desk.message.sender in desk.get(Player, whose).helpers


def asks_advice(desk: Desk, act: read.Act) -> bool:
    """Say whether an act asks for something that has to be worked out about a player's golf."""
    match act:
        case read.Shot() | read.FollowUp() | read.Review():
            return True
        case read.CourseNote():
            return act.intent in ("plan_hole", "plan_round", "sheet")
        case read.Answered():
            return not _of_round(desk)
        case _:
            return False


def _of_round(desk: Desk) -> bool:
    """Say whether the open question has nothing to do with a ball or a chart."""
    asked = desk.memory.expecting
    return asked is not None and asked.about in _NO_SHOT


def not_read(desk: Desk) -> Answer | None:
    """Return what to say to a message that was not read; None where no round binds."""
    return CannotYet(reason="not_read_rules") if by_the_rules(desk) else None


def _withhold(desk: Desk, act: read.Act) -> tuple[Desk, Answer]:
    """Keep the question for the review and give back no more than distances, as told."""
    desk = _wait(desk, act)
    told_now = {"expecting": None, "asked_for": None, "open_shot": desk.message.message_id}
    desk = desk.put(desk.memory.model_copy(update=told_now))
    facts = getattr(act, "facts", read.Facts())
    named: tuple[tuple[read.Reference | None, Measure | None], ...] = (
        (facts.reference, facts.distance),
        ("front", facts.front),
        ("middle", facts.middle),
        ("back", facts.back),
    )
    told = dict.fromkeys((name, value) for name, value in named if value is not None)
    return desk, Withheld(distances=tuple(told))


def _wait(desk: Desk, act: read.Act) -> Desk:
    """Put on record, for after the round, what cannot be worked on now."""
    told = desk.trip.day.model_dump(mode="json", exclude_defaults=True)
    body = {"act": act.act, **act.model_dump(mode="json", exclude_defaults=True)}
    return desk.log("withheld", {**body, **({"day": told} if told else {})})


def _bare(act: read.Act) -> read.Act:
    """Return the act without what would let ways to go on be ranked."""
    if isinstance(act, read.RulesHelp):
        return act.model_copy(update={"facts": read.Facts(lie=act.facts.lie)})
    return act


def _silenced(desk: Desk, act: read.Act, answer: Answer) -> tuple[Desk, Answer]:
    """Return what may be shown of an answer in a round by the Rules."""
    if isinstance(answer, ResultDoubted):  # the doubt comes from the bag, so it waits as well
        return _wait(desk, act), Kept()
    if answer.advice:
        return desk, Kept()
    if isinstance(answer, SetUp) or (isinstance(answer, Say) and answer.topic in _WITH_A_SHOT):
        return desk, Say(topic="help_rules")
    if isinstance(answer, CannotYet) and answer.reason.startswith(_NO_ACT):
        return desk, CannotYet(reason="not_read_rules")
    if isinstance(answer, CannotYet) and answer.reason == "no_note":
        return desk, CannotYet(reason="no_note_rules")
    if isinstance(answer, ProfileKept) and answer.undone:
        return desk, Noted(what="undone")
    if isinstance(answer, ProfileKept):
        return desk, answer.model_copy(update={"ask": None})
    if isinstance(act, read.Result) and not isinstance(answer, CannotYet):
        memory = desk.memory.model_copy(update={"expecting": None, "asked_for": None})
        return desk.put(memory), Kept()
    if isinstance(answer, Noted | Say | Ask) and answer.detail:
        return desk, answer.model_copy(update={"detail": ""})
    return desk, answer
