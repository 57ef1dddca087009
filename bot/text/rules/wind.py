"""Which wind was told: where it comes from, how strong, and how it changed?"""

from typing import Any, Literal, NamedTuple

from bot.model.measure import Measure
from bot.model.reading import Wind
from bot.text.patterns import Build, Match, Rule, Token, rule
from bot.text.quantity import Num
from bot.text.rules.holes import COMPASS_DEG

_LARGEST_BARE = 60.0
"""A larger number without a unit beside a wind word is taken for a distance."""

_ONLY = 20.0
"""A lone "only so much now" up to here is a wind: no shot is called only so short."""

_NO_SAND = 130.0
"""Nobody carries a sand wedge so far: beside it "SW 15" is a wind."""

_NO_WIND = 200.0
_ALONE = 30.0  # the only number beside a wind is its speed up to here
_BEYOND = 600.0
"""No distance is as long: such a number beside a wind was meant for it."""

# Words for strength as ranges in miles per hour; after the Beaufort scale's names
# (World Meteorological Organization, Manual on Codes, table 1100), widened as golfers talk.
STRENGTH: dict[str, tuple[float, float]] = {
    "wind.barely": (0, 4), "wind.light": (2, 8), "wind.breeze": (4, 12), "wind.moderate": (8, 18),
    "wind.stiff": (13, 24), "wind.strong": (16, 30), "wind.gale": (30, 55), "wind.calm": (0, 2),
}  # fmt: skip


# Where each number of the Beaufort scale begins, in miles per hour (the same table).
_BEAUFORT = (0, 1, 4, 8, 13, 19, 25, 32, 39, 47, 55, 64, 73)


_WORDS = frozenset(STRENGTH.values()) - {STRENGTH["wind.calm"]}


class Dir(NamedTuple):
    """A direction as told: degrees off the line, or what of it stayed open."""

    deg: float | None = None
    across: bool = False
    quartering: bool = False
    compass: str | None = None


def _side(match: Match, left: float, right: float) -> tuple[str, Dir] | None:
    token = match.one("s")
    if token is None:
        return None
    return "dir.line", Dir(left if token.name == "side.left" else right)


def _into_side(match: Match) -> tuple[str, Dir] | None:
    return _side(match, 315.0, 45.0)


def _help_side(match: Match) -> tuple[str, Dir] | None:
    return _side(match, 225.0, 135.0)


def _cross_side(match: Match) -> tuple[str, Dir] | None:
    return _side(match, 270.0, 90.0)


def _over_shoulder(match: Match) -> tuple[str, Dir] | None:
    """A wind told by the shoulder it comes over, from behind, or by the ear, across."""
    left = match.tokens[1].name == "side.left"
    part = match.tokens[2].text
    if part not in ("shoulder", "ear"):
        return None
    across = part == "ear" and match.tokens[-1].name != "wind.help"
    return _fixed((270.0 if left else 90.0) if across else (225.0 if left else 135.0))


def _from_number(match: Match) -> tuple[str, Dir] | None:
    """A wind told by the number on the clock alone: "at me from eleven, nine mph"."""
    num: Num = match.value("n")
    return _clock(match) if not num.unit and num.value == int(num.value) else None


def _half_past(match: Match) -> tuple[str, Dir] | None:
    told = match.value("n")
    if told is None and match.tokens[-1].text != "one":
        return None
    hour = 1.0 if told is None else told.value
    return _fixed((hour + 0.5) % 12 * 30.0) if hour in range(1, 13) else None


_BLOWN = frozenset(
    {"blowing", "blow", "blows", "drifting", "drifts", "moving", "moves", "sliding"}
)
_BODY = frozenset({"cheek", "ear", "shoulder"})
_FULLY = frozenset({
    "dead", "straight", "full", "pure", "directly", "direct", "smack", "plumb", "plum", "square",
    "squarely", "flush", "bang", "purely", "slap",
})  # fmt: skip


def _toward(match: Match) -> tuple[str, Dir] | None:
    """A wind told by the side it blows to."""
    clear = any(
        t.name in ("wind.toward", "hole.bearing") or t.text in _BLOWN for t in match.tokens
    )
    return _side(match, 90.0, 270.0) if clear else ("dir.open", Dir(across=True))


def _toward_across(match: Match) -> tuple[str, Dir] | None:
    """A wind "moving left to right"."""
    clear = match.tokens[0].name == "wind.toward" or match.tokens[0].text in _BLOWN
    return _fixed(270.0 if match.tokens[-1].name == "wind.l2r" else 90.0) if clear else None


def _fully(match: Match) -> tuple[str, Any] | None:
    """A word that makes a direction no other: "dead behind", "smack on the nose"."""
    way = match.tokens[-1]
    return (way.name, way.value) if match.tokens[0].text in _FULLY else None


def _from_behind_side(match: Match) -> tuple[str, Dir] | None:
    """A wind from one of the corners behind: "from behind and left"."""
    told = any({"behind", "back"} & set(t.text.split()) for t in match.tokens)
    return _help_side(match) if told else None


def _side_wind(match: Match) -> tuple[str, Dir] | None:
    """A wind named after its side: "a left wind"."""
    side = match.tokens[0]
    return _cross_side(match) if "hand" in side.text or "a" in side.before.split() else None


def _slashed(match: Match, build: Build) -> tuple[str, Any] | None:
    """A direction of two words with nothing but a stroke between them: "L/R", "into/left"."""
    links = [t for t in match.tokens if t.name == "punct.c"]
    return build(match) if all(t.text in ("/", "-") for t in links) else None


def _one_wind(match: Match, build: Build) -> tuple[str, Any] | None:
    """A side and a direction of one wind; "160 away on the right, into 10" tells them of two."""
    apart = any(t.name == "punct.c" for t in match.tokens)
    return None if apart and match.tokens[0].name == "join.on" else build(match)


def _fixed(deg: float) -> "tuple[str, Dir]":
    return "dir.line", Dir(deg)


def _beyond(match: Match, most: float = _BEYOND) -> tuple[str, Any] | None:
    """A wind that cannot be, "headwind of 900", to be said back and not left out."""
    way, num = match.one("w"), match.value("n")
    named = way is not None and (match.tokens[0] is not way or "wind" in way.text)
    if way is None or not named or num.value <= most:
        return None
    from_deg = 0.0 if way.name == "wind.into" else 180.0
    return "got.wind", Wind(speed=num.measure(), from_deg=from_deg)


def _clock(match: Match) -> tuple[str, Dir] | None:
    token = match.one("n")
    if token is None or not 1 <= token.value.value < 13:
        return None
    return "dir.line", Dir(token.value.value % 12 * 30.0)


