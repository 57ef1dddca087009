"""Does the message tell what became of a shot, or a score?"""

from itertools import pairwise
from typing import Any, Literal

from bot.model.reading import Result, Score
from bot.text.acts.bundle import Bundle, lies
from bot.text.patterns import Token
from bot.text.quantity import Num
from bot.text.rules.clubs import club_code

_PUTTS = {
    "result.one_putt": 1,
    "result.two_putt": 2,
    "result.three_putt": 3,
    "result.four_putt": 4,
}
_TO_PAR = {
    "score.albatross": -3, "score.eagle": -2, "score.birdie": -1, "score.par": 0,
    "score.bogey": 1, "score.double": 2, "score.triple": 3, "score.quad": 4,
}  # fmt: skip
_BY = ("join.by", "join.off", "dist.out")
_FAR_OFF = 100.0  # yards: a larger number beside a side is how far it went
_BESIDE = 60.0  # a shorter length is how wide of the green a ball is
_FAR = 40.0  # yards: a larger loose number is a distance
_STROKES = 15
_EDGE = frozenset({"edge", "lip", "cup"})
_HOPED = frozenset({"need", "needs", "want", "wanna", "needing"})
_WAS = frozenset({"was", "it was"})
# What may stand between strokes and the putts among them: "5 including two putts".
_IN_ALL = frozenset(
    {"with", "including", "incl", "inc", "of", "shots", "strokes", "in", "counting"}
)
_TWO = 4  # names of two tokens, with two empty ones behind
_LANDED = frozenset({
    "lie.fairway", "lie.first_cut", "lie.rough", "lie.deep_rough", "lie.fairway_bunker",
    "lie.greenside_bunker", "lie.trees", "lie.fringe",
})  # fmt: skip
_ENDED = _LANDED | {"side.left", "side.right"}
_CURVE = {"draw", "fade", "hook", "slice", "push", "pull"}
_MISSES = ("shape.hook", "shape.slice", "shape.push", "shape.pull")
_SHORT = frozenset({"swing.chip", "swing.pitch", "swing.flop", "swing.bump"})
_BEGINS = frozenset({"got.club", "got.swing_club", *_SHORT, "swing.splash"})
_CHIPPED = frozenset({"chipped", "pitched", "bumped", "splashed"})
_FOUND = ("water", "ob", "trees", "bunker", "penalty")
_STRONG = frozenset({
    "contact", "result.pin_high", "result.past", "result.short_of", "result.holed",
    "result.missed",
    "result.on", "result.flew", "result.two_putt", "result.three_putt", "result.one_putt",
    "result.four_putt", "result.up_down", "verb.found", "lie.water", "lie.ob", "lie.lost",
    "join.was", "result.two_penalty", "result.reload_word", "verb.drove",
    "result.provisional",
})  # fmt: skip


def _struck(b: Bundle) -> bool:
    """Whether a club at the head is followed by where its ball went."""
    names = [t.name for t in b.tokens if t.name != "punct.c"]
    if b.tokens and b.tokens[0].text == "drive" and not b.has("punct.q"):
        return names[1:2] in (["n.bare"], ["n.len"]) and bool(_ENDED & set(names[2:]))
    if not names or names[0] not in ("got.club", "got.swing_club") or b.has("punct.q"):
        return False
    names += ["", ""]
    if names[1] in ("got.carry", "n.bare", "n.len") and names[2] == "shape.straight":
        return True  # "6 iron 150 carry straight"
    if names[1:3] == ["join.to", "n.ft"] or (names[1] == "wind.into" and b.has("hazard")):
        return True
    if len(names) == _TWO and names[1] in _LANDED:
        return True
    down = b.tokens[1].text if len(b.tokens) > 1 else ""
    if "down" in down.split() and names[1] in _LANDED and not b.has("n"):
        return True  # "driver straight down the middle, on the fairway"
    if names[1] == "got.hazard":
        kind = next(t for t in b.tokens if t.name == "got.hazard").value[0].kind
        return kind == "ob" or (kind == "bunker" and len(names) == 4)
    long_club = str(b.tokens[0].value)[-1:] in ("D", "w")
    far = [n for n in names[2:] if n]
    if b.tokens[0].value == "D" and names[1] == "lie.fairway" and far in (["n.bare"], ["n.len"]):
        return True
    number = names[1] in ("n.bare", "n.len")
    return long_club and number and names[2] in ("lie.fairway", "lie.rough")


