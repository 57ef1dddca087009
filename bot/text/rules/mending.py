"""What did the speaker take back, and what was told only against another number?"""

from __future__ import annotations

from typing import Any

from bot.model.measure import Unit
from bot.model.reading import Hazard, Wind
from bot.text.patterns import Match, Rule, Token, rule
from bot.text.quantity import Num
from bot.text.rules.clubs import CLUB, club_code
from bot.text.rules.trouble import KIND
from bot.text.rules.wind import Dir

_ALIKE = 2.5  # a number said anew is within this ratio of the one it replaces
_HOLES = 18
_FAR_LEFT = 40.0  # yards or metres: "140 left" behind a lie is what is left to go
_SPEEDS = frozenset({"mph", "km/h", "m/s", "kn"})
_NEAR = 20.0  # yards: what lies between two numbers is a distance from here on
_LONG_PUTT_FT = 100.0  # what rolled farther was no putt left
_PUTT_M = 20.0
_IRONS = range(2, 10)
_GONE = frozenset({"filled", "removed", "grassed", "taken"})
_OTHERS = frozenset({
    "bloke", "guy", "fella", "lad", "chap", "mate", "partner", "group", "fellow", "man", "woman",
})  # fmt: skip
_SPUN = ("spun", "span", "sucked", "zipped", "ripped")
_SECOND = ("2nd", "2 nd", "second")
_STROKES = 10
_STANCE = 4.0  # feet: a ball further below or above the player is no matter of the stance
_SLOPES = frozenset({"hill", "slope", "drop", "climb", "rise"})
_HIGH = 300.0  # feet or metres above water: the sea's, and no height of a hole
_FIGURES = 3  # of a distance
_THAT = frozenset({"that's", "thats", "that", "was"})
_FREEZING, _HOTTEST = 25.0, 115.0  # degrees Fahrenheit in which golf is played
_BLOWS = 45.0  # a larger number without a unit is no wind's
_ME = frozenset({"i'm", "im", "i", "am", "we're", "were", "he's", "she's", "he", "she"})
_TAKES = frozenset({"knock", "take", "lop", "shave", "chop", "knocked", "drop"})
_RIGHT = frozenset({"right", "write", "rite", "wright"})
_CLOSE = frozenset({
    "in front", "next to", "beside", "alongside", "behind", "front of", "in front of",
})  # fmt: skip
_IT_IS = frozenset({"it's", "its", "it", "is"})
_SHIFTED = 60.0  # yards: more than so much farther or nearer is a distance itself
_THEIRS = frozenset({"had", "has", "got"})
_MINE = frozenset({"mine", "i'm", "i've", "i"})
_PUTS = frozenset({"put", "plus", "stick", "+"})
_LESS = frozenset({"subtract", "minus", "deduct"})
_LIKE = frozenset({"more like", "closer to", "nearer"})
# What tells of a ball in the hole where no trouble follows.
_WENT_IN = frozenset({"went in", "dunked it", "buried it", "it went in", "it dropped", "dunked"})
_UNITS: dict[str, Unit] = {"yards": "yd", "yds": "yd", "metres": "m", "meters": "m"}
_THE = frozenset({"the", "it's", "its", "it", "that", "that's", "i", "i'm", "my"})


def _no(token: Token) -> bool:
    return token.name != "join.not" or token.text in ("no", "nope", "nah")


def _score(match: Match) -> tuple[str, Any]:
    """The score that stands: the second of "made 6, no 7", the first of "made 6, not 7"."""
    kept = "b" if all(_no(t) for t in match.tokens) else "a"
    return "n.bare", match.value(kept)


def _later(match: Match) -> tuple[str, Any] | None:
    """The second of two numbers, where it takes the first one back."""
    return _later_of(match) if all(_no(t) for t in match.tokens) else None


def _left_from_lie(match: Match) -> tuple[str, Any] | None:
    """What is left to go from where a ball lies: "from the bunker 140 left"."""
    num: Num = match.value("n")
    return ("got.distance", num) if num.value >= _FAR_LEFT and num.low is None else None


def _in_sand_beside(match: Match) -> tuple[str, Any] | None:
    """The sand a ball is in, told by its side: "in the right bunker, 140"."""
    where = match.one("w")
    if where is None or where.text.endswith("s"):
        return None
    return f"lie.{where.name.split('.')[1]}", None


def _later_of(match: Match) -> tuple[str, Any] | None:
    """The second of two numbers that are of one kind."""
    first, second = match.one("a"), match.one("b")
    if first is None or second is None:
        return None
    a: Num = first.value
    b: Num = second.value
    if not isinstance(b, Num) or not a.value / _ALIKE <= b.value <= a.value * _ALIKE:
        return None
    if second.name == "n.bare":
        return first.name, b._replace(unit=a.unit)
    return (second.name, b) if first.name in (second.name, "n.bare") else None


def _last(match: Match) -> tuple[str, Any] | None:
    """The last token, where it takes the first one back."""
    token = match.tokens[-1]
    return (token.name, token.value) if all(_no(t) for t in match.tokens) else None


def _few_metres(token: Token) -> bool:
    """Whether a length is what metric players tell of a ball beside the hole."""
    return bool(token.value.unit == "m" and token.value.value <= _PUTT_M)


def _others_shot(match: Match) -> tuple[str, Any] | None:
    """What somebody else hit, before one's own number: "bloke ahead hit a 6 from 160, I'm 151"."""
    own = match.one("n")
    mine = own is not None and {"i'm", "im"} & set(own.before.split())
    return ("talk.skip", None) if mine and match.tokens[0].text in _OTHERS else None


def _second(match: Match) -> tuple[str, Any]:
    return match.tokens[-1].name, match.tokens[-1].value


def _first(match: Match) -> tuple[str, Any]:
    return match.tokens[0].name, match.tokens[0].value


