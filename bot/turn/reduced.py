"""What a told result of a full shot teaches, brought back to calm by the advice it followed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from bot.model.advice import ShotAdvice, Weighed
from bot.model.measure import Measure
from bot.model.reading import Facts, Hazard, Result, Side
from bot.model.state import Player, Units
from bot.turn.bag import bag_of, curve_deg
from bot.turn.measures import distance_of, quantity_of, settle
from engine import Seen, ShotResult, quantity, seen_of, si, too_far

if TYPE_CHECKING:
    from engine.units import Q

_MISHITS = ("thin", "fat", "top", "shank", "sky", "whiff")
_CURVES = ("straight", "draw", "fade", "hook", "slice")  # a push or pull starts off line
_MISSED = {"push": 1, "slice": 1, "pull": -1, "hook": -1}
_WET = {"water": ("water", "penalty", "ditch"), "bunker": ("bunker",)}
_HIGHEST_FT = 90.0  # a told distance from the hole beyond this is no such distance


def club_of(act: Result, advice: ShotAdvice | None) -> str | None:
    """Return the club a result is about: the one named, else the one advised."""
    return act.club or (None if advice is None else advice.best.club)


def reduced(
    act: Result, *, advice: ShotAdvice | None, facts: Facts | None, player: Player,
    meant: Measure | None = None,
) -> Seen | None:  # fmt: skip
    """Return what a result teaches, or None where it teaches nothing of a full swing.

    `advice` and `facts` are those of the shot it answers, None where nothing was asked; a
    carry told with its club teaches without them, taken as hit in calm air on the level. `meant`
    is where an aim that was told would finish; of one nobody can place the side teaches nothing.
    """
    club = club_of(act, advice)
    swing = _swing(act, advice, club)
    if club is None or act.putt or swing != "full" or act.provisional:
        return None
    units = player.units or "imperial"
    if advice is None and act.carry is None and act.total is None and act.contact is None:
        return None
    weighed = None if advice is None else _weighed(advice, club)
    plays = None if advice is None else advice.plays
    profile = player.profile
    hand = -1 if profile.hand == "left" else 1
    curve = curve_deg(act.curve, hand) if act.curve in _CURVES else None
    carry, total = distance_of(act.carry, units), distance_of(act.total, units)
    distance = None if advice is None else distance_of(advice.distance, units)
    return seen_of(
        ShotResult(
            club=club,
            distance=distance,
            plays_as=None if plays is None else distance_of(plays.total, units),
            wind_part=None if plays is None else distance_of(plays.wind, units),
            height_part=None if plays is None else distance_of(plays.height, units),
            wind_feel=profile.wind_feel,
            height_feel=profile.height_feel,
            carry=carry,
            total=total,
            run=None if weighed is None else _run(weighed, units),
            depth=act.depth,
            by=distance_of(act.by, units),
            within=_within(act, facts, distance, units),
            side=_side(act, hand) if meant is not None or _placed(act) else None,
            side_by=distance_of(act.side_by, units),
            meant_side=distance_of(meant or (None if weighed is None else weighed.finish), units),
            contact=_contact(act),
            curve=None if curve is None else quantity(curve, "deg"),
        )
    )


def impossible(act: Result, seen: Seen, player: Player) -> bool:
    """Say whether a result carried further than this club of this player ever can."""
    return act.contact is None and too_far(bag_of(player.profile), seen)


def _swing(act: Result, advice: ShotAdvice | None, club: str | None) -> str:
    if act.swing is not None:
        return {"smooth": "full", "hard": "full"}.get(act.swing, act.swing)
    if advice is not None and advice.best.club == club:
        return advice.best.swing
    return "full"


def _weighed(advice: ShotAdvice, club: str) -> Weighed | None:
    every = (advice.best, *advice.compared, *advice.others)
    return next((w for w in every if w.club == club), None)


def _run(weighed: Weighed, units: Units) -> Q | None:
    carry, total = settle(weighed.carry, "distance", units), weighed.total
    return distance_of(Measure(value=max(total.value - carry.value, 0.0), unit=carry.unit), units)


def side_of(act: Result, hand: int) -> Side | None:
    """Return the side a ball ended on: as told, else by the name of its miss.

    A push or slice of a right-hander ends right, a pull or hook left: common practice, no
    source. On the green, or holed, no side is taken from it. `hand` is +1 or -1.
    """
    if act.side is not None or act.holed or "green" in act.lie or act.depth == "pin_high":
        return act.side
    way = _MISSED.get(act.curve or "", 0) * hand
    return "right" if way > 0 else "left" if way < 0 else None


def _side(act: Result, hand: int) -> Literal[-1, 0, 1] | None:
    side = side_of(act, hand)
    if side is not None:
        return 1 if side == "right" else -1
    return 0 if act.holed else None


def _placed(act: Result) -> bool:
    """Whether the ball was aimed where the advice said, as far as was told."""
    return act.aim is None or act.aim.at == "advised"


def _contact(act: Result) -> Literal["solid", "mishit"] | None:
    if act.contact == "solid":
        return "solid"
    return "mishit" if act.contact in _MISHITS else None


def _within(
    act: Result, facts: Facts | None, distance: Q | None, units: Units
) -> tuple[Q | None, Q | None] | None:
    """Distances between which the ball came down: round the hole, or in a told trouble."""
    if distance is not None and (act.holed or act.proximity is not None):
        away = act.proximity or Measure(value=0.0, unit="ft")
        feet = si(quantity_of(away.value, away.unit or "ft"), "ft")
        if feet > _HIGHEST_FT:
            return None
        here = si(distance, "ft")
        return quantity(here - feet, "ft"), quantity(here + feet, "ft")
    hazard = None if facts is None else _trouble(act, facts)
    if hazard is None:
        return None
    start, end = (
        distance_of(hazard.start, units),
        distance_of(hazard.end or hazard.reach_or_carry, units),
    )
    return None if start is None and end is None else (start, end)


def _trouble(act: Result, facts: Facts) -> Hazard | None:
    """The told trouble the ball lies in, if it lies across or short of the target."""
    kinds = [k for lie in act.lie for k in _WET.get(lie, ())]
    if "penalty" in act.lie:
        kinds += _WET["water"]
    told = [h for h in facts.hazards if h.kind in kinds and not h.noted]
    found = [h for h in told if h.side in ("short", "cross", "long")]
    return found[0] if len(found) == 1 else None
