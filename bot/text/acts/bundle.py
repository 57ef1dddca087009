"""What was told in a row of read tokens, slot by slot?"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

from bot.model.measure import Measure
from bot.model.reading import (
    NO_GAP,
    Air,
    Elevation,
    Facts,
    Green,
    Hazard,
    HazardSide,
    Hole,
    Lie,
    Reference,
    Wind,
)
from bot.text.patterns import Token
from bot.text.quantity import Num
from bot.text.rules import trouble, wind

_AHEAD = frozenset({None, "short", "cross"})  # where trouble may have to be carried
_MISSES: dict[str, HazardSide] = {
    "side.left": "left", "side.right": "right", "side.short": "short", "side.long": "long",
}  # fmt: skip
_SAME_GREEN = 60.0  # numbers further apart are not of one green
_ENDS: dict[str, Reference] = {
    "place.pin": "pin", "place.front": "front", "place.middle": "middle", "place.back": "back",
    "place.green": "green", "hole.word": "pin",
}  # fmt: skip
_TURF = frozenset({"grass", "hay", "fescue", "rough", "native", "stuff", "weeds"})
_ALIKE = 5.0  # yards
_RIVAL = 30.0  # bare numbers from here on can all be the distance
_BESIDE = 40.0  # yards from the hole within which sand without a side is the lie
_APPROACH = 80.0  # yards: beside such a number no pin is told a few yards away
_LEAST = 10.0  # a smaller number without a unit is no distance but beside the green
# What stands before sand in which the ball lies.
_BALL_IN = frozenset({"join.in", "join.from", "join.off", "x.word", "lie.buried", None})
_BESIDE_WORDS = frozenset({"mud", "muddy", "tired", "hungover", "grain"})
FARTHEST = 700.0
"""Yards: a longer shot is not one."""


def _called(token: Token, names: tuple[str, ...]) -> bool:
    return token.name in names or token.name.partition(".")[0] in names


class Bundle:
    """The tokens of a message with short ways to ask what is among them."""

    def __init__(self, tokens: list[Token], raw: Sequence[Token] = ()) -> None:
        self.tokens = tokens
        self.raw = raw  # all tokens of the message as they were before any rule
        self.names = {t.name for t in tokens}
        self.families = {n.partition(".")[0] for n in self.names}
        self.known = self.names | self.families
        self.facts: Facts | None = None  # worked out once, by `facts`
        self._every: dict[str, list[Token]] = {}
        for token in tokens:
            self._every.setdefault(token.name, []).append(token)

    def has(self, *names: str) -> bool:
        """Whether any of the names or families is there."""
        return not self.known.isdisjoint(names)

    def first(self, *names: str) -> Token | None:
        """The first token of a name or family."""
        if len(names) == 1 and "." in names[0]:
            found = self._every.get(names[0])
            return found[0] if found else None
        if self.known.isdisjoint(names):
            return None
        return next((t for t in self.tokens if _called(t, names)), None)

    def club_asked(self) -> bool:
        """Whether it is asked if a club is the one: "is it a 6", "is 8 enough"."""
        return any(
            token.before.split()[:3] == ["is", "it", "a"]
            or (
                token.before.split()[:1] == ["is"] and after is not None and after.text == "enough"
            )
            for token, after in zip(self.raw, [*self.raw[1:], None], strict=False)
            if token.name.split(".")[0] in ("n", "club")
        )

    def every(self, *names: str) -> list[Token]:
        """All tokens of the names or families, in order."""
        if len(names) == 1 and "." in names[0]:
            return self._every.get(names[0], [])
        if self.known.isdisjoint(names):
            return []
        return [t for t in self.tokens if _called(t, names)]

    def value(self, name: str) -> Any:
        """The value of the first token called `name`."""
        token = self.first(name)
        return token.value if token else None

    def measure(self, name: str) -> Measure | None:
        """The number of the first token called `name`, as said."""
        value = self.value(name)
        return value.measure() if isinstance(value, Num) else None

    def words(self) -> set[str]:
        """The texts of the tokens left unread."""
        return {t.text for t in self.tokens}


def lies(tokens: Iterable[Token]) -> tuple[Lie, ...]:
    """The lie told: surface and what is special about it, each once, in a fixed order."""
    found: list[Lie] = []
    previous = None
    for token in tokens:
        if token.name.startswith("lie."):
            name: Lie = token.name.split(".")[1]  # type: ignore[assignment]
            if name not in found:
                found.append(name)
        elif (
            token.name == "hazard.bunker" and previous in _BALL_IN and not token.text.endswith("s")
        ):
            if "bunker" not in found:
                found.append("bunker")
        elif token.name == "hazard.trees" and previous in ("join.in", "join.from"):
            found.append("trees")
        elif token.name == "hazard.grass" and (
            previous in ("join.in", "join.from", None)
            or (previous != "join.over" and _TURF & set(token.text.split()))
        ):
            found.append("deep_rough")
        previous = token.name
    if "fairway_bunker" in found or "greenside_bunker" in found:
        found = [f for f in found if f not in ("bunker", "fairway")]
    if {"bunker", "fairway"} <= set(found):  # "sand in the middle of the fairway"
        found = ["fairway_bunker", *(f for f in found if f not in ("bunker", "fairway"))]
    if "rough" in found or "deep_rough" in found:
        found = [f for f in found if f != "fairway"]  # "just off the fairway in the rough"
    if "deep_rough" in found:
        found = [f for f in found if f != "rough"]
    return tuple(found)


def air(b: Bundle) -> Air | None:
    """The air told."""
    rain = True if b.has("air.rain") else False if b.has("air.norain") else None
    word = None
    for name in ("cold", "cool", "warm", "hot", "humid", "thin", "heavy"):
        if b.has(f"air.{name}"):
            word = name
            break
    made = Air(
        temperature=b.measure("got.temp"), altitude=b.measure("got.altitude"),
        pressure=b.measure("n.press"), humidity=b.measure("got.humidity"), rain=rain,
        word=word,
    )  # fmt: skip
    return None if made == Air() else made


def green(b: Bundle) -> Green | None:
    """The green told."""
    firm = None
    for name in ("baked", "firm", "soft"):
        if b.has(f"ground.{name}"):
            firm = name
            break
    speed = None
    for token, word in (("very_fast", "very_fast"), ("fast", "fast"), ("slow", "slow")):
        if b.has(f"ground.{token}"):
            speed = word
            break
    stimp = b.value("got.stimp")
    made = Green(
        depth=b.measure("got.depth"), width=b.measure("got.width"),
        firmness=firm,
        stimp=stimp.value if stimp else None,
        speed_word=speed,
    )  # fmt: skip
    return None if made == Green() else made


def wind_of(b: Bundle) -> Wind | None:
    """The wind told."""
    return wind.merge(wind.winds(b.tokens))


def elevation_of(b: Bundle) -> Elevation | None:
    """The height told; two parts of it, a word and a number, are one."""
    told: list[Elevation] = [t.value for t in b.every("got.height")]
    if not told:
        return None
    if b.has("got.plays_as") and all(e.direction == 0 for e in told):
        return None  # "163 flat" is the distance without the slope
    sized = [e for e in told if e.size is not None]
    return sized[0] if sized else told[0]


def hole(b: Bundle) -> Hole | None:
    """The hole told."""
    made = Hole(
        number=b.value("got.hole"), par=b.value("got.par"), stroke_index=b.value("got.index"),
        bearing_deg=b.value("got.bearing"), dogleg=b.value("got.dogleg"),
        length=b.measure("got.length"), dogleg_at=b.measure("got.corner"),
    )  # fmt: skip
    return None if made == Hole() else made


def liked(b: Bundle) -> Token | None:
    """The number that a player likes to leave, where the shot's own is told beside it."""
    lengths = [t for t in b.tokens if t.name in ("n.bare", "n.len", "got.distance")]
    for at, token in enumerate(b.tokens):
        other = len(lengths) > 1 or b.has("got.ref")
        if token.name == "profile.leave" and other and not b.has("got.club"):
            return next((t for t in b.tokens[at + 1 : at + 4] if t in lengths), None)
    return None


