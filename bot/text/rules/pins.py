"""Where on the green does the pin stand, and how far from what was told?"""

from typing import Any

from bot.text.patterns import Match, Rule, rule
from bot.text.quantity import Num
from bot.text.rules.distances import PAST_GREEN, REF, SPOT

_CORNERS = {
    "corner.bl": ("back", "left"), "corner.br": ("back", "right"), "corner.fl": ("front", "left"),
}  # fmt: skip
_SPOT = {
    "place.front": "front", "place.up_front": "front", "place.middle": "middle",
    "place.at_middle": "middle", "place.back": "back", "place.at_back": "back",
    "side.left": "left", "side.right": "right", "spot.tucked": "tucked", "side.short": "front",
    "side.long": "back",
}  # fmt: skip
_PIN_IN = 20.0  # paces in from an edge of the green
_GREEN_DEPTH = 40.0


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


_PL = "(spot.cut|ask.correct|join.on|join.at|join.in|join.to|join.was|join.of|ground.soft|place.green|join.side|join.and|height.up|height.down|dist.play|wind.cross)*"

_SAFE = f"join.and {SPOT} join.side? safe.ok"  # "to the pin and right is safe"


def _pin_from(match: Match) -> tuple[str, Any] | None:
    """How far the pin stands behind (+) or before (-) the front, or the number told."""
    num: Num = match.value("n")
    where, base = match.one("w"), match.one("b")
    if where is None or num.value > _GREEN_DEPTH:
        return None
    nearer = where.name in ("side.short", "dist.shy", "place.front", "place.up_front")
    on = where.name == "join.on"
    name = REF[base.name] if base else "front" if on else ""
    return "got.pin_on", num._replace(value=-num.value if nearer else num.value, det=name)


def _off_edge(match: Match) -> tuple[str, Any] | None:
    """How far the pin stands in from an edge: "pin is 5 off the back", "6 from the front"."""
    num: Num = match.value("n")
    last = match.tokens[-1]
    back = last.name == "place.back" or last.text.endswith("back")
    if num.value > _GREEN_DEPTH or (last.name == "side.long" and not back):
        return None
    value = -num.value if back else num.value
    return "got.pin_on", num._replace(value=value, det="back" if back else "front")


def _past_marker(match: Match) -> tuple[str, Any] | None:
    """The distance of a ball past a marker: "150 marker, I'm 6 past it"."""
    marker, by = match.value("n"), match.value("a")
    if by.value >= marker.value / 2:
        return None
    return "got.distance", marker._replace(value=marker.value - by.value)


def _pin_plus(match: Match) -> tuple[str, Any] | None:
    """How far the pin is from the number told: "148 mid, pin +6"."""
    num: Num = match.value("n")
    stated = "is" in match.tokens[-1].before.split()  # "pin is negative 40 yards away"
    told = num.signed and abs(num.value) <= _GREEN_DEPTH and not stated
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


def _at_rear(match: Match) -> tuple[str, Any] | None:
    """A pin at the back, told by the rear of the green, and on which side of it."""
    where = next(t for t in match.tokens if t.name == "side.long")
    side = match.one("s")
    if not {"back", "rear"} & set(where.text.split()):
        return None
    return "got.pin", ("back",) if side is None else ("back", side.name.split(".")[1])


def _behind_sand(match: Match) -> tuple[str, Any] | None:
    """The side of a pin told by the sand in front of it: "tucked behind the left trap"."""
    side = match.one("s")
    return None if side is None else ("got.pin", (side.name.split(".")[1],))


