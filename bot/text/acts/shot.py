"""Does the message ask about a shot, or lean on the last one?"""

from typing import Literal

from bot.model.reading import Facts, FollowUp, Nonsense, Putt, Shot
from bot.text.acts.bundle import FARTHEST, Bundle, facts
from bot.text.patterns import Token

ShotKind = Literal["shot", "tee", "layup", "recovery", "chip", "putt"]
_CHIP_YD = 40.0


def putt(b: Bundle) -> Putt | None:
    """The putt told."""
    length = None
    for token in b.tokens:
        if (
            token.name == "n.ft"
            or (token.name in ("n.len", "got.distance") and b.has("putt.noun"))
        ) and token.value.unit in ("ft", "m", "yd", "pace", "cm", "in"):
            length = token.value.measure()
            break
    if length is None:
        ref = b.value("got.ref")
        if ref is not None and ref[1].unit in ("ft", "pace"):
            length = ref[1].measure()
    if length is None and b.has("putt.noun"):
        bare = b.first("n.bare", "n.det")
        if bare is not None:
            length = bare.value._replace(unit="ft").measure()
    side = _break(b.tokens)
    slope: Literal["up", "down", "flat"] | None = None
    size = None
    height = b.value("got.height")
    if height is not None:
        slope = "up" if height.direction == 1 else "down" if height.direction == -1 else "flat"
        size = height.size
        if size is not None and length is None and size.unit == "ft":
            length, size = size, None
    if b.has("putt.up"):
        slope = "up"
    elif b.has("putt.down"):
        slope = "down"
    if slope is None:
        if b.has("height.up"):
            slope = "up"
        elif b.has("height.down"):
            slope = "down"
    percent = b.first("n.pct")
    if size is None and percent is not None:
        size = percent.value.measure()
    cups = b.first("n.cup")
    word = None
    if b.has("putt.breaks"):
        for token in b.every("x"):
            if token.text in ("lot", "loads", "big", "massive", "tons"):
                word = "big"
    made = Putt(
        length=length, slope=slope, slope_size=size, break_to=side,
        break_size=cups.value.measure() if cups else None,
        break_word=word,
    )  # fmt: skip
    return None if made == Putt() else made


def _break(tokens: list[Token]) -> Literal["left", "right"] | None:
    for token in tokens:
        if token.name == "dir.line" and token.value.deg in (270.0, 90.0):
            return "right" if token.value.deg == 270.0 else "left"
        if (
            token.name == "got.wind"
            and token.value.from_deg in (270.0, 90.0)
            and token.value.speed is None
        ):
            return "right" if token.value.from_deg == 270.0 else "left"
        if token.name in ("side.left", "side.right"):
            return "left" if token.name == "side.left" else "right"
    return None


def is_putt(b: Bundle) -> bool:
    """Whether the message is about a putt to come."""
    if b.has("got.distance", "got.ref") and not b.has("putt.noun"):
        return False
    if any(t.text == "putts" for t in b.every("putt.noun")):
        return False
    if b.has("putt.noun", "putt.breaks", "putt.up", "putt.down", "putt.cups", "n.cup"):
        return b.has("n.ft", "putt.noun", "got.height")
    return any(t.name == "n.ft" and t.text.endswith(("footer", "footers")) for t in b.tokens)


def shot_kind(b: Bundle, told: Facts) -> ShotKind:
    """Which kind of shot the told facts are about."""
    yards = _yards(told)
    if b.has("layup", "got.leave") and (
        b.has("got.leave", "layup.leave", "layup.verb", "got.leave")
        or (b.has("layup.second") and (yards or 0) > 240)
    ):
        return "layup"
    if b.has("swing.chip", "swing.pitch", "swing.flop", "swing.bump", "swing.splash"):
        return "chip"
    if b.has("lie.tee", "got.dogleg", "layup.teeshot") and not (yards is not None and yards < 230):
        return "tee"
    if told.hole is not None and told.hole.length is not None:
        return "tee"
    if "blocked" in told.lie:
        return "recovery"
    if yards is not None and yards <= _CHIP_YD:
        return "chip"
    if yards is not None and yards < 50 and {"greenside_bunker", "fringe"} & set(told.lie):
        return "chip"
    return "shot"


def _yards(told: Facts) -> float | None:
    if told.distance is None:
        return None
    return told.distance.value * (1.0936 if told.distance.unit == "m" else 1.0)