def trouble_numbers(b: Bundle) -> dict[int, Token]:
    """Numbers right behind trouble without a side, by its place, where another is the distance."""
    far = [
        t for t in b.tokens
        if t.name in ("got.ref", "got.trio")
        or (t.name in ("n.bare", "n.len", "got.distance") and t.value.value >= _BESIDE)
    ]  # fmt: skip
    if len(far) < 2:
        return {}
    return {
        at: after for at, (before, after) in enumerate(pairwise(b.tokens))
        if before.name.startswith("hazard.") and after.name in ("n.bare", "n.len") and after in far
    }  # fmt: skip


def loose(b: Bundle) -> list[Num]:
    """Numbers that no rule has used and that can be a length."""
    close = b.has("swing.chip", "swing.pitch", "lie.fringe", "lie.greenside_bunker", "swing.bump")
    least = 1.0 if close else _LEAST
    wanted, of_trouble = liked(b), [id(t) for t in trouble_numbers(b).values()]
    lengths = {"n.bare", "n.len", "got.distance", "got.instead"}
    if close and b.known.isdisjoint(lengths):
        lengths = {"n.ft"}  # of a chip feet are the distance
    return [
        t.value for t in b.tokens
        if t.name in lengths and t is not wanted and id(t) not in of_trouble
        and isinstance(t.value, Num)
        and (t.name != "n.bare" or not 0 <= t.value.value < least)
    ]  # fmt: skip


