"""Where is the pin, what are the numbers to, how does the ball lie, how is green and air?"""

from typing import Any

from bot.text.patterns import Match, Rule, rule
from bot.text.quantity import Num

_CORNERS = {
    "corner.bl": ("back", "left"), "corner.br": ("back", "right"), "corner.fl": ("front", "left"),
}  # fmt: skip
_SPOT = {
    "place.front": "front", "place.up_front": "front", "place.middle": "middle",
    "place.at_middle": "middle", "place.back": "back", "place.at_back": "back",
    "side.left": "left", "side.right": "right", "spot.tucked": "tucked", "side.short": "front",
    "side.long": "back",
}  # fmt: skip
COMPASS_DEG = {
    p: i * 22.5
    for i, p in enumerate(
        [
            "n",
            "nne",
            "ne",
            "ene",
            "e",
            "ese",
            "se",
            "sse",
            "s",
            "ssw",
            "sw",
            "wsw",
            "w",
            "wnw",
            "nw",
            "nnw",
        ]
    )
}
"""Degrees clockwise from north of the points of the compass."""
_GREEN = 70.0  # yards: numbers further apart are not of one green
_HIGH_FT, _HIGH_M = 900.0, 600.0  # no shot rises or falls so far
_PIN_IN = 20.0  # paces in from an edge of the green
_EDGE = 60.0  # yards off a green: a shot on to it is a short one
_GREEN_DEPTH = 40.0
_NEAR = 25.0  # "12 left" is a side missed by, "120 left" what is left to go
_REF = {
    "place.pin": "pin", "place.front": "front", "place.middle": "middle", "place.back": "back",
    "place.green": "green", "hole.word": "pin", "place.corner": "corner",
}  # fmt: skip


_CLUBS = 10  # smaller numbers are clubs
_HOLE_LONG = 280.0
_STROKES = 15
_PARS = (3, 4, 5, 6)
_YARDS_OF_METRE = 1 / 0.9144
_ROUNDED = 0.02
_FREEZES_F = 25.0


def _pin(match: Match) -> tuple[str, Any] | None:
    spots: list[str] = []
    for token in match.tokens:
        told = _CORNERS.get(token.name) or (_SPOT.get(token.name),)
        if token.text == "fr":
            told = ("front", "right")
        spots += [spot for spot in told if spot and spot not in spots]
    return ("got.pin", tuple(spots)) if spots else None


def _a_cup(match: Match) -> bool:
    """Whether "a cup" is a width of break and not the hole."""
    return match.tokens[-1].text == "cup" and "a" in match.tokens[-1].before.split()


def _ref(match: Match) -> tuple[str, Any] | None:
    token = match.one("r")
    num: Num = match.value("n")
    if token is None or num.unit in ("ft", "in"):
        return None
    if num.value < _STROKES and any(t.name == "join.for" for t in match.tokens):
        return None  # "7 for the hole"
    if token.name == "hole.word" and match.tokens[0] is token and num.value >= _HOLE_LONG:
        return "got.length", num  # "the hole's 410"
    return "got.ref", (_REF[token.name], num)


def _trio(match: Match) -> tuple[str, Any] | None:
    nums = [t.value for t in match.tokens if t.name in ("n.bare", "n.len")]
    names = [_REF[t.name] for t in match.tokens if t.name in _REF]
    values = [n.value for n in nums]
    apart = max(values) - min(values) if values else 0.0
    if len(names) != len(nums) or len(set(names)) != len(names) or apart > _GREEN:
        return None
    return "got.trio", tuple(zip(names, nums, strict=True))


def _three(match: Match) -> tuple[str, Any] | None:
    nums: list[Num] = [t.value for t in match.tokens if t.name in ("n.bare", "n.len")]
    values = [n.value for n in nums]
    if not (values[0] < values[1] < values[2] and values[2] - values[0] <= 60 and values[0] >= 30):
        return None
    return "got.trio", tuple(zip(("front", "middle", "back"), nums, strict=True))


def _temp(match: Match) -> tuple[str, Any] | None:
    num: Num = match.value("n")
    if num.unit == "deg":
        if not -20 <= num.value <= 120:
            return None
        # Nobody plays in so many degrees Fahrenheit: common practice, no source.
        num = num._replace(unit="degC" if num.value <= _FREEZES_F else "")
    return "got.temp", num


def _hole(match: Match) -> tuple[str, Any] | None:
    token = match.one("n")
    if token is None:
        return None
    value = token.value if token.name == "n.ord" else token.value.value
    if value != int(value) or not 1 <= value <= 18:
        return None
    return "got.hole", int(value)


