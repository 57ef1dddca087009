"""What a profile looks like after what was just told, or why it cannot be."""

from __future__ import annotations

from collections.abc import Sequence

from bot.model.golfer import Kept, Miss, ProfileDoubt
from bot.model.measure import Measure
from bot.model.reading import Profile as Told
from bot.model.state import ClubFact, Player, Profile, Units
from bot.turn.bag import facts_of
from bot.turn.measures import in_metres, measured, settle
from engine import Fault, bag_faults, club_family, quantity

Result = tuple[Player, tuple[Kept, ...]] | ProfileDoubt

_SWINGS = {
    "choked": "choked", "three_quarter": "three_quarter", "half": "half",
    "knocked_down": "knocked_down", "high": "high", "smooth": "three_quarter",
}  # fmt: skip
_MIRRORED: dict[Miss, Miss] = {"left": "right", "right": "left"}
_ALL_SWINGS = ("full", "choked", "three_quarter", "knocked_down")


def changed(player: Player, acts: Sequence[Told]) -> Result:
    """Return the player after `acts` with what was kept of each, or the first doubt."""
    kept: list[Kept] = []
    before = player
    for act in acts:
        result = _one(player, act)
        if isinstance(result, ProfileDoubt):
            return result
        player, some = result
        if some.club and some.what in ("carry", "total", "total_beside", "best"):
            other = next((k for k in kept if (k.what, k.club) == (some.what, some.club)), None)
            if other is not None and other.value != some.value:
                return ProfileDoubt(fault="twice", club=some.club, value=some.value)
        kept.append(some)
    found = bag_faults(facts_of(player.profile))
    known = {(f.kind, f.club) for f in bag_faults(facts_of(before.profile))}
    new = [f for f in found if (f.kind, f.club) not in known]
    if new:
        return _doubt(new[0], player.units or "imperial")
    return player, tuple(kept)


def _one(player: Player, act: Told) -> tuple[Player, Kept] | ProfileDoubt:
    profile = player.profile
    match act.intent:
        case "set_club" | "add_club":
            return _set_club(player, act)
        case "remove_club" if act.club:
            clubs = tuple(c for c in profile.clubs if c.name != act.club)
            without = (*(n for n in profile.without if n != act.club), act.club)
            return _with(player, clubs=clubs, without=without), Kept(
                what="club_out", club=act.club
            )
        case "remove_club":
            return ProfileDoubt(fault="which_club")
        case "set_hand" if act.hand:
            return _with(player, hand=act.hand), Kept(what="hand", word=act.hand)
        case "set_handicap" if act.handicap is not None:
            value = Measure(value=act.handicap)
            new = _with(player, handicap=act.handicap, usual_score=None)
            return new, Kept(what="handicap", value=value)
        case "set_handicap" if act.usual_score is not None:
            value = Measure(value=act.usual_score)
            new = _with(player, usual_score=act.usual_score, handicap=None)
            return new, Kept(what="score", value=value)
        case "set_shape" if act.shape:
            return _with(player, shape=act.shape), Kept(what="shape", word=act.shape)
        case "set_miss" if act.miss:
            learned = tuple(n for n in profile.learned if n != "miss")
            miss = act.miss
            if act.shape is not None and profile.hand == "left":  # read for a right-hander
                miss = _MIRRORED.get(miss, miss)
            return _with(player, miss=miss, learned=learned), Kept(what="miss", word=miss)
        case "set_leave" if act.leave:
            leave = _settled(act.leave, player.units)
            return _noting(_with(player, leave=leave), leave), Kept(what="leave", value=leave)
        case "set_speed" if act.speed:
            speed = settle(act.speed, "wind", player.units or "imperial")
            return _with(player, speed=speed), Kept(what="speed", value=speed)
        case "set_swing" if act.swing in _SWINGS:
            return _set_swing(player, _SWINGS[act.swing], owned=act.owns is not False)
        case _:
            return _of_player(player, act)


def _of_player(player: Player, act: Told) -> tuple[Player, Kept] | ProfileDoubt:
    """Keep what belongs to the player and not to their golf."""
    match act.intent:
        case "set_units" if act.units:
            return _set_units(player, act.units), Kept(what="units", word=act.units)
        case "set_name" if act.name:
            name = act.name[:40]
            return player.model_copy(update={"name": name}), Kept(what="name", word=name)
        case "set_card" if act.choice in ("on", "off"):
            card = player.model_copy(update={"protect_card": act.choice == "on"})
            return card, Kept(what="card", word=act.choice)
        case "set_tempo" if act.choice in ("short", "full"):
            return (
                player.model_copy(update={"tempo": act.choice}),
                Kept(what="tempo", word=act.choice),
            )
        case _:
            return ProfileDoubt(fault="what")