PIN_FROM: tuple[Rule, ...] = (
    PAST_GREEN,
    rule(
        "pin.off_back",
        "place.pin (join.was|spot.cut)? {n:n.len|n.bare|n.det} (side.long|join.off place.back|join.from place.back) (?=(punct|$))",
        _off_edge,
    ),
    rule(
        "pin.off_front",
        "place.pin (join.was|spot.cut)* {n:n.len|n.bare|n.det} (join.off|join.from) place.front (?=(punct|$))",
        _off_edge,
    ),
    rule(
        "pin.edge",
        "(?<!join.to) place.pin (join.was|join.at)? {n:n.bare|n.len|n.det} (join.from|join.off) {s:side.left|side.right} (place.green|x.word)?",
        _pin_edge,
    ),
    rule(
        "distance.marker_behind",
        "{n:n.bare|n.len} dist.sprinkler join.was? {a:n.bare|n.len} (wind.help|wind.behind|side.short)",
        _marker,
    ),
    rule(
        "pin.from",
        "place.pin (join.was|join.at|x|wind.stiff)? {n:n.len|n.bare|n.det|n.ft} {w:join.on|wind.behind|place.back|side.long|side.short|dist.shy|dist.farther|place.front(?! n)} (join.of|join.from)? {b:place.middle|place.front}? (?!place.green)",
        _pin_from,
    ),
    rule(
        "distance.past_marker",
        "{n:n.bare|n.len} dist.sprinkler punct.c? x.word? {a:n.bare|n.len} (side.long|result.past)",
        _past_marker,
    ),
    rule(
        "pin.hole_from",
        "hole.word {n:n.len|n.bare|n.det|n.ft} {w:join.on|wind.behind|dist.shy|dist.farther} (?=(punct|$))",
        lambda m: (
            _pin_from(m)
            if m.tokens[-1].name == "join.on" or "is" in m.tokens[1].before.split()
            else None
        ),
    ),
    rule("pin.plus", "(?<!(n.bare|n.len)) place.pin {n:n.bare|n.len}(?! (height|n))", _pin_plus),
    rule(
        "pin.farther_on",
        "x.word {n:n.len|n.bare|n.det} (join.to place.pin|x.word join.to place.pin)",
        _pin_farther,
    ),
)

PINS: tuple[Rule, ...] = (
    rule("pin.behind_sand", "place.pin join.was? spot.tucked? (?=(wind.behind|spot.tucked) {s:side.left|side.right} join.side? hazard.bunker)", _behind_sand),
    rule("pin.hole_word", "hole.word (?=join.was? (place.back|place.front|place.middle|spot.tucked))", lambda m: ("place.pin", None)),
    rule("pin.to_shelf", "join.to place.at_back (?=(punct|$))", lambda m: ("got.pin", ("back",)) if any(w in m.tokens[-1].text for w in ("shelf", "deck", "tier")) else None),
    rule("pin.not", f"place.pin join.not {SPOT} (join.and|punct.c)* (?={SPOT})", lambda m: ("place.pin", None)),
    rule("pin.at", f"place.pin (?!{_SAFE}) {_PL} {SPOT} ((?!{_SAFE}) {_PL} (?!{SPOT} hazard (?! (join|punct.c)* side)) {SPOT})* (?! join.side? (lie.rough|lie.deep_rough|lie.first_cut|hazard (?! (join|punct.c)* side)))", _pin),
    rule("pin.hole_cut", "hole.word spot.cut (place.back|place.front|place.middle|side.left|side.right) (?!join.at)", _pin),
    rule("pin.false_front", "place.pin (join.on|join.over|join.by) ground.falsefront", lambda m: ("got.pin", ("front",))),
    rule("pin.hole_side", "hole.word (side.left|side.right) (?=(punct|$))", lambda m: _pin(m) if "is" in m.tokens[-1].before.split() else None),
    rule("pin.then_spot", f"(?<=(place.pin punct.c)) {SPOT} (?=(punct|$))", lambda m: _pin(m) if {"it's", "its", "is"} & set(m.tokens[0].before.split()) else None),
    rule("pin.at_back_of", "place.pin join* side.long {s:side.left|side.right}?", _at_rear),
    rule("pin.pre", f"(?<!(got.ref|got.trio|got.distance)) {SPOT}+ join.side? place.pin", lambda m: None if _a_cup(m) else _pin(m)),
    rule("pin.in_front", "place.pin (join.was|join.at)? side.short (?!(join|hazard|n))", lambda m: ("got.pin", ("front",)) if m.tokens[-1].text == "in front" else None),
    rule("pin.corner", "corner", _pin),
    rule("pin.tucked_spot", f"spot.tucked {SPOT}+ (?! join.side? hazard)", lambda m: None if "short" in m.tokens[0].text else _pin(m)),
    rule("pin.tucked", "spot.tucked place.pin?", _pin),
)  # fmt: skip
