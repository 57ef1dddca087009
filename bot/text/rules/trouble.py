"""Which trouble was told, on which side, from where to where, and which sides are safe?"""

from itertools import pairwise
from typing import Any

from bot.model.measure import Measure
from bot.model.reading import Hazard, HazardKind, HazardSide
from bot.text.patterns import Match, Rule, Token, rule
from bot.text.quantity import Num

KIND: dict[str, HazardKind] = {
    "water": "water", "marsh": "water", "bunker": "bunker", "ob": "ob", "trees": "trees",
    "penalty": "penalty", "ditch": "ditch", "ravine": "drop", "gorse": "gorse",
    "grass": "long_grass", "trouble": "trouble", "fairway_bunker": "bunker",
    "greenside_bunker": "bunker", "rough": "long_grass", "deep_rough": "long_grass",
}  # fmt: skip
_SIDE: dict[str, HazardSide] = {
    "side.left": "left", "side.right": "right", "side.short": "short", "side.long": "long",
    "side.both": "both", "side.cross": "cross", "wind.behind": "long", "place.back": "long",
    "place.front": "short", "join.over": "cross", "wind.cross": "cross", "place.at_back": "long",
    "side.all": "all", "result.past": "long", "result.short_of": "short", "place.up_front": "short", "place.corner": "cross", "join.by": "short",
}  # fmt: skip
FLOWING = frozenset({"hazard.water", "hazard.ditch", "hazard.ravine"})
"""What is told by a distance alone runs across the line: common practice, no source."""
_NO_SIDE: list[HazardSide | None] = [None]
_AROUND: tuple[HazardSide, ...] = ("left", "right", "short", "long")
_AHEAD: frozenset[HazardSide] = frozenset({"cross", "short"})
_ABSENT = frozenset({"no", "nothing", "none", "nowt", "without", "zero trouble", "not"})
_STARTS = frozenset({"start", "beginning", "edge"})
_NEVER = frozenset({"don't", "dont", "can't", "cant", "cannot", "never"})
_ME = frozenset({"i'm", "im", "i've", "ive"})
_AIMED = frozenset({"so", "want", "aim", "aiming", "start", "prefer"})
_DASHES = frozenset({"-", ":", "(", "="})
_GAP = 60.0
"""Yards: trouble further from the green than this is not told by it."""
_CARRIES = 10.0  # "would a 5 carry" asks about a club
_NEAREST = 40.0
"""A bare number after trouble is its distance from this on; below it may be a wind."""


def _measure(token: Token | None) -> Measure | None:
    if token is None or not isinstance(token.value, Num):
        return None
    return token.value.measure()


def _part(num: Num, end: str) -> Measure:
    value = num.low if end == "low" else num.high
    return Measure(value=value if value is not None else num.value, unit=num.unit, about=num.about)


def _sides(tokens: list[Token]) -> list[HazardSide]:
    found: list[HazardSide] = []
    for token in tokens:
        side = _SIDE.get(token.name)
        if _AIMED & set(token.before.split()):
            continue  # "lake left, want it right of the flag"
        if side == "both":
            found += ["left", "right"] if len(tokens) == 1 else []  # "both short and right"
        elif token.text.startswith(("guard", "protect")) and len(tokens) > 1:
            continue  # where it guards the green is told beside it
        elif side is not None and side not in found:
            found.append(side)
    if len(found) > 1 and any(t.name == "join.by" for t in tokens):
        found.remove("short")  # "beside the green on the right"
    strong: list[HazardSide] = [s for s in found if s != "cross"]
    return strong or found


def _corner(tokens: list[Token]) -> bool:
    """Whether one side is told twice over in one breath: "short left"."""
    sides = [_SIDE.get(t.name) for t in tokens]
    return any(
        {a, b} & {"short", "long"} and {a, b} & {"left", "right"} for a, b in pairwise(sides)
    )


def _beside(match: Match) -> tuple[str, Any] | None:
    """Trouble so far past, short or wide of green or pin."""
    before = [t for t in match.tokens if t.name in ("dist.shy", "result.short_of")]
    rest = [t for t in match.tokens if t.name[:2] != "n." and t.name[:6] != "place."]
    made = _hazard(match._replace(groups={"short": before} if before else {}, tokens=rest))
    gap = _measure(match.one("n"))
    if made is None or gap is None or gap.value > _GAP:
        return None
    return made[0], tuple(h.model_copy(update={"gap": gap}) for h in made[1])


def _hazard(match: Match) -> tuple[str, Any] | None:
    """Trouble of one or more kinds on one or more sides, with numbers if told."""
    kinds = [
        t for t in match.tokens
        if t.name.split(".")[0] in ("hazard", "lie") and t.name not in ("lie.tee", "lie.fairway")
    ]  # fmt: skip
    sides = _sides([t for t in match.tokens if t.name in _SIDE])
    if not sides and any(t.text.startswith("cross ") for t in kinds):
        sides = ["cross"]
    num_token = match.one("n")
    start = end = either = None
    if num_token is not None:
        num: Num = num_token.value
        carried = any(t.text == "to carry" for t in match.tokens)
        least = _CARRIES if carried else _NEAREST
        if not num.unit and num.low is None and num.value < least:
            return None
        if any(_ME & set(t.before.split()) for t in match.tokens[1:]):
            return None  # "water left and long, I'm 171"
        if num.unit == "ft":
            return None
        if num.low is not None:
            start, end = _part(num, "low"), _part(num, "high")
        elif "flown" in match.groups and not any(t.name == "carry.verb" for t in match.tokens):
            either = num.measure()  # "127 over water": what it takes, or what is left to go
        elif "to" in match.groups and not _runs_into(match):
            end = num.measure()
        elif "at" in match.groups or _runs_into(match) or (sides and _AHEAD.issuperset(sides)):
            start = num.measure()
        else:
            either = num.measure()
        if "m" in match.groups:
            end = match.groups["m"][0].value.measure()
            start, either = start or either, None
    if "short" in match.groups and sides in ([], ["cross"]):
        sides = ["short"]
    flows = _runs_into(match) or all(t.name in FLOWING for t in kinds)
    if not sides and start is not None and flows:
        sides = ["cross"]
    if not sides and end is not None and start is None:
        sides = ["short"]
    corner = len(sides) > 1 and _corner(match.tokens)
    out: list[Hazard] = []
    for token in kinds:
        kind = KIND.get(token.name.split(".")[1])
        if kind is None:
            return None
        out.extend(
            Hazard(
                kind=kind, side=side, start=start, end=end, reach_or_carry=either, corner=corner
            )
            for side in (sides or _NO_SIDE)
        )
    return "got.hazard", tuple(out)