def _onto(b: Bundle) -> bool:
    """Whether a club is followed by the green its ball went to."""
    names = [t.name for t in b.tokens if not t.name.startswith(("punct", "join"))]
    return names[1:3] == ["got.club", "place.green"] and not b.has("punct.q", "n.bare", "n.len")


def _reloaded(b: Bundle) -> bool:
    """Whether a ball out of play is told with the next one from the same spot."""
    out = b.has("got.hazard", "hazard.ob", "lie.ob", "lie.lost")
    return out and b.has("result.reload_word")


def _into_trouble(b: Bundle) -> bool:
    """Whether a club's ball went into something, and no distance is left to go."""
    far = any(t.value.value >= _FAR for t in b.every("n.bare", "n.len"))
    names = [t.name for t in b.tokens if t.name not in ("punct.stop", "punct.c", "join.and")]
    driven = names[:2] == ["got.club", "lie.fairway"] and b.value("got.club") == "D"
    if driven and names[2:] in ([], ["got.distance"]):  # "driver, fairway, 160 left"
        return True
    if names == ["got.club", "join.in", "got.hazard"]:  # "7 iron in the left bunker"
        return all(h.side in ("left", "right") for h in b.value("got.hazard"))
    into = any(
        first.name == "wind.into" and second.name.startswith(("hazard.", "lie.", "got.hazard"))
        for first, second in zip(b.tokens, b.tokens[1:], strict=False)
    )
    return into and b.has("got.club", "verb.hit", "verb.rolled") and not far and not b.has("ask")


def _drive_went(b: Bundle) -> bool:
    """Whether only the side is told to which a drive went: "drive left", "drive right trees"."""
    head = [t.text for t in b.tokens[:1]] == ["drive"]
    side = [t.name for t in b.tokens[1:2]] in (["side.left"], ["side.right"], ["got.hazard"])
    return head and side and not b.has("punct.q", "ask", "n")


def _curved_into(b: Bundle) -> bool:
    """Whether a miss by its name is followed by what it went into: "pull hook into the water"."""
    told = [t for t in b.tokens if not t.name.startswith(("punct", "side"))]
    if len(told) != 3 or told[0].name not in _MISSES or told[1].name != "wind.into":
        return False
    return told[2].name.startswith(("hazard", "got.hazard", "lie")) and not b.has("punct.q")


def _came_to(b: Bundle) -> bool:
    """Whether the message begins with how near a ball came: "out to 8 feet"."""
    names = [t.name for t in b.tokens if t.name != "punct.c"]
    start = 1 if len(names) > 2 and names[0] in ("x.word", "swing.chip") else 0
    if any(p == ("join.to", "n.ft") for p in pairwise(names)) and b.has("got.club"):
        return not b.has("punct.q", "putt.noun", "ask")
    if names in (["join.on", "n.ft"], ["got.club", "n.ft"]):
        return not b.has("punct.q")
    near = names[start : start + 2] in (["join.to", "n.ft"], ["carry.end", "n.ft"])
    return near and not b.has("punct.q", "putt.noun", "side.uphill")


def _on_green(b: Bundle) -> bool:
    """Whether a club, or its number, is followed by the green: "8, green, 30 ft"."""
    names = [t.name for t in b.tokens if t.name != "punct.c"]
    if names[1:3] not in (["place.green", "n.ft"], ["join.on", "n.ft"]) or b.has("punct.q"):
        return False
    return names[0] == "got.club" or club_code(b.tokens[0]) is not None


def _blown(b: Bundle) -> bool:
    """Whether a wind is told; across alone can be how a ball went."""
    winds = [t.value for t in b.every("got.wind")]
    return any(not w.across or w.speed is not None for w in winds)