def rivals(b: Bundle) -> bool:
    """Whether two bare numbers could be the distance and nothing says which."""
    if b.has("got.trio", "got.ref", "got.distance", "got.par", "got.dogleg", "layup", "punct.q"):
        return False
    of_trouble = {id(t) for t in trouble_numbers(b).values()}
    loose_ones = [t for t in b.every("n.bare") if id(t) not in of_trouble]
    far = {t.value.value for t in loose_ones if t.value.value >= _RIVAL}
    if (
        len(far) == 2
        and max(far) - min(far) <= _ALIKE
        and "maybe" in loose_ones[-1].before.split()
    ):
        return False  # "171, maybe 175" is near enough
    return (len(far) > 1 and not b.has("n.len")) or _two_units(b)


def _two_units(b: Bundle) -> bool:
    """Whether the same number is told in yards and in metres: one of two devices is meant."""
    told = {(t.value.value, t.value.unit) for t in b.every("n.len") if t.value.value >= _RIVAL}
    return len({value for value, _ in told}) < len(told)


def numbers_to(b: Bundle) -> dict[str, Any]:
    """Distance, what it is to, and the other numbers of the green."""
    out: dict[str, Any] = {}
    trio = b.value("got.trio")
    if trio:
        named = dict(trio)
        beside_it = dict(t.value for t in b.every("got.ref"))  # "139 front, flag 151, back 163"
        for key in ("front", "middle", "back"):
            told = named.get(key) or beside_it.get(key)
            if told is not None:
                out[key] = told.measure()
        pin = named.get("pin") or beside_it.get("pin")
        if pin is not None:
            out["distance"], out["reference"] = pin.measure(), "pin"
        elif "middle" in named:
            out["distance"], out["reference"] = named["middle"].measure(), "middle"
        elif b.has("got.distance"):  # "laser 151, back 158, front 139"
            out["distance"] = b.measure("got.distance")
        return out
    refs: list[tuple[str, Num]] = _edge_first([t.value for t in b.every("got.ref")])
    if len(refs) > 1:
        for name, num in refs:
            if name in ("front", "middle", "back"):
                out.setdefault(name, num.measure())
            elif "distance" not in out:
                out["distance"], out["reference"] = num.measure(), name
        if "distance" not in out:
            best = next((r for r in refs if r[0] == "middle"), None)
            plain = loose(b)
            if best is not None:
                out["distance"], out["reference"] = best[1].measure(), "middle"
            elif plain:
                out["distance"] = plain[0].measure()
            else:
                out["distance"], out["reference"] = refs[0][1].measure(), refs[0][0]
        return out
    plain = loose(b)
    if refs:
        name, num = refs[0]
        far = [n for n in plain if n.value >= _APPROACH]
        if name != "middle" and num.value < _BESIDE and len(far) == 1:
            out["distance"] = far[0].measure()  # "150, pin is 25 fee higher"
            return out
        near = [n for n in plain if abs(n.value - num.value) <= _SAME_GREEN]
        if near and name in ("front", "back", "middle"):
            out[name] = num.measure()
            out["distance"] = near[0].measure()
        else:
            out["distance"], out["reference"] = num.measure(), name
        return out
    if plain:
        told = [n for n in plain if n in [t.value for t in b.every("got.distance")]]
        small = [n for n in plain if n.unit and n.value >= _LEAST]
        lengths = [n for n in small if n.value >= _BESIDE]
        far = [n for n in plain if n.value >= _RIVAL] or [n for n in plain if n.value >= _LEAST]
        if len(far) == 1 and far[0].value >= _APPROACH:
            told = [n for n in told if n.value >= _BESIDE]
        anew = _anew(b) if len(plain) > 1 else []
        out["distance"] = (anew or lengths or told or far or small or plain)[0].measure()
        out.update(_to_what(b))
    return out