def _short(match: Match) -> tuple[str, Any] | None:
    """Trouble between ball and green."""
    return _hazard(match._replace(groups={"short": match.tokens}, tokens=[
        t for t in match.tokens if t.name.startswith("hazard")
    ]))  # fmt: skip


def _runs_into(match: Match) -> bool:
    """Whether a ball too long runs through the fairway into it: "water through at 250"."""
    told = match.one("to")
    return told is not None and told.text == "through at"


# What trouble does on its side.
_LURKS = frozenset({
    "eats", "hugs", "guards", "guarding", "lurks", "lurking", "hang", "hangs", "hanging", "pinch",
    "pinches", "pinching", "waits", "waiting", "lines", "lining", "sits", "sitting", "creeps",
    "runs", "running", "run", "borders", "squeezes", "sit", "intrudes", "juts", "overhang", "overhangs", "starts",
})  # fmt: skip


def _lurks(match: Match) -> tuple[str, Any] | None:
    """Trouble with what it does on its side: "pond eats everything left"."""
    return _hazard(match) if match.tokens[1].text in _LURKS else None


def _another(match: Match) -> tuple[str, Any] | None:
    """Trouble on one side, and more of it on another: "bunker short and another long"."""
    more = next(t for t in match.tokens if t.name == "x.word")
    if more.text not in ("another", "more", "one"):
        return None
    return _hazard(match._replace(tokens=[t for t in match.tokens if t.name != "x.word"]))


def _where_it_ends(match: Match) -> tuple[str, Any] | None:
    """Where trouble told before ends: "133 is where the water ends, not where it starts"."""
    kind = KIND.get(match.tokens[1].name.split(".")[1])
    if kind is None or "where" not in match.tokens[1].before.split():
        return None
    return "got.hazard", (Hazard(kind=kind, end=match.value("m").measure()),)


def _carry_anew(match: Match) -> tuple[str, Any] | None:
    """What carries the trouble ahead, told anew and alone: "carry is 158, not 148"."""
    number = match.one("n")
    if number is None or "is" not in number.before.split():
        return None
    return "got.hazard", (Hazard(kind="trouble", side="short", end=number.value.measure()),)


def _words(match: Match) -> set[str]:
    return {t.text for t in match.tokens if t.name == "x.word"}


def _without_words(match: Match) -> Match:
    return match._replace(tokens=[t for t in match.tokens if t.name != "x.word"])


def _takes(match: Match) -> tuple[str, Any] | None:
    """Trouble beside the line with what carries it: "bunker left needs 140 to carry"."""
    number = match.one("n")
    said = {t.text for t in match.tokens} | (set(number.before.split()) if number else set())
    needed = bool(said & {"needs", "takes", "wants"})
    return _hazard(match) if needed or match.tokens[-1].text.startswith("to ") else None


def _ends(match: Match) -> tuple[str, Any] | None:
    """Trouble beside the line with where it ends: "pond ends at 205 on the left"."""
    kind = KIND.get(match.tokens[0].name.split(".")[1])
    end = match.value("m")
    if kind is None or end.value < _NEAREST:
        return None
    sides = _sides(match.tokens[-2:])
    return "got.hazard", tuple(Hazard(kind=kind, side=s, end=end.measure()) for s in sides)


def _hazard_kept(match: Match) -> tuple[str, Any] | None:
    """Trouble on the first of two sides, of which the second is denied."""
    denied = next(i for i, t in enumerate(match.tokens) if t.name == "join.not" and i > 1)
    return _hazard(match._replace(tokens=match.tokens[:denied]))


def _between(match: Match) -> tuple[str, Any] | None:
    """Trouble between ball and green."""
    return _hazard(match) if match.tokens[-1].text == "between" else None


def _pre(match: Match) -> tuple[str, Any] | None:
    return _hazard(match)


def _ranged(match: Match) -> tuple[str, Any] | None:
    """Trouble from so far to so far, or from so far on where "on the left" follows."""
    num: Num = match.value("n")
    beside = any(t.name == "join.on" for t in match.tokens)
    if num.value < _NEAREST or not (num.low is not None or beside):
        return None
    if num.low is None:
        match = match._replace(groups={**match.groups, "at": match.groups["n"]})
    return _hazard(match)


def _carry(match: Match) -> tuple[str, Num] | None:
    num: Num = match.value("n")
    return ("got.carry", num) if num.unit or num.value >= _CARRIES else None


def _crossing(match: Match) -> tuple[str, Any] | None:
    """Trouble across the line from one distance to another."""
    return _hazard(match) if match.value("n").low is not None else None


def _absent(match: Match) -> tuple[str, Any] | None:
    """A side without trouble, or one that must be kept from: "no left" is not "don't left"."""
    first = match.tokens[0]
    if first.text == "no" and len(match.tokens) == 2 and not first.before:
        return _trouble(match)  # "no left" bars a side; "no trouble left" clears it
    if first.name == "safe.nothing" or first.text in _ABSENT:
        return _safe(match)
    return _trouble(match) if first.text in _NEVER else None


