"""Does the message ask about a shot, or lean on the last one?"""

from itertools import pairwise
from typing import Literal

from bot.model.reading import (
    Facts,
    FollowUp,
    Green,
    Hazard,
    Hole,
    Nonsense,
    Putt,
    Result,
    Shot,
    Side,
    Wind,
)
from bot.text.acts.bundle import FARTHEST, Bundle, facts, green, loose, wind_of
from bot.text.acts.in_units import turned_unit, unit_apart, wind_unit
from bot.text.acts.putt import ROLLS, putt
from bot.text.acts.steps import chosen, club_step
from bot.text.patterns import Token
from bot.text.rules.trouble import KIND

ShotKind = Literal["shot", "tee", "layup", "recovery", "chip", "putt"]
_GREEN_PACE = frozenset({"ground.stimp", "ground.fast", "ground.slow", "ground.very_fast"})
_SLOPES = frozenset({
    "height.up", "height.down", "height.uphill", "height.downhill", "putt.up", "putt.down",
})  # fmt: skip
_TALK = 2  # words unknown to golf that make a bare number one of something else
_UNITS = frozenset({"yards", "metres", "meters", "yds", "paces"})
_SMALL = frozenset({
    "honest", "here", "something", "give", "need", "think", "club", "hit", "shot", "please",
    "caddie", "got", "now", "about", "looks", "look", "say", "says", "ball", "take", "number",
    "everything", "else", "spot", "away", "sure", "just", "that", "this", "time", "after",
})  # fmt: skip
_NEAREST = 0.2  # yards: nothing is that near
_CHIP_YD = 40.0
_WAYS = frozenset({"bump", "chip", "pitch", "flop"})  # "flop it?"
_RUNS = frozenset({"falls", "goes", "turns", "rolls", "moves", "runs"})
_MOREOVER = ("and ", "plus ", "also ")
_PUTT_IT = frozenset({"putt.done", "putt.noun", "punct.q", "ask.what_if"})
_FAR_PUTT = 60.0  # yards: no putt is so long
_HOLE_YD = 300.0
_PAR_FIVE = 400.0
# Words that ask about the last answer even without a club.
_ENOUGH = frozenset({"enough", "too much", "too little", "big enough", "right club", "be enough"})
_LEFT = (["n.ft", "side.left"], ["n.ft", "dist.left"])  # "8 ft left" is still to go
_AROUND_OTHER_SIDE = frozenset({
    "wind.mirror", "ask.correct", "join.not", "join.on", "join.from", "talk.yes", "wind.noun",
})  # fmt: skip
_NUMBERS = frozenset({"n.len", "n.ft", "n.bare", "n.det"})


def raw_of(b: Bundle) -> list[Token]:
    """The tokens of this part of the message as they were before any rule."""
    if not b.tokens:
        return []
    start, end = b.tokens[0].start, b.tokens[-1].end
    return [t for t in b.raw if start <= t.start and t.end <= end]


def is_putt(b: Bundle, raw: list[Token]) -> bool:
    """Whether the message is about a putt to come."""
    if b.has("swing.chip") and b.has("join.or") and not b.has("n.ft"):
        return False  # "putt or chip, 9 yards"
    if any(t.name == "n.ft" and t.text.endswith(("footer", "footers")) for t in raw):
        return True
    paced = any(t.name == "n.len" and t.value.unit == "pace" for t in raw)
    if paced and b.has("result.on") and b.has("putt.breaks"):
        return True  # "three paces to the hole on the green, swings left"
    if b.has("got.distance", "got.ref") and not b.has("putt.noun"):
        return False
    to_come = any(t.text == "putt it" for t in b.every("putt.done"))
    if to_come and b.has("n.ft") and not b.has("result", "side", "contact"):
        return True
    if _for_a_score(raw) or [t.name for t in raw] in _LEFT:
        return True
    if any(t.text == "putts" for t in b.every("putt.noun")):
        return False
    far = any(t.value.value >= _FAR_PUTT for t in b.every("n.bare", "n.len"))
    if far and not b.has("putt.noun", "n.ft"):
        return False  # "green falls off on the left, anything right feeds in, 148"
    if b.has("putt.noun", "putt.breaks", "putt.up", "putt.down", "putt.cups", "n.cup"):
        return b.has("n.ft", "putt.noun", "got.height") or _breaks(raw)
    return _feet_and_line(raw)


