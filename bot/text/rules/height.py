"""How far does the target stand above or below the ball, and what does it play as?"""

from typing import Literal

from bot.model.reading import Elevation
from bot.text.patterns import Match, Rule, rule
from bot.text.quantity import Num

_STEEPEST = 20.0  # yards or metres: a larger number with a sign is no height
_MINE = frozenset({"i'm", "im", "we're", "am", "are", "i"})
_STANDS = frozenset({"above", "below", "higher", "lower", "beneath", "under", "over"})
_LARGEST = {
    "": 100.0,
    "ft": 1500.0,
    "m": 60.0,
    "yd": 60.0,
    "pace": 60.0,
    "%": 60.0,
    "in": 99.0,
    "cm": 999.0,
}


_LOW = 12.0  # yards or metres: a longer one behind a slope is the distance
_LITTLE = frozenset({
    "slight", "slightly", "bit", "little", "touch", "gently", "tad", "smidge", "gentle", "hair",
    "fraction", "marginally",
})  # fmt: skip
_BIG = frozenset({
    "steep", "steeply", "big", "severe", "severely", "massive", "huge", "lot", "well", "way",
    "sharply", "proper", "loads",
})  # fmt: skip


def _sign(name: str) -> Literal[-1, 1]:
    return 1 if name in ("height.up", "height.uphill", "putt.up") else -1


def _height(match: Match) -> tuple[str, Elevation] | None:
    word = match.one("w")
    num: Num | None = match.value("n")
    if num is None:
        if word is None:
            return None
        steep = _steep(match)
        if match.tokens[0] is not word and steep is None:
            return None
        if word.text == "drop" and steep is None and not {"a", "the"} & set(word.before.split()):
            return None  # a ball dropped
        return "got.height", Elevation(direction=_sign(word.name), word=steep)
    asked = match.one("n")
    if asked is not None and asked.before.split()[:3] == ["is", "it", "a"]:
        return None  # "slightly downhill, is it a 6"
    told = word is not None and word.name in ("height.uphill", "height.downhill")
    if not (abs(num.value) <= _LARGEST.get(num.unit, 0.0) or (told and num.unit == "ft")):
        return None
    if word is None:
        direction: Literal[-1, 1] = 1 if num.value >= 0 else -1
    else:
        direction = _sign(word.name)
    size = num._replace(value=abs(num.value)).measure()
    return "got.height", Elevation(size=size, direction=direction)


def _slope_takes(match: Match) -> tuple[str, Num] | None:
    """What the slope adds to the number or takes off it: "uphill adds 6"."""
    word = match.tokens[1].text
    sign = {"adds": 1.0, "add": 1.0, "takes": -1.0, "take": -1.0, "knocks": -1.0}.get(word)
    num: Num = match.value("n")
    return None if sign is None else ("got.plays_delta", num._replace(value=sign * num.value))


def _after_length(match: Match) -> tuple[str, Elevation] | None:
    """A height right behind the distance: "30 yards uphill 6 ft"."""
    num: Num = match.value("n")
    return _height(match) if num.unit in ("ft", "%") or num.value <= _LOW else None


def _steep(match: Match) -> Literal["little", "big"] | None:
    """How steep a height without a number was said to be."""
    said = {w for t in match.tokens for w in (*t.before.split(), *t.text.split())}
    return "little" if said & _LITTLE else "big" if said & _BIG else None


def _bare(match: Match) -> tuple[str, Elevation] | None:
    num: Num = match.value("n")
    if num.value > 40:
        return None
    return _height(match)


def _signed(match: Match) -> tuple[str, Elevation] | None:
    num: Num = match.value("n")
    steep = num.unit in ("yd", "m") and abs(num.value) > _STEEPEST
    return _height(match) if num.signed and not steep else None


def _plays(match: Match) -> tuple[str, Num] | None:
    num: Num = match.value("n")
    return ("got.plays_delta" if num.signed else "got.plays_as"), num


def _along(match: Match) -> tuple[str, Elevation] | None:
    """A slope told of the whole way: "3% up the whole way"."""
    way = match.tokens[1].text.split()[0]
    if way not in ("up", "down"):
        return None
    size = match.value("n").measure()
    return "got.height", Elevation(size=size, direction=1 if way == "up" else -1)


def _allowed(match: Match) -> tuple[str, Num] | None:
    """What is taken off or added for a height: "145 minus 10 for the drop"."""
    num: Num = match.value("n")
    first, last = match.tokens[0], match.tokens[-1]
    if last.name == "x.word" and last.text not in ("hill", "slope", "climb", "rise", "drop"):
        return None
    if num.signed or (first.name == "join.and" and first.text in ("plus", "+")):
        return "got.plays_delta", num
    return None


def _from_ball(match: Match, *, mine: bool = False) -> tuple[str, Elevation] | None:
    """How far the ball is above or below the green: the other way round for the target."""
    num, word = match.one("n"), match.one("w")
    if num is None or word is None:
        return None
    mine = mine or match.tokens[0].name in ("lie.tee", "got.stand")
    mine = mine or bool(_MINE & set(num.before.split()))
    if not mine or word.text.split()[0] not in _STANDS:
        return None
    made = _height(match)
    if made is None or made[1].direction is None:
        return None
    way: Literal[-1, 1] = -1 if made[1].direction > 0 else 1
    return made[0], made[1].model_copy(update={"direction": way})


def _high_tee(match: Match) -> tuple[str, Elevation] | None:
    """From a raised tee the target lies below by what is told of the tee."""
    num: Num = match.value("n") or match.value("n_b")
    if not 0 < num.value <= _LARGEST.get(num.unit, 0.0):
        return None
    return "got.height", Elevation(size=num.measure(), direction=-1)