def _straight_there(match: Match) -> tuple[str, Any] | None:
    """A "right" that says "close" and no side: "right next to the green", "right in front"."""
    where, face = match.one("w"), match.one("f")
    told = where is None or where.text in _CLOSE
    if face is not None:  # "right in the chops"
        told = face.text.startswith(("in the ", "in my ", "in our ", "in your "))
        told = told and not match.tokens[0].before
    return ("join.side", None) if told and match.tokens[0].text in _RIGHT else None


def _its(match: Match) -> tuple[str, Any] | None:
    """The second of two numbers behind "but it's not, it's"."""
    second = match.one("b")
    return _later_of(match) if second and _IT_IS & set(second.before.split()) else None


def _less(match: Match) -> tuple[str, Any] | None:
    """So much more or less than the number told before: "ten less, same everything"."""
    num: Num = match.value("n") or match.value("k")
    if num.value > _SHIFTED:
        return None
    less = match.one("l") or match.one("j")
    return "got.shift", num._replace(value=-num.value if less else num.value)


def _more_yards(match: Match) -> tuple[str, Any] | None:
    """How much farther than told before: "and 10 more yards", "another 10 yards"."""
    num: Num = match.value("n") or match.value("k")
    last, first = match.tokens[-1], match.one("w")
    if num.value > _SHIFTED or (first is not None and first.text != "another"):
        return None
    if last.name != "x.word":
        return "got.shift", num
    unit = _UNITS.get(last.text)
    return ("got.shift", num._replace(unit=unit)) if unit and not num.unit else None


def _added(match: Match) -> tuple[str, Any] | None:
    """What is put on the number told before: "add 7 to that number"."""
    num: Num = match.value("n") or match.value("k")
    return ("got.shift", num) if match.tokens[0].text == "add" and num.value <= _SHIFTED else None


def _more_than(match: Match) -> tuple[str, Any] | None:
    """A distance told against another: "ten more than one fifty"."""
    by, whole = match.value("a"), match.value("n")
    if match.tokens[2].text != "than" or not by.value < whole.value / 2:
        return None
    sign = 1.0 if match.tokens[1].name == "dist.more" else -1.0
    return match.tokens[-1].name, whole._replace(value=whole.value + sign * by.value)


def _put_on(match: Match) -> tuple[str, Any] | None:
    """What is put on or taken off the number told before: "plus ten yards", "subtract 5"."""
    head, num = match.tokens[0].text, match.value("n") or match.value("k")
    if num.value > _SHIFTED or head not in _PUTS | _LESS:
        return None
    if head == "put" and match.tokens[-1].name != "join.on":
        return None
    return "got.shift", num._replace(value=-num.value if head in _LESS else num.value)


def _closer(match: Match) -> tuple[str, Any] | None:
    """How much nearer than the number told before: "ten yards nearer", "10 closer"."""
    num, said = match.value("n"), match.tokens[-1]
    nearer = said.text in ("nearer", "closer") if said.name == "ask.correct" else False
    return (
        ("got.shift", num._replace(value=-num.value)) if nearer and num.value <= _SHIFTED else None
    )


def _left_behind(match: Match) -> tuple[str, Any] | None:
    """A "left" that says how a club was hit, and no side: "left the 7 iron short"."""
    club = match.one("c")
    return (
        ("verb.hit", None) if club and {"the", "that", "my"} & set(club.before.split()) else None
    )


def _in_between(match: Match) -> tuple[str, Any] | None:
    """A distance told by the two it lies between: "not 150, not 160, bang in between"."""
    low, high = sorted((match.value("a").value, match.value("b").value))
    if match.tokens[-1].text != "between" or not _NEAR <= low < high <= low * _ALIKE:
        return None
    return "got.distance", match.value("a")._replace(value=(low + high) / 2, low=low, high=high)


def _not_but(match: Match) -> tuple[str, Any] | None:
    """The second of "not 150 but 160" and "it's not 145, it's 154"."""
    link, second = match.one("j"), match.one("b")
    turns = link.text == "but" if link else second and _IT_IS & set(second.before.split())
    return _later_of(match) if turns else None


def _slip(match: Match) -> tuple[str, Any] | None:
    """The second of two numbers, where the first is it with a figure too many: "1456 sorry 146"."""
    long, told = (f"{match.value(name).value:g}" for name in ("a", "b"))
    dropped = {long[:at] + long[at + 1 :] for at in range(len(long))}
    again = any(t.name == "ask.correct" for t in match.tokens)
    return (
        ("n.bare", match.value("b"))
        if again and len(long) > _FIGURES and told in dropped
        else None
    )


def _only_degrees(match: Match) -> tuple[str, Any] | None:
    """A temperature of nine or eighteen: "only nine degrees" is no number of holes."""
    count = match.tokens[0].text.split()[-1]
    warm = {"nine": 9.0, "9": 9.0, "eighteen": 18.0, "18": 18.0}.get(count)
    if warm is None or not match.tokens[1].text.startswith("degree"):
        return None
    return "n.deg", Num(warm, "deg")


def _to_the(match: Match) -> tuple[str, Any] | None:
    """A "to" heard as a number: "142 yards two the pin"."""
    pin = match.one("p")
    told = pin is not None and "the" in pin.before.split()
    return ("join.to", None) if told and match.tokens[0].text in ("two", "too") else None


def _wind_anew(match: Match) -> tuple[str, Any] | None:
    """The second wind where it takes the first back: "into 12, no, helping 12"."""
    way, speed = match.one("v"), match.value("k") or match.value("n")
    if way is None or not all(_no(t) for t in match.tokens) or speed.value > _BLOWS:
        return None
    return "got.wind", Wind(
        speed=speed.measure(), from_deg=0.0 if way.name == "wind.into" else 180.0
    )


def _carry_of(match: Match) -> tuple[str, Any] | None:
    """A number that was what carries the trouble: "155, hang on, that's the bunker carry"."""
    trouble = match.one("h")
    kind = KIND.get(trouble.name.split(".")[1]) if trouble else None
    if kind is None:
        return None
    return "got.hazard", (Hazard(kind=kind, side="short", end=match.value("n").measure()),)