def _lay(b: Bundle) -> bool:
    """Whether only the lie of a ball is told, and no way it came there."""
    was = all(t.text in ("was", "i was", "it was", "were") for t in b.every("join.was"))
    return was and {n.split(".")[0] for n in b.names} <= {"join", "lie", "punct", "x"}


def _took(b: Bundle) -> bool:
    """Whether a club was taken, and not that many strokes: "took a 7 iron"."""
    return any(
        first.name == "score.made" and first.text.startswith("took")
        and second.name in ("got.club", "got.swing_club") and (_count(b, second) or 99) > _STROKES
        for first, second in pairwise(b.tokens)
    ) and not b.has("punct.q")  # fmt: skip


def _short_by(b: Bundle) -> bool:
    """Whether so few yards are told short or long with a club: "10 short with the 7"."""
    numbers = [t for t in b.every("n", "got.distance") if isinstance(t.value, Num)]
    if len(numbers) != 1 or not b.has("got.club") or numbers[0].value.value >= _FAR:
        return False
    if b.has("punct.q", "ask", "layup", "lie", "got.hazard", "got.ref", "got.wind", "got.pin"):
        return False
    deep = ("side.short", "side.long", "result.flew", "result.past")
    return any(a is numbers[0] and c.name in deep for a, c in pairwise(b.tokens))


def _went(b: Bundle) -> bool:
    """Whether a place is told that a ball can have found."""
    return b.has("lie", "hazard", "got.hazard", "place", "got.club", "side", "result")


def is_result(b: Bundle) -> bool:
    """Whether the message tells of a shot that was hit."""
    if b.tokens and b.tokens[0].name == "hole.par" and _par_there(b.tokens):
        return False
    if b.has("profile.remove", "got.on_in") or b.club_asked():
        return False
    if any(t.text.endswith("footer") for t in b.every("n.ft")) and b.words() & _EDGE:
        return False  # "three footer, inside left lip" is a putt to come
    if b.tokens and b.tokens[0].name == "join.if":
        return False  # "and if i went with the 4"
    if b.has("layup.teeshot") and b.has("join.was") and b.has(*_LANDED):
        return True  # "drive finished in the left rough"
    struck = b.has("got.club", "got.swing_club", "contact", "verb", "score")
    if b.has("putt.breaks") and b.has("got.height", "height") and not struck:
        return False  # "three paces to the hole on the green, downhill, swings left"
    if b.has("lie.lost") and b.has("layup.teeshot", "result.provisional"):
        return True
    if any(t.text.startswith("took") for t in b.every("result.drop")):
        return True
    if (
        b.has("got.club") and len(b.tokens) > 1 and b.tokens[0].name.startswith("side.")
        and b.tokens[1].name in ("join.of", "join.off", "place.green")
    ):  # fmt: skip
        return True
    if (
        _bare_score(b)
        or _for_strokes(b) is not None
        or (b.has("n.ft") and b.has("putt.breaks") and not b.has("verb", "contact"))
    ):
        return False
    if any(a.name[:2] == "n." and c.name in _SHORT for a, c in pairwise(b.tokens)):
        return False  # "20 foot chip"
    if b.has("verb.rolled") and b.has("n.ft", "n.len"):
        return True
    if b.tokens and b.tokens[0].text in ("i hit", "hit", "i played", "put") and _onto(b):
        return True
    head = [t.text if t.name != "got.club" else t.name for t in b.tokens[:2]]
    went = b.has("side", "lie", "got.hazard", "hazard", "result") and not b.has("punct.q")
    if went and head == ["hit a", "got.club"]:  # "hit a hybrid, short left"
        return True
    if _drive_went(b):
        return True
    if (
        _short_by(b)
        or _struck(b)
        or _reloaded(b)
        or _into_trouble(b)
        or _came_to(b)
        or _on_green(b)
    ):
        return True
    if _curved_into(b):
        return True
    curved = b.tokens[:1] and b.tokens[0].name.startswith("shape.") and not b.has("punct.q")
    if curved and b.tokens[0].text.startswith(("drew", "hooked", "sliced", "faded")):
        return True
    # A "no" that opens the message may put right a result as well as a shot.
    mended = any(t.text for t in b.every("ask.correct"))
    if mended or b.has("ask.which", "ask.what_if", "ask.why", "ask.why_not") or _blown(b):
        return False
    if any(t.name.startswith("shape.") and t.text.endswith(("ed", "led")) for t in b.tokens):
        return True
    if any(
        first.name in ("n.bare", "n.det")
        and first.value.value <= 5
        and (second.text == "putts" or (second.text == "putt" and len(b.tokens) <= 2))
        for first, second in zip(b.tokens, b.tokens[1:], strict=False)
    ):
        return not b.has("score")
    if _took(b):
        return True
    if b.has("score.made", "score.pickup") or any(t.name in _TO_PAR for t in b.tokens):
        return False
    if b.has("talk.thanks") and b.has("contact") and not b.has("got.club", "n"):
        return False
    if b.has("layup.teeshot", "got.par", "got.dogleg", "putt.noun") and not b.has(
        "contact", "verb"
    ):
        return b.has(*_PUTTS, "result.holed", "result.missed")
    only_near = not b.has("got.club", "contact", "verb", "n.ft") and b.has(
        "got.ref", "got.distance"
    )
    if only_near and not b.has(*(_STRONG - {"result.short_of", "result.past"})):
        return False
    if b.has("hole.par") and b.has(*_PUTTS) and not b.has("n"):
        return False
    if b.has("join.was") and not b.has(*(_STRONG - {"join.was"})) and _lay(b):
        return False  # "i was sat in a divot" tells of the ball to be hit
    if b.has(*(_STRONG if _went(b) else _STRONG - {"verb.found"})) or (
        b.has("result.inside") and b.has("n.ft")
    ):
        return True
    asked = b.has("punct.q") and any(t.text == "hit" for t in b.every("verb.hit"))
    if b.has("verb.hit") and b.has("got.club", "side", "n.det") and not asked:
        return True
    club_first = bool(b.tokens) and (
        club_code(b.tokens[0]) is not None or b.tokens[0].name == "got.club"
    )
    return club_first and b.has("side") and not b.has("got.hazard", "punct.q")