def _compass(match: Match) -> tuple[str, Dir] | None:
    token = match.one("c")
    if token is None:
        return None
    point = token.name.split(".")[1].upper() if token.name != "x.word" else token.text.upper()
    if point.lower() not in COMPASS_DEG:
        return None
    return "dir.compass", Dir(compass=point)


def _to_compass(match: Match) -> tuple[str, Dir] | None:
    """A wind told by the point it blows to comes from the other one."""
    found = _compass(match)
    if found is None or found[1].compass is None:
        return None
    points = list(COMPASS_DEG)
    other = (COMPASS_DEG[found[1].compass.lower()] + 180.0) % 360.0
    return "dir.compass", Dir(compass=next(p for p in points if COMPASS_DEG[p] == other).upper())


def _letter(match: Match) -> tuple[str, Dir] | None:
    """A compass point of one letter that is short for "and" or "with" elsewhere."""
    token = match.one("c")
    point = "" if token is None else token.text.upper()
    return ("dir.compass", Dir(compass=point)) if point in ("N", "W") else None


def _half_alone(match: Match) -> tuple[str, Dir] | None:
    token = match.tokens[0]
    slight = token.text.startswith(("slight", "hurting a", "helping a", "a bit"))
    into = token.name == "wind.half_into"
    if slight:
        return _fixed(0.0 if into else 180.0)
    return "dir.open", Dir(quartering=True)


def _combine(a: Dir, b: Dir) -> Dir:
    """Two directions told of one wind, such as left to right and helping."""
    pair = {a.deg, b.deg}
    for along, side, both in (
        (0.0, 270.0, 315.0), (0.0, 90.0, 45.0), (180.0, 270.0, 225.0), (180.0, 90.0, 135.0),
    ):  # fmt: skip
        if pair == {along, side}:
            return Dir(both)
    if pair == {90.0, 270.0}:
        return Dir(across=True)  # "left to right, off the right": which is open
    return Dir() if pair == {0.0, 180.0} else a


def _and_with(match: Match) -> tuple[str, Dir] | None:
    """A cross wind that is told to be in as well, or with: "left to right and in"."""
    last = match.tokens[-1]
    across: Dir = match.value("a")
    if across.deg not in (90.0, 270.0) or (last.name == "join.and" and last.text != "with"):
        return None
    return "dir.line", _combine(Dir(0.0 if last.name == "join.in" else 180.0), across)


def _half_across(match: Match) -> tuple[str, Dir] | None:
    """A wind told to quarter and to blow across: "quartering from behind, left to right"."""
    along = Dir(0.0 if match.tokens[0].name == "wind.half_into" else 180.0)
    across: Dir = match.value("b")
    made = _combine(along, across)
    return None if made is along else ("dir.line", made)


_OFF = "(join.off|join.from|join.of|join.on|wind.noun)"
_IN = "(wind.into|wind.half_into)"
_HELP = "(wind.help|wind.half_help|wind.behind)"
_SIDE = "{s:side.left|side.right} join.side?"
_NOT_PLACE = "(?!join.at? (hazard|lie|place.green|(side|place.back|place.front) (hazard|lie)))"
_NOT_TOLD = "(?!(join.side|join.of|join.on)* (hazard|lie|safe|place|side))"
_NOT_GRASS = "(?!(lie.rough|lie.deep_rough|lie.first_cut|hazard.grass|hazard.trees))"  # "off the left rough"
_LINK = "(join.and|punct.c|wind.cross|wind.quarter)?"

