"""How far is it, and to what?"""

from typing import Any

from bot.text.patterns import Match, Rule, rule
from bot.text.quantity import Num

_GREEN = 70.0  # yards: numbers further apart are not of one green
_EDGE = 60.0  # yards off a green: a shot on to it is a short one
_NEAR = 25.0  # "12 left" is a side missed by, "120 left" what is left to go
# What a number can be to, by the word for it.
REF = {
    "place.pin": "pin", "place.front": "front", "place.middle": "middle", "place.back": "back",
    "place.green": "green", "hole.word": "pin", "place.corner": "corner",
}  # fmt: skip
_CLUBS = 10  # smaller numbers are clubs
_HOLE_LONG = 280.0
_STROKES = 15
_YARDS_OF_METRE = 1 / 0.9144
_ROUNDED = 0.02
_AHEAD = ("in front", "ahead", "less")  # of a marker: nearer the green
_MARKED = (100.0, 150.0, 200.0, 250.0)  # yards, or metres, from the green at which posts stand
_OF_GREEN = frozenset({"green's", "greens"})
_LIKED = frozenset({"favourite", "favorite", "fave", "usual", "preferred", "pet"})


def _ref(match: Match) -> tuple[str, Any] | None:
    token = match.one("r")
    num: Num = match.value("n")
    if token is None or num.unit in ("ft", "in"):
        return None
    if num.value < _STROKES and any(t.name == "join.for" for t in match.tokens):
        return None  # "7 for the hole"
    said = any({"i'm", "im"} & set(t.before.split()) for t in match.tokens[1:])
    if match.tokens[0] is token and (said or (token.name == "place.green" and num.value < _CLUBS)):
        return None  # "soft greens, I'm at 141", "firm greens, is 8 enough"
    if token.name == "hole.word" and match.tokens[0] is token and num.value >= _HOLE_LONG:
        return "got.length", num  # "the hole's 410"
    return "got.ref", (REF[token.name], num)


def _trio(match: Match) -> tuple[str, Any] | None:
    nums = [t.value for t in match.tokens if t.name in ("n.bare", "n.len")]
    names = [REF[t.name] for t in match.tokens if t.name in REF]
    values = [n.value for n in nums]
    apart = max(values) - min(values) if values else 0.0
    if len(names) != len(nums) or len(set(names)) != len(names) or apart > _GREEN:
        return None
    return "got.trio", tuple(zip(names, nums, strict=True))


def _edge_and_pin(match: Match) -> tuple[str, Any] | None:
    """The green's edge and the pin, each said on its own side of a number: "92 front flag 101"."""
    first, second = (t.value.value for t in match.tokens if t.name in ("n.bare", "n.len"))
    return _trio(match) if first < second else None


def _three(match: Match) -> tuple[str, Any] | None:
    nums: list[Num] = [t.value for t in match.tokens if t.name in ("n.bare", "n.len")]
    values = [n.value for n in nums]
    if not (values[0] < values[1] < values[2] and values[2] - values[0] <= 60 and values[0] >= 30):
        return None
    return "got.trio", tuple(zip(("front", "middle", "back"), nums, strict=True))


def _past_green(match: Match) -> tuple[str, Any] | None:
    """A pin told from the front of the green: "15 short of the green and the pin another 8 on"."""
    short, on = match.value("a"), match.value("b")
    where = match.one("s")
    if where is not None and not where.text.endswith("green"):
        return None
    unit = short.unit or on.unit
    pin = short._replace(value=short.value + on.value, unit=unit)
    return "got.trio", (("front", short._replace(unit=unit)), ("pin", pin))


def _off_edge(match: Match) -> tuple[str, Any] | None:
    """How far off the green a ball lies: "3 off the green", "2 off the edge"."""
    link, where, num = match.tokens[1], match.tokens[2], match.value("n")
    edge = where.name == "place.green" or where.text == "edge"
    told = edge and link.text.startswith("off") and num.value < _EDGE
    return ("got.ref", ("front", num)) if told else None


def _off(match: Match) -> tuple[str, Any] | None:
    """The same where the pin follows: "3 off, 15 to the pin", "3 off, pin 15 on"."""
    told, num = match.value("r"), match.value("n")
    on = isinstance(told, Num)
    pin = told[1].value if not on and told[0] == "pin" else 0.0
    near = on or num.value < pin < _EDGE
    said = match.tokens[1].text == "off" and num.value < _EDGE
    return ("got.ref", ("front", num)) if near and said else None


def _to_the_edge(match: Match) -> tuple[str, Any] | None:
    """How far it is to where the green begins: "6 to the edge", "12 to the green's edge"."""
    words = [t.text for t in match.tokens if t.name == "x.word"]
    told = words[-1] == "edge" and set(words[:-1]) <= _OF_GREEN
    return ("got.ref", ("front", match.value("n"))) if told else None