def _for_a_score(raw: list[Token]) -> bool:
    """Whether feet are told with the score they are for: "15 ft for birdie"."""
    names = [t.name for t in raw if t.name != "join.for"]
    return any(
        a == "n.ft" and b.startswith("score.") and b != "score.made" for a, b in pairwise(names)
    )


def _feet_and_line(raw: list[Token]) -> bool:
    """Whether feet are told with how a ball would roll, or with the putter, and little else."""
    numbers = [
        i for i, t in enumerate(raw)
        if t.name.startswith("n.") and t.name != "n.pct" and not _of_stimp(raw, i)
        and not (t.name == "n.ft" and t.value.unit == "in")  # how far it breaks
    ]  # fmt: skip
    if len(numbers) != 1 or raw[numbers[0]].name != "n.ft" or raw[numbers[0]].value.value > 120:
        return False
    at = numbers[0]
    names = {t.name for t in raw}
    if names & {"wind.noun", "n.speed"} or any(n.startswith("hazard") for n in names):
        return False
    paced = bool(names & _GREEN_PACE) and bool(names & _SLOPES)  # "20 ft, slightly down, slow"
    paced = paced or (bool(names & _GREEN_PACE) and any(t.text == "one" for t in raw))
    rises = at > 0 and raw[at - 1].name in ("height.up", "height.down")  # "up 8 ft"
    rolls = names & {"wind.l2r", "wind.r2l", "shape.straight", "ground.falsefront"}
    rises = rises and "ground.falsefront" not in names
    rolls = rolls or {t.text for t in raw if t.text in ("edge", "lip")}
    if names & _SLOPES and names & {"side.left", "side.right"}:  # "uphill, goes right"
        rolls = rolls or {t.text for t in raw if t.text in ("goes", "moves", "turns", "rolls")}
    cup = any(t.text == "cup" and "a" in t.before.split() for t in raw)  # "a cup outside left"
    if names & {"side.left", "side.right"} and {"result.on", "place.green"} & names:
        rolls = rolls or {t.text for t in raw if t.text in ROLLS}
    if cup or _runs_to_side(raw, at):  # "20 feet, falls left", "10 feet, high side is right"
        return True
    return (bool(rolls or paced) and not rises) or "club.P" in names


def _runs_to_side(raw: list[Token], at: int) -> bool:
    """Whether nothing follows the feet at `at` but where a ball on the green would run."""
    rest = [t for t in raw[at + 1 :] if t.name not in ("punct.c", "punct.stop")]
    if [t.name for t in rest[1:2]] == ["join.side"] and rest[0].text == "high":
        rest = rest[1:]
        return [t.name for t in rest[1:]] in (["side.left"], ["side.right"])
    ran = [t.name for t in rest[1:2]] in (["side.left"], ["side.right"])
    ended = all(t.name in ("join.at", "carry.end", "join.side") for t in rest[2:])
    return at == 0 and ran and ended and rest[0].text in _RUNS


def _of_stimp(raw: list[Token], at: int) -> bool:
    """Whether a number is the speed of the green."""
    return any(t.name == "ground.stimp" for t in raw[max(at - 1, 0) : at + 2])


def _breaks(raw: list[Token]) -> bool:
    """Whether little more is said than how a putt breaks."""
    verb = any(t.name == "putt.breaks" and t.text.startswith(("br", "borrow")) for t in raw)
    far = any(t.name == "n.len" or (t.name == "n.bare" and t.value.value > 20) for t in raw)
    return verb and not far and len(raw) <= 8 and not any(t.name[:4] == "hole" for t in raw)


def putt_facts(b: Bundle, raw: list[Token]) -> Facts:
    """What was told of a putt, its green and where the ball lies."""
    blown = [t for t in b.every("got.wind") if t.value.speed is not None]
    still = [t for t in raw if not any(w.start <= t.start and t.end <= w.end for w in blown)]
    if [t.name for t in raw] in _LEFT:
        still = still[:1]
    told, ground = putt(still), green(b)
    if ground is not None:  # "breaks hard" tells nothing of the turf
        ground = Green(stimp=ground.stimp, speed_word=ground.speed_word)
    return Facts(
        putt=None if told.putt == Putt() else told.putt,
        green=None if ground == Green() else ground,
        lie=("fringe",) if b.has("lie.fringe") else (),
        wind=wind_of(b) if blown else None,
        shape="straight" if told.straight else None,
    )


