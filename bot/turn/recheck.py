"""Would today's engine give the same answers again? Each is worked out anew from the log."""

from __future__ import annotations

from typing import Any

from bot.model.answer import Answer
from bot.model.entry import Entry
from bot.model.reading import Facts, Reading, Review, Shot
from bot.model.review import Differs, NothingToReview, Rechecked
from bot.model.state import DayFacts, Memory, Player, Profile, Trip
from bot.turn import chip, putt
from bot.turn.desk import Desk
from bot.turn.review import chosen, entry_hole
from bot.turn.shot import choice_of
from engine import ENGINE_VERSION, NoSolution, OutOfRange

SAME = 1e-6  # strokes: answers closer than this are the same


def take(desk: Desk, act: Review) -> Answer:
    """Work out every answer of the rounds asked for again, and tell which differ."""
    rounds = chosen(desk, act)
    if not rounds:
        return NothingToReview(why="no_round", when=act.when or "")
    profiles = _profiles(desk)
    checked = skipped = 0
    differ: list[Differs] = []
    engines: dict[str, None] = {}
    for played in rounds:
        for entry in desk.shelf.entries(player=desk.who, kinds=("answer",), round=played.ids[0]):
            then = profiles.get(entry.profile_version or 0)
            now = None if then is None else _again(desk, entry, then)
            if now is None:
                skipped += 1
                continue
            checked += 1
            engines[entry.engine_version or ""] = None
            was = _said(entry.body["advice"])
            if was[0] != now[0] or abs(was[1] - now[1]) > SAME:
                differ.append(
                    Differs(
                        hole=entry_hole(entry), of=entry.body["advice"]["kind"], was=was[0],
                        now=now[0], was_strokes=was[1], now_strokes=now[1],
                    )
                )  # fmt: skip
    return Rechecked(
        checked=checked, skipped=skipped, engine_then=tuple(engines), engine_now=ENGINE_VERSION,
        differ=tuple(differ),
    )  # fmt: skip


def _profiles(desk: Desk) -> dict[int, Profile]:
    """Return every version of the profile that can be known."""
    found = {desk.player.profile.version: desk.player.profile}
    for entry in desk.shelf.entries(player=desk.who, kinds=("profile",)):
        for name in ("before", "profile"):
            profile = Profile.model_validate(entry.body[name])
            found.setdefault(profile.version, profile)
    return found


def _again(desk: Desk, entry: Entry, profile: Profile) -> tuple[str, float] | None:
    """Return the answer as today's engine gives it on what was known then."""
    advice, facts = entry.body["advice"], Facts.model_validate(entry.body["facts"])
    day = DayFacts.model_validate(entry.body.get("day") or {})
    blank = desk.put(Memory.new(desk.message.chat, desk.who))
    trip = desk.trip
    blank = blank.put(Trip(ids=trip.ids, day=day, members=trip.members))
    player: Player = desk.player.model_copy(
        update={"profile": profile, "protect_card": bool(advice.get("card", False))}
    )
    blank = blank.put(player)
    try:
        match advice["kind"]:
            case "shot":
                best = choice_of(blank, facts, advice["shot_kind"]).best
                return f"{best.club} {best.kind}", best.strokes
            case "putt":
                _, again = putt.take(blank, Shot(kind="putt", facts=facts), Reading(text=""))
            case "chip":
                _, again = chip.take(blank, Shot(kind="chip", facts=facts), Reading(text=""))
            case _:
                return None
    except (NoSolution, OutOfRange):
        return None
    told = again.model_dump(mode="json")
    return _said(told) if told["kind"] == advice["kind"] else None


def _said(advice: dict[str, Any]) -> tuple[str, float]:
    """Return what an answer advised, and the strokes it expected."""
    if advice["kind"] == "putt":
        return "", float(advice["expected"])
    best = advice["best"]
    if advice["kind"] == "chip":
        return f"{best['club']} {best['how']}", float(best["expected"])
    return f"{best['club']} {best['swing']}", float(best["strokes"])