def _halfway(match: Match, *, said: bool = False) -> tuple[str, Any] | None:
    """A distance told between two others: "halfway between the 140 and the 150"."""
    first, second = match.value("a"), match.value("b")
    words = {t.text for t in match.tokens if t.name == "x.word"}
    low, high = sorted((first.value, second.value))
    if not (said or words & {"between", "halfway", "midway"}) or high - low > _EDGE or low < _NEAR:
        return None
    return "got.distance", first._replace(value=(low + high) / 2, low=low, high=high)


def _plate(match: Match) -> tuple[str, Any] | None:
    """The distance told against a marker: "ten yards back of the 150 plate"."""
    by, whole = match.value("a"), match.value("n")
    if by.value >= whole.value:
        return None
    where = match.tokens[1]
    nearer = where.name in ("result.inside", "side.long") or where.text.startswith(_AHEAD)
    if where.name == "side.long" and match.tokens[-1].name == "dist.sprinkler":
        return "got.either", None  # past it on the way to the green, or seen from the green?
    value = whole.value - by.value if nearer else whole.value + by.value
    unit = whole.unit or ("" if by.unit == "pace" else by.unit)
    return "got.distance", whole._replace(value=value, unit=unit)


def _one_length(first: Num, second: Num) -> bool:
    """Whether a length in metres and one in yards are the same, as far as they were rounded."""
    metres, yards = (first, second) if first.unit == "m" else (second, first)
    return abs(metres.value * _YARDS_OF_METRE - yards.value) <= _ROUNDED * yards.value


def _either(match: Match) -> tuple[str, Any] | None:
    """Two numbers of which the player does not know which: neither is the distance."""
    first, second = match.tokens[0].value, match.tokens[-1].value
    if {first.unit, second.unit} == {"m", "yd"} and _one_length(first, second):
        return "got.distance", first  # said twice over, in either unit
    low = min(first.value, second.value)
    return ("got.either", None) if low >= _CLUBS else None


def _wanted(before: list[str]) -> str:
    """Whether a number is what the player likes to leave, or what is left to go."""
    liked = "like" in before and bool({"i'd", "id", "would"} & set(before))
    return "got.leave" if liked or "want" in before or "wanna" in before else "got.distance"


def _left_anew(match: Match) -> tuple[str, Any]:
    """What is left, or wanted left, told twice: "I want 100 in, no, make it 85"."""
    return _wanted(match.tokens[0].before.split()), match.value("b")


def _left(match: Match) -> tuple[str, Any] | None:
    """What is left to go, or what the player wants to have left."""
    return _wanted(match.tokens[0].before.split()), match.value("n")


def _left_side(match: Match) -> tuple[str, Any] | None:
    token = match.one("n") or match.one("k")
    if token is None:
        return None
    wanted = token.before.split()
    if token.value.value < _NEAR and "got" not in wanted:
        return None
    return _wanted(wanted), token.value


def plain(name: str) -> Any:
    """A builder that keeps the number of a match as a token called `name`."""

    def build(match: Match) -> tuple[str, Any] | None:
        return name, match.value("n")

    return build


_N = "{n:n.bare|n.len}"
_R = "{r:place.pin|place.front|place.middle|place.back|place.green|hole.word}"
SPOT = "(corner|place.front|place.up_front|place.middle|place.at_middle|place.back|place.at_back|side.left|side.right|spot.tucked)"
_NUMB = "(n.bare|n.len)"
_TO = "(join.to|join.at|dist.left)*"


_R2 = "(place.pin|place.front|place.middle|place.back)"


def _minus(match: Match) -> tuple[str, Any] | None:
    """A distance told as a sum: "a hundred minus three yards"."""
    whole, off = match.value("n"), match.value("a")
    if not (off.signed and -_EDGE < off.value < 0 and whole.value >= _EDGE):
        return None
    return "got.distance", whole._replace(value=whole.value + off.value, unit=off.unit)


PAST_GREEN = rule(
    "distance.past_green",
    "{a:n.bare|n.len} ((dist.shy|side.short join.of) place.green|{s:side.short}) (join.and|punct.c)* place.pin (join.was|x.word)? {b:n.bare|n.len} join.on",
    _past_green,
)