def _set_club(player: Player, act: Told) -> tuple[Player, Kept] | ProfileDoubt:
    name = act.club
    if name is None:
        return ProfileDoubt(fault="which_club")
    if club_family(name) is None:
        return ProfileDoubt(fault="unknown", club=name)
    old = next((c for c in player.profile.clubs if c.name == name), ClubFact(name=name))
    new, before, kept = old, old.carry or old.total, None
    if act.loft is not None:
        new = new.model_copy(update={"loft_deg": act.loft.value})
        kept = Kept(what="loft", club=name, value=act.loft.model_copy(update={"unit": "deg"}))
    told = act.carry or act.total
    if told is not None:
        told = _settled(told, player.units)
        player = _noting(player, told)
        if act.carry is None and old.carry is not None:
            return _beside_carry(player, old, told)
        rolled = None if act.total is None else _settled(act.total, player.units)
        new = new.model_copy(
            update={
                "carry": None if act.carry is None else told, "total": rolled,
                "best_ever": act.best_ever, "carry_source": "told", "told_carry": None, "shots": 0,
            }
        )  # fmt: skip
        what = "best" if act.best_ever else "carry" if act.carry is not None else "total"
        kept = Kept(what=what, club=name, value=told, before=None if before == told else before)
    if kept is None:
        if act.intent == "set_club":
            return ProfileDoubt(fault="how_far", club=name)
        kept = Kept(what="club_in", club=name)
    return _with_club(player, new), kept


def _beside_carry(
    player: Player, club: ClubFact, total: Measure
) -> tuple[Player, Kept] | ProfileDoubt:
    """Keep a total of a club whose carry is known, which it does not change."""
    units, carry = player.units or "imperial", club.carry
    if carry is not None and in_metres(total, units) < in_metres(carry, units):
        return ProfileDoubt(fault="short_total", club=club.name, value=total, low=carry)
    kept = Kept(what="total_beside", club=club.name, value=total, before=carry)
    return _with_club(player, club.model_copy(update={"total": total})), kept


def _with_club(player: Player, club: ClubFact) -> Player:
    """Return the player with `club` in the bag, in the place of what was known of it."""
    clubs = (*(c for c in player.profile.clubs if c.name != club.name), club)
    without = tuple(n for n in player.profile.without if n != club.name)
    return _with(player, clubs=clubs, without=without)


def _set_swing(player: Player, swing: str, *, owned: bool) -> tuple[Player, Kept]:
    swings = player.profile.swings or _ALL_SWINGS
    swings = tuple(s for s in swings if s != swing) + ((swing,) if owned else ())
    kept = Kept(what="swing_in" if owned else "swing_out", word=swing)
    return _with(player, swings=swings), kept


def _set_units(player: Player, units: Units) -> Player:
    """Keep the units, and settle the numbers that were told bare before they were known."""
    clubs = tuple(
        c.model_copy(
            update={
                "carry": c.carry and settle(c.carry, "distance", units),
                "total": c.total and settle(c.total, "distance", units),
            }
        )
        for c in player.profile.clubs
    )
    return _with(player.model_copy(update={"units": units}), clubs=clubs)


def _settled(told: Measure, units: Units | None) -> Measure:
    """Give a bare number the player's unit; it stays bare while no unit is known."""
    return told if units is None else settle(told, "distance", units)


def _noting(player: Player, told: Measure) -> Player:
    """Take the player's units from the unit they used, where none was set."""
    if player.units is not None or told.unit not in ("yd", "m"):
        return player
    return _set_units(player, "metric" if told.unit == "m" else "imperial")


def _with(player: Player, **update: object) -> Player:
    profile: Profile = player.profile.model_copy(update=update)
    return player.model_copy(update={"profile": profile})


def _doubt(fault: Fault, units: Units) -> ProfileDoubt:
    """Return the engine's fault in the player's units."""

    def shown(value: float) -> Measure:
        if fault.kind in ("range", "order"):
            return measured(quantity(value, "m"), "distance", units)
        if fault.kind == "speed":
            return measured(quantity(value, "m/s"), "wind", units)
        return Measure(value=value)

    return ProfileDoubt(
        fault=fault.kind,
        club=fault.club,
        other=fault.other,
        value=shown(fault.value),
        low=shown(fault.low),
        high=shown(fault.high),
    )