DIRECTIONS: tuple[Rule, ...] = (
    rule("wind.beyond_noun", "wind.noun {n:n.bare} {w:wind.into|wind.help} (?=.*(n.bare|n.len))", lambda m: _beyond(m, _NO_WIND)),
    rule("wind.beyond", "{w:wind.into|wind.help} join.of? {n:n.bare} (?!dist)", _beyond),
    rule("wind.fully", "((?<=(punct|n|wind|join|verb))|^) (hazard.trouble|shape.straight|swing.full|contact.solid|x.word) (wind.into|wind.help|wind.behind|wind.cross|wind.l2r|wind.r2l|(join.off|join.from)(?=(side.left|side.right)))", _fully),
    rule("wind.from_front", "(?<=(n.speed|n.clubs|wind.noun)) (join.from|join.off|join.in)+ (place.front|side.short) (?!(n|(join.and)? (side.left|side.right)))", lambda m: _fixed(0.0)),
    rule("wind.from_back", "(?<=(n.speed|n.clubs|wind.noun)) ((join.from|join.off|join.to)+ place.back|place.at_back) (?!(n|(join.and)? (side.left|side.right)|place.pin))", lambda m: _fixed(180.0)),
    rule("wind.to_clock", "(wind.toward|join.to) {n:n.clock}", lambda m: _fixed((m.value("n").value % 12 * 30.0 + 180.0) % 360.0) if 1 <= m.value("n").value < 13 else None),
    rule("wind.toward_compass", "wind.toward join.to? {c:compass}", _to_compass),
    rule("wind.landed_behind", "join.was wind.help", lambda m: _fixed(0.0) if m.tokens[0].text == "landed" and m.tokens[1].text in ("behind me", "behind us") else None),
    rule("wind.nothing_in_it", "join.not wind.into", lambda m: ("wind.calm", None) if m.tokens[1].text == "in the wind" and m.tokens[0].text in ("nowt", "nothing", "none") else None),
    rule("wind.nowt", "wind.noun join.not (?=(punct|$))", lambda m: ("wind.calm", None) if m.tokens[1].text in ("nowt", "nothing", "none") else None),
    rule("wind.a_push", "wind.noun x.word* shape.push join.of (?={n:n.bare|n.speed})", lambda m: _fixed(180.0) if any("giving" in (t.text, *t.before.split()) for t in m.tokens) else None),
    rule("wind.head", "wind.into", lambda m: ("join.at", None) if m.tokens[0].text == "head" and {"me", "my"} & set(m.tokens[0].before.split()) else None),
    rule("wind.felt_on_cheek", "(join.on|verb.hit) {s:side.left|side.right} join.side (?=.*(n.bare|n.speed))", lambda m: _cross_side(m) if m.tokens[-1].text in _BODY and {"feel", "felt", "feels", "feeling"} & set(m.tokens[0].before.split()) else None),
    rule("wind.from_front_num", "(?<=wind.noun) x.word? (join.from|join.off) (place.front|side.short|place.back) (?={n:n.bare|n.speed})", lambda m: _fixed(180.0 if m.tokens[-1].name == "place.back" else 0.0) if m.value("n").value <= _LARGEST_BARE else None),
    rule("wind.sw_alone", "^{c:club.SW} (?={n:n.bare|n.speed} (join.and|punct.c)+ {k:n.bare|n.len})", lambda m: _compass(m) if m.value("n").value < _NO_SAND <= m.value("k").value else None),
    rule("wind.from_target", "(?<=wind.noun) join.from (place.green|place.pin) (?=(join.at)? n|punct|$|join.to)", lambda m: _fixed(0.0)),
    rule("wind.to_target", "(?<=(n.speed|n.clubs|wind.noun)) (wind.toward|wind.noun)* wind.toward (place.green|place.pin|x.word)", lambda m: _fixed(180.0) if m.tokens[-1].name != "x.word" or m.tokens[-1].text == "target" else None),
    rule("wind.from_front_side", f"(?<=(n.speed|n.clubs|wind.noun|wind.quarter)) (join.from|join.off|join.in|wind.quarter)* (place.front|side.short) (join.and|punct.c)? {_SIDE} {_NOT_TOLD}", lambda m: _slashed(m, _into_side)),
    rule("wind.from_back_side", f"(?<=(n.speed|n.clubs|wind.noun|wind.quarter)) (join.from|join.off|join.in|wind.quarter)* (place.back|place.at_back) (join.and|punct.c)? {_SIDE} {_NOT_TOLD}", lambda m: _slashed(m, _help_side)),
    rule("wind.behind_and_side", f"(wind.help|wind.behind|wind.half_help) join.and? {_SIDE} {_NOT_TOLD} (?!(wind|dir))", _from_behind_side),
    rule("wind.side_and_behind", "(?<=(n.speed|wind.noun)) {s:side.left|side.right} join.and? (wind.behind|wind.help)", _from_behind_side),
    rule("wind.into_and_side", f"(?<=(n.bare|n.speed|n.clubs)) wind.into (join.and|punct.c)? {_SIDE} (?=(punct|$))", lambda m: _slashed(m, _into_side)),
    rule("wind.side_and_into", "(?<=(n.speed|n.clubs)) {s:side.left|side.right} (join.and|punct.c)? wind.into (?=(punct|$))", lambda m: _slashed(m, _into_side)),
    rule("wind.side_stroke_side", "(?<=(n.speed|n.clubs|wind.noun)) {s:side.left|side.right} punct.c (side.left|side.right) (?!(join.side? hazard))", lambda m: _slashed(m, _cross_side) if m.tokens[0].name != m.tokens[-1].name else None),
    rule("wind.moving_across", "(?<=(n.speed|wind.noun)) (wind.toward|putt.breaks) (wind.l2r|wind.r2l)|(?<=n.bare) wind.toward (wind.l2r|wind.r2l)", _toward_across),
    rule("wind.toward_after_number", "(?<=n.bare) wind.toward join.to? {s:side.left|side.right} (?!(join.side? hazard))", lambda m: _toward(m) if " " in m.tokens[0].text else None),
    rule("wind.in_an_eye", "(wind.into|join.in) {s:side.left|side.right} x.word", lambda m: _into_side(m) if m.tokens[-1].text in ("eye", "eyeball") else None),
    rule("wind.toward_after_speed", "(?<=n.speed) (wind.toward|putt.breaks|wind.noun) (wind.toward|join.to)* {s:side.left|side.right}", _toward),
    rule("wind.named_after_side", "{s:side.left|side.right} join.side? wind.noun (?!(join.and|punct.c)* (wind|dir))", _side_wind),
    rule("wind.speed_side_wind", "(?<=n.speed) {s:side.left|side.right} join.side? wind.noun (?!(wind|dir))", _cross_side),
    rule("wind.side_wind_speed", "((?<=punct)|^) {s:side.left|side.right} join.side? wind.noun (?=n.speed)", _cross_side),
    rule("wind.half_and_half", "{w:wind.half_into|wind.half_help} (join.and|punct.c)* swing.half (join.off|join.from) {s:side.left|side.right} join.side?", lambda m: _into_side(m) if m.tokens[0].name == "wind.half_into" else _help_side(m)),
    rule("wind.at_my_side", "wind.into {s:side.left|side.right} join.side", lambda m: _cross_side(m) if m.tokens[0].text in ("at me", "against me", "at us") else None),
    rule("wind.to_my_back", "(?<=(n.speed|n.bare|wind.noun)) layup.leave place.back (?=(n|punct|$))", lambda m: _fixed(180.0) if m.tokens[0].text == "to my" else None),
    rule("wind.down_the_hole", "(?<=(n.speed|wind.noun)) shape.straight? height.down (lie.fairway|hole.word)", lambda m: _fixed(180.0)),
    rule("wind.down_speed", "(?<!n.ft) (height.down|height.downhill) (?=n.speed)|(?<=n.speed) shape.straight? (height.down|height.downhill) (?! n)", lambda m: _fixed(180.0)),
    rule("wind.to_left_or_right", "(?<!putt.breaks) wind.l2r", lambda m: _fixed(270.0)),
    rule("wind.to_right_or_left", "(?<!putt.breaks) wind.r2l", lambda m: _fixed(90.0)),
    rule("wind.side_to_side", "(?<!putt.breaks) {s:side.left|side.right} join.to (side.left|side.right) (?!(join.side? hazard))", lambda m: _cross_side(m) if m.tokens[0].name != m.tokens[-1].name and not m.tokens[-1].before else None),
    rule("wind.half_ten", "(?<=(n.bare|n.speed)) join.from swing.half {n:n.bare|n.clock}", _half_past),
    rule("wind.heading", "(?<=(n.bare|n.speed)) hole.bearing (?=(wind.into|wind.help|join.from))", lambda m: ("join.at", None) if m.tokens[0].text == "heading" else None),
    rule("wind.half_past", "(join.at|join.from)? swing.half (result.past|side.long) ({n:n.bare|n.clock|n.det}|x.word)", _half_past),
    rule("wind.from_number", "(wind.noun|wind.into)+ join.from {n:n.bare} (?=(punct.c|join.at)+ (n.speed|n.bare (wind|punct)))", _from_number),
    rule("wind.shape_into_pin", "(?<=(shape.draw|shape.fade|shape.hook|shape.slice)) wind.into (?=(side.left|side.right|place|spot)* (place.pin|place.green))", lambda m: ("join.to", None)),
    rule("wind.shape_into_it", "(?<=(shape.draw|shape.fade|shape.hook|shape.slice)) wind.into", lambda m: ("join.to", None) if m.tokens[0].text in ("into it", "into the wind", "into wind") else None),
    rule("wind.in_front", "(?<=(wind.noun (n.bare|n.speed))) side.short (?=(punct|$))", lambda m: _fixed(0.0) if m.tokens[0].text == "in front" else None),
    rule("wind.clock", "(join.at|join.from|wind.into)? {n:n.clock} (?!(lie.tee|noise))", _clock),
    rule("wind.in_and_across", f"(wind.into|join.in) join.and wind.cross (join.off|join.from) {_SIDE}", _into_side),
    rule("wind.help_and_across", f"(wind.help|wind.behind) join.and wind.cross (join.off|join.from) {_SIDE}", _help_side),
    rule("wind.off_side_and_in", f"(?<!hazard) {_OFF} {_SIDE} join.and? join.in (?=(punct|$))", _into_side),
    rule("wind.part_of_unsure_side", f"({_IN}|{_HELP}) join.and? {_OFF} x.word? x.side join.side?|{_OFF} x.word? x.side join.side? join.and? ({_IN}|{_HELP})", lambda m: ("dir.open", Dir(quartering=True))),
    rule("wind.off_unsure_side", "(?<=(n.speed|wind.noun|wind.cross)) (join.off|join.from) x.side join.side?", lambda m: ("dir.open", Dir(across=True))),
    rule("wind.in_off_side", f"(?<!join.not) {_IN} {_LINK} {_OFF} {_SIDE} {_NOT_GRASS}", _into_side),
    rule("wind.half_across", "(wind.half_into|wind.half_help) (join.and|punct.c)? {b:dir.line}", _half_across),
    rule("wind.in_off_side2", f"join.in (join.and)? wind.quarter? (join.off|join.from) {_SIDE}", _into_side),
    rule("wind.off_side_in", f"(?<!hazard) {_OFF} {_SIDE} {_LINK} (wind.into|wind.half_into) {_NOT_PLACE}", lambda m: _one_wind(m, _into_side)),
    rule("wind.from_behind_side", "join.from wind.behind {s:side.left|side.right}", _help_side),
    rule("wind.quarter_help_side", "wind.quarter punct.c? (wind.help|talk.help) (join.from|join.off) {s:side.left|side.right}", _help_side),
    rule("wind.quarter_into_side", "wind.quarter punct.c? wind.into (join.from|join.off) {s:side.left|side.right}", _into_side),
    rule("wind.help_off_side", f"{_HELP} {_LINK} {_OFF} {_SIDE} {_NOT_GRASS}", _help_side),
    rule("wind.over_shoulder", "join.over (side.left|side.right) join.side (join.and|punct.c)* (wind.help(?! n))?", _over_shoulder),
    rule("wind.down_off_side", f"(height.down|height.downhill) {_LINK} (join.off|join.from) {_SIDE} {_NOT_GRASS}", _help_side),
    rule("wind.off_side_help", f"(?<!hazard) (?<!place.pin) (?<!spot.cut) {_OFF} {_SIDE} {_LINK} (wind.help|wind.half_help|wind.behind|height.down(?! n))", lambda m: _one_wind(m, _help_side)),
    rule("wind.quarter_side_in", f"wind.quarter {_IN}", lambda m: ("dir.open", Dir(quartering=True))),
    rule("wind.side_quarter", f"wind.quarter {_OFF} {_SIDE}", lambda m: ("dir.open", Dir(quartering=True))),
    rule("wind.felt_on_side", f"(?<=wind.noun) (join.on|verb.hit) {_SIDE} (?!(join|punct.c)* (hazard|lie|safe))", _cross_side),
    rule("wind.felt_by", "(?<=(n.speed|n.bare|n.clubs)) (join.on|verb.hit) {s:side.left|side.right} join.side", lambda m: _cross_side(m) if m.tokens[-1].text in _BODY else None),
    rule("wind.toward_side", "wind.noun* wind.noun (wind.toward|join.to|hole.bearing)+ {s:side.left|side.right} (?!(join.side? hazard|join.to))", _toward),
    rule("wind.cross_side", f"wind.cross {_LINK} (join.off|join.from|join.over) {_SIDE}", _cross_side),
    rule("wind.sw_first", "{c:club.SW} (?=wind.noun)", _compass),
    rule("wind.off_side", f"(?<!hazard) (?<!(hazard join.along)) (?<!shape) shape.straight? (join.off|join.from) {_SIDE} wind.cross? (?!(hazard (?! (join|punct.c)* side)|lie))", _cross_side),
    rule("wind.of_compass", "(wind.noun|join.from|join.at) {c:compass|club.SW|x.word}", _compass),
    rule("wind.of_letter", "(wind.noun|join.from) {c:join.and} (?=join.at? (n|$))", _letter),
    rule("wind.compass", "{c:compass}", _compass),
    rule("wind.across_sand", "(?<=lie.fairway_bunker) wind.cross", lambda m: ("dir.open", Dir(across=True)) if m.tokens[0].text != "across" else None),
    rule("wind.across", "(?<!hazard) (?<!(hazard (join.at|join.from) (n.bare|n.len))) (?<!(hazard (n.bare|n.len))) (?<!lie.fairway_bunker) wind.cross", lambda m: ("dir.open", Dir(across=True))),
    rule("wind.to_side", "(?<=wind.noun) (side.left|side.right) (?!(join.side? hazard (?! join.side? side)|join.to))", lambda m: ("dir.open", Dir(across=True))),
    rule("wind.half", "wind.half_into|wind.half_help", _half_alone),
    rule("wind.number_into", "(?<=(n.bare|n.speed|n.len|n.det)) wind.into (?=hazard (join|punct)* side)", lambda m: _fixed(0.0)),
    rule("wind.exactly", "{n:n.bare|n.len} wind.into", lambda m: (m.tokens[0].name, m.value("n")) if "nose" in m.tokens[1].text and m.value("n").value > _LARGEST_BARE else None),
    rule("wind.into", f"(shape.straight|wind.club)? wind.into {_NOT_PLACE}", lambda m: _fixed(0.0)),
    rule("wind.help", "(?<=wind.turn) wind.behind|shape.straight wind.behind|shape.straight? wind.help", lambda m: _fixed(180.0)),
    rule("wind.help_word", "(?<=(n.speed|n.clubs|n.bare|wind.light|wind.strong|wind.moderate|wind.barely)) talk.help", lambda m: _fixed(180.0)),
    rule("wind.quarter", "wind.quarter", lambda m: ("dir.open", Dir(quartering=True))),
)  # fmt: skip