TRIOS: tuple[Rule, ...] = (
    rule("distance.trio_named", "(n.bare|n.len) punct.c? (n.bare|n.len) punct.c? (n.bare|n.len) punct.c* (place.front|place.pin|place.middle|place.back) punct.c? (place.front|place.pin|place.middle|place.back) punct.c? (place.front|place.pin|place.middle|place.back) punct.c?", _trio),
    rule("distance.named_trio", "place.front punct.c place.pin punct.c place.back (join.at|join.was|punct.c)* (n.bare|n.len) punct.c? (n.bare|n.len) punct.c? (n.bare|n.len)", _trio),
    rule("distance.named_trio2", "place.front punct.c place.middle punct.c place.back (join.at|join.was|punct.c)* (n.bare|n.len) punct.c? (n.bare|n.len) punct.c? (n.bare|n.len)", _trio),
    rule("distance.pairs_ahead", f"(?<!{_NUMB}) ({_R2} (join.at|join.was|join.on)? {_NUMB} (punct.c|join.and)*)+ {_R2} (join.at|join.was|join.on)? {_NUMB} (?!{_TO} {_R2})", _trio),
    rule("distance.edge_and_pin", f"{_NUMB} (place.front punct.c? place.pin|place.pin punct.c? place.back) {_NUMB} (?!carry)", _edge_and_pin),
    rule("distance.pairs_after", f"({_NUMB} {_TO} {_R2} (punct.c|join.and)*)+ {_NUMB} {_TO} {_R2}", _trio),
    rule("distance.pairs_before", f"({_R2} (join.at|join.was|join.on)? {_NUMB} (punct.c|join.and)*)+ {_R2} (join.at|join.was|join.on)? {_NUMB}", _trio),
    rule("distance.minus", "{n:n.bare} {a:n.bare|n.len} (?=(punct|$))", _minus),
    rule("distance.three", "(n.bare|n.len) punct.c? (n.bare|n.len) punct.c? (n.bare|n.len)", _three),
)  # fmt: skip


def _shy(match: Match) -> tuple[str, Any] | None:
    less, whole = match.value("a"), match.value("n")
    if whole.value - less.value <= 0:
        return None
    return "got.distance", whole._replace(
        value=whole.value - less.value, unit=whole.unit or less.unit
    )


_EDGES = frozenset({
    "back of the green", "back of green", "in front of the green", "front of the green",
    "back edge of the green", "rear of the green",
})  # fmt: skip


def _less(match: Match) -> tuple[str, Any] | None:
    """A distance told as one number less another: "two hundred less fifteen"."""
    whole, off = match.value("n"), match.value("a")
    if match.tokens[1].text != "less" or not off.value < whole.value / 2:
        return None
    return "got.distance", whole._replace(value=whole.value - off.value)


def _more(match: Match) -> tuple[str, Any] | None:
    """A distance told as one number and another: "145 plus 12"."""
    whole, on = match.value("n"), match.value("a")
    if match.tokens[1].text != "plus" or on.value >= _EDGE or whole.value < _EDGE:
        return None
    return "got.distance", whole._replace(value=whole.value + on.value)


def _to_edge(match: Match) -> tuple[str, Any] | None:
    """A distance to an edge of the green: "203 to the back of the green"."""
    edge = match.one("b")
    if edge is None or edge.text not in _EDGES:
        return None
    return "got.ref", ("back" if edge.name == "side.long" else "front", match.value("n"))


def _past(match: Match) -> tuple[str, Any] | None:
    more, whole = match.value("a"), match.value("n")
    if match.tokens[1].text not in ("past", "beyond") or more.value >= whole.value:
        return None
    return "got.distance", whole._replace(value=whole.value + more.value)


