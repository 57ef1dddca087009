"""Where does the wind come from, by what it moves or what it comes off: flags, smoke, the sea?"""

from itertools import pairwise
from typing import Any

from bot.text.patterns import Match, Rule, Token, rule
from bot.text.rules.wind import Dir

_MOVED = frozenset({
    "treetops", "tree tops", "smoke", "cloud", "clouds", "leaves", "branches", "windsock", "sock",
    "flags", "reeds", "steam", "grass",
})  # fmt: skip
_STREAMS = frozenset({
    "streaming", "flapping", "pointing", "blowing", "fluttering", "leaning", "flying", "whipping",
    "snapping", "racing", "drifting", "bent", "bending", "swaying", "stood", "standing", "stretched",
    "straight", "going", "moving", "it went", "went", "it blew", "blew",
})  # fmt: skip
_AWAY = frozenset({"away from me", "away from us"})
_BLOWN_TO = {"side.left": 90.0, "side.right": 270.0}
# Where a wind comes from that comes off water lying there.
_LIES = {
    "side.left": 270.0, "side.right": 90.0, "side.long": 0.0, "wind.behind": 0.0,
    "wind.help": 180.0,
}  # fmt: skip
_NEAR = 3  # tokens between water and where it lies


def _line(deg: float) -> tuple[str, Dir]:
    return "dir.line", Dir(deg)


def _streams(match: Match) -> tuple[str, Any] | None:
    """A wind told by the side or the way that something streams."""
    first = match.tokens[0]
    subject = first.name in ("place.pin", "hazard.trees")
    subject = subject or first.text.removesuffix("'s") in _MOVED
    said = {w for t in match.tokens[1:] for w in (t.text, *t.before.split())}
    if not subject or not said & _STREAMS:
        return None
    if said & _AWAY:
        return _line(180.0)
    side, across = match.one("s"), match.one("c")
    if across is not None:
        return _line(270.0 if across.name == "wind.l2r" else 90.0)
    return None if side is None else _line(_BLOWN_TO[side.name])


def _taken_to(match: Match) -> tuple[str, Any] | None:
    """A wind that takes a ball to trouble on one side: "taking everything towards the lake"."""
    side = match.one("s")
    return None if side is None else _line(_BLOWN_TO[side.name])


_MAY = "(x.word|join.off|join.from|join.was|join.to|join.on|wind|hole.bearing|ask.what_if|putt.breaks|carry.end|hole.dogleg|side.all|place.pin|shape.straight|height.up|join.and)?"
_SIDE = "{s:side.left|side.right}"

SIGNS: tuple[Rule, ...] = (
    rule("sign.away", f"(place.pin|hazard.trees|x.word) {_MAY} {_MAY} {_MAY} putt.down side.long?", _streams),
    rule("sign.across", f"x.word {_MAY} {_MAY} {{c:wind.l2r|wind.r2l}}", _streams),
    rule("sign.streams", f"(place.pin|hazard.trees|x.word) {_MAY} {_MAY} {_MAY} {_MAY} {_SIDE} x.word? (?!(join.side? hazard))", _streams),
    rule("sign.taken_to", f"wind.noun x.word* wind.toward (?=hazard (join.on|join.to|join.at)* {_SIDE})", _taken_to),
)  # fmt: skip


def same_side(tokens: list[Token]) -> None:
    """Turn "on that side" into the side that was told last before it."""
    last: Token | None = None
    for at, token in enumerate(tokens):
        if token.name in ("side.left", "side.right"):
            last = token
        elif token.name == "join.over" and last is not None and _there(tokens, at):
            tokens[at] = token._replace(name=last.name, text=last.text)  # "over there's dead"
        elif token.name == "side.that":
            name = "talk.skip" if last is None else last.name
            tokens[at] = token._replace(name=name, text="" if last is None else last.text)


def _there(tokens: list[Token], at: int) -> bool:
    """Whether "there" stands behind a token: the side told before."""
    follow = tokens[at + 1] if at + 1 < len(tokens) else None
    return follow is not None and bool({"there's", "there"} & set(follow.before.split()))


def off_the_water(tokens: list[Token]) -> None:
    """Turn "off the sea" into a direction where the message says on which side the sea lies."""
    for at, token in enumerate(tokens[:-1]):
        follow = tokens[at + 1]
        water = follow.name == "hazard.water"
        if token.name not in ("join.off", "join.from") or not (
            water or "it" in follow.before.split()
        ):
            continue
        start = at - 1 if at and tokens[at - 1].name == "join.in" else at
        blown = start and tokens[start - 1].name.split(".")[0] in ("wind", "n")
        come = {"coming", "blowing"} & set(token.before.split())
        beside = tokens[at + 2].name if at + 2 < len(tokens) else ""
        if not (blown or come) or beside.startswith("side."):
            continue
        way = _where_water(tokens, but=at + 1 if water else -1)
        if way is not None:
            made = Token("dir.line", token.start, follow.end if water else token.end, "", Dir(way))
            tokens[start : at + 2 if water else at + 1] = [made]
            _drop_behind_us(tokens)
            return


def _drop_behind_us(tokens: list[Token]) -> None:
    """Leave out water behind the player: it is no trouble."""
    for at, (water, where) in enumerate(pairwise(tokens)):
        if water.name == "hazard.water" and where.name == "wind.help":
            del tokens[at : at + 2]
            return


def _where_water(tokens: list[Token], *, but: int) -> float | None:
    """Where the one water of the message lies, as the way a wind off it comes from."""
    for at, token in enumerate(tokens):
        if token.name != "hazard.water" or at == but:
            continue
        for beside in tokens[at + 1 : at + 1 + _NEAR]:
            if beside.name in _LIES:
                return _LIES[beside.name]
    return None