def putt_left(b: Bundle, told: Result) -> Shot | None:
    """The putt told behind how near a ball came: "pured it to 6 feet, straight downhill one"."""
    ended = told.holed is not None or told.putts is not None or told.conceded
    if told.proximity is None or ended or not b.has("height", "got.height", "putt", "wind.l2r"):
        return None
    facts = putt_facts(b, raw_of(b))
    if facts.putt is None or facts.putt.length is None or facts.putt.slope is None:
        return None
    return Shot(kind="putt", facts=facts, player=told.player)


def _chip_length(b: Bundle, told: Facts) -> Facts:
    """Of a chip "25 yards uphill" tells the length, and that it is uphill."""
    rise = told.elevation
    if told.distance is not None or rise is None or rise.size is None or not b.has("swing"):
        return told
    if rise.size.unit not in ("yd", "m", "pace"):
        return told
    return told.model_copy(
        update={"distance": rise.size, "elevation": rise.model_copy(update={"size": None})}
    )


def _with_break(told: Facts, raw: list[Token]) -> Facts:
    """A short shot with the break of its green; "left to right" alone is no wind there."""
    seen = putt([t for t in raw if t.name not in _NUMBERS]).putt
    if seen.break_to is None:
        return told
    only = Putt(break_to=seen.break_to, break_size=seen.break_size, break_word=seen.break_word)
    blows = told.wind is not None and told.wind.speed is not None
    return told.model_copy(update={"putt": only, "wind": told.wind if blows else None})


def shot_kind(b: Bundle, told: Facts) -> ShotKind:
    """Which kind of shot the told facts are about."""
    yards = _yards(told)
    if told.leave is not None:
        return "layup"
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
    return told.distance.value * {"m": 1.0936, "ft": 1 / 3}.get(told.distance.unit, 1.0)


def _in_told_units(told: Facts, text: str) -> Facts:
    """The facts with the units that were told apart from their numbers."""
    distance, turned = told.distance, turned_unit(text)
    unit = turned or unit_apart(text)
    open_to = ("", "yd", "m") if turned else ("",)
    if distance is not None and distance.unit in open_to and unit is not None:
        told = told.model_copy(update={"distance": distance.model_copy(update={"unit": unit})})
    wind, blown = told.wind, wind_unit(text)
    if wind is not None and wind.speed is not None and not wind.speed.unit and blown:
        speed = wind.speed.model_copy(update={"unit": blown})
        told = told.model_copy(update={"wind": wind.model_copy(update={"speed": speed})})
    return told


def chatter(b: Bundle, told: Facts) -> bool:
    """Whether a bare number stands among words that are not about golf."""
    length = told.distance if told.hole is None else told.hole.length
    unread = {t.text for t in b.raw if t.name == "x.word" and len(t.text) > 2} - _SMALL
    if length is None or length.unit or len(unread) < _TALK or unread & _UNITS:
        return False
    if b.has("ask", "got.ref", "got.distance", "dist", "layup", "lie", "got.wind", "got.hazard"):
        return False
    only = Facts(distance=length) if told.hole is None else Facts(hole=told.hole)
    return told == only and (told.hole is None or told.hole == Hole(length=length))


def absurd(told: Facts) -> Nonsense | None:
    """The number that cannot be, if one was told."""
    distance = told.distance
    if distance is not None and not _NEAREST <= (_yards(told) or 0) <= FARTHEST:
        return Nonsense(why="distance", said=f"{distance.value:g}{distance.unit}")
    speed = told.wind.speed if told.wind else None
    if speed is not None:
        most = {"m/s": 45.0, "km/h": 160.0, "kn": 90.0, "club": 6.0}.get(speed.unit, 100.0)
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
    if hole is None and b.has("lie.tee", "layup.teeshot") and (_yards(told) or 0) >= _HOLE_YD:
        hole = Hole()  # nobody is that far from a pin on a tee
    from_tee = {"D", "3w"} & {told.club or "", *told.clubs_compare}
    if hole is None and from_tee and (_yards(told) or 0) >= _HOLE_YD and not b.has("got.distance"):
        hole = Hole()  # the driver is asked about on a tee
    if hole is None or told.distance is None or told.reference not in (None, "green"):
        return told
    if b.has("layup.second") or (told.reference == "green" and b.has("layup.verb")):
        return told
    if hole.par in (4, 5) and not b.has("dist.left", "got.distance"):
        longest = max(loose(b), key=lambda n: n.value, default=None)
        if longest is not None and longest.value > told.distance.value:
            told = told.model_copy(update={"distance": longest.measure()})
    # No par five is so short: what is told of it is left to go.
    long = (_yards(told) or 0) >= (_PAR_FIVE if hole.par == 5 else 240)
    if (hole.par in (4, 5) and long and not b.has("dist.left", "got.distance")) or (
        (hole.dogleg is not None or hole == Hole()) and long and not b.has("got.distance")
    ):
        length = told.distance
        return told.model_copy(
            update={"distance": None, "hole": hole.model_copy(update={"length": length})}
        )
    return told