def _two(match: Match) -> tuple[str, Dir] | None:
    first, second = match.value("a"), match.value("b")
    if first is None or second is None or first.deg == second.deg:
        return None
    made = _combine(first, second)
    return None if made is first else ("dir.line", made)


PAIRS: tuple[Rule, ...] = (
    rule(
        "wind.across_and_in", "{a:dir.line} join.and? (join.in|join.and) (?=(punct|$))", _and_with
    ),
    rule("wind.two_directions", "{a:dir.line} (join.and|punct.c)? {b:dir.line}", _two),
)


def _clubs(match: Match) -> tuple[str, Num] | None:
    text = " ".join(t.text for t in match.tokens)
    value = (1.5 if match.tokens[0].name == "wind.club" else 0.5) if "half" in text else 1.0
    return "n.clubs", Num(value, "club")


def _and_a_half(match: Match) -> tuple[str, Wind] | None:
    """A wind of clubs where the half reads as "half into"."""
    way = match.one("d")
    if way is None or "half" not in way.text.split()[0]:
        return None
    clubs = match.value("n").value if match.value("n") else 1.0
    into = way.name == "wind.half_into"
    return "got.wind", Wind(
        speed=Measure(value=clubs + 0.5, unit="club"), from_deg=0.0 if into else 180.0
    )