def result(b: Bundle, player: str | None) -> Result:
    """What became of the shot."""
    fields: dict[str, Any] = {"player": player}
    fields["club"] = b.value("got.club") or (b.value("got.swing_club") or (None, None))[1]
    if b.has("got.swing_club"):
        fields["swing"] = b.value("got.swing_club")[0]
    drive = any(t.text == "drive" for t in b.tokens)
    if (b.has("verb.drove") or drive) and fields["club"] is None:
        fields["club"] = "D"
    if fields["club"] is None:
        head = b.tokens[0] if b.tokens else None
        putts = len(b.tokens) > 1 and b.tokens[1].name == "putt.noun"
        if head is not None and head.name in ("n.bare", "n.det") and not putts:
            fields["club"] = club_code(head)
    contact = b.first("contact")
    if contact is not None:
        fields["contact"] = contact.name.split(".")[1]
    shape = b.first("shape")
    if shape is not None and shape.name.split(".")[1] in _CURVE:
        fields["curve"] = shape.name.split(".")[1]
    _place(b, fields)
    for name, count in _PUTTS.items():
        if b.has(name):
            fields["putts"] = count
    if "putts" not in fields:
        fields["putts"] = _putts(b, "putt.noun", "putt.done")
    if b.has("result.drop"):
        fields["penalty"] = 1
    if b.has("result.reload_word") and {"ob", "lost"} & set(fields["lie"]):
        fields["penalty"] = 1
    if b.has("result.two_penalty"):
        fields["penalty"] = 2
    if b.has("result.holed"):
        fields["holed"] = True
    elif b.has("result.missed") and not b.has("place.green", "side", "got.club", "contact"):
        fields["holed"] = False
    if b.has("result.missed") and any(t.text.startswith(("tap", "tapped")) for t in b.tokens):
        fields.update(putts=2, holed=True)  # the one that missed, and the one tapped in
    if b.has("putt.gimme"):
        fields["conceded"] = True
    if b.has("result.provisional"):
        fields["provisional"] = True
    return Result(**fields)