def absurd(told: Facts) -> Nonsense | None:
    """The number that cannot be, if one was told."""
    distance = told.distance
    if distance is not None and not 0 < (_yards(told) or 0) <= FARTHEST:
        return Nonsense(why="distance", said=f"{distance.value:g}{distance.unit}")
    speed = told.wind.speed if told.wind else None
    if speed is not None and speed.unit != "club":
        most = {"m/s": 45.0, "km/h": 160.0, "kn": 90.0}.get(speed.unit, 100.0)
        if not 0 <= speed.value <= most:
            return Nonsense(why="wind", said=f"{speed.value:g}{speed.unit}")
    size = told.elevation.size if told.elevation else None
    if size is not None and size.value > 500:
        return Nonsense(why="height", said=f"{size.value:g}{size.unit}")
    temperature = told.air.temperature if told.air else None
    if temperature is not None and not -40 <= temperature.value <= 130:
        return Nonsense(why="temperature", said=f"{temperature.value:g}{temperature.unit}")
    return None


def _par_and_length(b: Bundle, told: Facts) -> Facts:
    """On a par four or five, or from the tee, a long number is the hole's length."""
    hole = told.hole
    if hole is None or told.distance is None or told.reference not in (None, "green"):
        return told
    long = (_yards(told) or 0) >= 240
    if (hole.par in (4, 5) and long and not b.has("dist.left", "got.distance")) or (
        hole.dogleg is not None and long and not b.has("got.distance")
    ):
        length = told.distance
        return told.model_copy(
            update={"distance": None, "hole": hole.model_copy(update={"length": length})}
        )
    return told


def shot(b: Bundle, player: str | None) -> Shot | FollowUp | Nonsense | None:
    """A shot to advise on, a lean on the last one, or None."""
    if is_putt(b):
        stroke = putt(b)
        if stroke is not None and stroke.length is not None:
            lie = ("fringe",) if b.has("lie.fringe") else ()
            return Shot(kind="putt", facts=Facts(putt=stroke, lie=lie), player=player)
        if stroke is not None:
            return FollowUp(facts=Facts(putt=stroke), player=player)
    told = _par_and_length(b, facts(b))
    odd = absurd(told)
    if odd is not None:
        return odd
    if told.distance is not None and b.has("ask.correct"):
        return FollowUp(ask="correct", facts=told, player=player)
    if told.distance is not None or (told.hole is not None and told.hole.length is not None):
        return Shot(kind=shot_kind(b, told), facts=told, player=player)
    return lean(b, told, player)


def lean(b: Bundle, told: Facts, player: str | None) -> Shot | FollowUp | None:
    """A message without a distance that changes or questions the last shot."""
    if b.has("ask.correct", "got.swap"):
        return FollowUp(ask="correct", facts=told, not_side=b.value("got.swap"), player=player)
    if b.has("ask.why_not") or (b.has("ask.why") and (told.club or told.club_excluded)):
        club = told.club or told.club_excluded
        told = told.model_copy(update={"club": club, "club_excluded": None})
        return FollowUp(ask="why_not" if club else "why", facts=told, player=player)
    if b.has("ask.why"):
        return FollowUp(ask="why", facts=told, player=player)
    if b.has("ask.other"):
        return FollowUp(ask="alternatives", facts=told, player=player)
    if told.clubs_compare:
        return FollowUp(ask="compare", facts=told, player=player)
    if told.club or ((told.shape or told.swing) and b.has("ask")):
        return FollowUp(ask="what_if", facts=told, player=player)
    reference = b.first("place.front", "place.back", "place.middle", "place.pin")
    if reference is not None and not b.has("got"):
        told = told.model_copy(update={"reference": reference.name.split(".")[1]})
        return FollowUp(ask="other_reference", facts=told, player=player)
    if b.has("ask.which"):
        return Shot(kind=shot_kind(b, told), facts=told, player=player)
    if b.has("ask.same"):
        return FollowUp(ask="same", facts=told, player=player)
    if b.has("layup.go"):
        return FollowUp(ask="reach", facts=told, player=player)
    if b.has("lie.tee", "layup.teeshot", "got.dogleg") and told != Facts(lie=("tee",)):
        return Shot(kind="tee", facts=told, player=player)
    more = told.model_copy(update={"swing": None, "shape": None})
    if more != Facts() and not b.has("n.junk", "noise"):
        return FollowUp(facts=told, player=player)
    return None