_FAR = 40.0  # yards: no height is so much, "plays 139 downhill" is a distance
_WORD = "{w:height.uphill|height.downhill}"
_ANY = "{w:height.uphill|height.downhill|height.up|height.down}"
_LINK = "(join.by|join.of|join.at|join.in|dist.more|place.green|punct.q)*"
_LEN = "{n:n.ft|n.len|n.pct}"
_NUM = "{n:n.bare|n.det}"

HEIGHTS: tuple[Rule, ...] = (
    rule("height.plays_delta", "dist.play {n:n.bare|n.det|n.len} {w:dist.more|dist.less}", lambda m: (
        "got.plays_delta", m.value("n")._replace(value=m.value("n").value * (1 if m.tokens[-1].name == "dist.more" else -1)),
    )),
    rule("height.plays_less", "dist.play {n:n.bare|n.len} {w:dist.shy} (?=(n.bare|n.len))", lambda m: ("got.plays_delta", m.value("n")._replace(value=-m.value("n").value)) if m.tokens[-1].text == "less than" else None),
    rule("height.plays_far", "((?<=(n.bare punct.c))|(?<=(n.bare join.and))|(?<=n.bare)) dist.play {n:n.bare|n.len} (?=height)", lambda m: ("got.plays_as", m.value("n")) if m.value("n").value >= _FAR else None),
    rule("height.takes_off", "(dist.as|height) x.word join.off? {n:n.bare|n.len} join.off?", _slope_takes),
    rule("height.allowed", "(?<=(n.bare|n.len)) (join.and? ) {n:n.bare|n.len} join.for {w:height|dist.as|x.word}", _allowed),
    rule("height.plays_as", "dist.play? dist.as (join.at|join.to|dist.number)* {n:n.bare|n.len}", _plays),
    rule("height.plays_then", "dist.play {n:n.bare|n.len} height? punct.c? (?=dist.number n)", _plays),
    rule("height.slope_wants", "dist.as x.word {n:n.bare|n.len}", lambda m: _plays(m) if m.tokens[1].text in ("wants", "needs", "says", "gives") else None),
    rule("height.as_after", "{n:n.bare|n.len} dist.as (?!n)", _plays),
    rule("height.plays", "dist.play {n:n.bare|n.len} (?!(wind|dir|hole|club|dist.left|height))", lambda m: ("got.plays_delta" if m.value("n").signed else "got.play", m.value("n"))),
    rule("height.ball_above", "((lie.tee|got.stand) join.was?)? {n:n.ft|n.len|n.bare} {w:height.uphill|height.downhill} (join.of)? (place.green|place.pin|hole.word)", _from_ball),
    rule("height.of_green", "(?<!(hazard|lie|place.green|x.word)) {n:n.ft|n.len} {w:height.uphill|height.downhill} (join.of|x.word)? (place.green|place.pin)", lambda m: _from_ball(m, mine=True)),
    rule("height.of_mine", "(?<!place) {n:n.ft|n.len} {w:height.uphill|height.downhill} (?!(join.of? (place|hole.word)))", lambda m: _from_ball(m) if m.tokens[-1].text in _STANDS else None),
    rule("height.of_word", "((?<=(punct|n.bare|n.len|join.and|dist.out|place.pin))|^) {n:n.ft|n.len} {w:height.uphill|height.downhill} x.word", lambda m: _from_ball(m, mine=True) if "the" in m.tokens[-1].before.split() else None),
    rule("height.down_there", "{w:height.down|height.up} punct.c join.was {n:n.ft|n.len}", _height),
    rule("height.tee_over", "lie.tee {n:n.ft|n.len} side.long (?=(punct|$))", _high_tee),
    rule("height.high_tee", "{n:n.ft|n.len} height.tee|height.tee (punct.c|join)* {n_b:n.ft|n.len} (?!height)", _high_tee),
    rule("height.tee", "height.tee", lambda m: ("got.height", Elevation(direction=-1))),
    rule("height.after_length", "(?<=(n.len|n.bare)) {w:height.uphill|height.downhill} {n:n.ft|n.pct|n.len}", _after_length),
    rule("height.add_for", "profile.add {n:n.bare|n.len|n.det} join.for (x.word|height|height.word)", lambda m: ("got.plays_delta", m.value("n")) if m.tokens[-1].name != "x.word" or m.tokens[-1].text in ("hill", "slope", "climb", "rise") else None),
    rule("height.straight_up", "{n:n.ft|n.len} shape.straight {w:height.up|height.down}", lambda m: ("got.height", Elevation(size=m.value("n").measure(), direction=_sign(m.tokens[-1].name)))),
    rule("height.all_the_way", "{n:n.pct} {w:join.along}", lambda m: _along(m)),
    rule("height.len_word", f"{_LEN} (join.of|join.in|height.word)? {_ANY}", _height),
    rule("height.word_len", f"{_ANY} {_LINK} {_LEN}", _height),
    rule("height.signed", "(height.word join.of?)? {n:n.ft|n.bare|n.len|n.pct}", _signed),
    rule("height.plays_up", "dist.play {w:height.up|height.down}(?! n)", _height),
    rule("height.word_then_ft", "{w:height.uphill|height.downhill} punct.c {n:n.ft} (?!height)", _height),
    rule("height.word_num", f"{_ANY} {_LINK} {_NUM} (?!join.to)", _height),
    rule("height.num_word", f"(?<!ask.what_if) {_NUM} {_ANY}", _bare),
    rule("height.flat", "height.flat", lambda m: ("got.height", Elevation(direction=0))),
    rule("height.bit", "{w:height.up|height.down} (?=(punct|$))", lambda m: _height(m) if _steep(m) else None),
    rule("height.word", f"x.word? {_WORD}", _height),
)  # fmt: skip