def _force(match: Match) -> tuple[str, Num] | None:
    """The speeds of a number on the Beaufort scale."""
    force = match.value("n").value
    if force not in range(len(_BEAUFORT) - 1):
        return None
    low, high = _BEAUFORT[int(force)], _BEAUFORT[int(force) + 1] - 1
    return "n.speed", Num((low + high) / 2, "mph", low, high, about=True)


def _of_beaufort(match: Match) -> tuple[str, Num] | None:
    """The same, told in front of the scale's name: "4 beaufort", "4 bft"."""
    named = match.tokens[1].text != "force"
    return _force(match) if named else None


CLUBS: tuple[Rule, ...] = (
    rule(
        "wind.club_and_half",
        "{n:wind.club|n.clubs} join.and {d:wind.half_into|wind.half_help}",
        _and_a_half,
    ),
    rule("wind.force", "wind.force {n:n.bare|n.det}", _force),
    rule("wind.of_beaufort", "{n:n.bare|n.det} wind.force", _of_beaufort),
    rule("wind.club_and_a_half", "wind.club join.and swing.half", _clubs),
    rule("wind.half_a_club", "swing.half join.of? wind.club", _clubs),
    rule(
        "wind.dead",
        "wind.noun hazard.trouble (?=(punct|$))",
        lambda m: ("wind.calm", None) if m.tokens[1].text == "dead" else None,
    ),
    rule(
        "wind.hard",
        "wind.noun ground.firm",
        lambda m: ("wind.strong", None) if m.tokens[1].text == "hard" else None,
    ),
    rule(
        "wind.clubs_down",
        "(?<=n.clubs) (join.of? wind.noun)? height.down",
        lambda m: ("wind.help", None),
    ),
    rule(
        "wind.a_club",
        "wind.club (?=(join.of|wind|dir|(join.off|join.from) (side.left|side.right)))",
        _clubs,
    ),
)


def speed_of(num: Num) -> Measure:
    """A wind's speed as said; a bare metre beside a wind is left without a unit."""
    if num.unit in ("m", "yd", "ft", "pace"):
        return num._replace(unit="").measure()
    return num.measure()


def strength(name: str, unit_range: tuple[float, float] | None = None) -> Measure:
    """The speed that a word for strength stands for, as a range in mph."""
    low, high = unit_range or STRENGTH[name]
    return Measure(value=(low + high) / 2, unit="mph", low=low, high=high, about=True)


def _fits(num: Num, told: bool) -> bool:
    """Whether a number can be a wind's speed; `told` if a wind word stands right before it."""
    if num.unit in ("mph", "km/h", "m/s", "kn", "club"):
        return True
    if num.unit in ("ft", "in", "cm", "yd", "pace"):
        return False
    return (told and num.value > 600) or num.value < 0 or num.value <= _LARGEST_BARE


def _wind(match: Match) -> tuple[str, Wind] | None:
    groups = match.groups
    told_dirs = [g[0].value for k in ("d", "e") if (g := groups.get(k)) and g[0].value]
    direction: Dir = next((d for d in told_dirs if d.deg is not None), Dir())
    if direction.deg is None and told_dirs:
        direction = told_dirs[0]
    if len(told_dirs) == 2 and all(d.deg is not None for d in told_dirs):
        direction = _combine(*told_dirs)
    for token in match.tokens:
        if token.name in ("wind.behind",) and direction.deg is None:
            direction = Dir(180.0)
    speed: Measure | None = None
    unsteady = any(t.name == "wind.swirl" for t in match.tokens)
    if "n" in groups:
        token = groups["n"][0]
        told = any(t.name == "wind.noun" and t.end <= token.start for t in match.tokens)
        if not isinstance(token.value, Num) or not _fits(token.value, told):
            return None
        if token.name == "n.len" and token.value.unit != "m":
            return None
        speed = speed_of(token.value)
    gust = None
    if "g" in groups:
        gust = speed_of(groups["g"][0].value)
    if speed is None:
        words = [t for t in match.tokens if t.name in STRENGTH]
        if words:
            speed = strength(words[0].name)
        elif any(t.name == "wind.noun" and _SLIGHT & set(t.before.split()) for t in match.tokens):
            speed = strength("wind.light")
        elif any({"breeze", "breezy"} & set(t.text.split()) for t in match.tokens):
            speed = strength("wind.breeze")
    if speed is None and gust is None and not unsteady and direction == Dir():
        return None
    fields: dict[str, Any] = {
        "speed": speed, "gust": gust, "from_deg": direction.deg, "compass": direction.compass,
        "across": direction.across, "quartering": direction.quartering, "unsteady": unsteady,
    }  # fmt: skip
    return "got.wind", Wind(
        **{k: v for k, v in fields.items() if v is not None and v is not False}
    )


def _noun(match: Match) -> tuple[str, Wind] | None:
    """A wind named and nothing said of it."""
    told = _wind(match)
    if told is None and match.tokens[0].text in ("windy", "blowing", "wind", "blowin"):
        return "got.wind", Wind()
    return told


def _now_at(match: Match) -> tuple[str, Wind] | None:
    """A wind that is now up or down to a speed: "it's up to 15 now"."""
    num: Num = match.value("n") or match.value("k") or match.value("j")
    return ("got.wind", Wind(speed=num.measure())) if num.unit or num.value <= 45 else None


_COMPARED = frozenset({"stronger", "weaker", "lighter", "strong"})  # "a bit stronger"
_SURELY_BY = 10.0  # a larger number without a unit may be the new wind itself: judgement
_MOVED = frozenset({"freshened", "strengthened", "eased", "lessened", "increased"})
_SLIGHT = frozenset({"slight", "slightly"})
_AIRS = ("breath", "breeze", "wind", "whisper")
_S = "(wind.barely|wind.light|wind.moderate|wind.stiff|wind.strong|wind.gale)"
_NOUN = f"(wind.noun|{_S}|wind.swirl|wind.gust|ground.soft)"
_L = "(join.at|join.of|join.by|shape.straight|join.now|join.was|wind.noun|dist.play)*"
_SPEED = "{n:n.speed}"
_NUM = "{n:n.speed|n.clubs|n.bare|n.det|n.len}"
_GUST = "(join.and? punct.c? wind.gust (join.to|join.at|join.of|join.over|wind.pickup|height.up)* {g:n.speed|n.bare|n.det})?"
_LATE = "punct.c? wind.gust (join.to|join.at|join.of|join.over|wind.pickup|height.up)* {g:n.speed|n.bare|n.det}"
_DIR = "{d:dir}(punct.c? {e:dir})?"