_IS = frozenset({"is", "are", "both", "all", "it's", "its"})
_WORRIES = ("worry", "problem", "issue", "concern", "bother")


def _gone(match: Match) -> tuple[str, Any] | None:
    """Trouble that is out of play, or was told of another hole."""
    token = match.one("h") or match.one("k")
    kind = KIND.get(token.name.split(".")[1]) if token else None
    return ("got.gone", kind) if kind else None


_ITS = frozenset({"that's", "thats", "it's", "its"})


def _safe(match: Match) -> tuple[str, Any] | None:
    sides = _sides([t for t in match.tokens if t.name in _SIDE])
    return "got.safe", tuple(sides) if sides else ("all",)


def _in_front(match: Match) -> tuple[str, Any] | None:
    """What a pin stands behind lies short of it."""
    return _hazard(match._replace(tokens=match.tokens[1:]))


def _and_there(match: Match) -> tuple[str, Any] | None:
    """The same trouble told again elsewhere: "bunkers left at 145 and right at 150"."""
    first: tuple[Hazard, ...] = match.value("h")
    kind = Token(f"hazard.{first[0].kind}", 0, 0)
    rest = [kind, *match.tokens[1:]]
    more = _hazard(match._replace(tokens=rest)) if first[0].kind in KIND else None
    return None if more is None else ("got.hazard", (*first, *more[1]))


def _and_there_from(match: Match) -> tuple[str, Any] | None:
    """The same, with the number first: "bunkers at 195 left and 205 right"."""
    first: tuple[Hazard, ...] = match.value("h")
    if first[0].start is None or match.value("n").value < _NEAREST:
        return None
    return _and_there(match._replace(groups={**match.groups, "at": match.groups["n"]}))


def _swap(match: Match) -> tuple[str, Any] | None:
    """The side taken back in "not left, right" and "right, not left"."""
    sides = [t.name.split(".")[1] for t in match.tokens if t.name.startswith("side.")]
    wrong = sides[0] if match.tokens[0].name == "join.not" else sides[1]
    return ("got.swap", wrong) if sides[0] != sides[1] else None


def _all_but(match: Match) -> tuple[str, Any] | None:
    """Trouble on every side but the one told."""
    link = match.tokens[1]
    if link.text != "but" and link.name != "join.except":
        return None
    kept = _SIDE.get(match.tokens[-1].name)
    return ("got.but", kept) if kept in _AROUND else None


def _trouble(match: Match) -> tuple[str, Any] | None:
    sides = _sides([t for t in match.tokens if t.name in _SIDE])
    return "got.hazard", tuple(Hazard(kind="trouble", side=s) for s in sides)


_H = "(hazard.water|hazard.marsh|hazard.bunker|hazard.ob|hazard.trees|hazard.penalty|hazard.ditch|hazard.ravine|hazard.gorse|hazard.grass|lie.fairway_bunker|lie.greenside_bunker)"
_ANYH = f"({_H}|hazard.trouble)"
_S = "(side.left|side.right|side.short|side.long|side.both|side.cross)"
_LINK = "(join.along|join.on|join.to|join.from|join.off|join.at|join.in|join.by|join.side|height.down|height.up|join.of|join.was|join.over|wind.cross|place.corner|place.green|lie.fairway)*"
_REST = f"((?<=(side.short|side.long)) (side.left|side.right))? (join.side)* ((join.and {_S} (?!(join.side? {_ANYH}|safe))|(join.and|punct.c)* {_S} (?!(join.side? {_ANYH}|safe|join.side? (n|got))))join.side?)*"
_NUM = "{n:n.bare|n.len}"
_CUE = "({at:join.from|join.at|carry.reach|dist.number}|{to:carry|join.to|layup.go})"

# Where trouble runs, told behind it: then "can't reach" was said of the hole before it.
_RUNS = "((join.over|wind.cross|join|carry)+ (n.bare|n.len))"


def _over_road(match: Match) -> tuple[str, Any] | None:
    """A road told to lie between ball and green: only what is out of bounds can be out."""
    road = match.one("r") or match.one("s")
    if road is None or road.text.split()[-1] != "road":
        return None
    if match.one("o") is not None:  # "over the road is out": beyond it
        return "got.hazard", (Hazard(kind="ob", side="long"),)
    return "got.beside", "road"


def _cross_bunker(match: Match) -> tuple[str, Any] | None:
    """Sand across the hole told with a number: "150, cross bunker 120"."""
    sand, num = match.one("h"), match.value("n")
    sits = all(t.text in _LURKS for t in match.tokens if t.name == "x.word")
    if sand is None or not sand.text.startswith("cross") or num.value < _NEAREST or not sits:
        return None
    if num.low is not None:  # "cross bunkers sit 170 to 190"
        start, end = _part(num, "low"), _part(num, "high")
        return "got.hazard", (Hazard(kind="bunker", side="cross", start=start, end=end),)
    return "got.hazard", (Hazard(kind="bunker", side="cross", reach_or_carry=num.measure()),)


