"""Start, steer and end a round: its kind, its holes, its scores."""

from __future__ import annotations

from bot.model.answer import Answer, Ask, CannotYet, Noted
from bot.model.card import KindFixed, OnHole, RoundBegun, RoundOver
from bot.model.reading import Answered, Expecting, Hole, Reading, Round
from bot.model.ruling import Kind
from bot.model.state import Played, Player
from bot.turn import card
from bot.turn.desk import Desk, hole_of

HOLES = (9, 18)


def take(desk: Desk, act: Round, reading: Reading) -> tuple[Desk, Answer]:
    """Answer what steers the round."""
    played = card.running(desk)
    match act.intent:
        case "start_round":
            return _start(desk, act)
        case "competition_on" | "competition_off":
            kind: Kind = "rules" if act.intent == "competition_on" else "practice"
            if played is None:
                return _start(desk, act.model_copy(update={"competition": kind == "rules"}))
            return _settle(desk, played, kind)
        case "end_round":
            return _end(desk, played)
        case "set_hole" | "next_hole":
            if played is None:
                desk, played = begin(desk, Round(intent="start_round"))
            return _to_hole(desk, played, act)
        case "card" | "standings" | "strokes":
            return desk, _shown(desk, act)
        case _ if played is None:
            return desk, CannotYet(reason="no_round")
        case "which_hole":
            return desk, _on(desk, played, hole_of(played, desk.who) or 1)
        case "join":
            played = with_player(played, desk.who)
            return bind(desk.put(played), played), Noted(what="joined")
        case "leave":
            return _end(desk, played)
        case _:
            return desk, CannotYet(reason="act", said=act.intent)


def _shown(desk: Desk, act: Round) -> Answer:
    """Return what the card says, of the last round as well."""
    played = desk.round
    if played is None:
        return CannotYet(reason="no_round")
    if act.intent == "card":
        return card.card(desk, desk.who, played, None if act.hole is None else act.hole.number)
    if act.intent == "standings":
        return card.standings(desk, played)
    number = act.hole.number if act.hole and act.hole.number else played.hole
    return card.strokes(desk, desk.who, played, number) or CannotYet(reason="no_handicap")


def take_kind(desk: Desk, act: Answered) -> tuple[Desk, Answer]:
    """Take the answer to "practice or by the Rules?"; yes means by the Rules."""
    played = card.running(desk)
    if played is None:
        return desk, CannotYet(reason="no_round")
    words = (act.words or "").casefold()
    if act.yes or any(w in words for w in ("rule", "comp", "medal", "tournament", "card")):
        return _settle(desk, played, "rules")
    if act.yes is False or "prac" in words or "casual" in words or "friendly" in words:
        return _settle(desk, played, "practice")
    return _ask_kind(desk)


def take_end(desk: Desk, act: Answered) -> tuple[Desk, Answer]:
    """Take the answer to "is your round over?"."""
    desk = desk.put(desk.memory.model_copy(update={"expecting": None}))
    played = card.running(desk)
    if played is None:
        return desk, CannotYet(reason="no_round")
    return _finish(desk, played) if act.yes else (desk, Noted(what="goes_on"))


def _start(desk: Desk, act: Round) -> tuple[Desk, Answer]:
    playing, here = desk.get(Player, desk.who).playing, desk.trip.round
    if playing and playing != here:
        elsewhere = desk.get(Played, playing)
        if card.binds(elsewhere, desk.now, desk.who) and act.competition is not True:
            return desk, KindFixed()
    old = desk.get(Played, here) if here else None
    if old is not None and old.ended_at is None:
        if card.binds(old, desk.now) and old.kind_fixed and act.competition is not True:
            return desk, KindFixed()
        desk = desk.put(old.model_copy(update={"ended_at": desk.now}))
    desk, played = begin(desk, act)
    if played.kind is None:
        return _ask_kind(desk)
    return desk, _begun(played)


def begin(desk: Desk, act: Round) -> tuple[Desk, Played]:
    """Put a new round on the desk, with everybody of the trip or those named."""
    kind: Kind | None = {True: "rules", False: "practice", None: None}[act.competition]
    trip = desk.trip
    name, tee = trip.course, act.tee or trip.tee
    if act.course is not None:
        name, tee = card.course_named(trip, act.course, act.tee)
    named = {n.casefold() for n in act.players}
    others = [m for m in trip.members if not named or trip.names.get(m, "").casefold() in named]
    players = tuple(dict.fromkeys((desk.who, *others)))
    played = Played(
        ids=(f"{desk.message.chat}.{desk.message.message_id}",),
        chat=desk.message.chat,
        course=name,
        tee=tee,
        kind=kind,
        holes=act.holes if act.holes in HOLES else 18,
        hole=act.hole.number if act.hole and act.hole.number else 1,
        players=players,
        started_at=desk.now,
    )
    trip = trip.model_copy(
        update={"round": played.ids[0], "course": played.course, "tee": played.tee}
    )
    desk = desk.put(trip).put(played)
    desk = desk.log("round", {"intent": "start", "kind": kind, "course": played.course})
    return bind(desk, played), played


def bind(desk: Desk, played: Played) -> Desk:
    """Let every player of the round know which round they are in, wherever they write."""
    for who in played.players:
        player = desk.get(Player, who)
        held = player.playing and card.binds(desk.get(Played, player.playing), desk.now, who)
        if player.playing != played.ids[0] and who not in played.done and not held:
            desk = desk.put(player.model_copy(update={"playing": played.ids[0]}))
    return desk