def _putts(b: Bundle, *names: str) -> int | None:
    """The number of putts told in figures: "2 putts", "four of them putts"."""
    told = [t for t in b.tokens if t.name != "join.of" and t.text not in ("em", "them", "those")]
    for first, second in pairwise(told):
        if first.name in ("n.bare", "n.det") and second.name in names:
            return int(first.value.value)
    return None


def _place(b: Bundle, fields: dict[str, Any]) -> None:
    """Where the ball went: depth, side, by how much, lie."""
    depth: Literal["short", "pin_high", "long"] | None = None
    by = [t.name for t in b.tokens][-2:] in (
        ["n.ft", "join.by"],
        ["n.bare", "join.over"],
        ["n.len", "join.over"],
    )
    if by:
        depth = "long"
    elif b.has("result.pin_high"):
        depth = "pin_high"
    elif _told(b, "side.short") or b.has("result.short_of", "place.front"):
        depth = "short"
    elif _told(b, "side.long") or b.has("result.past", "result.flew"):
        depth = "long"
    fields["depth"] = depth
    side = b.first("side.left", "side.right")
    if side is not None:
        fields["side"] = side.name.split(".")[1]
    previous: Token | None = None
    on_green = (
        b.has("result.on")
        or (b.has("place.green") and b.has("n.ft"))
        or bool(b.tokens and b.tokens[0].name == "join.on")
    )
    headed = not b.has("got.club", "got.swing_club") and fields.get("club") is not None
    for at, token in enumerate(b.tokens):
        if at == 0 and headed:
            continue  # the number is the club's
        follow = b.tokens[at + 1] if at + 1 < len(b.tokens) else None
        if token.name == "got.carry":
            fields.setdefault("carry", token.value.measure())
        elif token.name in ("n.ft", "n.len", "n.bare", "got.distance", "got.ref") and _length(
            token
        ):
            num: Num = token.value[1] if token.name == "got.ref" else token.value
            measure = num.measure()
            if follow is not None and follow.name in ("putt.noun", "putt.done"):
                previous = token
                continue
            if token.name == "n.ft" or num.unit in ("ft", "in") or on_green:
                if "proximity" not in fields and (num.unit or num.value < 100):
                    fields["proximity"] = measure
            elif num.value < _FAR_OFF and _near(previous, follow, "side.left", "side.right", *_BY):
                fields.setdefault("side_by", measure)
            elif _near(previous, follow, "side.short", "side.long", "result", "join.over"):
                fields.setdefault("by", measure)
            elif num.unit in ("yd", "m", "pace") and num.value < _BESIDE and side is not None:
                fields.setdefault("side_by", measure)
            elif num.unit in ("yd", "m", "pace") and num.value < _BESIDE and depth == "long":
                fields.setdefault("by", measure)  # "over the back, 15 yards"
            elif num.value >= 60:
                rolled = b.has("profile.total", "verb.drove", "contact.top")
                went = any(t.text in ("went", "rolled out to") for t in b.every("join.was"))
                rolled = rolled or b.has("contact.sky") or (went and fields["club"] == "D")
                flown = fields.get("carry")
                beyond = flown is not None and measure.value > flown.value
                fields.setdefault("total" if rolled or beyond else "carry", measure)
        over = previous is not None and previous.name in ("result.flew", "result.past")
        if not (over and token.name == "punct.c"):  # "flew it over, twenty yards"
            previous = token
    lie = [one for one in lies(b.tokens) if one != "tee"]
    if on_green and "green" not in lie:
        lie.insert(0, "green")
    for hazard in b.every("got.hazard"):
        for one in hazard.value:
            known = one.kind == "bunker" and {"greenside_bunker", "fairway_bunker"} & set(lie)
            if one.kind in _FOUND and one.kind not in lie and not known:
                lie.append(one.kind)
            if one.side in ("left", "right") and "side" not in fields:
                fields["side"] = one.side
            if one.side in ("short", "long") and fields["depth"] is None:
                fields["depth"] = one.side
    for token in b.every("hazard"):
        kind: Any = token.name.split(".")[1]
        known = kind == "bunker" and {"greenside_bunker", "fairway_bunker"} & set(lie)
        if kind in _FOUND and kind not in lie and not known:
            lie.append(kind)
    if "ob" in lie and "path" in lie:
        lie.remove("path")  # "off the cart path and over the fence"
    if len(lie) > 1 and ("side" in fields or "water" in lie) and "lost" in lie:
        lie.remove("lost")  # "lost it right" is a side
    fields["lie"] = tuple(lie)