def shot(b: Bundle, player: str | None, text: str) -> Shot | FollowUp | Nonsense | None:
    """A shot to advise on, a lean on the last one, or None."""
    raw = raw_of(b)
    if is_putt(b, raw):
        told = putt_facts(b, raw)
        if told.putt is not None and told.putt.length is not None:
            return Shot(kind="putt", facts=told, player=player)
        if told.putt is not None:
            return FollowUp(facts=told, player=player)
    own = chosen(text)
    if own is not None:
        return FollowUp(ask="what_if", facts=Facts(club=own), player=player)
    told = _of_the_hole(_chip_length(b, _par_and_length(b, facts(b))))
    if chatter(b, told):
        return None
    step = club_step(text)
    if step is not None and told.model_copy(update={"swing": None, "beside": ()}) == Facts():
        clubs, doubted = step
        return FollowUp(ask="why_not" if doubted else "what_if", step=clubs, player=player)
    told = _in_told_units(told, text)
    odd = absurd(told)
    if odd is not None:
        return odd
    if told.distance is not None and b.has("ask.same") and b.tokens[0].name == "ask.same":
        return FollowUp(facts=told, player=player)
    if told.distance is not None and b.has("ask.correct", "got.instead"):
        return FollowUp(ask="correct", facts=told, player=player)
    edge = told == Facts(distance=told.distance, reference=told.reference)
    edge = edge and told.reference in ("front", "back")
    if edge and (text.lower().startswith(_MOREOVER) or raw[0].name == "join.to"):
        beside = Facts(**{told.reference or "": told.distance})  # "and to the front is 150"
        return FollowUp(facts=beside, player=player)
    if told.distance is not None or (told.hole is not None and told.hole.length is not None):
        kind = shot_kind(b, told)
        told = _with_break(told, raw) if kind == "chip" else told
        return Shot(kind=kind, facts=told, reach=b.has("layup.go"), player=player)
    if b.has("got.either") or (told.front is not None and told.back is not None):
        return Shot(kind=shot_kind(b, told), facts=told, player=player)
    return lean(b, told, player, text)


def _of_the_hole(told: Facts) -> Facts:
    """What was told, where "straight" says how the hole runs and asks for no straight ball."""
    hole = told.hole
    if hole is None:
        return told
    straight = told.shape == "straight" and told.club is None and hole.length is not None
    return told.model_copy(update={"shape": None}) if straight else told


def _swapped(b: Bundle, told: Facts) -> Facts:
    """The trouble named beside "right, not left", on the right side of the two."""
    wrong = b.value("got.swap")
    kinds = [KIND[t.name.split(".")[1]] for t in b.every("hazard") if t.name.split(".")[1] in KIND]
    if wrong is None or not kinds or told.hazards:
        return told
    side: Side = "left" if wrong == "right" else "right"
    return told.model_copy(update={"hazards": tuple(Hazard(kind=k, side=side) for k in kinds)})


def _other_side(b: Bundle, told: Facts) -> Side | None:
    """The side taken back by "no, left" and nothing more."""
    sides = b.every("side.left", "side.right")
    if told != Facts() or len(sides) != 1:
        return None
    return "right" if sides[0].name == "side.left" else "left"


def _of_other_side(b: Bundle, told: Facts) -> bool:
    """Whether trouble, or what was told last, is put on the other side: "no, the other side"."""
    if not b.has("wind.mirror"):
        return False
    if told == Facts():
        said = (t.name for t in b.tokens)
        return all(n in _AROUND_OTHER_SIDE or n.startswith("punct") for n in said)
    bare = told == Facts(hazards=told.hazards) and not any(h.side for h in told.hazards)
    return bare and b.tokens[-1].name == "wind.mirror"  # not "on the other side too"