def _beside_feet(match: Match) -> tuple[str, Any] | None:
    """A ball told to lie above or below the player: a stance, and no height of the hole."""
    num: Num = match.value("n")
    if match.tokens[0].text != "ball" or not match.tokens[-1].text.endswith(("me", "us")):
        return None
    feet = num.value * {"ft": 1.0, "in": 1 / 12, "m": 3.3, "yd": 3.0}.get(num.unit, 99.0)
    below = match.tokens[-1].name == "height.downhill"
    return ("lie.below_feet" if below else "lie.above_feet", None) if feet <= _STANCE else None


def _either_club(match: Match) -> tuple[str, Any] | None:
    """Two clubs asked about in the wind that blows: "6 or 7 into that"."""
    first, second = match.one("a"), match.one("b")
    codes = [code for t in (first, second) if t is not None and (code := club_code(t))]
    return ("got.compare", tuple(codes)) if len(codes) == 2 else None


def _off_for(match: Match) -> tuple[str, Any] | None:
    """What a slope takes off: "take 10 off for the hill"."""
    last, num = match.one("w"), match.value("n")
    of_slope = last is not None and (last.name != "x.word" or last.text in _SLOPES)
    if match.tokens[0].text not in _TAKES or not of_slope:
        return None
    return "got.plays_delta", num._replace(value=-num.value)


def _four_to(match: Match) -> tuple[str, Any] | None:
    """The number heard as "for two the": "one fifty for two the flag"."""
    num, pin = match.value("n"), match.one("p")
    heard = match.tokens[1].text in ("for two", "for too") and num.value % 10 == 0
    told = pin is not None and "the" in pin.before.split()
    return ("n.bare", num._replace(value=num.value + 4)) if heard and told else None


def _was_trouble(match: Match) -> tuple[str, Any] | None:
    """A number that was not the distance: "flag 150, no wait, that's the tree on the left"."""
    trouble = match.one("h")
    said = trouble is not None and _THAT & set(trouble.before.split())
    return ("got.match", None) if said else None


def _not_kind(match: Match) -> tuple[str, Any] | None:
    """Trouble that is none of the kind told before: "it's not sand, it's water"."""
    token = match.one("k")
    kind = KIND.get(token.name.split(".")[1]) if token else None
    corrects = match.tokens[0].text in ("not", "isn't", "wasn't", "aren't")
    return ("got.gone", kind) if kind and corrects else None


def _less_than(match: Match) -> tuple[str, Any] | None:
    """A speed told against another: "2 mph less than 10"."""
    a, b = match.value("a"), match.value("b")
    if match.tokens[1].text != "less than" or not a.value < b.value or a.unit not in _SPEEDS:
        return None
    return "n.speed", b._replace(value=b.value - a.value, unit=a.unit)


def _opens(match: Match) -> tuple[str, Any] | None:
    """A "no" that answers what was said before, and denies nothing behind it."""
    follow = match.one("x")
    denies = follow is not None and not _THE & set(follow.before.split())
    return None if match.tokens[0].text not in ("no", "nope") or denies else ("ask.correct", None)


def _match(match: Match) -> tuple[str, Any] | None:
    """How a match stands: "2 up with 3 to play"."""
    counts = [t.value.value for t in match.tokens if isinstance(t.value, Num)]
    played = match.tokens[-1].text in ("to play", "to go", "left", "remaining")
    mine = bool(_ME & set(match.tokens[0].before.split())) and len(counts) == 1
    if not all(n <= _HOLES for n in counts) or not (played or mine):
        return None
    return "got.match", None


def _farther(match: Match) -> tuple[str, Any] | None:
    """How much farther (+) or nearer (-) than the number told before."""
    token, where = match.one("n"), match.one("w")
    if token is None or where is None:
        return None
    num: Num = token.value
    spoken = bool(_ME & set(token.before.split()))
    behind = where.name in ("wind.behind", "wind.help")
    if behind and where.text not in ("behind", "behind me", "behind us"):
        return None
    if where.name != "dist.farther" and where.name != "dist.nearer" and not (
        spoken or (behind and num.unit in ("yd", "pace"))
    ):  # fmt: skip
        return None
    nearer = where.name in ("dist.nearer", "side.short")
    return "got.shift", num._replace(value=-num.value if nearer else num.value)


def _taken_off(match: Match) -> tuple[str, Any] | None:
    """What is taken off the distance told before: "knock ten off"."""
    if match.tokens[0].text not in _TAKES:
        return None
    num: Num = match.value("n")
    return "got.shift", num._replace(value=-num.value)


def _speed(match: Match) -> tuple[str, Wind] | None:
    """The wind with the speed that takes the first one back."""
    wind: Wind = match.value("w")
    num: Num = match.value("n")
    if wind.speed is None or not (num.unit or num.value <= _BLOWS):
        return None
    told = {k: getattr(wind, k) for k in wind.model_fields_set}
    return "got.wind", Wind(**{**told, "speed": num.measure()})


def _called(match: Match) -> tuple[str, Wind] | None:
    """The wind with a speed guessed behind it: "more helping than that, call it 14"."""
    wind: Wind = match.value("w")
    num: Num = match.value("n")
    if wind.speed is not None or not (num.unit or num.value <= _BLOWS):
        return None
    told = {k: getattr(wind, k) for k in wind.model_fields_set}
    return "got.wind", Wind(**{**told, "speed": num.measure()})


def _turned(match: Match) -> tuple[str, Wind] | None:
    """What is left of "no wind is helping": a "no", and a wind's direction."""
    calm, way = match.tokens[0], match.tokens[-1]
    if calm.text != "no wind" or not {"is", "it's", "its"} & set(way.before.split()):
        return None
    return "got.wind", Wind(from_deg=way.value.deg)