TROUBLE: tuple[Rule, ...] = (
    rule("trouble.kind_over_back", f"{_H} join.over x.word? (place.back|side.long)", lambda m: _hazard(m._replace(tokens=[m.tokens[0], Token("side.long", 0, 0)]))),
    rule("trouble.kind_away_side", f"{_H} (join.was|join.at)* {{at:{_NUM}}} (dist.out|x.word) (join.on|join.to|join.off)* (side.left|side.right) join.side?", lambda m: _hazard(_without_words(m)) if _words(m) <= {"away"} else None),
    rule("trouble.to_start_of", f"{{at:{_NUM}}} join.to x.word (join.of|join.off)+ {_H} {_LINK} (side.left|side.right) join.side?", lambda m: _hazard(_without_words(m)) if _words(m) <= _STARTS else None),
    rule("trouble.to_and_over", f"{{at:{_NUM}}} join.to {_H} {_LINK} (side.left|side.right) join.side? (join.and|punct.c)+ {{m:n.bare|n.len}} (join.to? carry.verb|join.over) (?!hazard)", lambda m: _hazard(m) if m.value("n").value < m.value("m").value else None),
    rule("trouble.over_road_out", "join.over {r:hazard.ob} join.was? {o:hazard.ob|lie.ob|dist.out} (?!(join|x)* side)", _over_road),
    rule("trouble.over_road", "join.over {r:hazard.ob} (?!n)|{s:hazard.ob} (side.short|wind.cross|side.cross) (?!(punct.c|join)* (hazard.ob|lie.ob|n))", _over_road),
    rule("trouble.cross_bunker", "(?<!join) {h:lie.fairway_bunker} x.word? (join.at|join.from|carry.verb)* {n:n.bare|n.len}", _cross_bunker),
    rule("trouble.in_that_bunker", "((?<=(n.bare join.in))|(?<=(n.len join.in))|(?<=(n.bare join.from))|(?<=(n.len join.from))) (side.left|side.right) join.side? hazard.bunker (?=(punct|$))", lambda m: ("hazard.bunker", None)),
    rule("trouble.across_front", f"{_ANYH} (join.at|join.on|join.was)* (join.along|join.off|side.all|side.cross)+ {{w:place.front}} place.green? (?!n)", lambda m: _hazard(m._replace(tokens=[t for t in m.tokens if t.name in ("place.front",) or t.name[:6] == "hazard"]))),
    rule("trouble.kind_by_pin", f"((?<=(punct|n.bare|n.len|join.and))|^) {_ANYH} (join.was|join.at)* (result.short_of|result.past) (?!n)", lambda m: _hazard(m._replace(tokens=[m.tokens[0], m.tokens[-1]]))),
    rule("trouble.side_of_green", f"(?<!n) (side.left|side.right) (join.of|join.off)+ (place.green|place.pin|lie.fairway) {_H} (?!({_LINK} ({_S}|n)))", _hazard),
    rule("trouble.kind_dash_side", f"{_H} (punct.c|x.word) (side.left|side.right|side.short|side.long) (?=(punct|$))", lambda m: _hazard(m) if m.tokens[1].text in _DASHES else None),
    rule("trouble.side_dash_kind", f"((?<=punct)|^) (side.left|side.right|side.short|side.long) (punct.c|x.word) {_H} (?=(punct|$|{_S} punct))", lambda m: _hazard(m) if m.tokens[1].text in _DASHES else None),
    rule("trouble.nothing_but", f"(join.not|safe.nothing) (join.on|join.to)* (side.left|side.right|side.short|side.long) (join.and|join.except) {_H} (?!{_S})", lambda m: _hazard(m) if m.tokens[-2].name == "join.except" or m.tokens[-2].text == "but" else None),
    rule("trouble.lurks", f"{_H} x.word (x.word|join|height.up)* {_S} join.side? (({_CUE}) {_NUM})?", _lurks),
    rule("trouble.another", "{h:hazard} (join.at|join.on|join.to)* (side.left|side.right|side.short|side.long) (join.and|punct.c)+ x.word (join.on|join.to)* {s:side.left|side.right|side.short|side.long}", _another),
    rule("trouble.tall_grass_side", "((?<=punct)|^) (lie.deep_rough|lie.rough) (side.left|side.right) (?=(punct|$))", lambda m: None if m.tokens[0].text.startswith(("in ", "from ", "out of ")) else _hazard(m)),
    rule("trouble.over_is", f"((?<=punct)|(?<=join.and)|^) join.over {_H}", lambda m: _hazard(m._replace(tokens=[m.tokens[1], Token("side.long", 0, 0)])) if _IS & set(m.tokens[1].before.split()) else None),
    rule("trouble.only_place", "(side.short|side.long)? (side.left|side.right|side.short|side.long) x.word safe.must_not", lambda m: _trouble(m) if "place" in m.tokens[-2].text.split() or m.tokens[-2].text == "place" else None),
    rule("trouble.numbered_sides", f"{_H} {_NUM} (side.left|side.right) (?=({_H}|n|got|punct|$))", _hazard),
    rule("trouble.where_it_ends", f"{{m:n.bare|n.len}} {_H} carry.end (punct.c join.not join.from)?", _where_it_ends),
    rule("trouble.carry_anew", "^ask.correct? punct.c? carry.verb {n:n.bare|n.len} (?=(punct.stop|$))", _carry_anew),
    rule("trouble.not_that_one", f"^join.not (place.front|place.back|side.left|side.right) {_H} x.word", lambda m: ("got.match", None) if any(w in " ".join((m.tokens[-1].before, m.tokens[-1].text)) for w in ("worries", "bothers", "matters")) else None),
    rule("trouble.side_needs", f"(side.left|side.right) join.side? {_H} x.word? {{to:{_NUM}}} carry.verb", _hazard),
    rule("trouble.before_it_starts", f"{{at:{_NUM}}} x.word {_H} x.word* join.from (?!n)", lambda m: _hazard(m._replace(tokens=[t for t in m.tokens if t.name[:6] == "hazard" or t.name[:3] == "lie"])) if m.tokens[1].text == "before" else None),
    rule("trouble.side_reload", "(side.left|side.right) x.word+ result.reload_word", lambda m: ("got.hazard", tuple(Hazard(kind="ob", side=s) for s in _sides(m.tokens))) if any("where" in (t.text, *t.before.split()) for t in m.tokens) else None),
    rule("trouble.half_fine", "(side.left|side.right) swing.half (join.off|join.of)? (x.word|place.green)? safe.ok", _safe),
    rule("trouble.runs_across", f"{_H} x.word (wind.cross|side.cross|join.over) (join.from|join.at)* {_NUM}", lambda m: _hazard(m._replace(groups={**m.groups, "at": m.groups["n"]})) if m.tokens[1].text in _LURKS else None),
    rule("trouble.kind_not_but", f"{_H} join.not {_S} punct.c? {{s:{_S}}}", lambda m: _hazard(m._replace(tokens=[m.tokens[0], m.tokens[-1]])) if _ITS & set(m.tokens[-1].before.split()) else None),
    rule("trouble.side_no_bother", f"((?<=punct)|^) {_S} safe.nothing (?=(punct|$))", _safe),
    rule("trouble.to_front_of", f"{{at:{_NUM}}} join.to place.front {_H} (?!{_LINK} {_S})(?=.*(n.bare|n.len|got.ref))", lambda m: _hazard(m._replace(tokens=m.tokens[2:])) if m.value("n").value >= _NEAREST else None),
    rule("trouble.corner_kind", f"((?<=punct)|^) (side.short|side.long) (side.left|side.right) join.was? {_ANYH}", _hazard),
    rule("trouble.corner_sweet", "((?<=punct)|^) (side.short|side.long)? (side.left|side.right|side.short|side.long) contact.solid (?=(punct|$))", lambda m: _safe(m) if m.tokens[-1].text == "sweet" else None),
    rule("trouble.kind_needs", f"{{short:{_H}}} {{to:{_NUM}}} (?=(punct|$))", lambda m: _hazard(m) if {"needs", "takes", "wants"} & set(m.tokens[-1].before.split()) else None),
    rule("trouble.ends_begins", f"{_H} carry.end {{m:n.bare|n.len}} (punct.c|join.and)* join.from {{at:{_NUM}}}", lambda m: _hazard(m) if m.value("n").value < m.value("m").value else None),
    rule("trouble.fairway_ends", f"carry.reach join.of? lie.fairway join.at {{at:{_NUM}}} (join.and|punct.c)* {_H}", lambda m: _hazard(m._replace(tokens=[m.tokens[-1], Token("side.cross", 0, 0)]))),
    rule("trouble.under_fine", "((?<=punct)|^) dist.shy safe.ok", lambda m: ("got.safe", ("short",)) if m.tokens[0].text == "under" else None),
    rule("trouble.past_is", "x.word? (result.past|side.long) hazard.trouble", lambda m: ("got.hazard", (Hazard(kind="trouble", side="long"),)) if {"is", "it's"} & set(m.tokens[-1].before.split()) else None),
    rule("trouble.never_mind", "join.not x.word {h:hazard}", lambda m: _gone(m) if m.tokens[1].text in ("worry", "fret", "mind", "bother") else None),
    rule("trouble.whatever", f"x.word join.not (join.to|join.on)* {_S} join.side?", lambda m: _trouble(m) if m.tokens[0].text == "whatever" else None),
    rule("trouble.only_fairway", "join.not join.and (lie.fairway|lie.first_cut) (join.on|join.to)* (side.left|side.right|side.long|side.short)", lambda m: _safe(m) if m.tokens[1].text == "but" else None),
    rule("trouble.side_rough_fine", "(?<!join.off) (?<!join.in) (side.left|side.right) (lie.rough|lie.fairway|hazard.grass) safe.ok", _safe),
    rule("trouble.side_grand", "(side.left|side.right|side.short|side.long) x.word (?=(punct|$))", lambda m: _safe(m) if m.tokens[-1].text == "grand" else None),
    rule("trouble.over_barred", "(safe.must_not|join.not) join.over (?=(punct|$))", lambda m: ("got.hazard", (Hazard(kind="trouble", side="long"),)) if m.tokens[-1].text == "over" and (m.tokens[0].name == "safe.must_not" or m.tokens[0].text in _NEVER - {"never"}) else None),
    rule("trouble.worries", "(side.left|side.right) join.side? x.word (?=punct)", lambda m: _trouble(m) if "worries" in m.tokens[-1].text.split() or m.tokens[-1].text == "killer" else None),
    rule("trouble.miss_reload", "(miss.lose|miss.word) (side.left|side.right) (join.and|punct.c)* x.word* result.reload_word", lambda m: ("got.hazard", tuple(Hazard(kind="ob", side=s) for s in _sides(m.tokens)))),
    rule("trouble.comma_sides", f"{_H} punct.c {_S} join.and {_S} (?!(join.side? {_ANYH}|safe))", _hazard),
    rule("trouble.n_carries_side", f"{{to:{_NUM}}} carry.verb {_ANYH} (join.on|join.at)* (side.left|side.right) join.side?", _hazard),
    rule("trouble.n_carries_rough", f"{{to:{_NUM}}} join.to? carry.verb (lie.rough|lie.deep_rough)", _hazard),
    rule("trouble.corner_carried", f"{_H} (join.on|join.at)* place.corner punct.c {{to:{_NUM}}} carry.verb", _hazard),
    rule("trouble.reach_and_clear", f"{_H} {_LINK} ({_S} join.side?)? join.was? punct.c? {{at:{_NUM}}} carry.reach (punct.c|join.and)* {{m:n.bare|n.len}} (join.to? carry.verb)", _hazard),
    rule("trouble.ends_on_side", f"{_H} carry.end {{m:n.bare|n.len}} (join.on|join.to|join.at)* (side.left|side.right) join.side?", _ends),
    rule("trouble.through", f"{_ANYH} {_LINK} {_S} (join.from|join.at)* {{n:n.bare|n.len}} join.along {{m:n.bare|n.len}}", lambda m: _hazard(m) if any(t.text in ("through", "thru") for t in m.tokens) and m.value("n").value < m.value("m").value else None),
    rule("trouble.tall", "hazard.trees (join|x)* {n:n.ft|n.len} {w:x.word} ((join|punct|x)* n.len x.word?)?", lambda m: ("got.beside", "height of trees") if any(t.text in ("tall", "high") for t in m.tokens) else None),
    rule("trouble.crosses_short", f"{_H} (join.over|wind.cross|side.cross) (dist.shy|side.short) (join.of|place.green|place.pin)* (?!n)", lambda m: _short(m) if len(m.tokens) > 2 or m.tokens[-1].name != "dist.shy" else None),
    rule("trouble.around_side", f"{_H} side.all (join.on|join.along|join.at)* (side.left|side.right) join.side?", lambda m: _hazard(m._replace(tokens=[t for t in m.tokens if t.name != "side.all"]))),
    rule("trouble.beside_green", "hazard.bunker join.side* join.by place.green", lambda m: ("lie.greenside_bunker", None)),
    rule("trouble.fringe", "((?<=punct.c)|^) lie.fringe (side.short|side.long|place.front) (?=(punct|$))", lambda m: ("got.beside", "fringe")),
    rule("trouble.swap", "join.not (side.left|side.right) join.side? (punct.c|join.was)* (side.left|side.right) join.side?|(side.left|side.right) join.side? punct.c? join.not (side.left|side.right) join.side?", _swap),
    rule("trouble.gone", f"safe.moot {{h:hazard}} (?!{_RUNS})|(side.left|side.right)? {{k:hazard}} (side.left|side.right)? (join.and|punct.c)* x.word? safe.moot", _gone),
    rule("trouble.all_carry", f"carry.verb punct.c? {{short:{_H}}} (join.along|join.over|side.all)? (?=(punct|$))", lambda m: _hazard(m._replace(tokens=[t for t in m.tokens if t.name[:6] == "hazard"])) if "all" in m.tokens[0].before.split() else None),
    rule("trouble.last_hole", "{h:hazard} join.was x.word? hole.word", lambda m: _gone(m) if "last" in {*m.tokens[-1].before.split(), *(t.text for t in m.tokens)} else None),
    rule("trouble.no_worry", "{k:hazard} (join.not? x.word)", lambda m: _gone(m) if m.tokens[-1].text in (_WORRIES if len(m.tokens) > 2 else ("neither",)) else None),
    rule("trouble.moot", f"(hazard|lie.fairway_bunker|lie.greenside_bunker) (side.left|side.right)? safe.moot+|safe.moot (hazard|lie.fairway_bunker) (join.and|punct.c)* safe.moot? (?!{_RUNS})", lambda m: ("got.match", None)),
    rule("trouble.all_except", f"(safe.ok|safe.nothing) (join.not)? join.except (join.to|join.on)* {_S}", _trouble),
    rule("trouble.no_kind_side", f"join.not {_H} (join.to|join.on|join.along|join.at)* (side.left|side.right) join.side?", lambda m: _safe(m) if m.tokens[0].text in _ABSENT else None),
    rule("trouble.nothing_bad", f"join.not hazard.trouble (join.to|join.on|join.along|join.at)* {_S} join.side?", _safe),
    rule("trouble.other_side", f"{_ANYH} (?=join.on? wind.mirror)", _hazard),
    rule("trouble.none_of", "join.not (hazard|safe) (join.or (hazard|safe))+", lambda m: ("got.safe", ())),
    rule("trouble.ahead", f"{_H} {{short:x.word}} (?!n)", lambda m: _hazard(m) if m.tokens[-1].text == "ahead" else None),
    rule("trouble.no_such", "^join.not {h:hazard} $", _gone),
    rule("trouble.none", "join.not (got.hazard|hazard|safe)+|safe.nothing (?!side)", lambda m: ("got.safe", ("all",)) if not any(t.name == "join.not" for t in m.tokens) else ("got.safe", ())),
    rule("trouble.not_there", f"join.not (join.to|join.on)* {_S} join.side? punct.c? {_H} (?!({_LINK} ({_S}|n)))", lambda m: _hazard(m) if _ITS & set(m.tokens[-1].before.split()) else None),
    rule("trouble.none_side", f"(join.not|safe.nothing) (join.to|join.on|join.along|join.at)* {_S} join.side?", _absent),
    rule("trouble.safe_side", f"(?<!safe.must_not) (miss.word|miss.lose|join.not)? (join.to)? (side.short|side.long)? {_S} join.side? (join.of|place.green)* safe.ok", _safe),
    rule("trouble.side_no_worry", "(side.left|side.right|side.short|side.long) join.not x.word", lambda m: _safe(m) if m.tokens[-1].text in _WORRIES else None),
    rule("trouble.lip_no_worry", "x.word safe.nothing", lambda m: ("got.match", None) if m.tokens[0].text in ("lip", "face") else None),
    rule("trouble.side_safe", f"safe.ok (join.and|join.to|join.on|join.at|miss.word|join.in)* {_S} join.side?", _safe),
    rule("trouble.must_not_kind", f"safe.must_not (join.to|join.in|join.on|wind.into)* {_S} join.side? {_H}", _hazard),
    rule("trouble.island", "spot.island place.green?", lambda m: ("got.hazard", (Hazard(kind="water", side="all"),))),
    rule("trouble.between", f"{_H} (join.was|join.in|join.at)* {{short:x.word}} (?!n)", _between),
    rule("trouble.surrounded", f"{_H} (join|place.green)* side.all|side.all {_H}", _hazard),
    rule("trouble.must_not_why", f"safe.must_not (join.to|join.on)* {_S} join.side? (x.word|punct.c|join)* {_H} (?!({_LINK} ({_S}|n)))", lambda m: _hazard(m) if not any(t.name == "x.word" and t.text != "either" for t in m.tokens) else None),
    rule("trouble.must_not", f"(safe.must_not|join.not (miss.lose|miss.word|layup|result.missed)?) (join.to|join.on)* {_S} join.side?", _trouble),
    rule("trouble.from_side_to", f"{_ANYH} {_LINK} carry.reach? join.at? {{n:n.bare|n.len}} {_LINK} {_S} join.side? (join.and|punct.c)* carry.end join.at? {{m:n.bare|n.len}}", _hazard),
    rule("trouble.side_between", f"{_ANYH} (join.on|join.at)* {_S} x.word {_NUM} (?!(join.to|place|dist))", lambda m: _ranged(m) if any(t.text in ("between", "from") for t in m.tokens) else None),
    rule("trouble.from_to", f"{_ANYH} {_LINK} {{n:n.bare|n.len}} (join.and|punct.c)* carry.end join.at? {{m:n.bare|n.len}} ((punct.c|join)* {_S} join.side?)?", _hazard),
    rule("trouble.kind_beside", f"{_ANYH} (join.was|join.at|join.from|punct.c)* {{n:n.bare|n.len}} (side.short|side.long|result.past|dist.shy|result.short_of|(side.left|side.right)(?=join.of)) (join.of|place.green|place.pin|place.front)*", _beside),
    rule("trouble.range", f"{_ANYH} {_LINK} {_S} {_REST} (carry|join|punct.c)* {{n:n.bare|n.len}} (punct.c|join.and)* (carry.end|carry.verb|carry.reach|{{zz:join.to}})+ (join.at)? {{m:n.bare|n.len}}", _hazard),
    rule("trouble.n_to_carry", f"{{to:{_NUM}}} carry.verb (join.over|join.of)* {{short:{_ANYH}}}", lambda m: _hazard(m) if m.tokens[1].text.startswith("to ") else None),
    rule("trouble.kind_then_clear", f"(?<!join.in) {{short:{_H}}} (join.was|join.at)* (side.short|side.cross|wind.cross|join.over)? punct.c? {{to:{_NUM}}} join.to? carry.verb (?!(join.over|{_ANYH}))", _hazard),
    rule("trouble.kind_carry_num", f"{{short:{_H}}} ((join.at|join.on) place.corner)? (join.to)* carry.verb (join.at|join.of|join.was|punct.c)* {{to:{_NUM}}} (?!(join.to|place|dist.left))", _hazard),
    rule("trouble.carry_over", f"carry.verb (join.over|join.of|join.to|join.at|carry.verb|place.front|place.corner)* {{short:{_ANYH}}} (join|wind.cross|side.short)* {{to:{_NUM}}}", _hazard),
    rule("trouble.n_carry", f"{{to:{_NUM}}} (join.to|join.for)* (carry.verb|{{flown:join.over}}|layup.go)+ (join.over|join.of|join.at|place.front|place.corner|layup.go)* {{short:{_ANYH}}}(?! {_S})", _hazard),
    rule("trouble.carry_n_over", f"carry.verb (join.of|join.at|join.to)* {{to:{_NUM}}} ((?!join.in) join|carry)* {{short:{_ANYH}}}(?! {_S})", _hazard),
    rule("trouble.n_to", f"{{at:{_NUM}}} (join.to|carry.reach) {_H} {_LINK} {_S}?", _hazard),
    rule("trouble.side_kind_num", f"(?<!hazard) {_S} join.side? {_H} ({_CUE})+ {_NUM}", _hazard),
    rule("trouble.kind_cue_num_side", f"{_ANYH} ({_CUE})+ {_NUM} {_LINK} {_S}", _hazard),
    rule("trouble.kind_side_takes", f"{_H} {_LINK} {_S} join.side? join.at? {{to:{_NUM}}} (carry.verb|join.to carry.verb) (?=(punct|$))", _takes),
    rule("trouble.kind_side_takes_num", f"{_H} {_LINK} {_S} join.side? x.word {{to:{_NUM}}} (carry.verb|join.to carry.verb)", _takes),
    rule("trouble.kind_side_cue_num", f"{_ANYH} {_LINK} {_S} {_REST} (punct.c(?!dist.number)|join.and|lie.tee)? ({_CUE})+ {_NUM}", _hazard),
    rule("trouble.kind_cue_num_across", f"{_ANYH} ({_CUE})* {_NUM} (wind.cross|side.cross|join.over)", _hazard),
    rule("trouble.kind_side_num", f"{_ANYH} {_LINK} {_S} {_REST} {_NUM} (?!(dist|wind|dir|place.pin|join.to (place|hole.word)|club))", _hazard),
    rule("trouble.kinds_and_side", f"(?<!(join.from|join.in|join.off|join.over|carry.verb)) {_H} ((join.and|punct.c)? {_H})+ {_LINK} {_S} {_REST}", _hazard),
    rule("trouble.kind_then_carry", f"{{short:{_H}}} (join.to)* carry.verb (?! (join|n))", _hazard),
    rule("trouble.kind_out", f"(?<=(n|got) punct.c) {_ANYH} (join.at)* {{at:{_NUM}}} dist.out", _hazard),
    rule("trouble.over_kind", f"(join.over|carry.verb join.over?) {{short:{_H}}} (?!{_S})", _hazard),
    rule("trouble.pre_side_kind", f"(?<!hazard) (side.left|side.right) join.side? {_H} (?!{_LINK} {_S})", _hazard),
    rule("trouble.kind_side_not", f"{_ANYH} (join|punct.c)* (side.left|side.right) join.side? punct.c? join.not (side.left|side.right)", _hazard_kept),
    rule("trouble.kind_side", f"{_ANYH} {_LINK} {_S} {_REST}", _hazard),
    rule("trouble.kind_front_and", f"{_ANYH} (place.front|place.back|place.at_back|place.up_front) (join.and|punct.c)? {_S} ((join.and|punct.c)+ (place.back|place.front|side.short|side.long) (side.left|side.right))?", _hazard),
    rule("trouble.kind_behind_from", f"{_H} {{w:wind.behind|place.back}} ({_CUE}) {_NUM}", _hazard),
    rule("trouble.kind_takes", f"{{short:{_H}}} x.word {{to:{_NUM}}} join.to? carry.verb", lambda m: _hazard(m) if m.tokens[1].text in ("takes", "needs", "wants") else None),
    rule("trouble.kind_where", f"{_ANYH} (join.at|join.in|join.on|join.over|join.was)* {{w:wind.behind|place.back|place.front|place.at_back|place.up_front}} (place.green|place.pin)?", _hazard),
    rule("trouble.behind_kind", f"wind.behind {{short:{_H}}}", _in_front),
    rule("trouble.where_kind", f"place.back join.along? {_H}|(?<!n) place.front join.along? {_H} (?!{_LINK} ({_S}|n))", _hazard),
    rule("trouble.all_but", f"hazard.trouble (join.and|join.except) {_S}", _all_but),
    rule("trouble.over_dead", "join.over hazard.trouble", lambda m: ("got.hazard", (Hazard(kind="trouble", side="long"),))),
    rule("trouble.sides_are", f"((?<=punct.c)|^) {_S} (join.and|punct.c)+ {_S} join.side? {_ANYH} (?!({_LINK} ({_S}|n)))", lambda m: _hazard(m) if _IS & set(m.tokens[-1].before.split()) else None),
    rule("trouble.side_kind", f"{_S} join.side? (join.was|join.at|join.along)? {_ANYH}", _hazard),
    rule("trouble.kind_cue_num", f"{_ANYH} (side.cross|join.over|wind.cross|place.corner|join.to|join.on|join.in|carry.reach|join.along|shape.straight)* ({_CUE}) (place.corner|place)? {_NUM} ((join.on|join.at|join.in)* place.corner)?", _hazard),
    rule("trouble.and_side_num", f"{{h:got.hazard}} (join.and|punct.c)+ {_S} join.side? ({_CUE})+ {_NUM}", _and_there),
    rule("trouble.and_num_side", f"{{h:got.hazard}} join.and {_NUM} (join.on|join.to)* (side.left|side.right) (?!(join.side? hazard))", _and_there_from),
    rule("trouble.kind_corner_num", f"{_H} (join.at|join.on|join.in|place.corner|join.over|result.inside)+ {_NUM}", _hazard),
    rule("trouble.kind_range_side", f"{_ANYH} (join.from|join.at|punct.c)* {{n:n.bare|n.len}} {_LINK} {_S} join.side?", _ranged),
    rule("trouble.kind_cross_range", f"{_H} (wind.cross|side.cross|join.over|join.from|join.at|punct.c)* {_NUM}", _crossing),
    rule("trouble.kind_cross_num", f"(?<=(n|got) punct.c) {_H} (wind.cross|side.cross|join.over) (join.at)* {{at:{_NUM}}}", _hazard),
    rule("trouble.kind_over", f"{_H} join.over (?=(punct|$))", lambda m: ("got.hazard", (Hazard(kind=KIND[m.tokens[0].name.split(".")[1]], side="long"),)) if m.tokens[-1].text == "over" and m.tokens[0].name not in FLOWING else None),
    rule("trouble.kind_cross", f"{_H} (wind.cross|side.cross|join.over)", _hazard),
    rule("trouble.carry_num", "carry.verb (join.of|join.at|join.to|join.over|place.front)* {n:n.bare|n.len}", _carry),
    rule("trouble.num_carry", "{n:n.bare|n.len} (join.to|join.for)* carry.verb (?! place.front)", _carry),
)  # fmt: skip