def _par(match: Match) -> tuple[str, Any] | None:
    num: Num = match.value("n")
    return ("got.par", int(num.value)) if num.value in (3.0, 4.0, 5.0, 6.0) else None


def _plate(match: Match) -> tuple[str, Any] | None:
    """The distance told against a marker: "ten yards back of the 150 plate"."""
    by, whole = match.value("a"), match.value("n")
    if by.value >= whole.value:
        return None
    nearer = match.tokens[1].name in ("side.short", "result.inside", "dist.shy")
    value = whole.value - by.value if nearer else whole.value + by.value
    return "got.distance", whole._replace(value=value, unit=whole.unit or by.unit)


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


def _a_par(match: Match) -> tuple[str, Any] | None:
    """A "par" of the hole, for a score of par has no number after it."""
    told = match.tokens[0].text == "a par" and match.value("n").value in _PARS
    return ("hole.par", None) if told else None


def _wanted(before: list[str]) -> str:
    """Whether a number is what the player likes to leave, or what is left to go."""
    liked = "like" in before and ("i'd" in before or "id" in before)
    return "got.leave" if liked or "want" in before or "wanna" in before else "got.distance"


def _left_anew(match: Match) -> tuple[str, Any]:
    """What is left, or wanted left, told twice: "I want 100 in, no, make it 85"."""
    return _wanted(match.tokens[0].before.split()), match.value("b")


def _short_par(match: Match) -> tuple[str, Any] | None:
    """The par of a hole as yardage books write it: "p4"."""
    head, number = match.tokens
    glued = head.text == "p" and head.end == number.start
    return _par(match) if glued else None


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


def _plain(name: str) -> Any:
    def build(match: Match) -> tuple[str, Any] | None:
        return name, match.value("n")

    return build


def _bearing(match: Match) -> tuple[str, Any] | None:
    return "got.bearing", match.value("n").value


def _high_up(match: Match) -> bool:
    """Whether a height can only be one above the sea: "5000 ft up"."""
    num: Num = match.value("n")
    raised = len(match.tokens) > 1
    return (num.unit == "ft" and num.value >= _HIGH_FT) or (
        num.unit == "m" and raised and num.value >= _HIGH_M
    )


def _points(match: Match) -> tuple[str, Any] | None:
    """The bearing of a hole told by a point of the compass."""
    token = match.one("c")
    return ("got.bearing", COMPASS_DEG[token.name.split(".")[1]]) if token else None


def _dogleg(match: Match) -> tuple[str, Any] | None:
    token = match.one("s")
    return ("got.dogleg", token.name.split(".")[1]) if token else None


_N = "{n:n.bare|n.len}"
_R = "{r:place.pin|place.front|place.middle|place.back|place.green|hole.word}"
_P = "(corner|place.front|place.up_front|place.middle|place.at_middle|place.back|place.at_back|side.left|side.right|spot.tucked)"
_PL = "(spot.cut|join.on|join.at|join.in|join.to|join.was|join.of|ground.soft|place.green|join.side|join.and|height.up|height.down|dist.play|wind.cross)*"