def _blown(match: Match) -> tuple[str, Wind] | None:
    """A wind told to be stronger or weaker, and how strong: "stronger, 20", "weaker now, 5"."""
    if not _COMPARED & set(match.tokens[0].text.split()) or match.value("n").value > _LARGEST_BARE:
        return None
    return _wind(match)


def _changed(match: Match) -> tuple[str, Wind] | None:
    """A wind that changed, told by a word alone: "it's stronger now", "it's picked up"."""
    token = next(t for t in match.tokens if t.name in ("wind.pickup", "wind.drop"))
    words = set(token.text.split())
    of_wind = token.text == "picked up" and {"it's", "its"} & set(token.before.split())
    if not (words & (_COMPARED | _MOVED) or of_wind):
        return None
    return "got.wind", Wind(change="up" if token.name == "wind.pickup" else "down")


def _by_so_much(match: Match) -> tuple[str, Wind] | None:
    """By how much a wind is stronger or weaker than before: "5 mph stronger"."""
    token, num = match.one("w"), match.value("n")
    compared = token is not None and bool(_COMPARED & set(token.text.split()))
    if token is None or not compared or not _fits(num, told=False):
        return None
    if not num.unit and num.value > _SURELY_BY:
        return None  # "20 stronger": to 20, or by 20?
    change = "more" if token.name == "wind.pickup" else "less"
    return "got.wind", Wind(speed=speed_of(num), change=change)


def _more_of_it(match: Match) -> tuple[str, Wind] | None:
    """The same, told by more or less: "wind is 5 more", "5 mph less"."""
    num = next(match.value(g) for g in ("n", "k", "j") if match.one(g) is not None)
    token = next(t for t in match.tokens if t.name in ("dist.more", "dist.less"))
    if not _fits(num, told=False):
        return None
    change: Literal["more", "less"] = "more" if token.name == "dist.more" else "less"
    return "got.wind", Wind(speed=speed_of(num), change=change)


def _less_or_more(match: Match) -> tuple[str, Wind]:
    """A wind told to be more or less than before: "less wind now"."""
    return "got.wind", Wind(change="up" if match.tokens[0].name == "dist.more" else "down")


def _gust_range(match: Match) -> tuple[str, Wind] | None:
    """A wind told from its strength to its gusts: "gusty, 8 up to 20"."""
    low, high = match.value("n"), match.value("g")
    if not low.value < high.value <= _LARGEST_BARE:
        return None
    told = Wind(speed=low.measure(), gust=high.measure())
    return "got.wind", told.model_copy(update={"from_deg": 0.0}) if match.one("d") else told


def _flipped_to(match: Match) -> tuple[str, Wind] | None:
    """A wind that turned, and where to: "wind's swung round to behind now"."""
    way = match.tokens[-1]
    if way.name == "wind.behind":
        return "got.wind", Wind(from_deg=180.0)
    deg = getattr(way.value, "deg", None)
    return None if deg is None else ("got.wind", Wind(from_deg=deg))