def _settle(desk: Desk, played: Played, kind: Kind) -> tuple[Desk, Answer]:
    """Set the kind. From practice to the Rules always works: it only takes help away."""
    late = played.kind_fixed and played.kind not in (None, kind)
    if late and kind == "practice":
        return desk, KindFixed()
    played = played.model_copy(update={"kind": kind})
    memory = desk.memory.model_copy(update={"expecting": None})
    desk = desk.put(played).put(memory).log("round", {"intent": "kind", "kind": kind})
    return desk, _begun(played, late=late)


def _begun(played: Played, *, late: bool = False) -> RoundBegun:
    return RoundBegun(
        kind_of_round=played.kind or "practice",
        course=played.course,
        holes=played.holes,
        others=len(played.players) - 1,
        late=late,
    )


def _ask_kind(desk: Desk) -> tuple[Desk, Answer]:
    question = Expecting(about="round_kind")
    memory = desk.memory.model_copy(update={"expecting": question})
    return desk.put(memory), Ask(about=question)


def arrive(desk: Desk, told: Hole | None) -> Desk:
    """Return a desk whose round is on the hole that a shot was told of."""
    played = card.running(desk)
    if played is None or told is None or told.number is None:
        return desk
    known = played.told.get(told.number, Hole())
    if played.hole == told.number and known.model_copy(update=card.set_fields(told)) == known:
        return desk
    return _to_hole(desk, played, Round(intent="set_hole", hole=told))[0]


def _to_hole(desk: Desk, played: Played, act: Round) -> tuple[Desk, Answer]:
    told = act.hole or Hole()
    number = told.number
    if number is None:
        onward = act.intent == "next_hole" and not _moved_by_score(played, desk.who)
        number = (played.hole or 0) + onward
    if not 1 <= number <= played.holes:
        return desk, CannotYet(reason="no_such_hole", value=number, low=1, high=played.holes)
    kept = played.told.get(number, Hole())
    news = {n: v for n, v in card.set_fields(told).items() if n != "number"}
    played = played.model_copy(
        update={
            "hole": number,
            "been": {**played.been, desk.who: number},
            "told": {**played.told, number: kept.model_copy(update={**news, "number": number})},
        }
    )
    memory = desk.memory.model_copy(update={"asked_this_hole": 0, "expecting": None})
    desk = desk.put(played).put(memory)
    on = _on(desk, played, number)
    course = card.course_here(desk)
    noted = None if course is None else course.holes.get(number)
    was = None if noted is None else noted.hole.par
    if told.par is not None and was not in (None, told.par):
        on = on.model_copy(update={"noted_par": was})
    return desk, on


def _on(desk: Desk, played: Played, number: int) -> OnHole:
    facts = card.hole_facts(desk, played, number)
    return OnHole(
        hole=number,
        par=facts.par,
        stroke_index=facts.stroke_index,
        received=card.received_on(desk, desk.who, played, number),
    )


def _moved_by_score(played: Played, who: str) -> bool:
    """Whether a score has moved the round on to a hole this player has not been told of yet."""
    here = played.hole or 1
    scored = any(here - 1 in scores for scores in played.scores.values())
    return scored and played.been.get(who) != here


def stand(desk: Desk) -> Desk:
    """Return a desk whose round knows that this player has begun the hole they are on."""
    played = card.running(desk)
    here = hole_of(played, desk.who)
    if played is None or here is None or played.been.get(desk.who) == here:
        return desk
    return desk.put(played.model_copy(update={"been": {**played.been, desk.who: here}}))


def with_player(played: Played, who: str) -> Played:
    """Return the round with this player in it."""
    if who in played.players:
        return played
    return played.model_copy(update={"players": (*played.players, who)})


def _end(desk: Desk, played: Played | None) -> tuple[Desk, Answer]:
    """End the round: a practice round for all, one by the Rules for the sender alone.

    By the Rules an unfinished card is asked about first, because the end opens advice; said
    again by somebody who is done, it ends the round for all.
    """
    if played is None:
        return desk, CannotYet(reason="no_round")
    if played.chat != desk.message.chat and desk.who in played.done:
        return desk, CannotYet(reason="no_round")
    if played.kind != "rules" or desk.who in played.done:
        alone = played.chat != desk.message.chat  # said in private: the group plays on
        return _finish(desk, played) if alone else _close(desk, played)
    if len(played.scores.get(desk.who, {})) < played.holes:
        question = Expecting(about="round_end")
        memory = desk.memory.model_copy(update={"expecting": question})
        return desk.put(memory), Ask(about=question)
    return _finish(desk, played)


def _finish(desk: Desk, played: Played) -> tuple[Desk, Answer]:
    played = with_player(played, desk.who)
    if desk.who not in played.done:
        played = played.model_copy(update={"done": (*played.done, desk.who)})
    return close_if_all_done(desk, played)


def close_if_all_done(desk: Desk, played: Played) -> tuple[Desk, Answer]:
    """End the round for all once nobody is on the course any more."""
    if set(played.players) <= set(played.done):
        return _close(desk, played)
    desk = desk.put(played).log("round", {"intent": "done"})
    return desk, RoundOver(for_all=False, row=card.row_of(desk, desk.who, played))


def _close(desk: Desk, played: Played) -> tuple[Desk, Answer]:
    played = played.model_copy(update={"ended_at": desk.now})
    desk = desk.put(played).log("round", {"intent": "end"})
    return desk, RoundOver(for_all=True, row=card.row_of(desk, desk.who, played))