HOLES: tuple[Rule, ...] = (
    rule("hole.par_short", "place.pin {n:n.bare|n.det}", _short_par),
    rule("hole.a_par", "score.par (?={n:n.bare})", _a_par),
    rule("hole.par_first", "hole.par {n:n.bare|n.det}", _par),
    rule("hole.number", "(hole.word dist.number?|lie.tee hole.word) {n:n.bare|n.det|n.ord}(?! (hole.par|dist.left|punct.q))", _hole),
    rule("hole.tee_of", "lie.tee join.of {n:n.bare|n.det} (?=(punct|$))", _hole),
    rule("hole.tee", "lie.tee {n:n.bare|n.det}(?= punct.c? (hole.par|got.par))", _hole),
    rule("hole.on_match", "join.on {n:n.bare} punct.c (n.bare|n.det) (height.up|height.down) (?=punct)", _hole),
    rule("hole.on_to", "join.on join.to {n:n.bare|n.det} (?=punct.c? ((n.bare|n.det) hole.par|hole.par))", _hole),
    rule("hole.on_ordinal", "join.on join.to? {n:n.ord} (?!layup)", _hole),
    rule("hole.ordinal", "{n:n.ord} (hole.word|lie.tee)", _hole),
    rule("hole.par", "hole.par {n:n.bare|n.det}", _par),
    rule("hole.det_par", "{n:n.det} hole.par (?!(n.bare|n.det))", _par),
    rule("hole.par_word", "(?<!got.hole) (?<!hole.word) {n:n.bare|n.det} hole.par", _par),
    rule("hole.next", "round.next join.was? {n:n.bare|n.det} (?=punct.c? (hole.par|got.par))", _hole),
    rule("hole.first", "^{n:n.bare|n.det} punct.c? (?=got.par)", _hole),
    rule("hole.on", "(join.on|punct.c|join.now)? {n:n.bare|n.det|n.ord}(?= join.now? punct.c? got.par)", lambda m: _hole(m) if len(m.tokens) > 1 or m.tokens[0].name == "n.ord" else None),
    rule("hole.number_par", "dist.number {n:n.bare|n.det}(?= punct.c? got.par)", _hole),
    rule("hole.index", "hole.index {n:n.bare|n.det}", lambda m: ("got.index", int(m.value("n").value)) if m.value("n").value == int(m.value("n").value) else None),
    rule("hole.bearing", "hole.bearing {n:n.deg|n.bare}", _bearing),
    rule("hole.points", "(hole.bearing|hole.word|dist.play) (dist.play|join.to|miss.lose)* {c:compass} (?!wind)", _points),
    rule("hole.dogleg", "lie.fairway? hole.dogleg (join.to|join.off|height.up|height.down)? {s:side.left|side.right}", _dogleg),
    rule("hole.corner", "(?<!hazard) (?<!((hazard|lie) (join.on|join.at|join.in|result.inside))) place.corner (join.at|join.was|punct.c)* {n:n.bare|n.len} (?!(dist|place|join.to))|{k:n.bare|n.len} join.to place.corner", lambda m: ("got.corner", m.value("n") or m.value("k"))),
    rule("hole.side_dogleg", "{s:side.left|side.right} (hole.dogleg)", _dogleg),
)  # fmt: skip

_NUMB = "(n.bare|n.len)"
_TO = "(join.to|join.at|dist.left)*"
_R2 = "(place.pin|place.front|place.middle|place.back)"
TRIOS: tuple[Rule, ...] = (
    rule("distance.trio_named", "(n.bare|n.len) punct.c? (n.bare|n.len) punct.c? (n.bare|n.len) punct.c* (place.front|place.pin|place.middle|place.back) punct.c? (place.front|place.pin|place.middle|place.back) punct.c? (place.front|place.pin|place.middle|place.back) punct.c?", _trio),
    rule("distance.named_trio", "place.front punct.c place.pin punct.c place.back (join.at|join.was|punct.c)* (n.bare|n.len) punct.c? (n.bare|n.len) punct.c? (n.bare|n.len)", _trio),
    rule("distance.named_trio2", "place.front punct.c place.middle punct.c place.back (join.at|join.was|punct.c)* (n.bare|n.len) punct.c? (n.bare|n.len) punct.c? (n.bare|n.len)", _trio),
    rule("distance.pairs_ahead", f"(?<!{_NUMB}) ({_R2} (join.at|join.was)? {_NUMB} (punct.c|join.and)*)+ {_R2} (join.at|join.was)? {_NUMB} (?!{_TO} {_R2})", _trio),
    rule("distance.pairs_after", f"({_NUMB} {_TO} {_R2} (punct.c|join.and)*)+ {_NUMB} {_TO} {_R2}", _trio),
    rule("distance.pairs_before", f"({_R2} (join.at|join.was)? {_NUMB} (punct.c|join.and)*)+ {_R2} (join.at|join.was)? {_NUMB}", _trio),
    rule("distance.three", "(n.bare|n.len) punct.c? (n.bare|n.len) punct.c? (n.bare|n.len)", _three),
)  # fmt: skip


def _pin_from(match: Match) -> tuple[str, Any] | None:
    """How far the pin stands behind (+) or before (-) the front, or the number told."""
    num: Num = match.value("n")
    where, base = match.one("w"), match.one("b")
    if where is None or num.value > _GREEN_DEPTH:
        return None
    nearer = where.name in ("side.short", "place.front", "place.up_front")
    on = where.name == "join.on"
    name = _REF[base.name] if base else "front" if on else ""
    return "got.pin_on", num._replace(value=-num.value if nearer else num.value, det=name)


def _pin_plus(match: Match) -> tuple[str, Any] | None:
    """How far the pin is from the number told: "148 mid, pin +6"."""
    num: Num = match.value("n")
    told = num.signed and abs(num.value) <= _GREEN_DEPTH
    return ("got.pin_on", num._replace(det="middle")) if told else None


