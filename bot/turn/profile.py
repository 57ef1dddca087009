"""Keep what a player tells of themselves, and show the bag."""

from __future__ import annotations

from bot.model.answer import Answer, CannotYet, Silence
from bot.model.golfer import BagShown, ClubLine, Kept, ProfileDoubt
from bot.model.reading import Answered, Reading
from bot.model.reading import Profile as Told
from bot.model.state import Player
from bot.turn import setup
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.measures import measured
from bot.turn.profile_change import changed
from bot.turn.versions import save
from engine import Club, StartBag, quantity, si

_EIGHTY = 1.2816  # standard deviations either side that hold four fifths of a normal


def take(desk: Desk, act: Told, reading: Reading) -> tuple[Desk, Answer]:
    """Answer what a message tells of one player, all of it at once."""
    match act.intent:
        case "show":
            who = "" if desk.who == desk.message.sender else desk.trip.names.get(desk.who, "")
            return desk, bag_shown(desk.player, act.club, who)
        case "start_setup":
            return setup.start(desk)
        case "skip":
            return setup.go_on(desk, ())
    told = [a for a in reading.acts if isinstance(a, Told) and a.player == act.player]
    told = [a for a in told if a.intent not in ("show", "start_setup", "skip")] or [act]
    if act is not told[0] and act in told:
        return desk, Silence()  # kept with the first
    result = changed(desk.player, told)
    if isinstance(result, ProfileDoubt):
        return desk, result
    player, kept = result
    return setup.go_on(save(desk, player, why="told"), kept)


def take_answered(desk: Desk, act: Answered) -> tuple[Desk, Answer]:
    """Take a reply to the open question of the setting-up."""
    question = desk.player.setup
    if act.skip or act.unknown:
        return setup.go_on(desk, ())
    if question == "usual" and act.yes is not None:
        profile = desk.player.profile.model_copy(update={"good_ones": not act.yes})
        player = desk.player.model_copy(update={"profile": profile})
        kept = Kept(what="usual" if act.yes else "good")
        return setup.go_on(save(desk, player, why="told"), (kept,))
    told = setup.told_by(question, act)
    if told is None:
        return desk, setup.again(desk) or CannotYet(reason="not_read")
    return take(desk, told, Reading(text="", acts=(told,)))


def bag_shown(player: Player, only: str | None = None, who: str = "") -> Answer:
    """Return the bag as it stands, or one club of it."""
    profile = player.profile
    bag = bag_of(profile)
    clubs = tuple(_line(bag, club, player) for club in bag.golfer.clubs)
    if only is not None:
        clubs = tuple(c for c in clubs if c.name == only)
        if not clubs:
            return ProfileDoubt(fault="unknown", club=only)
    origin = "told" if "told" in (bag.of("handicap"), bag.of("score")) else "guessed"
    return BagShown(
        version=profile.version,
        who=who,
        clubs=clubs,
        only=only,
        hand=profile.hand,
        handicap=bag.handicap,
        handicap_source=origin,
        shape=profile.shape,
        miss=profile.miss,
        leave=profile.leave,
        wind_feel=profile.wind_feel,
        height_feel=profile.height_feel,
    )


def club_line(player: Player, name: str) -> ClubLine:
    """Return one club of the bag as it stands."""
    bag = bag_of(player.profile)
    return _line(bag, next(c for c in bag.golfer.clubs if c.name == name), player)


def _line(bag: StartBag, club: Club, player: Player) -> ClubLine:
    units = player.units or "imperial"
    fact = next((c for c in player.profile.clubs if c.name == club.name), None)
    origin = bag.of("carry_m", club.name)
    half = None
    if origin == "guessed":
        half_m = _EIGHTY * bag.doubt(club.name) * club.carry_m
        half = measured(quantity(half_m, "m"), "distance", units)
    return ClubLine(
        name=club.name,
        carry=measured(quantity(club.carry_m, "m"), "distance", units),
        source=origin,
        half=half,
        loft_deg=si(quantity(club.loft_rad, "rad"), "deg"),
        spread_long=club.spread_long,
        spread_source=bag.of("spread_long", club.name),
        side_deg=si(quantity(club.spread_side_rad, "rad"), "deg"),
        lean_deg=si(quantity(club.lean_rad, "rad"), "deg"),
        mishit=club.mishit,
        solid=0 if fact is None else fact.shots,
    )
