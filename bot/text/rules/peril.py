"""Which side was told to end in trouble by a sentence: "anything right is wet"?"""

from typing import Any

from bot.model.reading import Hazard, HazardKind, HazardSide
from bot.text.patterns import Match, Rule, Token, rule
from bot.text.rules.trouble import KIND

_SIDES: dict[str, HazardSide] = {
    "side.left": "left", "side.right": "right", "side.short": "short", "side.long": "long",
    "join.over": "long", "wind.behind": "long", "place.back": "long",
}  # fmt: skip
_OF_LIE: dict[str, HazardKind] = {
    "lie.water": "water", "lie.wet": "water", "lie.ob": "ob", "lie.lost": "trouble",
    "lie.blocked": "trouble", "lie.trees": "trees", "lie.bunker": "bunker",
    "lie.deep_rough": "long_grass", "lie.fairway_bunker": "bunker",
    "lie.greenside_bunker": "bunker",
}  # fmt: skip
_WET = frozenset({"wet", "soaked", "soaking"})
_JAIL = frozenset({"jail", "trouble", "stymied"})
# Words of a shot that is only thought of.
_THOUGHT = frozenset({
    "anything", "everything", "anyone", "anybody", "missing", "going", "ball", "shot", "every",
    "one", "even", "hit", "it", "if", "you", "tugged", "leaked",
})  # fmt: skip
_NOW = frozenset({
    "is", "goes", "finds", "gets", "get", "you're", "youre", "you", "it's", "its", "that's",
    "thats", "are", "be", "you'll", "will", "find", "means", "=", "brings", "you've", "i'm",
})  # fmt: skip


def _kind(token: Token) -> HazardKind | None:
    if token.name == "lie.wet" and token.text not in _WET:
        return None
    if token.name == "lie.trees" and _JAIL & set(token.text.split()):
        return "trouble"
    return _OF_LIE.get(token.name) or KIND.get(token.name.partition(".")[2])


def _words(tokens: list[Token]) -> set[str]:
    return {w for t in tokens for w in (*t.before.split(), *t.text.split())}


def _made(match: Match) -> tuple[str, Any] | None:
    """The trouble of the match on its side or, of a corner, on the side across the line."""
    ends = match.one("k")
    kind = _kind(ends) if ends else None
    sides = [_SIDES[t.name] for t in match.tokens if t.name in _SIDES]
    if kind is None or len(set(sides)) != len(sides):
        return None
    corner = len(sides) > 1
    made = tuple(Hazard(kind=kind, side=side, corner=corner) for side in sides)
    return "got.hazard", made or (Hazard(kind=kind),)


def _thought(match: Match) -> tuple[str, Any] | None:
    """A shot thought of, its side and where it ends."""
    head = next(i for i, t in enumerate(match.tokens) if t.name in _SIDES)
    cue = [t for t in match.tokens[:head] if t.name == "x.word"]
    if not all(t.text in _THOUGHT for t in cue):
        return None
    rest = match.tokens[head + 1 :]
    comma = any(t.name == "punct.c" for t in rest)
    return None if comma and not _words(rest) & _NOW else _made(match)


def _is_there(match: Match) -> tuple[str, Any] | None:
    """What a side is said to be, or to do to a ball: "right finds the water"."""
    head = next(i for i, t in enumerate(match.tokens) if t.name in _SIDES)
    side = match.tokens[head]
    is_left_out = side.end - side.start == len(side.text) + 2  # "short's wet"
    told = is_left_out or bool(_words(match.tokens[head + 1 :]) & _NOW)
    return _made(match) if told else None


def _over_is(match: Match) -> tuple[str, Any] | None:
    """What is told of the ground beyond a green: "over is out of bounds"."""
    return (
        _is_there(match)
        if all(t.text in _THOUGHT or t.name != "x.word" for t in match.tokens)
        else None
    )


def _then(match: Match) -> tuple[str, Any] | None:
    """Trouble told before the shot thought of: "wet if you miss right"."""
    return _made(match)


_S = "(side.left|side.right|side.short|side.long)"
_ENDS = "{k:hazard|lie.water|lie.wet|lie.ob|lie.lost|lie.blocked|lie.trees|lie.bunker|lie.deep_rough|lie.fairway_bunker|lie.greenside_bunker}"
_LIES = "{k:lie.water|lie.wet|lie.ob|lie.lost|lie.blocked|lie.trees|lie.bunker|lie.deep_rough}"
_NO_MORE = (
    f"(?!(lie|ground|(join.on|join.to|join.at|join.off|join.along|join.over|place)* ({_S}|n)))"
)
_OF = "(join.side|join.of|join.off|place.green|place.pin|lie.fairway)*"
_TO = "(join.and|punct.c|miss.lose|verb.found|join.in|join.on|wind.into|x.word)"
_FAR = f"{_TO}? {_TO}? {_TO}? {_TO}?"
_CUE = "(miss.lose|miss.word|join.if|ask.what_if)"

PERILS: tuple[Rule, ...] = (
    rule("peril.must_not", f"safe.must_not (join|wind.into|x.word)* {_LIES} {_S}? join.side?", _made),
    rule("peril.thought", f"x.word? {_CUE} x.word? miss.lose? (join.to|join.on|join.off)* {_S} {_S}? {_OF} {_FAR} {_ENDS} {_NO_MORE}", _thought),
    rule("peril.anything", f"x.word (miss.lose|shape)? (join.to|join.on|join.off)* {_S} {_S}? {_OF} {_FAR} {_ENDS} {_NO_MORE}", lambda m: _thought(m) if m.tokens[0].text in _THOUGHT else None),
    rule("peril.a_miss", f"{_S} (miss.word|miss.lose) {_FAR} {_ENDS} {_NO_MORE}", _is_there),
    rule("peril.side_is", f"((?<=punct)|^) {_S} {_S}? {_OF} {_FAR} {_LIES} {_NO_MORE}", _is_there),
    rule("peril.over_is", f"((?<=punct)|^) (x.word|miss.lose|miss.word|join.if)* (join.over|wind.behind|place.back) {_FAR} {_ENDS} {_NO_MORE}", _over_is),
    rule("peril.why_not", f"(safe.must_not|join.not) miss.lose? (join.to|join.on)* {_S} join.side? punct.c? {{k:lie.wet|lie.water|lie.ob}} {_NO_MORE}", _is_there),
    rule("peril.side_finds", f"{_S} {_OF} (verb.found|x.word wind.into|miss.lose (wind.into|join.in)) {{k:hazard}} {_NO_MORE}", _is_there),
    rule("peril.wet_side", f"(?<!lie) {{k:lie.wet}} (join.on|join.to|join.at|join.along)* {_S} join.side? (?!(hazard|lie|safe|place))", _made),
    rule("peril.if_missed", f"{_ENDS} (join.if|ask.what_if|join.for) x.word? (miss.lose|miss.word|x.word)? (join.to|join.on)* {_S} {_S}? join.side? (?!(hazard|lie|safe))", _then),
)  # fmt: skip