DISTANCES: tuple[Rule, ...] = (
    rule("distance.thats_middle", f"{_N} (punct.c|join.and)+ {{r:place.middle|place.front|place.back}} (?=(punct|$))", lambda m: ("got.ref", (REF[m.tokens[-1].name], m.value("n"))) if "that's" in m.tokens[-1].before.split() and m.value("n").value > _NEAR else None),
    rule("distance.left_anew", f"{_N} (join.in|dist.left|dist.out)+ punct.c* (ask.correct|join.not) (punct.c|join.not|ask.correct)* {{b:n.bare|n.len}} (?!(dist|join.in))", _left_anew),
    rule("distance.halfway", "x.word+ {a:n.bare|n.len} dist.sprinkler? join.and {b:n.bare|n.len} dist.sprinkler?", _halfway),
    rule("distance.plate", f"{{a:n.bare|n.len}} (place.back|wind.behind|dist.farther|side.short|result.inside|result.short_of|dist.shy|side.long) (join.of|join.off|join.from)? {_N} (dist.sprinkler (wind.toward place.green)?)", _plate),
    rule("distance.shy_of_the", f"{{a:n.bare|n.len}} (dist.shy|side.short join.of) {_N}", lambda m: ("got.distance", m.value("n")._replace(value=m.value("n").value + m.value("a").value)) if "the" in m.tokens[-1].before.split() and m.value("n").value in _MARKED else None),
    rule("distance.between_posts", "place.at_middle (join.off|join.of)? {a:n.bare|n.len} join.and {b:n.bare|n.len} (dist.sprinkler|x.word)", lambda m: _halfway(m, said=True)),
    rule("distance.for_third", f"{_N} join.for (n.ord|layup.second)", lambda m: ("got.leave", m.value("n")) if {"want", "like"} & set(m.tokens[0].before.split()) else None),
    rule("distance.shy_of", f"{{a:n.bare|n.len}} (dist.shy|side.short join.of) {_N}", _shy),
    rule("distance.less", "{n:n.bare|n.len} dist.less {a:n.bare|n.len}", _less),
    rule("distance.half_of", "swing.half join.of (n.bare|n.len)", lambda m: (m.tokens[-1].name, m.tokens[-1].value._replace(value=m.tokens[-1].value.value / 2)) if m.tokens[-1].value.value > _EDGE else None),
    rule("distance.more", "{n:n.bare|n.len} join.and {a:n.bare|n.len} (?=(punct|$))", _more),
    rule("distance.to_back", f"{_N} join.to {{b:side.long|side.short}}", _to_edge),
    rule("distance.to", f"{_N} dist.left? (dist.left|dist.out)? (height.up|height.down)? (join.to|join.from|carry.verb|join.at|join.for) (join.to|dist.number|carry.verb)* {_R} (?! {SPOT})", _ref),
    rule("distance.to_edge", f"{_N} join.off place.green (?=.*(n.bare|n.len) join.to (place.pin|hole.word))", lambda m: ("got.ref", ("front", m.value("n"))) if m.value("n").value < _EDGE else None),
    rule("distance.off", f"{_N} join.off (?=(punct.c|join.and)+ {{r:got.ref|got.pin_on}})", _off),
    rule("distance.off_edge", "{n:n.bare|n.len|n.ft} join.off (place.green|x.word (join.off place.green)?) (?!(join.of|join.off|hazard))", _off_edge),
    rule("distance.the_edge", f"{_N} join.to place.green? x.word+ (join.off place.green)? (?!(join.of|join.off))", _to_the_edge),
    rule("distance.off_green", f"{_N} join.off place.green", lambda m: ("got.ref", ("green", m.value("n"))) if m.value("n").value >= 60 else None),
    rule("distance.vague", "(n.bare|n.len) join.and x.word", lambda m: ("got.either", None) if m.tokens[-1].text in ("something", "change", "summat") and m.tokens[0].value.value % 100 == 0 else None),
    rule("distance.either", "(n.bare|n.len) join.or (n.bare|n.len)", _either),
    rule("distance.ref_num", f"(?<!ground) {_R} (join.at|join.was|dist.number|join.to)* {_N}", _ref),
    rule("distance.num_ref", f"{_N} {_R} (?!(spot|join.at|join.in|join.on|place|side|ground))", _ref),
    rule("distance.not", f"{_N} punct.c? join.not (n.bare|n.len)", plain("got.instead")),
    rule("distance.past", f"{{a:n.bare|n.len}} side.long {_N}", _past),
    rule("distance.leave", f"layup.leave (join.at|join.of|join.to)* (swing.full? club join.of?|swing.full)? {_N}", plain("got.leave")),
    rule("distance.leave_liked", f"layup.verb (join.to|join.at)* x.word {_N}", lambda m: ("got.leave", m.value("n")) if any(t.text in _LIKED for t in m.tokens) else None),
    rule("distance.third_shot", f"layup.second join.to? swing.full? {_N}", lambda m: ("got.leave", m.value("n")) if any("be" in t.before.split() for t in m.tokens) else None),
    rule("distance.like_in", f"(?<=punct.c) {_N} join.in $", lambda m: ("got.leave", m.value("n")) if m.tokens[0].before.split()[:1] == ["like"] else None),
    rule("distance.favourite", f"x.word {_N} join.in", lambda m: ("got.leave", m.value("n")) if m.tokens[0].text in _LIKED else None),
    rule("distance.have_in", f"(?<=join.and) {_N} join.in (?=(punct|$))", lambda m: ("got.leave", m.value("n")) if "have" in m.tokens[0].before.split() else None),
    rule("distance.leave2", f"layup.verb (join.to|join.at|join.for)* {_N}", plain("got.leave")),
    rule("distance.left", f"{_N} (dist.left|dist.out|join.in(?!(hazard|lie)))+", _left),
    rule("distance.number", f"(dist.number|dist.sprinkler) (join.at|join.of|join.to|dist.play)* {_N}", plain("got.distance")),
    rule("distance.is_number", f"{_N} dist.number", plain("got.distance")),
    rule("distance.leaving", f"(?<!got.distance) {_N} side.left (?=(punct|join|got|place|club|ask|air|lie|safe|swing|x))|((?<=punct.c)|^) {{k:n.bare|n.len}} side.left$", _left_side),
)  # fmt: skip