# What may stand between trouble and the side it comes from: "water cuts in at 230 from the left".
_BETWEEN = (
    "x", "x x", "x join", "x join join", "x join n.bare", "x join join n.bare", "x x join n.bare",
    "join n.bare", "join join n.bare", "putt.breaks", "putt.breaks join n.bare",
)  # fmt: skip
_FROM_TROUBLE = "|".join(f"(?<=hazard {between})" for between in _BETWEEN)
_NUM = "n.bare|n.len|n.ft|n.speed|n.temp|n.clubs"
_GAP = "(punct.c|punct.stop|punct.q|talk.nope)*"
_SIDES = "(side.short|side.long)? (side.left|side.right)"
_FIX = f"{_GAP} (ask.correct|join.not punct.c|(?<=punct) join.not) (punct.c|join.not)*"

SAID_ANEW: tuple[Rule, ...] = (
    rule("mend.out_back_left", "(?<=(n.bare|n.len)) side.long (?=(side.left|side.right) place.pin)", lambda m: ("place.back", None) if m.tokens[0].text == "out back" else None),
    rule("mend.metres_of_height", "n.len (?=(height.uphill|height.downhill|height.up|height.down) (?!(join.to|n.bare)))", lambda m: ("n.ft", m.tokens[0].value) if m.tokens[0].value.unit == "m" and m.tokens[0].value.value <= _BLOWS else None),
    rule("mend.its_on", "(?<=(contact join.and)) join.on (?=(punct|$))", lambda m: ("result.on", None) if {"it's", "its"} & set(m.tokens[0].before.split()) else None),
    rule("mend.feet_by_letter", "{n:n.bare} place.front (?=(height.uphill|height.downhill|height.up|height.down))", lambda m: ("n.ft", m.value("n")._replace(unit="ft")) if m.tokens[-1].text == "f" and m.value("n").value <= _HIGH else None),
    rule("mend.in_and_wind", "{n:n.bare|n.len} join.in (?=join.and (wind|join.off|join.from))", lambda m: ("got.distance", m.value("n")) if m.value("n").value >= _FAR_LEFT else None),
    rule("mend.left_from_lie", "((?<=((join.from|join.in|join.off) (hazard.bunker|hazard.trees|lie)))|(?<=^lie.fairway)|(?<=((join.on|club|punct) lie.fairway))) {n:n.bare|n.len} side.left (?=(punct|$))", _left_from_lie),
    rule("mend.in_sand_beside", "((?<=punct)|^) join.now? join.in (side.left|side.right) join.side? {w:hazard.bunker|lie.fairway_bunker|lie.greenside_bunker} (?=punct.c? (n.bare|n.len))", _in_sand_beside),
    rule("mend.right_there", "(?<!place.middle) side.right (?={w:side.short|join.by|wind.behind})|(?<!(join.off|join.from)) side.right (?={f:wind.into})|side.right (?=join.at place.pin)|side.right (?=(wind.cross|side.cross))|side.right (?=height.up join.to place)", _straight_there),
    rule("mend.not_side", "^(join.not punct.c?)+ (side.left|side.right) punct.c? (?=ask.correct)", lambda m: ("ask.correct", None)),
    rule("mend.less", "(?<!dist.play) (?<!wind.noun) {n:n.bare|n.len} ({l:dist.less}|dist.more) (?=(punct.c? ask.same|punct.q$|$))|(?<=ask.same) join.and? punct.c? {k:n.bare|n.len} ({j:dist.less}|dist.more)", _less),
    rule("mend.stroke", "result.reload_word (?=join.from? (n.bare|n.len))", lambda m: ("got.match", None)),
    rule("mend.opens", "^join.not punct.c|^join.not (?={x:hazard|wind.noun|side|place|n})", _opens),
    rule("mend.number", f"{{a:{_NUM}}} (wind.noun|side.left)? {_FIX} {{b:{_NUM}}}", _later),
    rule("mend.number_after_words", f"{{a:n.bare|n.len}} {_GAP} ask.correct (x.word|join|dist.number|dist.sprinkler|ask.correct)+ punct.c {{b:n.bare|n.len}}", _later_of),
    rule("mend.wind_anew", f"{{w:wind.into|wind.help}} {{n:n.bare|n.speed}} {_GAP} (ask.correct|join.not) punct.c* {{v:wind.into|wind.help|wind.behind}} {{k:n.bare|n.speed}}", _wind_anew),
    rule("mend.wind_scratched", "{w:wind.into|wind.help} {n:n.bare|n.speed} punct* safe.moot (wind.into|wind.help|wind.noun) punct.c* {v:wind.into|wind.help|wind.behind}", _wind_anew),
    rule("mend.neither_along", "join.not (wind.into|wind.help|wind.behind) punct.c? join.and? join.not (wind.into|wind.help|wind.behind) punct.c?", lambda m: ("got.match", None)),
    rule("mend.thought_wind", "x.word join* (wind.into|wind.help|wind.behind) punct.c", lambda m: ("got.match", None) if m.tokens[0].text == "thought" else None),
    rule("mend.not_as_before", "^join.not (n.speed|n.bare) x.word* hole.word", lambda m: ("got.match", None) if any("last" in t.text.split() or "last" in t.before.split() for t in m.tokens) else None),
    rule("mend.height_anew", f"(height.uphill|height.downhill|height.up|height.down) n.ft {_GAP} ask.correct punct.c* (?=(height.uphill|height.downhill|height.up|height.down))", lambda m: ("got.match", None)),
    rule("mend.leave_anew", f"layup.leave (n.bare|n.len) {_GAP} ask.correct (?=layup.leave)", lambda m: ("got.match", None)),
    rule("mend.next_one", "round.next (?={n:n.bare|n.len})", lambda m: ("got.match", None) if m.tokens[0].text == "next one" and "is" in m.groups["n"][0].before.split() else None),
    rule("mend.carry_of_sand", "place.pin? {n:n.bare|n.len} punct.c? ask.correct {h:hazard} carry.verb", _carry_of),
    rule("mend.stood_above", "x.word (?={n:n.ft|n.len} height.uphill place.green)|x.word (?={k:n.ft|n.len} height.downhill place.green)", lambda m: ("got.stand", None) if any(w in m.tokens[0].text.split() for w in ("stood", "standing", "sat", "sitting")) or "i'm" in (m.tokens[0].text, *m.tokens[0].before.split()) else None),
    rule("mend.carry_is", "(?<=carry.verb) {n:n.bare|n.len} join.not (n.bare|n.len)", lambda m: (m.tokens[0].name, m.value("n"))),
    rule("mend.drops_into", "(height.down|height.downhill|hazard.ravine) wind.into (?=hazard)", lambda m: ("join.to", None)),
    rule("mend.out_of_play", "((?<=hazard.bunker)|(?<=hazard.water)|(?<=hazard.trees)|(?<=hazard.gorse)) (lie.ob|hazard.ob)", lambda m: ("safe.moot", None) if m.tokens[0].text == "out of play" else None),
    rule("mend.no_slope", "(profile.remove|safe.moot|result.drop) (height.downhill|height.uphill|height.down|height.up) punct.c?", lambda m: ("got.match", None)),
    rule("mend.fat_side", "contact.fat join.side join.was? (?=side)", lambda m: ("safe.ok", None)),
    rule("mend.ball_below_me", "x.word {n:n.ft|n.len} (height.downhill|height.uphill) (?=(join|punct|$))", _beside_feet),
    rule("mend.dropping_share", "result.drop (?=n.pct)", lambda m: ("height.down", None)),
    rule("mend.new_carry", "profile.add (?=carry.verb)", lambda m: ("got.match", None)),
    rule("mend.supposed", "join.if join.to (wind.help|wind.into|wind.cross) hole.word?", lambda m: ("got.match", None) if m.tokens[0].text == "suppose" else None),
    rule("mend.level_with_me", "height.flat wind.help", lambda m: ("height.flat", None) if m.tokens[-1].text in ("with me", "with us") else None),
    rule("mend.above_sea", "{n:n.ft|n.len} height.uphill hazard.water", lambda m: ("got.altitude", m.value("n")) if m.value("n").value >= _HIGH else None),
    rule("mend.above_water", "n.ft (height.uphill|height.downhill) (hazard.water|hazard.bunker)", lambda m: ("got.match", None)),
    rule("mend.clubs_into", "{a:n.bare} join.or {b:n.bare} (?=wind.into ($|punct.q|wind.noun))", _either_club),
    rule("mend.take_off_for", "x.word {n:n.bare|n.len} join.off join.for {w:x.word|height|dist.as}", _off_for),
    rule("mend.dropping_by", "result.drop (?=n.bare (punct|$))", lambda m: ("height.down", None) if m.tokens[0].text == "dropping" else None),
    rule("mend.four_to_the", "{n:n.bare} layup.second (?={p:place.pin})", _four_to),
    rule("mend.under_trees", "dist.shy (?=hazard.trees)", lambda m: ("join.in", None) if m.tokens[0].text == "under" else None),
    rule("mend.slope_under_me", "{s:lie.upslope|lie.downslope} height.downhill", lambda m: (m.tokens[0].name, None) if m.tokens[1].text.startswith("under") else None),
    rule("mend.leave_out", f"layup.leave {{c:{CLUB}}} join.from", lambda m: ("got.excluded", club_code(m.tokens[1])) if m.tokens[-1].text == "out of" and club_code(m.tokens[1]) else None),
    rule("mend.ok_then", "^safe.ok (?=(n.bare|n.len) join.and $)", lambda m: ("ask.correct", None)),
    rule("mend.soft_one", "ground.soft x.word (?=join.and (n.det|club))", lambda m: ("swing.smooth", None) if m.tokens[1].text == "one" else None),
    rule("mend.no_more_club", "^join.not dist.more (?=club)", lambda m: ("profile.remove", None)),
    rule("mend.curves_over", "(?<=miss.tend) hole.dogleg (wind.r2l|wind.l2r)", lambda m: ("got.match", None)),
    rule("mend.par", "hole.par (n.bare|n.det) (ask.correct|join.not|punct.c)+ (?=hole.par)", lambda m: ("got.match", None)),
    rule("mend.for_par", "(?<=(putt.done|result.holed|score.made)) n.bare (?=score)", lambda m: ("join.for", None)),
    rule("mend.neither", "x.word {d:wind} (punct|join)* x.word {e:wind}", lambda m: ("got.match", None) if m.tokens[0].text == "neither" and any(t.text == "nor" for t in m.tokens) else None),
    rule("mend.now_not", "{n:n.bare|n.len} (?=join.now punct.c? join.not {k:n.bare|n.len})|join.now (punct.c? join.not (n.bare|n.len))", lambda m: ("join.now", None) if m.tokens[0].name == "join.now" else None),
    rule("mend.its", f"{{a:{_NUM}}} (join.and|punct.c)* join.not punct.c? {{b:{_NUM}}}", _its),
    rule("mend.club", "(?<=verb.hit) n.det join.not (punct.c|join.not)* n.det", _last),
    rule("mend.score", "(?<=score.made) {a:n.bare|n.det} (punct.c|punct.q|punct.stop)* join.not {b:n.bare|n.det}", _score),
    rule("mend.side", f"{_SIDES} {_FIX} (?={_SIDES})", lambda m: ("join.side", None) if all(_no(t) for t in m.tokens) else None),
    rule("mend.side_no", "(side.left|side.right) join.not (side.left|side.right) (?!(join.side? (hazard|safe)))", _last),
    rule("mend.all_over", "wind.swirl (?=hazard)", lambda m: ("join.over", None) if m.tokens[0].text == "all over" else None),
    rule("mend.shaped_over", "((?<=shape)|(?<=shape punct.c)) (wind.r2l|wind.l2r) (?=(x|putt.breaks|miss|punct|$))", lambda m: ("got.match", None)),
    rule("mend.not_kind", "join.not {k:hazard} (join|x|punct.c)* (?=hazard)", lambda m: _not_kind(m)),
    rule("mend.if_only", "join.if join.was? (n.bare|n.len) x* punct.c (?=n)", lambda m: ("got.match", None)),
    rule("mend.not_posted", "^join.not (n.bare|n.len) (x.word|dist.sprinkler|join|noise)+ punct.c (?=(n.bare|n.len))", lambda m: ("got.match", None) if m.tokens[0].text == "not" else None),
    rule("mend.never_straight", "join.not miss.lose? shape.straight (?=.*(shape|miss))", lambda m: ("got.match", None)),
    rule("mend.filled_divot", "hazard.bunker punct.c? lie.divot", lambda m: ("lie.divot", None) if m.tokens[-1].text.startswith("filled") else None),
    rule("mend.in_between", "join.not {a:n.bare|n.len} (join.and|punct.c)* join.not {b:n.bare|n.len} (punct.c|join|side.right|x.word)* x.word", _in_between),
    rule("mend.not_but", "join.not {a:n.bare|n.len} {j:join.and}? punct.c? {b:n.bare|n.len}", _not_but),
    rule("mend.slip", "{a:n.bare} (ask.correct|punct.c)+ {b:n.bare}", _slip),
    rule("mend.was_trouble", "place.pin? (n.bare|n.len) punct.c? ask.correct (?={h:hazard})", _was_trouble),
    rule("mend.club_gone", "(?<=^club) hazard.trouble", lambda m: ("profile.remove", None) if m.tokens[0].text == "gone" else None),
    rule("mend.lost_something", "lie.lost (?=x.word)", lambda m: ("talk.skip", None) if m.tokens[0].text == "lost" else None),
    rule("mend.down_in_match", "n.bare (height.down|height.up) join.in x.word", lambda m: ("talk.skip", None) if m.tokens[-1].text in ("match", "game", "bet") else None),
    rule("mend.gap_in_trees", "club.GW (?=(join.along|join.in|join.from|join.on) hazard.trees)", lambda m: ("talk.skip", None) if m.tokens[0].text == "gap" else None),
    rule("mend.gone_trouble", "verb.hit join.to hazard (join.on side)? (x.word|join.and|join.in)* (?=punct|$)", lambda m: ("talk.skip", None) if m.tokens[0].text == "used" and {t.text for t in m.tokens} & _GONE else None),
    rule("mend.others_shot", "x.word (x.word|profile|n|join|side|verb|club|result|contact)+ punct.c (?={n:n.bare|n.len})", _others_shot),
    rule("mend.picked_up", "^wind.pickup (?=punct.c? (ask.correct|join.now|x.word)? n.bare join.now?)", lambda m: ("wind.noun", None) if m.tokens[0].text == "picked up" else None),
    rule("mend.it_is_in", "^join.in (?=(punct|$))(?=punct? $)", lambda m: ("result.holed", None)),
    rule("mend.drive_middle", "(?<=(layup.teeshot n.bare)) place.middle (?=(punct|join|$))|(?<=^layup.teeshot) place.middle (?=n.bare $)", lambda m: ("lie.fairway", None)),
    rule("mend.to_metres", "((?<=join.to)|(?<=carry.end)|(?<=result.pin_high)|(?<=(result.pin_high punct.c))) n.len (?=(punct|join.and|putt|result.one_putt|result.two_putt|result.holed|$))", lambda m: ("n.ft", m.tokens[0].value) if _few_metres(m.tokens[0]) else None),
    rule("mend.hit_it_there", "(?<!join.not) (?<!safe.must_not) (?<!(safe.must_not join.to)) (?<!join.to) verb.rolled (?=join.in? ((side.left|side.right) join.side?)? (hazard.bunker|hazard.trees|hazard.gorse|hazard.grass|lie.rough|lie.deep_rough|lie.fairway|lie.fairway_bunker|lie.trees|side.left|side.right) (punct|join|side|$))", lambda m: ("verb.found", None) if m.tokens[0].text == "hit it" else None),
    rule("mend.took_club", "^score.made {n:n.bare} (?=(punct.c|join.and)+ (join.was|side|result.short_of|result.past|contact|lie|hazard|verb.found))", lambda m: ("got.club", f"{m.value('n').value:g}i") if m.tokens[0].text.startswith("took") and m.value("n").value in _IRONS else None),
    rule("mend.rolled_past", "(?<=verb.rolled) n.bare (?=(side.long|side.short|putt.past|result.past|x.word)? (punct|$))", lambda m: ("n.ft", m.tokens[0].value._replace(unit="ft")) if m.tokens[0].value.value <= _LONG_PUTT_FT else None),
    rule("mend.spun_off", "verb.rolled join.off? (place.front|place.green) (?=(punct|$))", lambda m: ("result.short_of", None) if m.tokens[0].text.split()[0] in _SPUN else None),
    rule("mend.second_hole", "layup.second (?=(hole.word|lie.tee))|(^|(?<=^join.on)) layup.second ((?=punct)|$)", lambda m: ("n.ord", 2) if m.tokens[0].text in _SECOND else None),
    rule("mend.on_in", "^join.on join.in {n:n.bare} (?=(punct|join|putt|result))", lambda m: ("got.on_in", m.value("n").value) if m.value("n").value in range(1, _STROKES) else None),
    rule("mend.say", "dist.shy (n.bare|n.len) punct.c {n:n.bare|n.len}", lambda m: (m.tokens[-1].name, m.value("n")) if {"say", "call"} & set(m.tokens[-1].before.split()) else None),
    rule("mend.only_degrees", "round.holes x.word", _only_degrees),
    rule("mend.club_in", "(?<=(punct.c club)) join.in (?=(punct|$))", lambda m: ("profile.add", None)),
    rule("mend.own_club", "^club safe.moot (?=join.from? (n.bare|n.len))", lambda m: ("got.match", None) if "reach" in m.tokens[-1].text else None),
    rule("mend.whose_turn", "^x.word place.corner", lambda m: ("got.match", None) if m.tokens[0].text.endswith("'s") and m.tokens[1].text == "turn" else None),
    rule("mend.that_was_front", "^(ask.correct|punct.c|join)* place.front (punct.c|join)* place.pin {n:n.bare|n.len} (join.on|dist.farther|place.back|side.long) $", lambda m: ("got.shift", m.value("n"))),
    rule("mend.two_the_pin", "(?<=n.len) n.bare (?={p:place.pin})", _to_the),
    rule("mend.took_instead", "score.made (?=(n.det|n.bare|club) ask.what_if)", lambda m: ("ask.what_if", None)),
    rule("mend.own_carry", "{n:n.bare|n.len} punct+ profile.shape_word club (n.bare|n.len) (?=(join|punct|air|wind))", lambda m: (m.tokens[0].name, m.value("n"))),
    rule("mend.not_number", "^join.not {n:n.bare|n.len} (?=punct)", lambda m: ("got.match", None) if m.tokens[0].text == "not" else None),
    rule("mend.neither_number", "join.not (n.bare|n.len) (join.and|punct.c)* join.not (n.bare|n.len)", lambda m: ("got.either", None)),
    rule("mend.not_slope", "join.not (height.up|height.uphill|height.down|height.downhill) (?=.*(height.up|height.uphill|height.down|height.downhill))", lambda m: ("got.match", None)),
    rule("mend.more_than", "(?<!dist.play) {a:n.bare|n.len} (dist.more|dist.less) x.word {n:n.bare|n.len}", _more_than),
    rule("mend.fahrenheit", "{n:n.bare} place.front (?!(punct.c? (place|n.bare place)))", lambda m: ("n.temp", m.value("n")._replace(unit="degF")) if m.tokens[1].text == "f" and _FREEZING <= m.value("n").value <= _HOTTEST else None),
    rule("mend.added", "profile.add {n:n.bare|n.len|n.det} join.to (dist.number|x.word)?|profile.add {k:n.bare|n.len}$", _added),
    rule("mend.more_yards", "^join.and? (ask.correct punct.c?)? {n:n.bare} dist.more x.word $|^join.and? {w:x.word} {k:n.bare|n.len} $", _more_yards),
    rule("mend.put_on", "(profile.add|join.and) {n:n.bare|n.len} join.on? $|x.word {k:n.bare|n.len} $", _put_on),
    rule("mend.ten_closer", "^{n:n.bare|n.len} ask.correct? $", _closer),
    rule("mend.wind_more_like", "(?<=wind.noun) join.was? ask.correct (?=(n.bare|n.speed))", lambda m: ("join.at", None) if m.tokens[-1].text in _LIKE else None),
    rule("mend.wind_is_not", "((?<=wind.noun)|(?<=(wind.noun join))) {n:n.bare} punct.c? join.not {k:n.bare} (?=(punct|$))", lambda m: ("n.bare", m.value("n")) if max(m.value("n").value, m.value("k").value) <= _BLOWS else None),
    rule("mend.times_out_of", "n.bare miss.tend", lambda m: ("miss.tend", None) if m.tokens[-1].text in ("times out of ten", "times in ten") else None),
    rule("mend.picked_up_club", "wind.pickup (?=(club|swing club))", lambda m: ("profile.add", None) if m.tokens[0].text == "picked up" else None),
    rule("mend.took_club_out", "score.made (?=(club|n.det) dist.out $)", lambda m: ("profile.remove", None) if m.tokens[0].text == "took" else None),
    rule("mend.broke_club", "danger.medical (?=(club|n.det|n.bare) (punct|$))", lambda m: ("profile.lacks", None) if m.tokens[0].text == "broke my" else None),
    rule("mend.hit_behind", "{n:n.ft} wind.behind", lambda m: ("contact.fat", None) if m.value("n").unit == "in" else None),
    rule("mend.left_the_club", "^side.left (?={c:club|n.det} (n.bare|n.len|side|result|contact))", _left_behind),
    rule("mend.went_in", "result.holed join.in? (?=((side.left|side.right) join.side?)?(hazard|lie))", lambda m: ("join.was", None) if m.tokens[0].text in _WENT_IN else None),
    rule("mend.less_than", "{a:n.speed|n.bare} dist.shy {b:n.bare|n.speed}", _less_than),
    rule("mend.match", "(n.bare|n.det) (height.up|height.down|height.downhill) (punct.c|join)* n.bare dist.left", _match),
    rule("mend.match_holes", "n.bare hole.word (punct.c|join|height.up|height.down)* n.bare dist.left", _match),
    rule("mend.match_short", "(n.bare|n.det) (height.up|height.down)", _match),
    rule("mend.farther_than_me", "(?<=x.word) {n:n.bare} {w:wind.help}", lambda m: ("got.shift", m.value("n")) if "is" in m.tokens[0].before.split() and m.tokens[1].text in ("behind me", "behind us") else None),
    rule("mend.wind_not", "(?<=(wind.into|wind.help)) {n:n.bare} punct.c? join.not {k:n.bare} (?=(punct|$))", lambda m: ("n.bare", m.value("n")) if max(m.value("n").value, m.value("k").value) <= _BLOWS else None),
    rule("mend.theirs", "x.word {a:n.bare} (punct.c|join.and)* {b:n.bare}", lambda m: ("n.bare", m.value("b")) if m.tokens[0].text.endswith("'s") and _MINE & set(m.tokens[-1].before.split()) else None),
    rule("mend.of_wind", "{n:n.bare} punct.c? join.not n.bare (?=join.of? wind.noun)", lambda m: ("n.bare", m.value("n"))),
    rule("mend.not_wind", "join.not n.bare (wind.into|wind.help|wind.behind|wind.l2r|wind.r2l) (punct|join)* (?=n.bare)", lambda m: ("got.match", None)),
    rule("mend.not_lie", "join.not (join.in|join.on)? lie|join.not join.in (hazard.bunker|hazard.trees|hazard.grass)", lambda m: ("got.match", None) if m.tokens[-1].name not in ("lie.tee",) else None),
    rule("mend.neither_end", "join.not (side.short|side.long) (join.and|punct.c)* join.not (side.short|side.long)", lambda m: ("result.pin_high", None) if m.tokens[1].name != m.tokens[-1].name else None),
    rule("mend.deep", "(side.short|side.long) punct.c? join.not (side.short|side.long)", _first),
    rule("mend.knock_off", "(x.word|verb|swing|score|profile) {n:n.bare|n.len|n.det} join.off", _taken_off),
    rule("mend.trouble_from_side", f"({_FROM_TROUBLE}) (join.off|join.from) (?=(side.left|side.right))", lambda m: ("join.on", None)),
    rule("mend.leave_below", "layup.leave (result.short_of|result.past)", lambda m: ("got.beside", m.tokens[1].text)),
    rule("mend.match_thru", "(n.bare|n.det) (height.up|height.down) (join|x)* n.bare", lambda m: ("got.match", None) if any(t.text in ("thru", "through") for t in m.tokens) else None),
    rule("mend.blocked_it", "^lie.blocked (?=(club|got.club|n.det))", lambda m: ("verb.hit", None)),
    rule("mend.rather", "{n:n.bare} join.not {k:n.bare} (?=(wind.into|wind.help|wind.behind) n)", lambda m: ("n.bare", m.value("n")) if m.value("k").value > _BLOWS else None),
    rule("mend.mine", "{a:n.bare} (punct.c|join.and)* {b:n.bare}", lambda m: ("n.bare", m.value("b")) if _THEIRS & set(m.tokens[0].before.split()) and _MINE & set(m.tokens[-1].before.split()) else None),
    rule("mend.mine_was", "x.word join.was {a:n.bare} (punct.c|join.and)* {b:n.bare}", lambda m: ("n.bare", m.value("b")) if _MINE & set(m.tokens[-1].before.split()) else None),
    rule("mend.mine_hit", "^x.word verb.hit (n.bare|n.det) (join|x)* punct.c {b:n.bare|n.len}", lambda m: (m.tokens[-1].name, m.value("b")) if _MINE & set(m.tokens[-1].before.split()) else None),
    rule("mend.back_of_me", "{n:n.bare|n.len} place.back join.of punct.c", lambda m: ("got.shift", m.value("n")) if "me" in m.tokens[-1].before.split() else None),
    rule("mend.same_trouble", f"{{h:hazard}} (join.on|join.to|join.at)* {_SIDES} {_FIX} {{k:hazard}}", lambda m: (m.tokens[-1].name, None) if m.tokens[0].name == m.tokens[-1].name and all(_no(t) for t in m.tokens) else None),
    rule("mend.splash", "lie.water (?=join.from)", lambda m: ("swing.splash", None) if m.tokens[0].text == "splash" else None),
    rule("mend.match_level", "noise.match (join|x)* (n.bare|n.det)?", lambda m: ("got.match", None)),
    rule("mend.device", "noise.device (join|x)* (n.pct|n.bare|n.det)", lambda m: ("got.match", None)),
    rule("mend.yesterday", "{n:n.bare|n.len} x.word* review.gone_time (?=.*(n.bare|n.len))", lambda m: ("got.match", None)),
    rule("mend.shaped_club", "(?<=shape) {c:n.bare|n.det} wind.into", lambda m: ("got.club", club_code(m.tokens[0])) if m.tokens[1].text == "into it" and club_code(m.tokens[0]) else None),
    rule("mend.age", "n noise.age", lambda m: ("got.match", None)),
    rule("mend.farther", "(?<!dist.sprinkler) {n:n.bare|n.len|n.det} {w:dist.farther|dist.nearer|wind.behind|wind.help|side.short} (?! join.to)", _farther),
)  # fmt: skip