def _told(b: Bundle, name: str) -> bool:
    """Whether a way of ending is told and not denied: "wasn't short"."""
    before = [None, *b.tokens]
    return any(
        t.name == name and (p is None or p.name != "join.not")
        for p, t in zip(before, b.tokens, strict=False)
    )


def _length(token: Token) -> bool:
    value = token.value[1] if token.name == "got.ref" else token.value
    return isinstance(value, Num) and value.value > 0


def _near(previous: Token | None, follow: Token | None, *names: str) -> bool:
    for token in (follow, previous):
        if token is not None and (token.name in names or token.name.split(".")[0] in names):
            return True
    return False


def _count(b: Bundle, token: Token) -> float | None:
    """The number of a token; of a club only where no word made it one: "a 5", not "a 5 iron"."""
    if token.name == "got.club":
        token = next((t for t in b.raw if t.start == token.start), token)
    return token.value.value if token.name in ("n.bare", "n.det") else None


def _strokes_first(b: Bundle) -> bool:
    """Whether the message begins with a number of strokes, and not of putts."""
    names = [t.name for t in b.tokens]
    if names[0] not in ("n.bare", "n.det") or names[1:2] == ["putt.noun"]:
        return False
    return bool(1 <= b.tokens[0].value.value <= _STROKES)


def _bare_score(b: Bundle) -> bool:
    """Whether the message is a number of strokes with its putts: "5, two putts"."""
    tokens = b.tokens[1:] if b.has("join.was") and b.tokens[0].name == "join.was" else b.tokens
    count = _count(b, tokens[0]) if tokens else None
    if count is None or not 1 <= count <= _STROKES:
        return False
    if [t.text for t in tokens[1:3]] == ["on", "card"]:
        return True
    if len(tokens) == 1:
        return tokens is not b.tokens and b.tokens[0].text in _WAS  # "that was a five"
    if [t.name for t in tokens[1:]] == ["join.for", "hole.word"]:
        return not b.has("punct.q")
    rest = {t.name for t in tokens[1:] if t.text not in _IN_ALL} - {"punct.c", "n.bare", "n.det"}
    return bool(rest) and rest <= {"putt.noun", *_PUTTS} and tokens[1].name != "putt.noun"


def _for_strokes(b: Bundle) -> int | None:
    """The score behind putts: "three putts for a 5"."""
    for first, middle, last in zip(b.tokens, b.tokens[1:], b.tokens[2:], strict=False):
        putts = first.name in (*_PUTTS, "putt.noun")
        if putts and middle.name == "join.for" and last.name in ("n.det", "n.bare", "got.club"):
            value = last.value[:1] if last.name == "got.club" else f"{last.value.value:.0f}"
            return int(value) if value.isdigit() else None
    return None


def _par_there(tokens: list[Token]) -> bool:
    """Whether "par" is what the hole was played in: "par on 8", "par there"."""
    return len(tokens) > 1 and tokens[1].name == "join.on"


def _on_the_last(tokens: list[Token]) -> bool:
    """Whether a number of strokes is told for the hole just left: "5 on the last"."""
    if len(tokens) not in (3, 4) or tokens[0].name not in ("n.bare", "n.det"):
        return False
    there = tokens[2].name == "hole.word" and {"that", "this"} & set(tokens[2].before.split())
    if len(tokens) == 3 and tokens[1].name == "join.on" and there:
        return True
    return tokens[1].name == "join.on" and tokens[2].text in ("last", "previous")


