"""What was the swing that was played worth, from what was known before it?"""

from __future__ import annotations

from typing import Any, cast

from bot.model.advice import ShotAdvice, Weighed
from bot.model.green import ChipAdvice, PuttAdvice
from bot.model.reading import Result, SwingWord
from bot.turn.aims import weigh_aim
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.implied import Open
from bot.turn.shot import choice_of
from engine import NoSolution, OutOfRange, ShotChoice, SwingKind

_LONGER_M = 12.0  # a club and a bit more than the one advised: judgement
CHEAP = 0.005  # strokes: a departure that costs less is none
_RISKIER = 0.1  # a chance of trouble so much larger is a risk taken: judgement
_BAD_LIES = frozenset({
    "trees", "blocked", "bunker", "fairway_bunker", "greenside_bunker", "deep_rough", "divot",
    "buried", "sitting_down",
})  # fmt: skip

# How a told swing is called in the engine; others are full swings.
SWINGS: dict[SwingWord, SwingKind] = {
    "choked": "choked", "three_quarter": "three_quarter", "half": "half",
    "knocked_down": "knocked_down", "high": "high", "pitch": "pitch",
}  # fmt: skip


def priced(desk: Desk, act: Result, last: Open | None) -> dict[str, Any] | None:
    """Return the strokes that were to be expected with the best on offer and as played.

    None where nothing was asked. A club that was not named counts as the one advised: nothing
    is held against a player on a guess.
    """
    if last is None or (last.kind == "putt") != act.putt:
        return None
    if last.kind == "putt":
        putt = PuttAdvice.model_validate(last.advice)
        return {"of": "putt", "best": putt.expected, "played": putt.expected}
    if last.kind == "chip":
        return _chip(ChipAdvice.model_validate(last.advice), act)
    if last.kind != "shot":
        return None  # a number without clubs, for a bag not known yet: nothing was on offer
    advice = ShotAdvice.model_validate(last.advice)
    best = advice.best
    swing = None if act.swing is None else SWINGS.get(act.swing, "full")
    found = _offered(advice, act.club, swing)
    then = _then(desk, last, advice) if found is None or act.aim is not None else None
    if found is None and then is not None:
        club = act.club or best.club
        found = _worked_out(then, club, swing or cast("SwingKind", _usual(club, best)))
    played = found or _took(best)
    aim = None
    if act.aim is not None and found is not None and then is not None:
        play = then.play(played["club"], played["swing"])
        aim = None if play is None else weigh_aim(then, play, act.aim, advice)
    aside = 0.0 if aim is None else float(aim["cost"])
    return {
        "of": "tee" if advice.shot_kind == "tee" else "shot",
        "best": best.strokes,
        "played": played["strokes"] + aside,
        "advised": {"club": best.club, "swing": best.swing},
        "took": {n: v for n, v in played.items() if n in ("club", "swing")},
        "taken": act.club in (None, best.club) and swing in (None, best.swing) and aside < CHEAP,
        "unknown": found is None and act.club is not None,
        "hero": found is not None and _bolder(desk, last, advice, found),
        **({} if aim is None else {"aim": aim}),
    }


def _then(desk: Desk, last: Open, advice: ShotAdvice) -> ShotChoice | None:
    """Return the choice worked out again on what was known when the advice was given."""
    trip = desk.trip.model_copy(update={"day": last.day})
    try:
        return choice_of(desk.put(trip), last.facts, advice.shot_kind)
    except (OutOfRange, NoSolution):
        return None


def _bolder(desk: Desk, last: Open, advice: ShotAdvice, took: dict[str, Any]) -> bool:
    """Whether more club was taken than advised, out of trouble or into more of it."""
    carry = {c.name: c.carry_m for c in bag_of(desk.player.profile).golfer.clubs}
    more = carry.get(took["club"], 0.0) - carry.get(advice.best.club, 0.0)
    if more < _LONGER_M or took["strokes"] <= advice.best.strokes:
        return False
    risk = [sum(c.get(name, 0.0) for name in advice.troubles)
            for c in (took["chances"], advice.best.chances)]  # fmt: skip
    return bool(_BAD_LIES & set(last.facts.lie)) or risk[0] > risk[1] + _RISKIER


def _chip(advice: ChipAdvice, act: Result) -> dict[str, Any]:
    picks = (advice.best, *((advice.other,) if advice.other else ()), *advice.more)
    found = next((p for p in picks if p.club == act.club), advice.best)
    return {
        "of": "chip",
        "best": advice.best.expected,
        "played": found.expected,
        "advised": {"club": advice.best.club, "swing": advice.best.how},
        "took": {"club": found.club, "swing": found.how},
        "taken": act.club in (None, advice.best.club),
        "unknown": act.club is not None and found.club != act.club,
    }


def _offered(advice: ShotAdvice, club: str | None, swing: str | None) -> dict[str, Any] | None:
    """Return the swing if its strokes are among what was weighed for the advice.

    A club named alone is the swing advised with it, or its full one.
    """
    best = advice.best
    wanted = (club or best.club, swing or _usual(club, best))
    every = (best, *advice.compared, *advice.others)
    return next((_took(w) for w in every if (w.club, w.swing) == wanted), None)


def _usual(club: str | None, best: Weighed) -> str:
    return best.swing if club in (None, best.club) else "full"


def _took(weighed: Weighed) -> dict[str, Any]:
    return {
        "club": weighed.club,
        "swing": weighed.swing,
        "strokes": weighed.strokes,
        "chances": weighed.chances,
    }


def _worked_out(choice: ShotChoice, club: str, swing: SwingKind | None) -> dict[str, Any] | None:
    """Return a swing that was not on offer; None if the bag has no such swing here."""
    play = choice.play(club, swing) or choice.play(club)
    if play is None:
        return None
    return {
        "club": play.club, "swing": play.kind, "strokes": play.strokes, "chances": play.chance,
    }  # fmt: skip
