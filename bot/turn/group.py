"""Who is on a trip, under what name, and who may ask for whom."""

from __future__ import annotations

from bot.model.answer import Answer, CannotYet, Say
from bot.model.company import HelperKept, Joined, Left
from bot.model.reading import Profile, Reading, Round
from bot.model.state import Player
from bot.turn import round, setup
from bot.turn.card import company
from bot.turn.desk import Desk


def arrive(desk: Desk) -> Desk:
    """Return a desk on which everybody in this group knows the sender's name."""
    message, trip = desk.message, desk.trip
    if message.kind != "group" or not message.name:
        return desk
    if trip.names.get(message.sender) == message.name:
        return desk
    names = {**trip.names, message.sender: message.name}
    return desk.put(trip.model_copy(update={"names": names}))


def others_here(desk: Desk) -> tuple[str, ...]:
    """Return the names of everybody known in this chat, or in the sender's round, but them."""
    names = {**company(desk).names, **desk.trip.names}
    mine = (names.pop(desk.message.sender, "") or desk.message.name).casefold()
    return tuple(n for n in names.values() if n and n.casefold() != mine)


def take(desk: Desk, act: Round, reading: Reading) -> tuple[Desk, Answer]:
    """Join, leave, or say how others come in."""
    if act.intent == "invite":
        return desk, Say(topic="invite")
    if desk.message.kind != "group" and desk.round is None:
        return desk, CannotYet(reason="no_trip")
    trip, who = desk.trip, desk.message.sender
    running = desk.round is not None and desk.round.ended_at is None
    if act.intent == "leave":
        left = tuple(m for m in trip.members if m != who)
        desk = desk.put(trip.model_copy(update={"members": left}))
        if desk.round is not None and running and who in desk.round.players:
            return round.take(desk, act, reading)
        return desk, Left()
    again = who in trip.members
    if not again:
        desk = desk.put(trip.model_copy(update={"members": (*trip.members, who)}))
    if running:
        desk, _ = round.take(desk, act, reading)
    others = tuple(trip.names.get(m, "") for m in trip.members if m != who)
    newcomer = not setup.ready(desk.player.profile)
    return desk, Joined(others=tuple(filter(None, others)), again=again, newcomer=newcomer)


def take_helper(desk: Desk, act: Profile) -> tuple[Desk, Answer]:
    """Let somebody known in this chat ask for the sender, or stop it."""
    wanted = (act.name or "").casefold().split()
    me = desk.message.sender
    known = {i: n.casefold().split() for i, n in desk.trip.names.items() if i != me}
    found = [i for i, n in known.items() if n == wanted or n[:1] == wanted]
    if len(found) != 1:
        return desk, CannotYet(reason="who", said=act.name or "")
    player = desk.get(Player, me)
    helpers = tuple(h for h in player.helpers if h != found[0])
    allowed = act.intent == "allow"
    if allowed:
        helpers = (*helpers, found[0])
    desk = desk.put(player.model_copy(update={"helpers": helpers}))
    return desk, HelperKept(name=desk.trip.names[found[0]], allowed=allowed)