def _pin_farther(match: Match) -> tuple[str, Any] | None:
    """How far the pin is behind the number told before: "another fifteen to the flag"."""
    num: Num = match.value("n")
    told = match.tokens[0].text == "another" and num.value <= _GREEN_DEPTH
    return ("got.pin_on", num._replace(det="front")) if told else None


# Where a marker is told to be from the player.
_OF_ME = frozenset({"behind me", "behind us", "in front of me", "in front of us", "ahead of me"})


def _marker(match: Match) -> tuple[str, Any] | None:
    """The distance of a ball that lies so far past a marker, or short of it."""
    marker, apart = match.value("n"), match.value("a")
    where = match.tokens[-1].text
    if where not in _OF_ME or apart.value >= marker.value:
        return None
    sign = -1.0 if "behind" in where else 1.0
    return "got.distance", marker._replace(value=marker.value + sign * apart.value)


def _pin_edge(match: Match) -> tuple[str, Any] | None:
    """The side of a pin told from that edge of the green: "pin 4 from right edge"."""
    edge = match.one("s")
    near = match.value("n").value <= _PIN_IN
    return ("got.pin", (edge.name.split(".")[1],)) if edge is not None and near else None


PIN_FROM: tuple[Rule, ...] = (
    rule(
        "pin.edge",
        "place.pin (join.was|join.at)? {n:n.bare|n.len|n.det} (join.from|join.off) {s:side.left|side.right} (place.green|x.word)?",
        _pin_edge,
    ),
    rule(
        "distance.marker_behind",
        "{n:n.bare|n.len} dist.sprinkler join.was? {a:n.bare|n.len} (wind.help|wind.behind|side.short)",
        _marker,
    ),
    rule(
        "pin.from",
        "place.pin (join.was|join.at|x)? {n:n.len|n.bare|n.det} {w:join.on|wind.behind|place.back|side.long|side.short|dist.farther|place.front(?! n)} (join.of|join.from)? {b:place.middle|place.front}? (?!place.green)",
        _pin_from,
    ),
    rule("pin.plus", "(?<!(n.bare|n.len)) place.pin {n:n.bare|n.len}(?! (height|n))", _pin_plus),
    rule(
        "pin.farther_on",
        "x.word {n:n.len|n.bare|n.det} (join.to place.pin|x.word join.to place.pin)",
        _pin_farther,
    ),
)