def score(b: Bundle, player: str | None) -> Score | None:
    """A score for the hole, if one was told."""
    words = [
        v for n, v in _TO_PAR.items()
        if any(not _HOPED & set(t.before.split()) for t in b.every(n))
    ]  # fmt: skip
    if b.tokens and b.tokens[0].name == "hole.par" and _par_there(b.tokens):
        words.append(0)
    if b.has("hole.par") and (b.has(*_PUTTS) or b.names <= {"hole.par", "punct.stop"}):
        words.append(0)
    to_par = next((v for v in words if v != 0), 0) if words else None  # "missed for par, bogey"
    strokes = _for_strokes(b)
    if strokes is not None:
        pass
    elif b.has("got.on_in"):  # "on in 4, two putts"
        putts = next((v for n, v in _PUTTS.items() if b.has(n)), None) or _putts(b, "putt.noun")
        strokes = None if putts is None else int(b.value("got.on_in")) + putts
    elif b.has("score.ace"):
        strokes = 1
    elif b.has("score.snowman"):
        strokes = 8
    elif b.has("score.made"):
        for first, second in pairwise(b.tokens):
            count = _count(b, second) if first.name == "score.made" else None
            if count is not None and count <= _STROKES:
                strokes = int(count)
    elif _on_the_last(b.tokens) or (to_par is not None and _strokes_first(b)) or _bare_score(b):
        head = b.tokens[1] if b.tokens[0].name == "join.was" else b.tokens[0]
        strokes = int(_count(b, head) or 0)
    picked = b.has("score.pickup") or any(t.text == "picked up" for t in b.every("wind.pickup"))
    if to_par is None and strokes is None and not picked:
        return None
    if b.has("n.ft") and not b.has("score.made", "result"):
        return None
    putts = next((v for n, v in _PUTTS.items() if b.has(n)), None)
    putts = _putts(b, "putt.noun") if putts is None else putts
    return Score(
        hole=b.value("got.hole"), strokes=strokes, to_par=to_par, putts=putts, picked_up=picked,
        again=b.has("ask.correct") or b.tokens[0].name == "join.not", player=player,
    )  # fmt: skip


def begins_another(before: Token, token: Token) -> bool:
    """Whether another shot is told from a token on, behind a comma or an "and"."""
    joined = before.name == "punct.c" or before.text in ("and", "then")
    return joined and (token.name in _BEGINS or token.text in _CHIPPED)


def before_score(b: Bundle, player: str | None) -> Result | None:
    """The shot told in front of a score: "7 short in the bunker, two putts, bogey"."""
    told = result(b, player)
    where = told.side or told.depth or told.contact or told.lie or told.proximity
    struck = (told.club is not None and where) or told.holed or told.penalty
    return told if struck and not b.has("punct.q") else None


def closing_score(b: Bundle, player: str | None) -> Score | None:
    """The bare number that closes a hole told to its end: "two putts, 5"."""
    if len(b.tokens) == 2 and b.tokens[1].name == "hole.par" and b.tokens[0].name in _PUTTS:
        return Score(to_par=0, player=player)
    if len(b.tokens) < 3 or b.has("punct.q"):
        return None
    *_, comma, last = b.tokens
    ended = b.has(
        *_PUTTS, "putt.noun", "result.holed", "result.missed", "result.inside", "putt.gimme",
        "score.made",
    )  # fmt: skip
    for name, to_par in _TO_PAR.items():
        if b.has(name) and ended:
            return Score(to_par=to_par, player=player)
    if last.name == "hole.par" and (ended or b.has("result.up_down")):
        return Score(to_par=0, player=player)
    if comma.name != "punct.c" or last.name not in ("n.bare", "n.det") or not ended:
        return None
    value = last.value.value
    if not 1 <= value <= 15 or value != int(value):
        return None
    return Score(strokes=int(value), player=player)