def _edge_first(refs: list[tuple[str, Num]]) -> list[tuple[str, Num]]:
    """Numbers to the green and to the pin: the lesser one is to where the green begins."""
    pin = next((num for name, num in refs if name == "pin"), None)
    return [
        ("front", num) if name == "green" and pin is not None and num.value < pin.value
        else (name, num) for name, num in refs
    ]  # fmt: skip


def _anew(b: Bundle) -> list[Num]:
    """A distance told right behind a word that takes something back."""
    return [
        after.value for before, after in pairwise(b.tokens)
        if before.name == "ask.correct" and after.name in ("n.bare", "n.len", "got.distance")
        and isinstance(after.value, Num) and after.value.value >= _RIVAL
    ]  # fmt: skip


def _to_what(b: Bundle) -> dict[str, Any]:
    """What a distance is to, told apart from it: "14 yards of rough to the pin"."""
    for first, before, after in zip(b.tokens, b.tokens[1:], b.tokens[2:], strict=False):
        height = first.value.size if first.name == "got.height" else None
        if before.name == "join.to" and after.name in _ENDS and height is None:
            return {"reference": _ENDS[after.name]}
    return {}


def _shifted(b: Bundle, fields: dict[str, Any]) -> None:
    """A distance told against another: "sprinkler says 150, I'm 5 behind it"."""
    by, told = b.measure("got.shift"), fields.get("distance")
    if by is None:
        return
    if told is None or told.unit not in ("", by.unit):
        fields["farther"] = by
    else:
        fields["distance"] = told.model_copy(update={"value": told.value + by.value})


def _nowhere(b: Bundle, lie: tuple[Lie, ...], found: list[Hazard]) -> list[Hazard]:
    """Trouble named without a side or a number."""
    out: list[Hazard] = []
    numbers = {id(b.tokens[at]): t.value.measure() for at, t in trouble_numbers(b).items()}
    corners = {
        id(first) for first, link, last in zip(b.tokens, b.tokens[1:], b.tokens[2:], strict=False)
        if link.name.startswith("join.") and last.name == "place.corner"
    }  # fmt: skip
    for token in b.every("hazard"):
        kind = trouble.KIND.get(token.name.split(".")[1])
        if b.has("got.swap"):
            continue
        in_it = (kind == "bunker" and "bunker" in lie) or (kind == "trees" and "trees" in lie)
        in_it = in_it or (kind == "long_grass" and "deep_rough" in lie)
        if kind is None or kind == "trouble" or in_it:
            continue
        if not any(h.kind == kind for h in found + out):
            side = b.value("got.dogleg") if id(token) in corners else None
            if id(token) in numbers:
                side = _side_behind(b, token) or (
                    "cross" if token.name in trouble.FLOWING else side
                )
            out.append(Hazard(kind=kind, side=side, reach_or_carry=numbers.get(id(token))))
    return out


def _side_behind(b: Bundle, token: Token) -> HazardSide | None:
    """The side told behind trouble and its number: "410, bunker 240 right"."""
    at = next(i for i, t in enumerate(b.tokens) if t is token)
    follow = b.tokens[at + 2].name if at + 2 < len(b.tokens) else ""
    return _MISSES.get(follow) if follow in ("side.left", "side.right") else None