WINDS: tuple[Rule, ...] = (
    rule("wind.facing", "{n:n.speed} wind.noun? (?!(join|punct.c)* dir)", lambda m: ("got.wind", Wind(speed=m.value("n").measure(), from_deg=0.0)) if "facing" in m.tokens[0].before.split() else None),
    rule("wind.with_the_wind", "{n:n.bare|n.speed} join.and wind.noun (?=(punct|$))", lambda m: ("got.wind", Wind(speed=speed_of(m.value("n")), from_deg=180.0)) if m.tokens[1].text == "with" and m.value("n").value <= 45 else None),
    rule("wind.is_with", "(?<=wind.noun) join.and (?=punct.c n.speed)", lambda m: ("dir.line", Dir(180.0)) if m.tokens[0].text == "with" else None),
    rule("wind.gust_to_dir", f"(?<!(n.bare|n.speed)) wind.gust (join.to|join.at|height.up)+ {{g:n.speed|n.bare}} {_DIR}", _wind),
    rule("wind.gust_then_mean", f"wind.gust (join.to|join.at)* {{g:n.speed|n.bare|n.det}} (join.and|punct.c)* (wind.moderate|miss.tend) {{n:n.speed|n.bare}} punct.c? ({_DIR})?", lambda m: _wind(m) if m.value("n").value < m.value("g").value <= _LARGEST_BARE else None),
    rule("wind.gust_range", "wind.gust punct.c? {n:n.speed|n.bare} height.up? join.to {g:n.speed|n.bare} (punct.c? {d:shape.straight} join.in (?!(hazard|lie)))?", _gust_range),
    rule("wind.if_it_drops", "(?<=join.if) (height.downhill|height.down) join.to {n:n.speed|n.bare}", lambda m: ("got.wind", Wind(speed=m.value("n").measure())) if m.tokens[0].text in ("drops", "falls", "drops down") else None),
    rule("wind.swirl_num", "wind.swirl join.at? {n:n.speed|n.bare} (?!(dist|join.to|place))", _wind),
    rule("wind.dir_then_strength", f"{{d:dir}} punct.c {_S} (?=(punct|$))", _wind),
    rule("wind.down_num_breeze", "height.down {n:n.bare|n.speed} wind.noun", lambda m: ("got.wind", Wind(speed=speed_of(m.value("n")), from_deg=180.0)) if m.value("n").value <= 45 else None),
    rule("wind.noun_num_in", "wind.noun {n:n.bare|n.speed} join.in (?=(punct|$))", lambda m: ("got.wind", Wind(speed=speed_of(m.value("n")), from_deg=0.0)) if m.value("n").value <= 45 else None),
    rule("wind.behind_num", "(?<=punct.c) wind.behind {n:n.bare|n.speed} (?=(punct|$))", lambda m: ("got.wind", Wind(speed=speed_of(m.value("n")), from_deg=180.0)) if m.value("n").value <= 45 else None),
    rule("wind.with_num", "((?<=punct.c)|(?<=punct.stop)) join.and {n:n.bare|n.speed} (?=(punct|$))", lambda m: ("got.wind", Wind(speed=speed_of(m.value("n")), from_deg=180.0)) if m.tokens[0].text == "with" and m.value("n").value <= 45 else None),
    rule("wind.with", "(?<=punct.c) {n:n.bare|n.speed} join.and (?=(punct|$))", lambda m: ("got.wind", Wind(speed=m.value("n").measure(), from_deg=180.0)) if m.tokens[-1].text == "with" and m.value("n").value <= 30 else None),
    rule("wind.num_dir_gust", f"{_NUM} {_L} {_DIR} wind.noun? {_LATE}", _wind),
    rule("wind.none", "join.not wind.noun (?!(join.was|dir|n))", lambda m: ("got.wind", _still(m)) if m.tokens[0].text in ("no", "without") else None),
    rule("wind.dir_and_num", f"wind.noun {_L} {{d:dir}} join.and {{n:n.bare|n.det}} (?!(dist|join.to|join.or|place|hole|carry))", lambda m: _wind(m) if m.value("n").value <= 45 else None),
    rule("wind.noun_in_num", "wind.noun join.was? join.in {n:n.bare|n.speed|n.det} (?!(dist|hole|place|join))", lambda m: ("got.wind", Wind(speed=m.value("n").measure(), from_deg=0.0)) if m.value("n").value <= 45 else None),
    rule("wind.dir_strong_num", f"{_NOUN}* {_L} {_DIR} (join.and|punct.c)* {_S} {_NUM} {_GUST} (?!(carry|join.to|dist|place))", _wind),
    rule("wind.num_in", "(?<=(n.bare punct.c)) {n:n.bare} join.in (?=(punct|$))", lambda m: ("got.wind", Wind(speed=m.value("n").measure(), from_deg=0.0)) if m.value("n").value <= 40 else None),
    rule("wind.then_in_num", "(?<=n.bare) join.in {n:n.bare} (?=(height n))", lambda m: ("got.wind", Wind(speed=m.value("n").measure(), from_deg=0.0)) if m.value("n").value <= 40 else None),
    rule("wind.in_num", "(?<=punct.c) join.in {n:n.bare} (?=(punct|$))", lambda m: ("got.wind", Wind(speed=m.value("n").measure(), from_deg=0.0)) if m.value("n").value <= 45 else None),
    rule("wind.flipped_first", "wind.flip (join|x.word|punct.c)* wind.noun", lambda m: ("got.wind", Wind(change="opposite"))),
    rule("wind.flipped_to", "wind.noun? wind.flip (join.to|join.from|join.now)+ (wind.behind|wind.help|wind.into|dir)", _flipped_to),
    rule("wind.flipped", "(wind.noun|wind.turn|join.was|x.word)* (wind.flip|wind.mirror)", lambda m: ("got.wind", Wind(change="opposite" if m.tokens[-1].name == "wind.flip" else "mirrored")) if any(t.name in ("wind.noun", "wind.turn") for t in m.tokens) else None),
    rule("wind.up_to", "(?<!n.bare) (height.up|height.down) join.to {n:n.bare|n.speed} join.now|^(wind.noun? place.back)? (height.up|height.down) join.to {k:n.bare|n.speed}$|^wind.noun place.back join.to {j:n.bare|n.speed}$", _now_at),
    rule("wind.only_now", "^{n:n.bare|n.det} join.now $", lambda m: ("got.wind", Wind(speed=m.value("n").measure())) if "only" in m.tokens[0].before.split() and m.value("n").value <= _ONLY else None),
    rule("wind.doubled", "(join.and|punct.c)* wind.doubled", lambda m: ("got.wind", Wind(change="double"))),
    rule("wind.more_of_it", "wind.noun join.was? {n:n.bare|n.speed} {w:dist.more|dist.less} join.now? (?=(punct|$))|{k:n.bare|n.speed} {v:dist.more|dist.less} wind.noun|{j:n.speed} {u:dist.more|dist.less} (?=(punct.q)?$)", _more_of_it),
    rule("wind.halved", "(join.and|punct.c)* wind.halved", lambda m: ("got.wind", Wind(change="half"))),
    rule("wind.shape_wind", "(shape.hook|shape.slice|shape.draw|shape.fade) wind.noun", lambda m: ("got.wind", Wind(across=True))),
    rule("wind.still", "(?<=punct.c) join.still $", lambda m: ("got.wind", Wind(speed=strength("wind.calm")))),
    rule("wind.died", "wind.died|wind.calm", lambda m: (
        "got.wind", _still(m),
    )),
    rule("wind.same_turned", "wind.flip punct.c? wind.same", lambda m: ("got.wind", Wind(change="opposite"))),
    rule("wind.same", "wind.same|ask.same wind.noun", lambda m: ("got.wind", Wind(change="same"))),
    rule("wind.changed_to", f"wind.noun (wind.pickup|wind.drop|wind.turn|join.was|height.up|height.down|height.downhill)+ (join.to|join.now|join.at|punct.c)* {_NUM} {_GUST} ({_DIR})?", _wind),
    rule("wind.fell_or_rose", "wind.noun join.was? (wind.drop|wind.pickup)", lambda m: ("got.wind", Wind(change="down" if m.tokens[-1].name == "wind.drop" else "up"))),
    rule("wind.drops", "(wind.drop|wind.pickup) (?!(join|n))", lambda m: ("got.wind", Wind(change="down" if m.tokens[0].name == "wind.drop" else "up")) if m.tokens[0].text.startswith(("wind", "breeze")) else None),
    rule("wind.turned_to", f"wind.noun? (wind.turn|join.was) (join.to|join.now|punct.c)* {_DIR} {_L} ({_NUM})?", _wind),
    rule("wind.help_rose", f"(?<!(n.bare|n.speed|n.clubs)) {{d:dir}} (wind.pickup|wind.drop|join.was|height.up|height.down) (join.to|join.at|wind.pickup|height.up|height.down)* {_NUM} {_GUST}", _wind),
    rule("wind.compared_to", "(wind.pickup|wind.drop) (punct.c|join.now|join.at|join.to|ask.correct)* {n:n.bare|n.speed} (?=(punct|join.now|$))", _blown),
    rule("wind.by_so_much", "(wind.noun join.was?)? {n:n.bare|n.speed} {w:wind.pickup|wind.drop} join.now? (?=(punct|$))", _by_so_much),
    rule("wind.compared", "(?<=n.bare) (wind.pickup|wind.drop) (?=(punct.stop|punct.q)*$)|^ask.correct? punct.c? join.now? (wind.pickup|wind.drop) join.now? (?=(punct.stop|punct.q)*$)", _changed),
    rule("wind.less_or_more", "^(dist.less|dist.more) wind.noun join.now? (?=(punct.stop|punct.q)*$)", _less_or_more),
    rule("wind.now", f"(wind.pickup|wind.drop) (join.to|join.at)* {_NUM} {_GUST}", _wind),
    rule("wind.speed_dir", f"{_NOUN}* {_SPEED} {_GUST} punct.c? {_L} {_NOUN}* {_L} {_DIR} wind.noun?", _wind),
    rule("wind.dir_speed", f"{_NOUN}* {_L} {_DIR} {_L} {_NOUN}* punct.c? {_L} {_SPEED} {_GUST}", _wind),
    rule("wind.dir_num_dir", f"{_NOUN}* {_L} {{d:dir}} {_L} {_NUM} {_GUST} (join.and)? {{e:dir}}", _wind),
    rule("wind.noun_num_dir", f"(?!(?<=(n.bare|n.speed|n.det)) wind.gust) {_NOUN}+ {_L} {_NUM} {_GUST} punct.c? {_L} {_DIR}", _wind),
    rule("wind.dir_num", f"{_NOUN}* {_L} {_DIR} {_L} {_NOUN}* {_L} {_NUM} {_GUST}(?!carry|join.to|dist.left)", _wind),
    rule("wind.num_dir", f"{_NUM} {_GUST} {_L} {_NOUN}* {_L} {_DIR} wind.noun?", _wind),
    rule("wind.num_behind", f"{_NUM} {_GUST} {_L} {_NOUN}* {_L} join.side? wind.behind (?!(place.green))", _wind),
    rule("wind.noun_behind_num", f"{_NOUN}+ wind.behind {_L} {_NUM} {_GUST}", _wind),
    rule("wind.noun_num", f"{_NOUN}* wind.noun {_NOUN}* {_L} {_NUM} {_GUST} (?!(club|join.to|carry|dist.left))", _wind),
    rule("wind.num_noun", f"{_NUM} {_GUST} {_L} wind.noun {_NOUN}*", _wind),
    rule("wind.noun_dir", f"{_NOUN}* {_L} {_DIR} {_L} {_NOUN}*", _wind),
    rule("wind.noun_behind", f"(wind.noun|{_S})+ wind.behind", _wind),
    rule("wind.hardly", "wind.barely", lambda m: _wind(m) if any(w in m.tokens[0].text for w in _AIRS) else None),
    rule("wind.strength_noun", f"{_S} wind.noun|wind.noun {_S}|wind.gale|{_S} punct.c wind.noun", _wind),
    rule("wind.num_gusts", "{g:n.speed|n.bare} wind.gust (?!(join.to|join.at|join.of|n))", _wind),
    rule("wind.speed", f"{_SPEED} {_GUST}", _wind),
    rule("wind.gusts", "wind.gust (join.to|join.at|join.of|join.over|wind.pickup|height.up)* {g:n.speed|n.bare|n.det}", _wind),
    rule("wind.num_with", "wind.noun {n:n.bare|n.speed} join.and (?=(punct|$))", lambda m: ("got.wind", Wind(speed=m.value("n").measure(), from_deg=180.0)) if m.tokens[-1].text == "with" and m.value("n").value <= 45 else None),
    rule("wind.swirl", "wind.swirl", _wind),
    rule("wind.breeze", "wind.noun", _noun),
)  # fmt: skip


