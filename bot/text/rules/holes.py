"""Which hole is played: its number, par, length, bearing, bend and stroke index?"""

from typing import Any

from bot.text.patterns import Match, Rule, rule
from bot.text.quantity import Num

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
_PARS = (3, 4, 5, 6)
_OF_A_HOLE = frozenset({"a", "easy", "routine", "solid"})


def _hole(match: Match) -> tuple[str, Any] | None:
    token = match.one("n") or match.one("k")
    if token is None:
        return None
    value = token.value if token.name == "n.ord" else token.value.value
    if value != int(value) or not 1 <= value <= 18:
        return None
    return "got.hole", int(value)


def _par(match: Match) -> tuple[str, Any] | None:
    num: Num = match.value("n")
    return ("got.par", int(num.value)) if num.value in (3.0, 4.0, 5.0, 6.0) else None


def _a_par(match: Match) -> tuple[str, Any] | None:
    """A "par" of the hole, for a score of par has no number after it: "easy par 4"."""
    said = match.tokens[0].text.split()
    told = said[-1] == "par" and said[0] in _OF_A_HOLE and match.value("n").value in _PARS
    return ("hole.par", None) if told else None


def _short_par(match: Match) -> tuple[str, Any] | None:
    """The par of a hole as yardage books write it: "p4"."""
    head, number = match.tokens
    glued = head.text == "p" and head.end == number.start
    return _par(match) if glued else None


def _bearing(match: Match) -> tuple[str, Any] | None:
    return "got.bearing", match.value("n").value


def _points(match: Match) -> tuple[str, Any] | None:
    """The bearing of a hole told by a point of the compass."""
    token = match.one("c")
    if any(t.name == "x.word" and t.text != "one" for t in match.tokens):
        return None
    return ("got.bearing", COMPASS_DEG[token.name.split(".")[1]]) if token else None


def _dogleg(match: Match) -> tuple[str, Any] | None:
    token = match.one("s")
    return ("got.dogleg", token.name.split(".")[1]) if token else None


HOLES: tuple[Rule, ...] = (
    rule("hole.par_short", "place.pin {n:n.bare|n.det}", _short_par),
    rule("hole.a_par", "score.par (?={n:n.bare})", _a_par),
    rule("hole.par_first", "hole.par {n:n.bare|n.det}", _par),
    rule("hole.number", "(hole.word dist.number?|lie.tee hole.word) {n:n.bare|n.det|n.ord}(?! (hole.par|dist.left|punct.q))", _hole),
    rule("hole.tee_of", "lie.tee join.of {n:n.bare|n.det} (?=(punct|$))", _hole),
    rule("hole.tee", "lie.tee {n:n.bare|n.det}(?= punct.c? (hole.par|got.par))", _hole),
    rule("hole.on_match", "join.on {n:n.bare} punct.c (n.bare|n.det) (height.up|height.down) (?=punct)", _hole),
    rule("hole.ordinal_short", "^{n:n.ord} punct.c? (?=side.short? (hole.par|score.par))", _hole),
    rule("hole.on_to", "join.on join.to {n:n.bare|n.det} (?=punct.c? ((n.bare|n.det) hole.par|hole.par))", _hole),
    rule("hole.number_n", "(^|(?<=^join.at)|(?<=^join.on)) dist.number {n:n.bare} (?=(punct.c|join.now))", lambda m: _hole(m) if m.tokens[0].text == "number" else None),
    rule("hole.on_to", "^(join.on|x.word) join.to {n:n.bare} (?=punct.c (n.bare|n.len|hole.par|score.par))", lambda m: _hole(m) if m.tokens[0].name == "join.on" or m.tokens[0].text in ("walking", "over", "moving", "heading") else None),
    rule("hole.on_ordinal", "join.on join.to? {n:n.ord} (?!layup)", _hole),
    rule("hole.set", "spot.cut hole.word join.to {n:n.bare|n.det|n.ord} $", _hole),
    rule("hole.now_on", "^join.now? join.on join.to? {n:n.bare|n.det} $", _hole),
    rule("hole.ordinal", "{n:n.ord} (hole.word|lie.tee)|^{k:n.ord} punct? $", _hole),
    rule("hole.par", "hole.par {n:n.bare|n.det}", _par),
    rule("hole.det_par", "{n:n.det} hole.par (?!(n.bare|n.det))", _par),
    rule("hole.par_word", "(?<!got.hole) (?<!hole.word) {n:n.bare|n.det} hole.par", _par),
    rule("hole.next", "round.next join.was? {n:n.bare|n.det} (?=punct.c? (hole.par|got.par))", _hole),
    rule("hole.on_to_next", "round.next join.to* {n:n.ord}", _hole),
    rule("hole.first", "^{n:n.bare|n.det} punct.c? (?=got.par)", _hole),
    rule("hole.on", "(join.on|punct.c|join.now)? {n:n.bare|n.det|n.ord}(?= join.now? (punct.c|punct.stop)? got.par)", lambda m: _hole(m) if len(m.tokens) > 1 or m.tokens[0].name == "n.ord" else None),
    rule("hole.ordinal_length", "^{n:n.ord} punct.c? (?=(n.bare|n.len) punct.c? got.par)", _hole),
    rule("hole.number_par", "dist.number {n:n.bare|n.det}(?= punct.c? got.par)", _hole),
    rule("hole.index", "hole.index {n:n.bare|n.det}", lambda m: ("got.index", int(m.value("n").value)) if m.value("n").value == int(m.value("n").value) else None),
    rule("hole.bearing", "hole.bearing {n:n.deg|n.bare}", _bearing),
    rule("hole.points", "(hole.bearing|hole.word|dist.play) (dist.play|join.to|miss.lose|shape.straight|x.word)* {c:compass} (?!wind)", _points),
    rule("hole.dogleg", "lie.fairway? hole.dogleg (join.to|join.off|height.up|height.down)? {s:side.left|side.right}", _dogleg),
    rule("hole.corner", "(?<!hazard) (?<!((hazard|lie) (join.on|join.at|join.in|result.inside))) place.corner (join.at|join.was|punct.c)* {n:n.bare|n.len} (?!(dist|place|join.to))|{k:n.bare|n.len} join.to place.corner", lambda m: ("got.corner", m.value("n") or m.value("k"))),
    rule("hole.swings", "(?<=(got.par|n.len|n.bare)) punct.c? putt.breaks {s:side.left|side.right} (?! putt)", lambda m: _dogleg(m) if m.tokens[-2].text in ("swings", "turns", "bends", "curves") else None),
    rule("hole.second_on", "(?<=(layup.second join.on)) {n:n.det|n.bare} (?=punct)", _par),
    rule("hole.long_par", "(?<=(lie.tee (join.of|punct.c) n.bare)) {n:n.bare} (?=(punct|$))", _par),
    rule("hole.side_dogleg", "{s:side.left|side.right} (hole.dogleg)", _dogleg),
)  # fmt: skip