def _cleared(hazard: Hazard) -> Hazard:
    """Beside a distance, a number over trouble that lies short is what clears it."""
    if hazard.side != "short" or hazard.reach_or_carry is None:
        return hazard
    return hazard.model_copy(update={"end": hazard.reach_or_carry, "reach_or_carry": None})


def _pin_on(b: Bundle, fields: dict[str, Any]) -> None:
    """A pin told by how far it stands behind the front edge, or behind another number."""
    on = b.value("got.pin_on")
    if on is None:
        return
    base = on.det or fields.get("reference") or ""
    base = base if base in ("front", "middle", "back") else ""
    from_ = fields.get(base) if base in ("front", "middle") else None
    if from_ is None and base and fields.get("reference") == base:
        from_ = fields.pop("distance")
    pin = from_ or fields.get("distance")
    yards = (
        on.value / 3.0 if on.unit == "ft" and pin is not None and pin.unit != "ft" else on.value
    )
    if pin is None and base == "front" and b.has("lie.fringe"):  # "on the fringe, pin 15 on"
        fields["distance"], fields["reference"] = on.measure(), "pin"
        return
    if from_ is not None:
        fields[base], fields["reference"] = from_, "pin"
        fields["distance"] = from_.model_copy(update={"value": from_.value + yards})
        return
    if pin is None or fields.get("reference") not in (None, "pin") or yards >= pin.value:
        return
    if base == "front":
        fields["front"] = pin.model_copy(update={"value": pin.value - yards})
    else:  # "150, pin 8 back"
        fields["distance"] = pin.model_copy(update={"value": pin.value + yards})
        fields["reference"] = "pin"


def _flown_over(found: list[Hazard], carry: Num) -> int | None:
    """Which trouble is told with a number beyond the carry over it."""
    for at, hazard in enumerate(found):
        told = hazard.end or hazard.reach_or_carry
        if hazard.side in ("short", "cross") and told is not None and told.value > carry.value:
            return at
    return None


def _onto_green(fields: dict[str, Any], found: list[Hazard], carry: Num) -> bool:
    """Whether the carry of a short shot is to where the green begins: "20 out, 12 to carry"."""
    told = fields.get("distance")
    close = told is not None and carry.value < told.value <= _BESIDE
    return close and "front" not in fields and not any(h.side in _AHEAD for h in found)


def _playing(b: Bundle, fields: dict[str, Any]) -> None:
    """What it plays is the distance where no other is told."""
    played = b.measure("got.play")
    told = fields.get("distance")
    if played is None or (told is not None and played.value < told.value / 2):
        return
    if "distance" in fields:
        fields.setdefault("plays_as", played)
    else:
        fields["distance"] = played


def beside(b: Bundle) -> tuple[str, ...]:
    """What was told and understood, and has no weight in the model."""
    found = [str(t.value) for t in b.every("got.beside")]
    if b.has("ground.falsefront"):
        found.append("false front")
    if b.has("ground.blind"):
        found.append("blind shot")
    if b.has("putt.breaks") and b.has("wind.l2r", "wind.r2l"):
        found.append("slope of green")
    found += sorted(_BESIDE_WORDS & b.words())
    return tuple(found)


def facts(b: Bundle) -> Facts:
    """Everything told of a shot to come."""
    if b.facts is None:
        b.facts = _facts(b)
    return b.facts