def _supposed(b: Bundle, told: Facts) -> bool:
    """Whether a change of wind, air or pin is only supposed: "what if it was calm"."""
    said = [t for t in b.tokens if not t.name.startswith("punct")]
    return bool(said) and said[0].name == "join.if" and not told.hazards


def _asks(b: Bundle) -> bool:
    """Whether the message is put as a question: "lay up?", "should I lay up"."""
    return b.has("punct.q", "ask.what_if")


def asks_carry(b: Bundle, player: str | None) -> FollowUp | None:
    """A question what has to be carried: the last shot and its trouble stay as told."""
    carry = b.first("carry.verb") or b.first("got.hazard")
    asked = b.has("ask.which", "join.what", "review.stats") or {"how", "far"} <= b.words()
    if carry is None or not asked or "my" in carry.before.split():
        return None
    if b.has("n", "got.distance", "got.ref", "got.carry", "club", "got.club", "got.wind"):
        return None
    told = facts(b)
    only = told == Facts(hazards=told.hazards)
    over = [t for t in raw_of(b) if t.name == "carry.verb"]
    return FollowUp(ask="carry", facts=told, player=player) if only and over else None


def lean(b: Bundle, told: Facts, player: str | None, text: str) -> Shot | FollowUp | None:
    """A message without a distance that changes or questions the last shot."""
    if _of_other_side(b, told):
        return FollowUp(ask="correct", facts=told, not_side="told", player=player)
    if b.has("ask.correct", "got.swap"):
        wrong = b.value("got.swap") or _other_side(b, told)
        return FollowUp(ask="correct", facts=_swapped(b, told), not_side=wrong, player=player)
    if b.has("ask.miss"):
        return FollowUp(ask="miss", facts=told, player=player)
    if b.has("ask.why_not") and b.has("layup"):
        return FollowUp(ask="why_not", facts=told, player=player)
    # "so not the 5?", "you sure it isn't a 7"
    unsure = b.has("punct.q") or any("sure" in t.text for t in b.every("talk.yes"))
    doubted = unsure and told.club_excluded is not None
    if doubted or b.has("ask.why_not") or (b.has("ask.why") and (told.club or told.club_excluded)):
        club = told.club_excluded or told.club
        told = told.model_copy(update={"club": club, "club_excluded": None})
        return FollowUp(ask="why_not" if club else "why", facts=told, player=player)
    if b.has("ask.why"):
        return FollowUp(ask="why", facts=told, player=player)
    if b.has("ask.other"):
        return FollowUp(ask="alternatives", facts=told, player=player)
    words = {t.text for t in b.every("ask.what_if")}
    if words & _ENOUGH and told == Facts():
        return FollowUp(ask="what_if", facts=told, player=player)
    if told == Facts(wind=Wind(from_deg=0.0)) and "hurts" in text.lower():
        return None
    if told.clubs_compare:
        return FollowUp(ask="compare", facts=told, player=player)
    if told.club and b.has("layup.go"):
        return FollowUp(ask="reach", facts=told, player=player)
    if told == Facts(swing=told.swing) and told.swing in _WAYS and b.has("punct.q"):
        return FollowUp(ask="what_if", facts=told, player=player)
    if told == Facts() and _asks(b) and {t.name for t in b.tokens} <= _PUTT_IT:
        return FollowUp(ask="what_if", facts=Facts(club="P"), player=player)
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
    alone = len(b.tokens) == 1
    if told == Facts() and b.has("layup.leave") and _asks(b):  # "what should i leave"
        return FollowUp(ask="reach", facts=told, player=player)
    if b.has("layup.go") or (told == Facts() and b.has("layup.verb") and (alone or _asks(b))):
        return FollowUp(ask="reach", facts=told, player=player)
    if b.has("lie.tee", "layup.teeshot", "got.dogleg") and told != Facts(lie=("tee",)):
        return Shot(kind="tee", facts=told, player=player)
    more = told.model_copy(update={"swing": None, "shape": None})
    if more != Facts() and not b.has("n.junk", "noise"):
        return FollowUp(facts=told, supposed=_supposed(b, told), player=player)
    return None