def hazards(tokens: list[Token]) -> tuple[Hazard, ...]:
    """The trouble told among reduced tokens, each once."""
    out: list[Hazard] = []
    for token in tokens:
        if token.name == "got.hazard":
            out.extend(h for h in token.value if h not in out and not _said(h, out))
        elif token.name == "got.but":  # "trouble everywhere but short"
            out.extend(Hazard(kind="trouble", side=s) for s in _AROUND if s != token.value)
    return tuple(out)


def without_doubles(told: list[Hazard]) -> list[Hazard]:
    """Trouble once: a barred side and what lies there are one, told before or behind it."""
    told = _named_behind(told)
    named = {h.side for h in told if h.kind != "trouble"}
    if "cross" in named:
        named.add("short")
    return [h for h in told if h != Hazard(kind="trouble", side=h.side) or h.side not in named]


def _named_behind(told: list[Hazard]) -> list[Hazard]:
    """Trouble with the side that was barred because of it: "don't go long, there's a road"."""
    for first, second in pairwise(told):
        barred = first == Hazard(kind="trouble", side=first.side)
        if barred and second == Hazard(kind=second.kind) and len(told) == 2:
            return [second.model_copy(update={"side": first.side})]
    return told


def _said(more: Hazard, told: list[Hazard]) -> bool:
    """Whether trouble told again says no more than what was told of it before."""
    bare = more.start is None and more.end is None and more.reach_or_carry is None
    return (
        bare and more.gap is None and any((h.kind, h.side) == (more.kind, more.side) for h in told)
    )


def safe(tokens: list[Token]) -> tuple[HazardSide, ...]:
    """The sides told to be free of trouble."""
    out: list[HazardSide] = []
    for token in tokens:
        if token.name == "got.safe":
            out.extend(s for s in token.value if s not in out)
        elif token.name == "got.but":
            out.append(token.value)
    return tuple(out)