def _facts(b: Bundle) -> Facts:
    fields = numbers_to(b)
    found = list(trouble.hazards(b.tokens))
    _pin_on(b, fields)
    plays_as = b.measure("got.plays_as")
    if plays_as is not None:
        fields["plays_as"] = plays_as
    _playing(b, fields)
    corner = b.measure("got.corner")
    if corner is not None and "distance" not in fields and b.value("got.length") is None:
        fields["distance"], fields["reference"] = corner, "corner"
    _shifted(b, fields)
    if fields.get("plays_as") == fields.get("distance"):
        fields.pop("plays_as", None)
    carry = b.value("got.carry")
    if carry is not None and _onto_green(fields, found, carry):
        fields["front"] = carry.measure()
    elif carry is not None:
        open_ = [i for i, h in enumerate(found) if h.end is None and h.side in _AHEAD]
        if open_ and "distance" in fields:
            at = open_[0]
            found[at] = found[at].model_copy(
                update={"end": carry.measure(), "side": found[at].side or "short"}
            )
        elif "distance" not in fields and (over := _flown_over(found, carry)) is not None:
            # "165 over water, have to carry 150"
            fields["distance"] = found[over].end or found[over].reach_or_carry
            found[over] = found[over].model_copy(
                update={"end": carry.measure(), "reach_or_carry": None}
            )
        elif "distance" not in fields:
            fields["distance"], fields["reference"] = carry.measure(), "carry"
        elif len(found) == 1 and found[0].start is None and found[0].end is None:
            found[0] = found[0].model_copy(
                update={"end": carry.measure()}
            )  # "water left, 150 to carry"
        elif carry.value < fields["distance"].value:
            found.append(Hazard(kind="trouble", side="short", end=carry.measure()))
    if "distance" in fields:
        found = [_cleared(h) for h in found]
    else:
        told = next((h.reach_or_carry for h in found if h.reach_or_carry is not None), None)
        if told is not None:  # "bunkers left and right 150"
            fields["distance"] = told
            found = [
                h.model_copy(update={"reach_or_carry": None}) if h.reach_or_carry == told else h
                for h in found
            ]
    asked = [t.name for t in b.tokens] == ["hazard.bunker", "punct.q"]  # "bunker?"
    lie = () if asked or b.has("got.swap") else lies(b.tokens)
    found = trouble.without_doubles(found + _nowhere(b, lie, found))
    if any(t.value == NO_GAP for t in b.every("got.beside")):
        lie = (*lie, "blocked")
    if "trees" in lie and b.has("ground.blind"):
        lie = (*lie, "blocked")
    if "blocked" in lie:  # the trees named are those the ball lies behind
        found = [h for h in found if h != Hazard(kind="trees")]
    near = fields.get("distance")
    bare = Hazard(kind="bunker")
    if near is not None and near.value <= _BESIDE and bare in found and not b.has("join.over"):
        found.remove(bare)  # so close to the hole it is where the ball lies
        lie = (*lie, "bunker") if not {"bunker", "greenside_bunker"} & set(lie) else lie
    if near is not None and near.value < _BESIDE and "bunker" in lie:
        lie = tuple("greenside_bunker" if x == "bunker" else x for x in lie)
    pins = [s for t in b.every("got.pin") for s in t.value]
    barred = {h.side for h in found if h.kind == "trouble"}
    safe = [side for side in trouble.safe(b.tokens) if side not in barred]
    for before, after in zip(b.tokens, b.tokens[1:], strict=False):
        missed = before.name == "miss.word" or before.text in ("miss it", "miss")
        if missed and after.name in _MISSES and "distance" in fields:
            safe.append(_MISSES[after.name])
    wanted = liked(b)
    swing_club = b.value("got.swing_club")
    # "punched out, 95 left" tells of the last shot, not how to play this one
    swing = next((t for t in b.every("swing") if not t.text.startswith("punched")), None)
    club = b.value("got.club") or (swing_club[1] if swing_club else None)
    shape = b.first("shape")
    return Facts(
        **fields,
        wind=wind_of(b), elevation=elevation_of(b), air=air(b), lie=lie,
        hazards=tuple(found), safe=tuple(safe),
        gone=tuple(t.value for t in b.every("got.gone")), plays_delta=b.measure("got.plays_delta"),
        pin=tuple(dict.fromkeys(pins)),
        green=green(b), hole=hole(b), club=club,
        leave=wanted.value.measure() if wanted is not None else b.measure("got.leave"),
        clubs_compare=b.value("got.compare") or (), club_excluded=b.value("got.excluded"),
        swing=swing_club[0] if swing_club else swing.name.split(".")[1] if swing else None,
        shape=shape.name.split(".")[1] if shape else None, beside=beside(b),
    )  # fmt: skip