PINS: tuple[Rule, ...] = (
    rule("pin.hole_word", "hole.word (?=join.was? (place.back|place.front|place.middle|spot.tucked))", lambda m: ("place.pin", None)),
    rule("pin.not", f"place.pin join.not {_P} (join.and|punct.c)* (?={_P})", lambda m: ("place.pin", None)),
    rule("pin.at", f"place.pin {_PL} {_P} ({_PL} (?!{_P} hazard (?! (join|punct.c)* side)) {_P})* (?! join.side? hazard (?! (join|punct.c)* side))", _pin),
    rule("pin.at_back_of", "place.pin join* side.long", lambda m: ("got.pin", ("back",)) if "back" in m.tokens[-1].text.split() else None),
    rule("pin.pre", f"(?<!got) {_P}+ join.side? place.pin", lambda m: None if _a_cup(m) else _pin(m)),
    rule("pin.in_front", "place.pin (join.was|join.at)? side.short (?!(join|hazard|n))", lambda m: ("got.pin", ("front",)) if m.tokens[-1].text == "in front" else None),
    rule("pin.corner", "corner", _pin),
    rule("pin.tucked", "spot.tucked place.pin?", _pin),
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
    rule("distance.left_anew", f"{_N} (join.in|dist.left|dist.out)+ punct.c* (ask.correct|join.not) (punct.c|join.not|ask.correct)* {{b:n.bare|n.len}} (?!(dist|join.in))", _left_anew),
    rule("distance.plate", f"{{a:n.bare|n.len}} (place.back|wind.behind|dist.farther|side.short|result.inside|dist.shy) (join.of|join.off|join.from)? {_N} dist.sprinkler", _plate),
    rule("distance.shy_of", f"{{a:n.bare|n.len}} (dist.shy|side.short join.of) {_N}", _shy),
    rule("distance.less", "{n:n.bare|n.len} dist.less {a:n.bare|n.len}", _less),
    rule("distance.to_back", f"{_N} join.to {{b:side.long|side.short}}", _to_edge),
    rule("distance.to", f"{_N} dist.left? (dist.left|dist.out)? (height.up|height.down)? (join.to|join.from|carry.verb|join.at|join.for) (join.to|dist.number|carry.verb)* {_R} (?! {_P})", _ref),
    rule("distance.to_edge", f"{_N} join.off place.green (?=.*(n.bare|n.len) join.to (place.pin|hole.word))", lambda m: ("got.ref", ("front", m.value("n"))) if m.value("n").value < _EDGE else None),
    rule("distance.off_green", f"{_N} join.off place.green", lambda m: ("got.ref", ("green", m.value("n"))) if m.value("n").value >= 60 else None),
    rule("distance.vague", "(n.bare|n.len) join.and x.word", lambda m: ("got.either", None) if m.tokens[-1].text in ("something", "change", "summat") and m.tokens[0].value.value % 100 == 0 else None),
    rule("distance.either", "(n.bare|n.len) join.or (n.bare|n.len)", _either),
    rule("distance.ref_num", f"{_R} (join.at|join.was|dist.number|join.to)* {_N}", _ref),
    rule("distance.num_ref", f"{_N} {_R} (?!(spot|join.at|join.in|join.on|place|side|ground))", _ref),
    rule("distance.not", f"{_N} punct.c? join.not (n.bare|n.len)", _plain("got.instead")),
    rule("distance.past", f"{{a:n.bare|n.len}} side.long {_N}", _past),
    rule("distance.leave", f"layup.leave (join.at|join.of|join.to)* (swing.full? club join.of?)? {_N}", _plain("got.leave")),
    rule("distance.leave2", f"layup.verb (join.to|join.at|join.for)* {_N}", _plain("got.leave")),
    rule("distance.left", f"{_N} (dist.left|dist.out|join.in(?!(hazard|lie)))+", _left),
    rule("distance.number", f"(dist.number|dist.sprinkler) (join.at|join.of|join.to|dist.play)* {_N}", _plain("got.distance")),
    rule("distance.is_number", f"{_N} dist.number", _plain("got.distance")),
    rule("distance.leaving", f"(?<!got.distance) {_N} side.left (?=(punct|join|got|place|club|ask|air|lie|safe|swing))|((?<=punct.c)|^) {{k:n.bare|n.len}} side.left$", _left_side),
)  # fmt: skip

AIR: tuple[Rule, ...] = (
    rule("air.temperature", "air.temp (join.at|join.of|join.was)* {n:n.temp|n.deg|n.bare}", _temp),
    rule("air.degrees", "{n:n.temp|n.deg}", _temp),
    rule("air.bare", "(air.cold|air.hot|air.warm|air.cool) join.at? {n:n.bare}(?= (punct|join))", lambda m: _temp(m) if m.value("n").value <= 110 else None),
    rule("air.altitude", "(height.altitude) (join.of|join.at)* {n:n.ft|n.len|n.bare}", _plain("got.altitude")),
    rule("air.altitude2", "{n:n.ft|n.len|n.bare} (join.of|height.uphill)* height.altitude", _plain("got.altitude")),
    rule("air.altitude3", "join.at {n:n.ft|n.len} height.up?", lambda m: ("got.altitude", m.value("n")) if m.value("n").value >= 900 else None),
    rule("air.altitude4", "{n:n.ft|n.len} (height.up|height.uphill)?", lambda m: ("got.altitude", m.value("n")) if _high_up(m) else None),
    rule("air.thin", "air.thin join.at {n:n.ft|n.len}", _plain("got.altitude")),
    rule("air.humidity", "air.humid (join.at|join.of)* {n:n.pct}", _plain("got.humidity")),
    rule("air.humidity2", "{n:n.pct} air.humid", _plain("got.humidity")),
    rule("green.stimp", "ground.stimp (join.at|join.of|join.to|join.was)* {n:n.bare|n.det}", _plain("got.stimp")),
    rule("green.num_stimp", "{n:n.bare|n.det} (join.on)* ground.stimp", _plain("got.stimp")),
    rule("green.depth", "{n:n.len|n.bare} ground.deep|{k:n.len} place.green|place.green {j:n.len|n.bare} ground.deep", lambda m: ("got.depth", m.value("n") or m.value("k") or m.value("j"))),
    rule("green.ahead", "{n:n.len|n.ft|n.bare} join.of place.green", lambda m: ("got.pin_on", m.value("n")._replace(det="front")) if m.value("n").value <= 60 else None),
    rule("green.width", "{n:n.len|n.bare} ground.wide", _plain("got.width")),
)  # fmt: skip
