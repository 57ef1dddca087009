"""Which question of the setting-up comes next: at most six, each asked once, each skippable."""

from __future__ import annotations

from bot.model.answer import Answer
from bot.model.golfer import Kept, ProfileKept, Question, SetUp
from bot.model.reading import Answered, Expecting, Shot
from bot.model.reading import Profile as Told
from bot.model.state import Profile
from bot.turn.desk import Desk

ENOUGH = 2  # facts after which shots are answered

_ORDER: tuple[Question, ...] = ("start", "carry", "handicap", "hand", "shape", "miss", "usual")
_EXPECTS: dict[Question, Expecting] = {
    "start": Expecting(about="club_carry"),
    "carry": Expecting(about="club_carry"),
    "handicap": Expecting(about="handicap"),
    "hand": Expecting(about="hand"),
    "shape": Expecting(about="shape"),
    "miss": Expecting(about="miss"),
    "usual": Expecting(about="yes_no"),
}
_HIGHEST_HANDICAP = 54.0  # Rules of Handicapping, 5.2: the highest index; more is a score


def facts_known(profile: Profile) -> int:
    """Count what the player has told that shapes advice."""
    level = profile.handicap is not None or profile.usual_score is not None
    carries = sum(1 for c in profile.clubs if c.carry is not None or c.total is not None)
    others = (profile.hand, profile.shape, profile.miss, profile.speed)
    return carries + level + sum(1 for v in others if v is not None)


def ready(profile: Profile) -> bool:
    """Say whether enough is known to answer a shot."""
    return facts_known(profile) >= ENOUGH


def start(desk: Desk) -> tuple[Desk, Answer]:
    """Begin, or begin again, with the first thing that is missing."""
    player = desk.player.model_copy(update={"setup_skipped": (), "setup": None})
    desk = desk.put(player)
    question = _next(player.profile, ())
    if question is None:
        return desk, ProfileKept(done=True)
    return _asking(desk, question), SetUp(ask=question, hello=facts_known(player.profile) == 0)


def hold(desk: Desk, act: Shot) -> tuple[Desk, Answer] | None:
    """Ask a newcomer for the first two things before their shot, which is kept; else None.

    In a group nobody is set up: the shot is answered with what is known.
    """
    player = desk.player
    if desk.message.kind == "group":
        return None
    if ready(player.profile) or player.setup_skipped or act.player or act.facts.club:
        return None
    question = _next(player.profile, ()) or "start"
    desk = _asking(desk, question)
    desk = desk.put(desk.memory.model_copy(update={"asked_for": act.facts}))
    return desk, SetUp(ask=question, hello=True)


def held(desk: Desk) -> tuple[Desk, Shot] | None:
    """Return the shot that waited for the first facts, once they are there; else None."""
    memory = desk.memory
    waiting = memory.asked_for
    setting_up = memory.expecting is None or memory.expecting.about in {
        e.about for e in _EXPECTS.values()
    }
    if waiting is None or not setting_up or not ready(desk.player.profile):
        return None
    desk = desk.put(memory.model_copy(update={"asked_for": None, "expecting": None}))
    return desk, Shot(facts=waiting)


def welcome(desk: Desk) -> tuple[Desk, Answer] | None:
    """Greet a newcomer with the first question; None for anybody met before."""
    player = desk.player
    if player.invited or facts_known(player.profile) or desk.message.kind != "private":
        return None
    desk = desk.put(player.model_copy(update={"invited": True}))
    return start(desk)


def go_on(desk: Desk, kept: tuple[Kept, ...]) -> tuple[Desk, Answer]:
    """Say what was kept and ask what comes next, while a setting-up is open."""
    player = desk.player
    if desk.who != desk.message.sender:
        return desk, ProfileKept(kept=kept, who=desk.trip.names.get(desk.who, ""))
    if desk.message.kind == "group":
        return desk, ProfileKept(kept=kept)
    if player.setup is None and (player.setup_skipped or player.profile.version > 1):
        return desk, ProfileKept(kept=kept)
    asked = player.setup_skipped
    if player.setup == "start" and not kept:
        asked = (*asked, "carry", "handicap")  # both were skipped at once
    question = _next(player.profile, asked)
    if question is None:
        desk = desk.put(player.model_copy(update={"setup": None}))
        desk = desk.put(desk.memory.model_copy(update={"expecting": None, "asked_what": None}))
        return desk, ProfileKept(kept=kept, done=player.setup is not None)
    desk = desk.put(player.model_copy(update={"setup_skipped": asked}))
    return _asking(desk, question), ProfileKept(kept=kept, ask=question)


def told_by(question: str | None, act: Answered) -> Told | None:
    """Return what a reply in a word or a number to `question` tells; None if nothing."""
    words = (act.words or "").strip().casefold()
    match question:
        case "start" | "carry" if act.number is not None:
            return Told(intent="set_club", club="7i", carry=act.number)
        case "handicap" if act.number is not None:
            return _level(act.number.value)
        case "hand" if words in ("left", "right"):
            return Told(intent="set_hand", hand=words)
        case "shape" if words in ("straight", "draw", "fade", "hook", "slice"):
            return Told(intent="set_shape", shape=words)
        case "miss" if words in ("left", "right", "both", "short", "long"):
            return Told(intent="set_miss", miss=words)
        case _:
            return None


def open_here(desk: Desk) -> bool:
    """Say whether a question of the setting-up is what this player was last asked here."""
    question = desk.player.setup
    memory = desk.memory
    if question is None or memory.expecting != _EXPECTS[_named(question)]:
        return False
    return question != "usual" or memory.asked_what == "usual"


def again(desk: Desk) -> Answer | None:
    """Repeat the open question where a reply to it was not understood."""
    question = desk.player.setup
    return SetUp(ask=_named(question), again=True) if question and open_here(desk) else None


def _level(number: float) -> Told:
    if number > _HIGHEST_HANDICAP:
        return Told(intent="set_handicap", usual_score=round(number))
    return Told(intent="set_handicap", handicap=number)


def _named(question: str) -> Question:
    return next(q for q in _ORDER if q == question)


def _asking(desk: Desk, question: Question) -> Desk:
    """Open a question; it counts as asked from now on."""
    player = desk.player
    asked = (*player.setup_skipped, question)
    desk = desk.put(
        player.model_copy(update={"setup": question, "setup_skipped": asked, "invited": True})
    )
    memory = desk.memory.model_copy(
        update={
            "expecting": _EXPECTS[question],
            "asked_what": "usual" if question == "usual" else None,
        }
    )
    return desk.put(memory)


def _next(profile: Profile, asked: tuple[str, ...]) -> Question | None:
    """Return the first question whose answer is missing and that was not asked before."""
    carries = any(c.carry is not None or c.total is not None for c in profile.clubs)
    level = profile.handicap is not None or profile.usual_score is not None
    usual = any(c.carry_source == "told" and c.carry and not c.best_ever for c in profile.clubs)
    missing: dict[Question, bool] = {
        "start": not carries and not level,
        "carry": not carries,
        "handicap": not level,
        "hand": profile.hand is None,
        "shape": profile.shape is None,
        "miss": profile.miss is None,
        "usual": usual and not profile.good_ones,
    }
    return next((q for q in _ORDER if missing[q] and q not in asked), None)