def _still(match: Match) -> Wind:
    """A calm, told as one or as a wind that died."""
    if match.tokens[0].name == "wind.died":
        return Wind(speed=strength("wind.calm"), change="died")
    return Wind(speed=strength("wind.calm"))


def merge(told: list[Wind]) -> Wind | None:
    """One wind of what was told in several places; the first told part wins."""
    if not told:
        return None
    over = next((w for w in told if w.change == "died"), None)
    if over is not None and told[-1] is over:
        return over  # "it was 12 but it's died now"
    # A number told of it says more than a word for its strength.
    told = sorted(told, key=lambda w: not _numbered(w))
    wind = told[0]
    for more in told[1:]:
        fields = {k: getattr(more, k) for k in more.model_fields_set}
        fields.update({k: getattr(wind, k) for k in wind.model_fields_set})
        wind = Wind(**fields)
    ways = {w.from_deg for w in told if w.from_deg is not None}
    if len(ways) == 2:
        both = _combine(*(Dir(way) for way in sorted(ways)))
        kept = wind.model_fields_set - {"from_deg"}
        fields = {k: getattr(wind, k) for k in kept}
        joined = both.deg if both.deg not in ways else None
        wind = Wind(**fields) if joined is None else Wind(**fields, from_deg=joined)
    if wind.from_deg is not None and (wind.across or wind.quartering):
        kept = wind.model_fields_set - {"across", "quartering"}
        wind = Wind(**{k: getattr(wind, k) for k in kept})
    return wind


def _numbered(wind: Wind) -> bool:
    """Whether the speed was told by a number."""
    return wind.speed is not None and _has_speed(wind)


def winds(tokens: list[Token]) -> list[Wind]:
    """The winds told among reduced tokens."""
    return [t.value for t in tokens if t.name == "got.wind"]


def wind_number(tokens: list[Token]) -> None:
    """Give a wind told without its speed the small number that stands next to it.

    Only where another, larger number is left for the distance.
    """
    if any(t.name == "got.wind" and _has_speed(t.value) for t in tokens):
        return
    for at, token in enumerate(tokens):
        if token.name == "got.wind" and _give_number(tokens, at):
            return


def _give_number(tokens: list[Token], at: int) -> bool:
    """Whether the wind at `at` was given a number that stands next to it."""
    for step in (1, 2, -1, -2, 3, 4):
        beside = at + step
        if not 0 <= beside < len(tokens) or tokens[beside].name not in ("n.bare", "n.clubs"):
            continue
        between = tokens[min(at, beside) + 1 : max(at, beside)]
        between = [t for t in between if t.name != "talk.skip"]  # "no idea which"
        num: Num = tokens[beside].value
        larger = any(
            t.name in ("n.bare", "n.len", "got.distance", "got.ref", "got.trio")
            and (not isinstance(t.value, Num) or t.value.value > num.value)
            for i, t in enumerate(tokens)
            if i != beside
        )
        alone = num.value <= _ALONE and tokens[at].value.from_deg is not None
        alone = alone and sum(isinstance(t.value, Num) for t in tokens) == 1
        if (
            (larger or alone)
            and 0 <= num.value <= 45
            and all(t.name == "punct.c" for t in between)
        ):
            wind: Wind = tokens[at].value
            told = {k: getattr(wind, k) for k in wind.model_fields_set}
            tokens[at] = tokens[at]._replace(value=Wind(**{**told, "speed": speed_of(num)}))
            del tokens[beside]
            return True
    return False


def _has_speed(wind: Wind) -> bool:
    """Whether a number was told of a wind, or a change that needs none."""
    speed = wind.speed
    if speed is None:
        return wind.change is not None
    return (speed.low, speed.high) not in _WORDS