def _side_anew(match: Match) -> tuple[str, Any] | None:
    """The side that takes back a wind's: "off the left, sorry right"."""
    way, side = match.value("d"), match.one("s")
    if side is None or way.deg not in (90.0, 270.0):
        return None
    return "dir.line", Dir(270.0 if side.name == "side.left" else 90.0)


SAID_OF_WIND: tuple[Rule, ...] = (
    rule(
        "mend.wind_side",
        "{d:dir.line} punct.c? ask.correct punct.c? {s:side.left|side.right} (?!(join.side? (hazard|safe)))",
        _side_anew,
    ),
    rule(
        "mend.behind_not",
        "wind.behind punct.c? join.not dir",
        lambda m: ("dir.line", Dir(180.0)) if m.tokens[-1].value.deg is not None else None,
    ),
    rule("mend.not_behind", "dir punct.c? join.not wind.behind", _first),
    rule("mend.direction", f"dir {_FIX} dir", _last),
    rule("mend.not_that", "join.not dir dist.more? (punct|join)* (dir|wind.behind)", _second),
    rule(
        "mend.that_not",
        "dir punct.c? join.not (dir|(side.left|side.right)(?!(join.side? (hazard|safe))))",
        lambda m: (
            None
            if m.tokens[-2].text in ("no", "nothing", "nowt") and m.tokens[-1].name != "dir"
            else _first(m)
        ),
    ),
    rule("mend.no_wind_is", "wind.calm {d:dir.line}", _turned),
)

SAID_OF_SPEED: tuple[Rule, ...] = (
    rule(
        "mend.call_it",
        "{w:got.wind} (punct.c|x)* dist.play {n:n.bare|n.speed} (?=(punct.c|$))",
        _called,
    ),
    rule("mend.now_it_is", "got.wind (punct|join)* join.now got.wind", _second),
    rule("mend.speed", f"{{w:got.wind}} {_FIX} {{n:n.bare|n.speed}} (?!(dist|n|place))", _speed),
)
